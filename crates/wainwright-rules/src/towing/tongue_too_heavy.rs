//! `tongue-too-heavy`: too much of the trailer rests on the ball. Not
//! here: ratings of hitch and coupler (`rating-exceeded`).

use crate::finding::{Finding, Subject};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{road, words};
use wainwright_analysis::result::road::SharePlace;
use wainwright_analysis::{Ask, Assessment};
use wainwright_model::Project;

/// The rule.
pub(crate) struct TongueTooHeavy;

static DOC: RuleDoc = RuleDoc {
    id: "tongue-too-heavy",
    title: "Too much of the trailer rests on the ball",
    worst: Severity::Caution,
    what: "In some state of tanks and supplies the share of the trailer's mass on the hitch ball is above the band that is advised for the place.",
    why: "The front wheels of the tow vehicle lose load: it steers and brakes less well, and its headlamps point upwards.",
    example: "Battery, water and tools all ahead of the axle: 18 % on the ball, 15 % is advised at most.",
    what_to_do: "Move heavy things towards the axle, or fit weight distribution bars if hitch and vehicle allow them.",
    sources: &["towing/tongue", "towing/advice"],
};

impl Rule for TongueTooHeavy {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let found = &assessment.road;
        let (Some(worst), Some(band), true) = (found.worst, &found.aims.tongue, found.begun) else {
            return Vec::new();
        };
        let index = worst.highest_share;
        let state = found.states.get(index);
        let Some(state) = state.filter(|s| band.place(s.share) == SharePlace::TooHigh) else {
            return Vec::new();
        };
        let (share, most) = words::percents(state.share, band.high.value);
        let headline = format!(
            "{share} of the trailer's mass rests on the ball{}; at most {most} should.",
            road::state(project, found, index),
        );
        vec![
            Finding::new(DOC.id, Severity::Caution, Subject::Trailer, headline)
                .over(
                    road::share("s", state.share),
                    road::share_limit("s_max", &band.high),
                )
                .assuming(assessment, &["trailer"])
                .asking(Ask::TongueShare { state: index }),
        ]
    }

    fn remedies(&self, _: &Finding, _: &Assessment, _: &Project) -> Vec<Remedy> {
        Vec::new()
    }
}
