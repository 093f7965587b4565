//! `wire-through-opening`: a wire runs across a door, a window or a vent. Not
//! here: how long it is.

use crate::finding::{Finding, Subject};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{names, words};
use wainwright_analysis::Assessment;
use wainwright_analysis::result::WireRoute;
use wainwright_model::Project;

/// The rule.
pub(crate) struct WireThroughOpening;

static DOC: RuleDoc = RuleDoc {
    id: "wire-through-opening",
    title: "A wire runs across an opening",
    worst: Severity::Warning,
    what: "The way of a wire crosses a door, window or vent in the same wall: a warning where a trunk leads it there, a caution where it is only the straight way from the trunk to its gear.",
    why: "It cannot run there, and a wire pinched in a door chafes through to a short.",
    example: "The lamp at the rear is wired along the left wall 40 in above the floor, across the side door.",
    what_to_do: "Lead the trunk over or under the opening.",
    sources: &["Plain geometry."],
};

impl Rule for WireThroughOpening {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let one = |route: &WireRoute| {
            let crossed = &route.route.as_ref()?.crosses;
            let first = crossed.first()?;
            let wire = assessment.wire(route.wire.as_str())?;
            let openings: Vec<String> = crossed
                .iter()
                .map(|id| project.label_or_id("opening", id.as_str()).to_owned())
                .collect();
            let headline = format!(
                "{} runs across {}.",
                words::capital(&names::wire(wire)),
                words::list(&openings, 3),
            );
            let led = led_there(assessment, route);
            let severity = if led {
                Severity::Warning
            } else {
                Severity::Caution
            };
            let subject = Subject::Wire(route.wire.clone());
            let mut finding = Finding::new(DOC.id, severity, subject, headline);
            if !led {
                finding = finding.note(
                    "No trunk leads it there: it is the straight way off the trunks. Lead it round, or add a trunk.",
                );
            }
            Some(finding.also(Subject::Opening(first.clone())))
        };
        assessment.routing.wires.iter().filter_map(one).collect()
    }

    fn remedies(&self, _: &Finding, _: &Assessment, _: &Project) -> Vec<Remedy> {
        Vec::new()
    }
}

/// Whether a trunk that somebody laid leads the wire across the opening.
fn led_there(assessment: &Assessment, wire: &WireRoute) -> bool {
    let Some(route) = &wire.route else {
        return false;
    };
    let trunks = assessment.routing.trunks.iter();
    let mut own = trunks.filter(|trunk| {
        let legs = &route.legs;
        legs.iter().any(|leg| leg.trunk.as_ref() == Some(&trunk.id))
    });
    own.any(|trunk| trunk.crosses.iter().any(|id| route.crosses.contains(id)))
}
