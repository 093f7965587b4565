//! `unsized-wire`: a wire left out of the study, or judged by a stand-in,
//! because its size, length or insulation is not known. Not here: gear
//! (`untold-figure`).

use crate::finding::{Finding, Subject};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::words;
use std::collections::BTreeMap;
use wainwright_analysis::result::{Assessment, Missing, Wanted};
use wainwright_model::{Id, Project};

/// The rule.
pub(crate) struct UnsizedWire;

static DOC: RuleDoc = RuleDoc {
    id: "unsized-wire",
    title: "A wire was left out because something about it is unknown",
    worst: Severity::Caution,
    what: "The size, length, insulation or an end of a wire is missing, so that it, and what hangs \
           on it, is not part of the computed circuit.",
    why: "Nothing is said about this circuit, and silence is not safety.",
    example: "The pump's return has no size: its current and the drop at the pump are unknown.",
    what_to_do: "Type the missing value. The size is printed on the insulation; the length can be \
                 measured with a string along the way.",
    sources: &["Common practice, no source: what is unknown cannot be judged."],
};

impl Rule for UnsizedWire {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, _: &Project) -> Vec<Finding> {
        let mut by_wire: BTreeMap<&str, Vec<&Missing>> = BTreeMap::new();
        for missing in &assessment.missing {
            if let [table, id, ..] = missing.path.as_slice()
                && table == "wire"
            {
                by_wire.entry(id).or_default().push(missing);
            }
        }
        by_wire
            .iter()
            .filter_map(|(id, missing)| about(id, missing))
            .collect()
    }

    /// Only the builder knows the value.
    fn remedies(&self, _: &Finding, _: &Assessment, _: &Project) -> Vec<Remedy> {
        Vec::new()
    }
}

fn about(id: &str, missing: &[&Missing]) -> Option<Finding> {
    let mut wanted: Vec<String> = missing.iter().map(|m| what(m.wanted).to_string()).collect();
    wanted.dedup();
    let headline = format!(
        "Wire {id} is left out of the study: {} is not known.",
        words::list(&wanted, 4)
    );
    let mut finding = Finding::new(
        DOC.id,
        Severity::Caution,
        Subject::Wire(Id::new(id)?),
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
        Wanted::Size => "its size",
        Wanted::Length => "its length",
        Wanted::Insulation => "its insulation",
        Wanted::Terminal => "one of its ends",
        Wanted::Rating | Wanted::Demand | Wanted::Kind => "something about it",
    }
}

fn example(wanted: Wanted) -> &'static str {
    match wanted {
        Wanted::Size => "\"12 AWG\" or \"4 mm2\"",
        Wanted::Length => "\"9 ft 6 in\" or \"2.9 m\"",
        Wanted::Insulation => "\"gxl\" or \"gpt\"",
        Wanted::Terminal => "\"fridge.+\"",
        Wanted::Rating | Wanted::Demand | Wanted::Kind => "the value on its label",
    }
}
