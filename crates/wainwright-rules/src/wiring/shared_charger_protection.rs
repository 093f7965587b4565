//! `shared-charger-protection`: several chargers join before any of them has
//! a fuse of its own. Not here: batteries
//! (`parallel-batteries-unprotected`).

use super::joined::joined_without_device;
use crate::finding::{Finding, Subject};
use crate::remedy::added;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{Graph, names, subjects, words};
use wainwright_analysis::result::{Assessment, ConsumerResult, Role};
use wainwright_model::{Kind, Project};

/// The rule.
pub(crate) struct SharedChargerProtection;

static DOC: RuleDoc = RuleDoc {
    id: "shared-charger-protection",
    title: "Chargers share one fuse",
    worst: Severity::Warning,
    what: "The outputs of two or more chargers or controllers are joined by conductors and \
           switches only, with no fuse or breaker of their own.",
    why: "A fault inside one charger is fed by the others, and by the battery through a fuse \
          sized for all of them; its thin lead bears only its own share. And no single one can \
          be taken out of service by its fuse.",
    example: "A 40 A solar controller and a 30 A shore charger meet on one stud behind an 80 A \
              fuse; the charger's lead bears 45 A.",
    what_to_do: "Give each charger its own fuse at the point where it joins the others.",
    sources: &[
        "33 CFR 183.455 and ABYC E-11: every source of power counts.",
        "One fuse for each charger is common practice and a judgement of this project.",
    ],
};

impl Rule for SharedChargerProtection {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let graph = Graph::new(assessment, project);
        let chargers = |c: &ConsumerResult| is_charger(project, c);
        joined_without_device(assessment, &graph, chargers)
            .iter()
            .map(|group| about(project, group))
            .collect()
    }

    fn remedies(
        &self,
        finding: &Finding,
        assessment: &Assessment,
        project: &Project,
    ) -> Vec<Remedy> {
        let items: Vec<&str> = subjects::items(finding).map(|id| id.as_str()).collect();
        Remedy::some(vec![added::own_at_joint(assessment, project, &items)])
    }
}

/// Gear that charges a battery; solar modules and the vehicle's own supply
/// are not chargers.
fn is_charger(project: &Project, consumer: &ConsumerResult) -> bool {
    let kind = crate::view::limits::kind(project, consumer.item.as_str());
    consumer.role == Role::Source
        && matches!(
            kind,
            Kind::SolarController | Kind::ShoreCharger | Kind::DcdcCharger
        )
}

fn about(project: &Project, group: &[&ConsumerResult]) -> Finding {
    let labels: Vec<String> = group.iter().map(|c| names::consumer(c)).collect();
    let headline = format!(
        "{} are joined with no fuse of their own: a fault in one is fed by all the others.",
        words::capital(&words::list(&labels, 4)),
    );
    let mut finding = Finding::new(DOC.id, Severity::Warning, first(project, group), headline);
    for charger in group {
        finding = finding.also(Subject::Item(charger.item.clone()));
    }
    finding
}

/// The first of the group in file order names the finding.
fn first(_: &Project, group: &[&ConsumerResult]) -> Subject {
    group
        .first()
        .map_or(Subject::System, |c| Subject::Item(c.item.clone()))
}
