//! `sway-little-damped`: a swing of the trailer dies away slowly, or not at all. Not
//! here: the share on the ball (`tongue-too-light`).

use crate::finding::{Amount, Finding, Subject};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, road};
use wainwright_analysis::known::Known;
use wainwright_analysis::{Ask, Assessment};
use wainwright_model::Project;
use wainwright_units::{Quantity, Ratio};

/// The rule.
pub(crate) struct SwayLittleDamped;

static DOC: RuleDoc = RuleDoc {
    id: "sway-little-damped",
    title: "A swing of the trailer dies away slowly",
    worst: Severity::Warning,
    what: "At the speed tests are made at, the computed damping of the trailer's swing is below the level at which a test of the trade fails, or the swing grows by itself.",
    why: "A gust, a lorry or a quick turn of the wheel starts a swing; with little damping it takes many swings to die, and a little more speed makes it grow.",
    example: "Heavy things at both ends and 5 % on the ball: damping 0.05 at 100 km/h, a test asks 0.10.",
    what_to_do: "Bring heavy things close to the axle, raise the share on the ball, and drive slower. The figure compares layouts; it is no safe speed.",
    sources: &["towing/sway", "tyre/constants"],
};

impl Rule for SwayLittleDamped {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let found = &assessment.road;
        if !found.begun {
            return Vec::new();
        }
        let tested = found.sway.iter().filter(|s| s.caution_below.is_some());
        let worst = tested
            .filter_map(|s| s.damping.map(|damping| (damping, s)))
            .min_by(|a, b| a.0.total_cmp(&b.0));
        let Some((damping, sway)) = worst else {
            return Vec::new();
        };
        let below = |limit: &&Known<Ratio>| damping < limit.value;
        let stop = sway.stop_below.as_ref().filter(below);
        let Some(limit) = stop.or_else(|| sway.caution_below.as_ref().filter(below)) else {
            return Vec::new();
        };
        let severity = match stop {
            Some(_) => Severity::Warning,
            None => Severity::Caution,
        };
        let (text, least) = (
            format!("{:.3}", damping.fraction()),
            format!("{:.2}", limit.value.fraction()),
        );
        let headline = format!(
            "A swing is damped by {text} at {}{}; a test asks {least}.",
            sway.speed.show(limits::system(project)),
            road::state(project, found, sway.state),
        );
        let limit = Amount::based("ζ_min", limit.value.fraction(), least, &limit.basis);
        let mut finding = Finding::new(DOC.id, severity, Subject::Trailer, headline)
            .under(Amount::computed("ζ", damping.fraction(), text), limit)
            .note("It is for comparing layouts only, and no safe speed: wind, tyres and road make real trailers worse.")
            .asking(Ask::Damping {
                state: sway.state,
                planned: sway.planned,
            });
        if sway.vehicle_assumed {
            finding =
                finding.note("Figures of a usual tow vehicle stand in for those nobody gave.");
        }
        vec![finding]
    }

    fn remedies(&self, _: &Finding, _: &Assessment, _: &Project) -> Vec<Remedy> {
        Vec::new()
    }
}
