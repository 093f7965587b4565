//! `loose-terminal`: a terminal that gear needs has nothing on it. One
//! finding for each piece of gear. Not here: wires whose size is unknown
//! (`unsized-wire`).

use crate::finding::{Finding, Subject};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{names, words};
use wainwright_analysis::result::Assessment;
use wainwright_model::{Id, Project};

/// The rule.
pub(crate) struct LooseTerminal;

static DOC: RuleDoc = RuleDoc {
    id: "loose-terminal",
    title: "A terminal has no wire",
    worst: Severity::Notice,
    what: "A terminal without which the gear cannot work has nothing joined to it.",
    why: "The gear does not work, and nothing on this side of it was computed: the rest of the \
          study is right only for what is joined.",
    example: "The water pump has a plus wire from its switch but no return.",
    what_to_do: "Draw the missing wire, or take the gear out of the plan.",
    sources: &["A circuit must close; no document needed."],
};

impl Rule for LooseTerminal {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let mut items: Vec<&Id> = Vec::new();
        for loose in assessment.loose.iter().filter(|loose| loose.needed) {
            if !items.contains(&&loose.item) {
                items.push(&loose.item);
            }
        }
        items
            .into_iter()
            .map(|item| about(assessment, project, item))
            .collect()
    }

    /// Where the wire should go only the builder knows.
    fn remedies(&self, _: &Finding, _: &Assessment, _: &Project) -> Vec<Remedy> {
        Vec::new()
    }
}

fn about(assessment: &Assessment, project: &Project, item: &Id) -> Finding {
    let terminals: Vec<String> = assessment
        .loose
        .iter()
        .filter(|loose| loose.needed && loose.item == *item)
        .map(|loose| loose.terminal.clone())
        .collect();
    let (word, verb) = match terminals.len() {
        1 => ("terminal", "has"),
        _ => ("terminals", "have"),
    };
    let said: Vec<String> = terminals
        .iter()
        .map(|terminal| names::terminal(terminal).to_string())
        .collect();
    let headline = format!(
        "{} does not work yet: its {} {word} {verb} no wire.",
        words::capital(&names::item(project, item)),
        words::list(&said, 6),
    );
    let mut finding = Finding::new(
        DOC.id,
        Severity::Notice,
        Subject::Item(item.clone()),
        headline,
    );
    for terminal in terminals {
        finding = finding.also(Subject::Terminal(item.clone(), terminal));
    }
    finding
}
