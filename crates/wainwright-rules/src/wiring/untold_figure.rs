//! `untold-figure`: gear left out of the study because its rating, demand or
//! kind is not known. Not here: wires (`unsized-wire`).

use crate::finding::{Finding, Subject};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{names, words};
use std::collections::BTreeMap;
use wainwright_analysis::result::{Assessment, Missing, Wanted};
use wainwright_model::{Id, Project};

/// The rule.
pub(crate) struct UntoldFigure;

static DOC: RuleDoc = RuleDoc {
    id: "untold-figure",
    title: "Gear was left out because a figure is missing",
    worst: Severity::Caution,
    what: "The rating of a fuse, what a load takes, or what a piece of gear is at all, has not \
           been typed, so that it is not part of the computed circuit.",
    why: "Currents and drops are too low by what this gear takes, and a fuse without a rating \
          protects nothing in the study.",
    example: "The heater has neither power nor current: the main fuse looks half as loaded as it \
              is.",
    what_to_do: "Type the figure from the label, or name a part that has it.",
    sources: &["Common practice, no source: what is unknown cannot be judged."],
};

impl Rule for UntoldFigure {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let mut by_item: BTreeMap<&str, Vec<&Missing>> = BTreeMap::new();
        for missing in &assessment.missing {
            if let [table, id, ..] = missing.path.as_slice()
                && table == "item"
            {
                by_item.entry(id).or_default().push(missing);
            }
        }
        by_item
            .iter()
            .filter_map(|(id, missing)| about(project, id, missing))
            .collect()
    }

    /// Only the builder knows the figure.
    fn remedies(&self, _: &Finding, _: &Assessment, _: &Project) -> Vec<Remedy> {
        Vec::new()
    }
}

fn about(project: &Project, id: &str, missing: &[&Missing]) -> Option<Finding> {
    let id = Id::new(id)?;
    let mut wanted: Vec<String> = missing.iter().map(|m| what(m.wanted).to_string()).collect();
    wanted.dedup();
    let headline = format!(
        "{} is left out of the study: {} is not known.",
        words::capital(&names::item(project, &id)),
        words::list(&wanted, 4),
    );
    let mut finding = Finding::new(
        DOC.id,
        Severity::Caution,
        Subject::Item(id.clone()),
        headline,
    );
    for one in missing {
        let key = one.path.last().map_or("", String::as_str);
        finding = finding.note(format!(
            "Type {key} = \"…\", for example {}.",
            example(one.wanted)
        ));
    }
    Some(finding)
}

fn what(wanted: Wanted) -> &'static str {
    match wanted {
        Wanted::Rating => "its rating",
        Wanted::Demand => "what it takes or gives",
        Wanted::Kind => "what it is",
        Wanted::Terminal => "one of its terminals",
        Wanted::Size | Wanted::Length | Wanted::Insulation => "something about it",
    }
}

fn example(wanted: Wanted) -> &'static str {
    match wanted {
        Wanted::Rating => "\"15 A\"",
        Wanted::Demand => "\"60 W\" or \"5 A\"",
        Wanted::Kind => "\"load\"",
        Wanted::Terminal => "\"fridge.+\"",
        Wanted::Size | Wanted::Length | Wanted::Insulation => "the value on its label",
    }
}
