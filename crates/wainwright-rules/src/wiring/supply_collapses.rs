//! `supply-collapses`: a load the supply cannot carry at any voltage. Not
//! here: gear that merely gets too little (`voltage-drop`). One finding for
//! each piece of gear that gives way first.

use super::voltage_drop::supply_wires;
use crate::finding::{Amount, Finding, Subject};
use crate::remedy::sizes;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{Graph, names, subjects, words};
use std::collections::BTreeMap;
use wainwright_analysis::result::{Assessment, Outcome, StateResult};
use wainwright_model::{Id, Project};
use wainwright_units::{Power, Ratio, Voltage};

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
        let mut by_weakest: BTreeMap<Option<&Id>, Vec<Case<'_>>> = BTreeMap::new();
        for (index, state) in assessment.states.iter().enumerate() {
            if let Some(case) = case(index, state) {
                by_weakest.entry(case.weakest).or_default().push(case);
            }
        }
        by_weakest
            .values()
            .filter_map(|cases| about(assessment, project, cases))
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

/// A state in which the supply gives way.
struct Case<'a> {
    state: usize,
    carried: Ratio,
    wanted: Power,
    possible: Power,
    weakest: Option<&'a Id>,
    volts: Voltage,
}

fn case(index: usize, state: &StateResult) -> Option<Case<'_>> {
    match &state.outcome {
        Outcome::Collapse {
            carried,
            wanted,
            possible,
            weakest,
            volts,
        } => Some(Case {
            state: index,
            carried: *carried,
            wanted: *wanted,
            possible: *possible,
            weakest: weakest.as_ref(),
            volts: *volts,
        }),
        _ => None,
    }
}

/// The finding about the states in which the same gear gives way first.
fn about(assessment: &Assessment, project: &Project, cases: &[Case<'_>]) -> Option<Finding> {
    let worst = cases
        .iter()
        .min_by(|a, b| a.carried.total_cmp(&b.carried).then(a.state.cmp(&b.state)))?;
    let at = worst.weakest.map(|id| {
        format!(
            " {} gives way first, at {}.",
            words::capital(&names::item(project, id)),
            words::volts(worst.volts)
        )
    });
    let headline = format!(
        "The supply cannot carry the load {}: {} asked for, {} possible ({}).{}",
        names::state(assessment, worst.state),
        words::watts(worst.wanted),
        words::watts(worst.possible),
        words::percent(worst.carried),
        at.unwrap_or_default(),
    );
    let subject = worst
        .weakest
        .map_or(Subject::State(worst.state), |id| Subject::Item(id.clone()));
    let mut finding = Finding::new(DOC.id, Severity::Warning, subject, headline).over(
        Amount::computed("P", worst.wanted.watts(), words::watts(worst.wanted)),
        Amount::computed(
            "P_max",
            worst.possible.watts(),
            words::watts(worst.possible),
        ),
    );
    for case in cases {
        finding = finding.also(Subject::State(case.state));
        if case.state != worst.state {
            let state = names::state(assessment, case.state);
            finding = finding.note(format!(
                "The same {state}: {} asked for, {} possible.",
                words::watts(case.wanted),
                words::watts(case.possible),
            ));
        }
    }
    Some(finding)
}
