//! `interrupt-rating-too-low`: a short circuit stronger than a fuse can open.
//! One finding for each fuse or fuse block. Not here: voltage (`voltage-rating-too-low`).

use crate::finding::{Amount, Finding, Subject};
use crate::remedy::{fuses, sizes};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, names, subjects, words};
use std::collections::BTreeMap;
use wainwright_analysis::Ask;
use wainwright_analysis::known::Known;
use wainwright_analysis::result::{Assessment, DeviceResult, FaultEnd, FaultResult, Opening, Role};
use wainwright_model::Project;
use wainwright_units::Current;

/// Share of the fault current that the devices ahead must carry between them
/// to count as help. Chargers limit themselves and give the small rest; a
/// battery nobody helps against gives more (judgement).
const CARRIED: f64 = 0.8;

/// The rule.
pub(crate) struct InterruptRatingTooLow;

static DOC: RuleDoc = RuleDoc {
    id: "interrupt-rating-too-low",
    title: "A fuse cannot open the short circuit the battery can drive",
    worst: Severity::Danger,
    what: "The largest short-circuit current through a fuse or breaker, with the battery at its \
           strongest, is above what the device can interrupt at system voltage.",
    why: "Above its interrupt rating a fuse does not end the current: the arc goes on inside, \
          bursts the body and sets fire to what is near. Lithium batteries drive thousands of \
          amperes; blade fuses can open one thousand.",
    example: "A 100 Ah lithium battery of 5 mΩ drives 3000 A into a short at its terminals; the \
              strip fuse there can open 2000 A.",
    what_to_do: "Use a class T or terminal-mounted fuse at the battery. Farther out the wire \
                 itself holds the current down: a fuse behind enough wire may stay.",
    sources: &[
        "protection/interrupt",
        "position/large_bank",
        "position/interrupt_minimum",
        "Caution only where a device ahead can open the current: ABYC E-11 asks less of branch fuses.",
        "Fuses of batteries in parallel help together: Kirchhoff's first law.",
    ],
};

impl Rule for InterruptRatingTooLow {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let mut by_item: BTreeMap<usize, Vec<Case<'_>>> = BTreeMap::new();
        for (index, device) in assessment.devices.iter().enumerate() {
            if let Some(case) = case(assessment, index, device) {
                let order = project.items.position(device.item.as_str());
                by_item
                    .entry(order.unwrap_or(usize::MAX))
                    .or_default()
                    .push(case);
            }
        }
        by_item
            .values()
            .filter_map(|cases| about(assessment, project, cases))
            .collect()
    }

    fn remedies(
        &self,
        finding: &Finding,
        assessment: &Assessment,
        project: &Project,
    ) -> Vec<Remedy> {
        let device = subjects::device(finding, assessment);
        let volts = assessment.system_volts.as_ref();
        let (Some(device), Some(volts)) = (device, volts) else {
            return Vec::new();
        };
        let fault = device.largest_fault.unwrap_or(Current::from_amperes(0.0));
        let other = fuses::other_family(project, device, fault, volts.value);
        let thicker = sizes::thicker(assessment, &limits::protects(assessment, device));
        let both = fuses::both(&other, &thicker);
        Remedy::some(vec![other, both])
    }
}

/// One device that cannot open the fault behind it.
struct Case<'a> {
    index: usize,
    device: &'a DeviceResult,
    fault: Current,
    able: &'a Known<Current>,
    helpers: Vec<&'a DeviceResult>,
}

fn case<'a>(
    assessment: &'a Assessment,
    index: usize,
    device: &'a DeviceResult,
) -> Option<Case<'a>> {
    let (fault, able) = (device.largest_fault?, device.interrupt.as_ref()?);
    let helpers = helpers(assessment, index);
    limits::above(fault.amperes(), able.value.amperes()).then_some(Case {
        index,
        device,
        fault,
        able,
        helpers,
    })
}

