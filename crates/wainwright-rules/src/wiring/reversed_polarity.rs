//! `reversed-polarity`: plus and minus of a piece of gear are swapped. Not
//! here: terminals with nothing on them (`loose-terminal`).

use crate::finding::{Finding, Subject};
use crate::remedy::returns;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{names, subjects, words};
use wainwright_analysis::result::{Assessment, Role};
use wainwright_model::{Id, Project};

/// The rule.
pub(crate) struct ReversedPolarity;

static DOC: RuleDoc = RuleDoc {
    id: "reversed-polarity",
    title: "Plus and minus are swapped",
    worst: Severity::Danger,
    what: "The plus terminal of a piece of gear leads to the minus side of the system, or its \
           minus terminal to the plus side.",
    why: "Electronics die at once, capacitors in an inverter burst. A battery joined the wrong \
          way round is a short circuit of two batteries.",
    example: "A second battery whose plus lead ends at the minus bus bar: thousands of amperes \
              as the last lug touches.",
    what_to_do: "Swap the two wires. Label both ends of every wire, and check with a meter \
                 before the fuse goes in.",
    sources: &["Kirchhoff's second law; no document needed."],
};

impl Rule for ReversedPolarity {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        assessment
            .reversed
            .iter()
            .map(|item| about(assessment, project, item))
            .collect()
    }

    fn remedies(
        &self,
        finding: &Finding,
        assessment: &Assessment,
        project: &Project,
    ) -> Vec<Remedy> {
        let item = subjects::item(finding);
        let swap = item.map(|item| returns::swap_polarity(assessment, project, item));
        Remedy::some(swap.into_iter().collect())
    }
}

fn about(assessment: &Assessment, project: &Project, item: &Id) -> Finding {
    let mut roles = assessment
        .consumers
        .iter()
        .filter(|c| c.item == *item)
        .map(|c| c.role);
    let battery = roles.any(|role| role == Role::Battery);
    let name = words::capital(&names::item(project, item));
    let (severity, headline) = if battery {
        (
            Severity::Danger,
            format!(
                "{name} is joined the wrong way round: two batteries short-circuit each other."
            ),
        )
    } else {
        (
            Severity::Warning,
            format!("{name} is joined the wrong way round: plus and minus are swapped."),
        )
    };
    let mut finding = Finding::new(DOC.id, severity, Subject::Item(item.clone()), headline);
    for wire in &assessment.wires {
        if wire.from.0 == *item || wire.to.0 == *item {
            finding = finding.also(Subject::Wire(wire.id.clone()));
        }
    }
    if battery {
        finding = finding.note("Do not join the last lug before this is put right.");
    }
    finding
}
