//! `nose-high`: the coupled trailer stands nose up. Not
//! here: what that does to the share on the ball.

use crate::finding::{Amount, Finding, Subject};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, road};
use wainwright_analysis::Assessment;
use wainwright_model::Project;

/// The rule.
pub(crate) struct NoseHigh;

static DOC: RuleDoc = RuleDoc {
    id: "nose-high",
    title: "The coupled trailer stands nose up",
    worst: Severity::Caution,
    what: "The ball is so much higher than the coupler of the level trailer that the trailer stands nose up by more than one degree.",
    why: "Nose up takes load off the ball, lifts the front axle of two, and lowers the tail; level or a little nose down is meant.",
    example: "The ball is 2 in too high over 9 ft 6 in: one degree, and 8 lb less on the ball.",
    what_to_do: "A ball mount with another drop, so that the trailer stands level when it is laden.",
    sources: &["towing/heights", "One degree is judgement."],
};

impl Rule for NoseHigh {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let found = &assessment.road;
        if !found.begun {
            return Vec::new();
        }
        let states = found.fill_states();
        let attitudes = states.filter_map(|(_, state)| state.attitude.as_ref());
        let worst = attitudes.max_by(|a, b| a.nose_up.total_cmp(&b.nose_up));
        let Some(worst) = worst.filter(|a| a.nose_up.degrees() > LEVEL + limits::EQUAL) else {
            return Vec::new();
        };
        let text = format!("{:.1}°", worst.nose_up.degrees());
        let change = road::mass(worst.change.abs(), limits::system(project));
        let headline = format!("The trailer stands {text} nose up on the ball; level is meant.");
        let value = Amount::computed("θ", worst.nose_up.degrees(), text);
        let limit = Amount::computed("θ_max", LEVEL, format!("{LEVEL}°"));
        vec![
            Finding::new(DOC.id, Severity::Caution, Subject::Trailer, headline)
                .over(value, limit)
                .note(format!("That changes the load on the ball by {change}.")),
        ]
    }

    fn remedies(&self, _: &Finding, _: &Assessment, _: &Project) -> Vec<Remedy> {
        Vec::new()
    }
}

/// Less than this is level \[degrees\]. Judgement.
const LEVEL: f64 = 1.0;
