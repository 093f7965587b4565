//! `thin-supplied-lead`: a lead that came with the gear and is too thin for
//! what the gear is rated for. Not here: the current in today's states
//! (`overheated-conductor`).

use crate::finding::{Finding, Subject};
use crate::remedy::sizes;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{Graph, limits, names, subjects, words};
use wainwright_analysis::Ask;
use wainwright_analysis::result::{Assessment, ConsumerResult, WireResult};
use wainwright_model::Project;
use wainwright_units::Current;

/// The rule.
pub(crate) struct ThinSuppliedLead;

static DOC: RuleDoc = RuleDoc {
    id: "thin-supplied-lead",
    title: "A lead that came with the gear is too thin for it",
    worst: Severity::Warning,
    what: "A wire marked as supplied joins gear whose rated current is above what the wire bears \
           where it runs, whether or not that current flows in a state of the project.",
    why: "Leads in the box are often chosen for price and for a bench, not for a hot wall. They \
          carry the rated current as soon as somebody uses all of it.",
    example: "A 1000 W inverter came with 8 AWG leads. At full power it draws 89 A; the leads bear \
              70 A.",
    what_to_do: "Replace the lead by wire for the rated current, both conductors.",
    sources: &["ampacity/boat"],
};

impl Rule for ThinSuppliedLead {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let supplied = assessment.wires.iter().filter(|wire| wire.supplied);
        supplied
            .filter_map(|wire| find_one(assessment, project, wire))
            .collect()
    }

    fn remedies(
        &self,
        finding: &Finding,
        assessment: &Assessment,
        project: &Project,
    ) -> Vec<Remedy> {
        let wires = subjects::wires(finding, assessment);
        let graph = Graph::new(assessment, project);
        let partners = subjects::all_partners(assessment, &graph, &wires);
        let supplied: Vec<usize> = partners
            .into_iter()
            .filter(|index| {
                assessment
                    .wires
                    .get(*index)
                    .is_some_and(|wire| wire.supplied)
            })
            .collect();
        Remedy::some(vec![
            sizes::thicker(assessment, &wires),
            sizes::thicker_with(assessment, &wires, &supplied),
        ])
    }
}

fn find_one(assessment: &Assessment, project: &Project, wire: &WireResult) -> Option<Finding> {
    let (gear, rated) = gear_of(assessment, wire)?;
    if !limits::above(rated.amperes(), wire.ampacity.in_force.amperes()) {
        return None;
    }
    let headline = format!(
        "The supplied {} is too thin for {}: rated {}, it bears {} {}.",
        names::wire(wire),
        names::consumer(gear),
        words::amps(rated),
        words::amps(wire.ampacity.in_force),
        names::place(project, wire),
    );
    Some(
        Finding::new(
            DOC.id,
            Severity::Warning,
            Subject::Wire(wire.id.clone()),
            headline,
        )
        .also(Subject::Item(gear.item.clone()))
        .over(limits::current("I_r", rated), limits::ampacity(wire))
        .memory(limits::ampacity_from_memory(wire))
        .assuming(assessment, &["wire", wire.id.as_str()])
        .assuming(assessment, &["item", gear.item.as_str()])
        .asking(Ask::WireAmpacity {
            wire: wire.id.to_string(),
        }),
    )
}

/// The gear this wire ends at, with its rated current.
fn gear_of<'a>(
    assessment: &'a Assessment,
    wire: &WireResult,
) -> Option<(&'a ConsumerResult, Current)> {
    let at = |end: &(wainwright_model::Id, String), c: &ConsumerResult| {
        c.item == end.0 && (c.plus == end.1 || c.minus == end.1)
    };
    assessment
        .consumers
        .iter()
        .filter(|c| at(&wire.from, c) || at(&wire.to, c))
        .filter_map(|c| Some((c, c.rated_amps?)))
        .max_by(|a, b| a.1.total_cmp(&b.1))
}
