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
use wainwright_analysis::result::{Assessment, DeviceResult, FaultEnd, FaultResult, Role};
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
        "Caution only where a device ahead can open the current: ABYC E-11 asks less of branch fuses.",
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
    helper: Option<&'a DeviceResult>,
}

fn case<'a>(
    assessment: &'a Assessment,
    index: usize,
    device: &'a DeviceResult,
) -> Option<Case<'a>> {
    let (fault, able) = (device.largest_fault?, device.interrupt.as_ref()?);
    let helper = helper(assessment, index);
    limits::above(fault.amperes(), able.value.amperes()).then_some(Case {
        index,
        device,
        fault,
        able,
        helper,
    })
}

fn about(assessment: &Assessment, project: &Project, cases: &[Case<'_>]) -> Option<Finding> {
    let worse = |a: &&Case<'_>, b: &&Case<'_>| {
        let alone = |case: &Case<'_>| case.helper.is_none();
        alone(a)
            .cmp(&alone(b))
            .then(a.fault.total_cmp(&b.fault))
            .then(b.index.cmp(&a.index))
    };
    let worst = cases.iter().max_by(worse)?;
    let severity = if worst.helper.is_some() {
        Severity::Caution
    } else {
        Severity::Danger
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
    match worst.helper {
        Some(other) => format!(
            "{} ahead of it can interrupt this current. Standards ask less of branch fuses behind \
             such a main fuse; ask the maker whether the two go together.",
            words::capital(&names::device(project, other)),
        ),
        None => "If this happens the fuse bursts and the arc goes on.".to_string(),
    }
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
