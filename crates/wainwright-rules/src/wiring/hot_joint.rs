//! `hot-joint`: a joint or contact that makes too much heat. One finding for
//! each wire or contact that was measured, and one for all the joints nobody
//! has measured yet. Not here: the conductor between joints
//! (`overheated-conductor`).

use crate::finding::{Amount, Finding, Subject};
use crate::remedy::edits;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, names, words};
use std::collections::BTreeMap;
use wainwright_analysis::Ask;
use wainwright_analysis::known::Basis;
use wainwright_analysis::result::{Assessment, JointOwner, JointResult};
use wainwright_model::{Kind, Project};
use wainwright_reference::Sourced;
use wainwright_reference::joint::{JointSize, joint_heat};
use wainwright_units::{Power, Voltage};

/// The rule.
pub(crate) struct HotJoint;

static DOC: RuleDoc = RuleDoc {
    id: "hot-joint",
    title: "A joint makes too much heat",
    worst: Severity::Warning,
    what: "A lug, crimp, tab or switch contact turns more than 1 W (small terminal) or 3 W \
           (large lug) into heat in a state that can last. Joints with a typed resistance are \
           judged one by one; those that would be too hot at the usual resistance of a sound \
           joint are listed together, to be measured.",
    why: "All of it is made in a few millimetres. A small terminal at 5 W melts its plastic \
          holder, loosens, and gets worse by itself. Most electrical fires in vehicles begin at \
          a joint.",
    example: "A blade tab of 50 mΩ at 10 A: 0.5 V, 5 W.",
    what_to_do: "Make the joint again: clean, right size, right tool, right torque. Measure the \
                 voltage across it under load. A switch that is hot is too small or worn.",
    sources: &[
        "joint/heat",
        "joint/resistance",
        "Warning from five times the limit is a judgement of this project.",
    ],
};

/// Above this multiple of the limit it is a warning: 5 W in a small terminal
/// melts its holder. Judgement.
const WARNING_TIMES: f64 = 5.0;

/// A joint over its limit.
#[derive(Clone, Copy)]
struct Hot<'a> {
    joint: &'a JointResult,
    limit: Sourced<Power>,
}

impl Rule for HotJoint {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let joints = assessment
            .joints
            .iter()
            .filter(|joint| !is_shunt(project, joint));
        let hot: Vec<Hot<'_>> = joints.filter_map(hot).collect();
        let (typed, usual): (Vec<Hot<'_>>, Vec<Hot<'_>>) = hot.into_iter().partition(is_typed);
        let mut worst: BTreeMap<Subject, Hot<'_>> = BTreeMap::new();
        for hot in typed {
            let known = worst.entry(subject(hot.joint)).or_insert(hot);
            if hot.times() > known.times() {
                *known = hot;
            }
        }
        let measured = worst.values().map(|hot| one(assessment, project, hot));
        measured
            .chain(together(assessment, project, &usual))
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
        let bad: Vec<Hot<'_>> = assessment
            .joints
            .iter()
            .filter(|joint| Some(&subject(joint)) == finding.subjects.first())
            .filter_map(hot)
            .filter(is_typed)
            .collect();
        let places: Vec<String> = bad
            .iter()
            .map(|hot| place(project, assessment, hot.joint))
            .collect();
        let cost = bad
            .iter()
            .map(|hot| if hot.joint.large { 4.0 } else { 2.0 })
            .sum();
        let edits = bad
            .iter()
            .map(|hot| edits::unset(&path(&hot.joint.owner)))
            .collect();
        let title = format!("Make {} again and measure it", words::list(&places, 3));
        Remedy::some(vec![Remedy::one(title, edits, cost)])
    }
}

impl Hot<'_> {
    fn times(&self) -> f64 {
        self.joint.heat.watts() / self.limit.value.watts().max(1e-9)
    }
}

fn hot(joint: &JointResult) -> Option<Hot<'_>> {
    let size = if joint.large {
        JointSize::Large
    } else {
        JointSize::Small
    };
    let limit = joint_heat(size)?;
    limits::above(joint.heat.watts(), limit.value.watts()).then_some(Hot { joint, limit })
}

/// A shunt is made to turn this power into heat in the open.
fn is_shunt(project: &Project, joint: &JointResult) -> bool {
    match &joint.owner {
        JointOwner::Contact(id, _) => limits::kind(project, id.as_str()) == Kind::Shunt,
        JointOwner::WireEnd(..) => false,
    }
}

/// Whether somebody typed the resistance; a part's typed figure counts.
fn is_typed(hot: &Hot<'_>) -> bool {
    matches!(
        hot.joint.resistance.basis,
        Basis::Typed(_) | Basis::Part { .. }
    )
}

