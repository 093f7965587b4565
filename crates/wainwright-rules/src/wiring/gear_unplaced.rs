//! `gear-unplaced`: wired gear that has no place yet, so its wires have no way. Not
//! here: weights.

use crate::finding::{Finding, Subject};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{road, words};
use std::collections::BTreeSet;
use wainwright_analysis::Assessment;
use wainwright_model::{Id, Project};

/// The rule.
pub(crate) struct GearUnplaced;

static DOC: RuleDoc = RuleDoc {
    id: "gear-unplaced",
    title: "Wired gear has no place yet",
    worst: Severity::Notice,
    what: "Places or trunks are given for some of the trailer, but some gear with wires has no place, so the way and length of those wires are not known.",
    why: "The length decides voltage drop and how much wire to buy.",
    example: "The roof fan and 3 other things have no place; 8 wires have no way.",
    what_to_do: "Put them in their places on the layout page.",
    sources: &["Common practice, no source."],
};

impl Rule for GearUnplaced {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let routing = &assessment.routing;
        if !routing.begun || routing.unplaced.is_empty() {
            return Vec::new();
        }
        let ids: Vec<&Id> = routing.unplaced.iter().map(|u| &u.item).collect();
        let wires: BTreeSet<&Id> = routing.unplaced.iter().flat_map(|u| &u.wires).collect();
        let headline = format!(
            "{} {} no place yet; {} no way.",
            words::capital(&road::items(project, &ids)),
            if ids.len() == 1 { "has" } else { "have" },
            match wires.len() {
                1 => "one wire has".to_string(),
                many => format!("{} have", words::counted(many, "wire")),
            },
        );
        let finding = Finding::new(DOC.id, Severity::Notice, Subject::System, headline);
        vec![
            ids.into_iter()
                .fold(finding, |f, id| f.also(Subject::Item(id.clone()))),
        ]
    }

    fn remedies(&self, _: &Finding, _: &Assessment, _: &Project) -> Vec<Remedy> {
        Vec::new()
    }
}