fn about(assessment: &Assessment, project: &Project, cases: &[Case<'_>]) -> Option<Finding> {
    let worse = |a: &&Case<'_>, b: &&Case<'_>| {
        let alone = |case: &Case<'_>| case.helpers.is_empty();
        alone(a)
            .cmp(&alone(b))
            .then(a.fault.total_cmp(&b.fault))
            .then(b.index.cmp(&a.index))
    };
    let worst = cases.iter().max_by(worse)?;
    let severity = if worst.helpers.is_empty() {
        Severity::Danger
    } else {
        Severity::Caution
    };
    let more = match cases.len() {
        1 => String::new(),
        2 => "; one more fuse of the same block is no better".to_string(),
        many => format!(
            "; {} of the same block are no better",
            words::counted(many - 1, "more fuse")
        ),
    };
    let (fault, able) = words::currents(worst.fault, worst.able.value);
    let headline = format!(
        "{} can interrupt {able}, a short circuit behind it drives {fault} through it{more}.",
        words::capital(&names::device(project, worst.device)),
    );
    let item = &worst.device.item;
    let mut finding = Finding::new(DOC.id, severity, Subject::Item(item.clone()), headline)
        .over(limits::current("I_k", worst.fault), amount(worst.able))
        .assuming(assessment, &["item", item.as_str()])
        .note(consequence(project, worst));
    for case in cases {
        finding = finding.also(Subject::device(item, case.device.way));
    }
    for battery in assessment
        .consumers
        .iter()
        .filter(|c| c.role == Role::Battery)
    {
        finding = finding.assuming(assessment, &["item", battery.item.as_str(), "resistance"]);
    }
    Some(match strongest_node(assessment, worst.index) {
        Some(node) => finding.asking(Ask::FaultCurrent { node }),
        None => finding,
    })
}

fn consequence(project: &Project, worst: &Case<'_>) -> String {
    let helpers: Vec<String> = worst
        .helpers
        .iter()
        .map(|other| names::device(project, other))
        .collect();
    let (together, such) = match helpers.len() {
        0 => return "If this happens the fuse bursts and the arc goes on.".to_string(),
        1 => ("", "such a main fuse; ask the maker whether the two go"),
        _ => (
            " between them",
            "such main fuses; ask the maker whether they go",
        ),
    };
    format!(
        "{} ahead of it can{together} interrupt this current. Standards ask less of branch fuses \
         behind {such} together.",
        words::capital(&words::list(&helpers, helpers.len())),
    )
}

fn amount(able: &Known<Current>) -> Amount {
    Amount::based(
        "I_cn",
        able.value.amperes(),
        words::amps(able.value),
        &able.basis,
    )
}

/// The devices that can open every strong fault of this one, strongest
/// current first: as few as carry its strongest fault between them, at most
/// one for each battery. None where they leave too much of it.
fn helpers(assessment: &Assessment, index: usize) -> Vec<&DeviceResult> {
    let faults: Vec<&FaultEnd> = ends(assessment)
        .filter(|end| through(end, index).is_some_and(|own| own.beyond_interrupt))
        .collect();
    let amps = |end: &FaultEnd| through(end, index).map_or(0.0, |own| own.amps.amperes());
    let strongest = faults.iter().max_by(|a, b| amps(a).total_cmp(&amps(b)));
    let Some(strongest) = strongest else {
        return Vec::new();
    };
    let able = |end: &&FaultEnd, device: usize| {
        through(end, device).is_some_and(|other| !other.beyond_interrupt)
    };
    let mut others: Vec<&Opening> = strongest
        .openings
        .iter()
        .filter(|other| other.device != index)
        .filter(|other| faults.iter().all(|end| able(end, other.device)))
        .collect();
    others.sort_by(|a, b| b.amps.total_cmp(&a.amps).then(a.device.cmp(&b.device)));
    let batteries = assessment.consumers.iter();
    let batteries = batteries.filter(|c| c.role == Role::Battery).count();
    let mut missing_amps = amps(strongest) * CARRIED;
    let mut found = Vec::new();
    for other in others.into_iter().take(batteries.max(1)) {
        missing_amps -= other.amps.amperes();
        found.extend(assessment.devices.get(other.device));
        if missing_amps <= 0.0 {
            return found;
        }
    }
    Vec::new()
}

/// What a fault does to one device.
fn through(end: &FaultEnd, device: usize) -> Option<&Opening> {
    end.openings.iter().find(|opening| opening.device == device)
}

fn strongest_node(assessment: &Assessment, index: usize) -> Option<usize> {
    let seen = |fault: &&FaultResult| through(&fault.largest, index).is_some();
    let faults = assessment.faults.iter().filter(seen);
    faults
        .max_by(|a, b| {
            a.largest
                .amps
                .total_cmp(&b.largest.amps)
                .then(b.node.cmp(&a.node))
        })
        .map(|fault| fault.node)
}

fn ends(assessment: &Assessment) -> impl Iterator<Item = &FaultEnd> {
    assessment.faults.iter().map(|fault| &fault.largest)
}
