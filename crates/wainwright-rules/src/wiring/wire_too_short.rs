//! `wire-too-short`: a typed length does not reach. Not
//! here: drops and heat.

use crate::finding::{Amount, Finding, Subject};
use crate::remedy::edits;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, names, words};
use wainwright_analysis::result::WireRoute;
use wainwright_analysis::{Ask, Assessment};
use wainwright_model::{Origin, Project};

/// The rule.
pub(crate) struct WireTooShort;

static DOC: RuleDoc = RuleDoc {
    id: "wire-too-short",
    title: "The length given for a wire does not reach",
    worst: Severity::Caution,
    what: "The length typed for a wire is well below the way between its two places along the trunks, without slack. Short leads that touch no trunk are not looked at.",
    why: "The wire does not reach, and the voltage drop was computed for too short a wire.",
    example: "14 ft is typed for the mount; its way along the ceiling is 17 ft 4 in.",
    what_to_do: "Measure the way, or delete the length so that the way decides.",
    sources: &[
        "Plain geometry; a tenth is left because the way is counted from middle to middle. Judgement.",
    ],
};

impl Rule for WireTooShort {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let system = limits::system(project);
        let one = |found: &WireRoute| {
            let share = found.typed_share()?;
            let (typed, route) = (found.typed.as_ref()?, found.route.as_ref()?);
            let led = route.legs.iter().any(|leg| leg.trunk.is_some());
            if !led || share.fraction() >= REACHES {
                return None;
            }
            let wire = assessment.wire(found.wire.as_str())?;
            let (given, way) = (
                words::length(typed.value, system),
                words::length(route.bare, system),
            );
            let headline = format!(
                "{} is given as {given}; its way is {way} long.",
                words::capital(&names::wire(wire)),
            );
            let limit = Amount::computed("l_way", route.bare.metres(), way);
            let value = Amount::based("l", typed.value.metres(), given, &typed.basis);
            let subject = Subject::Wire(found.wire.clone());
            let finding = Finding::new(DOC.id, Severity::Caution, subject, headline);
            Some(finding.under(value, limit).asking(Ask::WireLength {
                wire: found.wire.to_string(),
            }))
        };
        assessment.routing.wires.iter().filter_map(one).collect()
    }

    fn remedies(&self, finding: &Finding, _: &Assessment, project: &Project) -> Vec<Remedy> {
        let Some(Subject::Wire(id)) = finding.subjects.first() else {
            return Vec::new();
        };
        let length = project
            .wires
            .get(id.as_str())
            .and_then(|wire| wire.length.as_ref());
        let own = length.is_some_and(|length| length.at.origin == Origin::File);
        if !own {
            return Vec::new();
        }
        let edit = edits::unset(&["wire", id.as_str(), "length"]);
        Remedy::some(vec![Remedy::one(
            format!("Let its way decide how long wire {id} is"),
            vec![edit],
            COST,
        )])
    }
}

/// Share of the way from which on a typed length is believed: the way is
/// counted from middle to middle of the gear. Judgement.
const REACHES: f64 = 0.9;
/// What measuring a wire anew costs beside swapping a plug-in fuse.
const COST: f64 = 1.0;
