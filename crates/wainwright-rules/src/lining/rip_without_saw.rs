//! `rip-without-saw`: full boards do not fill a side, and no saw at hand can rip. Not here: how the boards are cut.

use super::place;
use crate::finding::{Finding, Subject};
use crate::remedy::edits::set;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, words};
use wainwright_analysis::Assessment;
use wainwright_analysis::lining::{LayerTrouble, checks};
use wainwright_model::{Project, Value};

/// The rule.
pub(crate) struct RipWithoutSaw;

static DOC: RuleDoc = RuleDoc {
    id: "rip-without-saw",
    title: "Boards have to be ripped, and there is no saw for it",
    worst: Severity::Notice,
    what: "Runs of full boards do not fill a side, even when each is set a little off from the next, and the tools have no saw that can cut along a board.",
    why: "The last run cannot be cut to its width when the day comes.",
    example: "Fifteen runs of 5-1/8 in on a wall of 75 in: the last one has to be 3 in wide.",
    what_to_do: "Get hold of a saw that can rip, have the last boards ripped in the shop, or take boards of a width that fits.",
    sources: &["Plain geometry.", "lumber/laying"],
};

impl Rule for RipWithoutSaw {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, _: &Assessment, project: &Project) -> Vec<Finding> {
        let system = limits::system(project);
        let mut found: Vec<Finding> = Vec::new();
        for check in checks(project) {
            let LayerTrouble::NeedsRips { runs, last, full } = check.what else {
                continue;
            };
            let place = place(project, check.layer.as_str(), check.side);
            let subject = Subject::Layer(check.layer);
            let known = found
                .iter_mut()
                .find(|finding| finding.subjects.contains(&subject));
            let sentence = format!(
                "{}: {runs} runs, the last one {} wide instead of {}.",
                words::capital(&place),
                words::length(last, system),
                words::length(full, system),
            );
            match known {
                Some(finding) => *finding = finding.clone().note(sentence),
                None => found.push(Finding::new(DOC.id, Severity::Notice, subject, sentence)),
            }
        }
        found
    }

    fn remedies(&self, _: &Finding, _: &Assessment, _: &Project) -> Vec<Remedy> {
        let edit = set(&["tools", "can_rip"], Value::Bool(true));
        vec![Remedy::one(
            "Get hold of a saw that can rip",
            vec![edit],
            COST,
        )]
    }
}

/// A saw lent or bought, in units of a plug-in fuse swapped. Judgement.
const COST: f64 = 30.0;
