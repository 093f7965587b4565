//! `fuses-out-of-reach`: fuses in a cabinet that opens with a tool only. Not here: what is behind other things.

use crate::finding::{Finding, Subject};
use crate::remedy::edits;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::road;
use wainwright_analysis::Assessment;
use wainwright_model::{FieldExt, Id, Kind, Project, Value};

/// The rule.
pub(crate) struct FusesOutOfReach;

static DOC: RuleDoc = RuleDoc {
    id: "fuses-out-of-reach",
    title: "Fuses are behind a board that opens with a tool only",
    worst: Severity::Caution,
    what: "A cabinet that holds fuses, breakers or the battery switch has no door that opens by hand.",
    why: "A fuse opens at night and in the rain, and in a fire the battery must be off in seconds.",
    example: "5 fuses and the battery switch behind a panel with eight screws.",
    what_to_do: "A door or a panel on catches, with a free hand's room before it.",
    sources: &["ABYC E-11 and ISO 10133: protection devices must be readily reached (memory)."],
};

impl Rule for FusesOutOfReach {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, _: &Assessment, project: &Project) -> Vec<Finding> {
        let mut found = Vec::new();
        for (id, cabinet) in project.cabinets.iter() {
            let fuses = fuses(project, id);
            let shut = cabinet.door.value() == Some(&false);
            let Some(first) = fuses.first().filter(|_| shut) else {
                continue;
            };
            let headline = format!(
                "{} in {} can be reached with a tool only.",
                crate::view::words::capital(&road::items(project, &fuses)),
                project.label_or_id("cabinet", id.as_str()),
            );
            let subject = Subject::Item((*first).clone());
            let mut finding = Finding::new(DOC.id, Severity::Caution, subject, headline);
            for other in &fuses {
                finding = finding.also(Subject::Item((*other).clone()));
            }
            found.push(finding.memory(true));
        }
        found
    }

    fn remedies(&self, finding: &Finding, _: &Assessment, project: &Project) -> Vec<Remedy> {
        let about = |id: &Id| {
            let first = fuses(project, id)
                .first()
                .map(|id| Subject::Item((*id).clone()));
            first.is_some() && first.as_ref() == finding.subjects.first()
        };
        let cabinet = project.cabinets.iter().find(|(id, _)| about(id));
        let Some((id, _)) = cabinet else {
            return Vec::new();
        };
        let edit = edits::set(&["cabinet", id.as_str(), "door"], Value::Bool(true));
        let title = "Fit a door or catches, so that it opens by hand";
        Remedy::some(vec![Remedy::one(title, vec![edit], 5.0)])
    }
}

/// What must be reached in a cabinet.
fn fuses<'a>(project: &'a Project, cabinet: &Id) -> Vec<&'a Id> {
    let holds = project.cabinets.get(cabinet.as_str());
    let holds = holds.and_then(|cabinet| cabinet.holds.value());
    let holds: Vec<&String> = holds.into_iter().flatten().collect();
    let items = project.items.iter().filter(|(id, item)| {
        let kind = item.spec.kind();
        holds.iter().any(|held| held.as_str() == id.as_str())
            && matches!(kind, Kind::Fuse | Kind::Breaker | Kind::FuseBlock)
    });
    items.map(|(id, _)| id).collect()
}
