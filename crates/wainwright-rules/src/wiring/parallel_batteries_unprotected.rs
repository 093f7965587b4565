//! `parallel-batteries-unprotected`: batteries in parallel without a fuse
//! between them. Not here: chargers (`shared-charger-protection`).

use super::joined::joined_without_device;
use crate::finding::{Amount, Finding, Subject};
use crate::remedy::added;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{Graph, names, subjects, words};
use wainwright_analysis::result::{Assessment, ConsumerResult, Role};
use wainwright_model::{Project, Spec};
use wainwright_reference::position;

/// The rule.
pub(crate) struct ParallelBatteriesUnprotected;

static DOC: RuleDoc = RuleDoc {
    id: "parallel-batteries-unprotected",
    title: "Batteries in parallel have no fuse of their own",
    worst: Severity::Warning,
    what: "The plus terminals of two or more batteries are joined without a fuse for each of \
           them.",
    why: "When a cell fails inside one battery, the others drive their full short-circuit \
          current into it through leads that no fuse protects.",
    example: "Three 200 Ah batteries on one bus bar: a failed cell in one is fed by 5000 A from \
              the other two.",
    what_to_do: "One fuse on the plus terminal of each battery, able to open the current of all \
                 the others.",
    sources: &[
        "position/large_bank",
        "ABYC E-11 (2025): a fuse for each parallel battery above 500 Ah; below that it is a \
         judgement of this project.",
    ],
};

impl Rule for ParallelBatteriesUnprotected {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let graph = Graph::new(assessment, project);
        let battery = |c: &ConsumerResult| c.role == Role::Battery;
        joined_without_device(assessment, &graph, battery)
            .iter()
            .map(|group| about(assessment, project, group))
            .collect()
    }

    fn remedies(
        &self,
        finding: &Finding,
        assessment: &Assessment,
        project: &Project,
    ) -> Vec<Remedy> {
        let items: Vec<&str> = subjects::items(finding).map(|id| id.as_str()).collect();
        Remedy::some(vec![added::own_at_gear(assessment, project, &items)])
    }
}

fn about(assessment: &Assessment, project: &Project, group: &[&ConsumerResult]) -> Finding {
    let hours: f64 = group.iter().map(|c| ampere_hours(project, c)).sum();
    let large = position::large_bank();
    let above = large.as_ref().map(|bank| bank.value.above_ampere_hours);
    let severity = match above {
        Some(limit) if hours > limit => Severity::Warning,
        _ => Severity::Caution,
    };
    let labels: Vec<String> = group.iter().map(|c| names::consumer(c)).collect();
    let headline = format!(
        "{} are in parallel ({hours:.0} Ah together) with no fuse of their own.",
        words::capital(&words::list(&labels, 4)),
    );
    let subject = group
        .first()
        .map_or(Subject::System, |c| Subject::Item(c.item.clone()));
    let mut finding = Finding::new(DOC.id, severity, subject, headline);
    for battery in group {
        finding = finding
            .also(Subject::Item(battery.item.clone()))
            .assuming(assessment, &["item", battery.item.as_str(), "capacity"]);
    }
    if let Some(bank) = large.filter(|_| severity == Severity::Warning) {
        let text = format!("{:.0} Ah", bank.value.above_ampere_hours);
        let basis = wainwright_analysis::known::Basis::Table(bank.source);
        finding = finding.over(
            Amount::computed("Q", hours, format!("{hours:.0} Ah")),
            Amount::based("Q", bank.value.above_ampere_hours, text, &basis),
        );
    }
    finding
}

/// Typed capacity of a battery [Ah]; nothing where none was typed.
fn ampere_hours(project: &Project, battery: &ConsumerResult) -> f64 {
    match project
        .items
        .get(battery.item.as_str())
        .map(|item| &item.spec)
    {
        Some(Spec::Battery(spec)) => spec
            .capacity
            .as_ref()
            .map_or(0.0, |capacity| capacity.value.ampere_hours()),
        _ => 0.0,
    }
}
