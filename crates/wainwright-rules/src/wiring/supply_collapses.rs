//! `supply-collapses`: a load the supply cannot carry at any voltage. Not
//! here: gear that merely gets too little (`voltage-drop`).

use super::voltage_drop::supply_wires;
use crate::finding::{Amount, Finding, Subject};
use crate::remedy::sizes;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{Graph, names, subjects, words};
use wainwright_analysis::result::{Assessment, Outcome, StateResult};
use wainwright_model::Project;

/// The rule.
pub(crate) struct SupplyCollapses;

static DOC: RuleDoc = RuleDoc {
    id: "supply-collapses",
    title: "The supply cannot carry this load",
    worst: Severity::Warning,
    what: "In a state of the trailer there is no steady voltage at which the battery and the \
           conductors can deliver the power that the gear asks for.",
    why: "Gear that takes constant power draws more current as the voltage falls. Beyond the most \
          the conductors can pass, voltage falls until something switches off; it then comes \
          back and falls again.",
    example: "An inverter asks for 2000 W through leads that can pass 1450 W at 13.2 V.",
    what_to_do: "Thicker conductors to the gear that gives way first, or less load.",
    sources: &["Largest power through a resistance, U²/4R: circuit theory, no document needed."],
};

impl Rule for SupplyCollapses {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let states = assessment.states.iter().enumerate();
        states
            .filter_map(|(index, state)| find_one(assessment, project, index, state))
            .collect()
    }

    fn remedies(
        &self,
        finding: &Finding,
        assessment: &Assessment,
        project: &Project,
    ) -> Vec<Remedy> {
        let Some(item) = subjects::item(finding) else {
            return Vec::new();
        };
        let graph = Graph::new(assessment, project);
        let way = supply_wires(assessment, &graph, item.as_str());
        Remedy::some(vec![sizes::thicker(assessment, &way)])
    }
}

fn find_one(
    assessment: &Assessment,
    project: &Project,
    index: usize,
    state: &StateResult,
) -> Option<Finding> {
    let Outcome::Collapse {
        carried,
        wanted,
        possible,
        weakest,
        volts,
    } = &state.outcome
    else {
        return None;
    };
    let at = weakest.as_ref().map(|id| {
        format!(
            " {} gives way first, at {}.",
            names::item(project, id),
            words::volts(*volts)
        )
    });
    let headline = format!(
        "The supply cannot carry the load {}: {} asked for, {} possible ({}).{}",
        names::state(assessment, index),
        words::watts(*wanted),
        words::watts(*possible),
        words::percent(*carried),
        at.unwrap_or_default(),
    );
    let mut finding = Finding::new(DOC.id, Severity::Warning, Subject::State(index), headline)
        .over(
            Amount::computed("P", wanted.watts(), words::watts(*wanted)),
            Amount::computed("P_max", possible.watts(), words::watts(*possible)),
        );
    if let Some(id) = weakest {
        finding = finding.also(Subject::Item(id.clone()));
    }
    Some(finding)
}
