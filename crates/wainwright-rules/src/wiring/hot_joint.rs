//! `hot-joint`: a joint or contact that makes too much heat. Not here: the
//! conductor between joints (`overheated-conductor`).

use crate::finding::{Amount, Finding, Subject};
use crate::remedy::edits;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, names, words};
use wainwright_analysis::Ask;
use wainwright_analysis::known::Basis;
use wainwright_analysis::result::{Assessment, JointOwner, JointResult};
use wainwright_model::Project;
use wainwright_reference::joint::{JointSize, joint_heat};

/// The rule.
pub(crate) struct HotJoint;

static DOC: RuleDoc = RuleDoc {
    id: "hot-joint",
    title: "A joint makes too much heat",
    worst: Severity::Warning,
    what: "A lug, crimp, tab or switch contact turns more than 1 W (small terminal) or 3 W \
           (large lug) into heat in a state that can last.",
    why: "All of it is made in a few millimetres. A small terminal at 5 W melts its plastic \
          holder, loosens, and gets worse by itself. Most electrical fires in vehicles begin at \
          a joint.",
    example: "A blade tab of 50 mΩ at 10 A: 0.5 V, 5 W.",
    what_to_do: "Make the joint again: clean, right size, right tool, right torque. Measure the \
                 voltage across it under load. A switch that is hot is too small or worn.",
    sources: &["joint/heat", "joint/resistance"],
};

/// Above this multiple of the limit it is a warning: 5 W in a small terminal
/// melts its holder. Judgement.
const WARNING_TIMES: f64 = 5.0;

impl Rule for HotJoint {
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

    /// A joint that was measured bad is made again: its reading goes, and the
    /// usual value stands in until it is measured once more.
    fn remedies(
        &self,
        finding: &Finding,
        assessment: &Assessment,
        project: &Project,
    ) -> Vec<Remedy> {
        let joint = assessment
            .joints
            .iter()
            .find(|joint| subject(joint) == finding.subjects.first().cloned());
        let Some(joint) = joint.filter(|joint| matches!(joint.resistance.basis, Basis::Typed(_)))
        else {
            return Vec::new();
        };
        let (path, what) = match &joint.owner {
            JointOwner::WireEnd(id, end) => {
                let key = if *end { "joint_to" } else { "joint_from" };
                (vec!["wire", id.as_str(), key], "the joint")
            }
            JointOwner::Contact(id, _) => (vec!["item", id.as_str(), "resistance"], "the switch"),
        };
        let title = match what {
            "the joint" => format!(
                "Make {} again and measure it",
                place(project, assessment, joint)
            ),
            _ => format!("Replace {}", place(project, assessment, joint)),
        };
        let cost = if joint.large { 4.0 } else { 2.0 };
        Remedy::some(vec![Remedy::one(title, vec![edits::unset(&path)], cost)])
    }
}

fn find_one(assessment: &Assessment, project: &Project, joint: &JointResult) -> Option<Finding> {
    let size = if joint.large {
        JointSize::Large
    } else {
        JointSize::Small
    };
    let limit = joint_heat(size)?;
    let (heat, most) = (joint.heat.watts(), limit.value.watts());
    if !limits::above(heat, most) {
        return None;
    }
    let severity = if heat > most * WARNING_TIMES {
        Severity::Warning
    } else {
        Severity::Caution
    };
    let headline = format!(
        "{} makes {} of heat at {} ({}), {} is the most a {} should.",
        words::capital(&place(project, assessment, joint)),
        words::watts(joint.heat),
        words::amps(joint.amps),
        words::ohms(joint.resistance.value),
        words::watts(limit.value),
        if joint.large {
            "large lug"
        } else {
            "small terminal"
        },
    );
    let value = Amount::computed("P", heat, words::watts(joint.heat));
    let most = Amount::based(
        "P_max",
        most,
        words::watts(limit.value),
        &Basis::Table(limit.source),
    );
    let mut finding = Finding::new(DOC.id, severity, subject(joint)?, headline)
        .over(value, most)
        .note(format!(
            "This is {}.",
            names::state(assessment, joint.state)
        ))
        .asking(Ask::JointHeat {
            owner: joint.owner.clone(),
        });
    if joint.resistance.is_assumed() {
        finding = finding.note("Its resistance is the usual one for such a joint; measure it.");
    }
    Some(finding)
}

/// The terminal a joint sits on, or the way of a contact; both name one joint.
fn subject(joint: &JointResult) -> Option<Subject> {
    Some(match &joint.owner {
        JointOwner::WireEnd(id, end) => {
            Subject::Terminal(id.clone(), if *end { "to" } else { "from" }.to_string())
        }
        JointOwner::Contact(id, way) => Subject::device(id, *way),
    })
}

fn place(project: &Project, assessment: &Assessment, joint: &JointResult) -> String {
    match &joint.owner {
        JointOwner::WireEnd(id, end) => {
            let wire = assessment.wire(id.as_str());
            let at = wire.map(|w| if *end { &w.to } else { &w.from });
            let at = at.map_or(String::new(), |(item, t)| format!(" at {item}.{t}"));
            format!("the joint of wire {id}{at}")
        }
        JointOwner::Contact(id, 0) => format!("the contact of {}", names::item(project, id)),
        JointOwner::Contact(id, way) => {
            format!("the contact in way {way} of {}", names::item(project, id))
        }
    }
}
