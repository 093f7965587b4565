//! `interrupt-rating-too-low`: a short circuit stronger than a fuse can open.
//! Not here: voltage (`voltage-rating-too-low`).

use crate::finding::{Amount, Finding, Subject};
use crate::remedy::fuses;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, names, subjects, words};
use wainwright_analysis::Ask;
use wainwright_analysis::known::Known;
use wainwright_analysis::result::{Assessment, DeviceResult, FaultEnd, FaultResult};
use wainwright_model::Project;
use wainwright_units::Current;

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
    ],
};

impl Rule for InterruptRatingTooLow {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let devices = assessment.devices.iter().enumerate();
        devices
            .filter_map(|(index, device)| find_one(assessment, project, index, device))
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
        Remedy::some(vec![fuses::other_family(
            project,
            device,
            fault,
            volts.value,
        )])
    }
}

fn find_one(
    assessment: &Assessment,
    project: &Project,
    index: usize,
    device: &DeviceResult,
) -> Option<Finding> {
    let fault = device.largest_fault?;
    let able = device.interrupt.as_ref()?;
    if !limits::above(fault.amperes(), able.value.amperes()) {
        return None;
    }
    let helper = helper(assessment, index);
    let severity = if helper.is_some() {
        Severity::Warning
    } else {
        Severity::Danger
    };
    let headline = format!(
        "The {} can open {}, a short behind it drives {} through it.",
        names::device(project, device),
        words::amps(able.value),
        words::amps(fault),
    );
    let mut finding = Finding::new(
        DOC.id,
        severity,
        Subject::device(&device.item, device.way),
        headline,
    )
    .over(limits::current("I_k", fault), amount(able))
    .assuming(assessment, &["item", device.item.as_str()]);
    if let Some(node) = strongest_node(assessment, index) {
        finding = finding.asking(Ask::FaultCurrent { node });
    }
    finding = match helper {
        Some(other) => finding.note(format!(
            "The {} ahead of it can open this current; standards accept that for branch fuses \
             where both were tested together. Ask the maker.",
            names::device(project, other),
        )),
        None => finding.note("If this happens the fuse bursts and the arc goes on."),
    };
    for battery in assessment.consumers.iter() {
        if battery.role == wainwright_analysis::result::Role::Battery {
            finding = finding.assuming(assessment, &["item", battery.item.as_str(), "resistance"]);
        }
    }
    Some(finding)
}

fn amount(able: &Known<Current>) -> Amount {
    Amount::based(
        "I_cn",
        able.value.amperes(),
        words::amps(able.value),
        &able.basis,
    )
}

/// Another device in every strong fault of this one that can open it and
/// stands in the same path.
fn helper(assessment: &Assessment, index: usize) -> Option<&DeviceResult> {
    let faults: Vec<&FaultEnd> = ends(assessment)
        .filter(|end| {
            end.openings
                .iter()
                .any(|o| o.device == index && o.beyond_interrupt)
        })
        .collect();
    let first = faults.first()?;
    first
        .openings
        .iter()
        .filter(|opening| opening.device != index && !opening.beyond_interrupt)
        .filter(|opening| {
            faults.iter().all(|end| {
                end.openings
                    .iter()
                    .any(|o| o.device == opening.device && !o.beyond_interrupt)
            })
        })
        .find_map(|opening| {
            let other = assessment.devices.get(opening.device)?;
            let fault = assessment.devices.get(index)?.largest_fault?;
            let carries = opening.amps.amperes() >= fault.amperes() * 0.5;
            carries.then_some(other)
        })
}

fn strongest_node(assessment: &Assessment, index: usize) -> Option<usize> {
    let through = |fault: &&FaultResult| {
        fault
            .largest
            .openings
            .iter()
            .any(|opening| opening.device == index)
    };
    let faults = assessment.faults.iter().filter(through);
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
