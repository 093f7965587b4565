//! `switch-overloaded`: a switch carries more than it is rated for. Not
//! here: heat in its contact (`hot-joint`).

use crate::finding::{Amount, Finding, Subject};
use crate::remedy::edits;
use crate::rule::{Change, Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, names, subjects, words};
use wainwright_analysis::known::Basis;
use wainwright_analysis::result::{Assessment, JointOwner, JointResult};
use wainwright_model::{Given, Id, Origin, Project, Spec};
use wainwright_units::Current;

/// The rule.
pub(crate) struct SwitchOverloaded;

static DOC: RuleDoc = RuleDoc {
    id: "switch-overloaded",
    title: "A switch carries more than it is rated for",
    worst: Severity::Warning,
    what: "In a state that can last, the current through a switch, or through one switch of a \
           bank, is above its rating.",
    why: "Its contacts heat, pit and weld. A welded switch no longer switches off, which is what \
          somebody will want of it one day.",
    example: "The inverter hangs on a 100 A battery switch and draws 178 A.",
    what_to_do: "A switch with a higher rating, or a relay that the small switch works.",
    sources: &["The rating is that of the switch's own data sheet."],
};

/// Ratings switches are sold in [A]. Judgement.
const SOLD: [f64; 13] = [
    10.0, 15.0, 20.0, 25.0, 30.0, 40.0, 50.0, 75.0, 100.0, 150.0, 200.0, 300.0, 500.0,
];

impl Rule for SwitchOverloaded {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        assessment
            .joints
            .iter()
            .filter_map(|joint| find_one(assessment, project, joint))
            .collect()
    }

    fn remedies(&self, finding: &Finding, _: &Assessment, project: &Project) -> Vec<Remedy> {
        let (Some(item), Some(value)) = (subjects::item(finding), &finding.value) else {
            return Vec::new();
        };
        let rungs = SOLD
            .iter()
            .filter(|rating| **rating >= value.value)
            .map(|rating| {
                let text = edits::rating_text(Current::from_amperes(*rating));
                Change {
                    title: format!("Replace {} by one rated {text}", names::item(project, item)),
                    edits: vec![edits::set_text(&["item", item.as_str(), "rating"], text)],
                    cost: 5.0 + rating / 10.0,
                }
            })
            .collect();
        Remedy::some(vec![Remedy::ladder(rungs)])
    }
}

fn find_one(assessment: &Assessment, project: &Project, joint: &JointResult) -> Option<Finding> {
    let JointOwner::Contact(id, way) = &joint.owner else {
        return None;
    };
    let rating = rating(project, id)?;
    if !limits::above(joint.amps.abs().amperes(), rating.value.amperes()) {
        return None;
    }
    let name = match way {
        0 => names::item(project, id),
        way => format!("switch {way} of {}", names::item(project, id)),
    };
    let (amps, rated) = words::currents(joint.amps, rating.value);
    let headline = format!(
        "{} carries {amps} {}, it is rated {rated}.",
        words::capital(&name),
        names::state(assessment, joint.state),
    );
    let basis = match &rating.at.origin {
        Origin::Part(part) => Basis::Part {
            part: part.clone(),
            source: None,
        },
        _ => Basis::Typed(rating.at.clone()),
    };
    let limit = Amount::based(
        "I_n",
        rating.value.amperes(),
        words::amps(rating.value),
        &basis,
    );
    Some(
        Finding::new(
            DOC.id,
            Severity::Warning,
            Subject::device(id, *way),
            headline,
        )
        .over(limits::current("I", joint.amps), limit),
    )
}

fn rating(project: &Project, id: &Id) -> Option<Given<Current>> {
    match &project.items.get(id.as_str())?.spec {
        Spec::Switch(switch) => switch.rating.clone(),
        Spec::SwitchBank(bank) => bank.rating.clone(),
        _ => None,
    }
}