fn one(assessment: &Assessment, project: &Project, hot: &Hot<'_>) -> Finding {
    let joint = hot.joint;
    let severity = if hot.times() > WARNING_TIMES {
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
        words::watts(hot.limit.value),
        if joint.large {
            "large lug"
        } else {
            "small terminal"
        },
    );
    let (value, limit) = amounts(hot);
    Finding::new(DOC.id, severity, subject(joint), headline)
        .over(value, limit)
        .note(format!(
            "This is {}.",
            names::state(assessment, joint.state)
        ))
        .asking(Ask::JointHeat {
            owner: joint.owner.clone(),
        })
}

/// Joints that would be too hot at their usual resistance: no fault is
/// shown, but these are the ones to measure.
fn together(assessment: &Assessment, project: &Project, usual: &[Hot<'_>]) -> Option<Finding> {
    let order = |a: &&Hot<'_>, b: &&Hot<'_>| a.times().total_cmp(&b.times());
    let worst = usual.iter().max_by(order)?;
    let many = match usual.len() {
        1 => "one joint that nobody has measured would be too hot at its usual".to_string(),
        more => format!(
            "{} joints that nobody has measured would be too hot at their usual",
            words::count(more)
        ),
    };
    let headline = format!(
        "{} resistance; {} makes {} at {}.",
        words::capital(&many),
        place(project, assessment, worst.joint),
        words::watts(worst.joint.heat),
        words::amps(worst.joint.amps),
    );
    let (value, limit) = amounts(worst);
    let mut finding = Finding::new(DOC.id, Severity::Notice, Subject::System, headline)
        .over(value, limit)
        .asking(Ask::JointHeat {
            owner: worst.joint.owner.clone(),
        });
    for hot in usual {
        finding = finding.also(subject(hot.joint));
    }
    Some(
        readings(project, assessment, usual)
            .into_iter()
            .fold(finding, Finding::note),
    )
}

/// What a voltmeter may show across these joints, one sentence for each
/// reading: at this current, voltage times current is the heat allowed.
fn readings(project: &Project, assessment: &Assessment, usual: &[Hot<'_>]) -> Vec<String> {
    let mut alike: Vec<((String, String), Vec<String>)> = Vec::new();
    for hot in usual {
        let amps = hot.joint.amps.abs();
        let volts = Voltage::from_volts(hot.limit.value.watts() / amps.amperes().max(1e-9));
        let reading = (words::volts(volts), words::amps(amps));
        let place = place(project, assessment, hot.joint);
        match alike.iter_mut().find(|(known, _)| *known == reading) {
            Some((_, places)) => places.push(place),
            None => alike.push((reading, vec![place])),
        }
    }
    let sentence = |((volts, amps), places): ((String, String), Vec<String>)| {
        let across = match places.len() {
            1 => "across",
            _ => "across each of these:",
        };
        format!(
            "Measure while {amps} flows; sound is up to {volts} {across} {}.",
            words::list(&places, usual.len()),
        )
    };
    alike.into_iter().map(sentence).collect()
}

fn amounts(hot: &Hot<'_>) -> (Amount, Amount) {
    let (heat, most) = (hot.joint.heat, hot.limit.value);
    let basis = Basis::Table(hot.limit.source);
    (
        Amount::computed("P", heat.watts(), words::watts(heat)),
        Amount::based("P_max", most.watts(), words::watts(most), &basis),
    )
}

/// The wire whose end it is, or the way of the switch.
fn subject(joint: &JointResult) -> Subject {
    match &joint.owner {
        JointOwner::WireEnd(id, _) => Subject::Wire(id.clone()),
        JointOwner::Contact(id, way) => Subject::device(id, *way),
    }
}

fn path(owner: &JointOwner) -> [&str; 3] {
    match owner {
        JointOwner::WireEnd(id, true) => ["wire", id.as_str(), "joint_to"],
        JointOwner::WireEnd(id, false) => ["wire", id.as_str(), "joint_from"],
        JointOwner::Contact(id, _) => ["item", id.as_str(), "resistance"],
    }
}

fn place(project: &Project, assessment: &Assessment, joint: &JointResult) -> String {
    match &joint.owner {
        JointOwner::WireEnd(id, end) => {
            let wire = assessment.wire(id.as_str());
            let at = wire.map(|w| if *end { &w.to } else { &w.from });
            let at = at.map_or(String::new(), |(item, t)| format!(" at {item}.{t}"));
            let name = wire.map_or_else(|| format!("wire {id}"), names::again);
            format!("the joint of {name}{at}")
        }
        JointOwner::Contact(id, 0) => format!("the contact of {}", names::item(project, id)),
        JointOwner::Contact(id, way) => {
            format!("the contact in way {way} of {}", names::item(project, id))
        }
    }
}
