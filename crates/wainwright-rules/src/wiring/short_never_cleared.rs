//! `short-never-cleared`: a short so weak that its fuse need not open. One
//! finding for each fuse. Not here: stretches without any fuse
//! (`unfused-source-stretch`).

use crate::finding::{Amount, Finding, Subject};
use crate::remedy::{fuses, sizes};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{Circuits, Graph, Link, limits, names, subjects, words};
use std::collections::{BTreeMap, BTreeSet};
use wainwright_analysis::Ask;
use wainwright_analysis::result::{Assessment, FaultEnd, FaultResult, Opening, Role};
use wainwright_model::Project;

/// The rule.
pub(crate) struct ShortNeverCleared;

static DOC: RuleDoc = RuleDoc {
    id: "short-never-cleared",
    title: "A short circuit may never be ended",
    worst: Severity::Danger,
    what: "For a short circuit at the end of a circuit, with a weak battery and hot conductors, \
           no device on the way certainly opens.",
    why: "Long thin wire lets so little current through that the fuse takes it for a load. The \
          wire stays hot until the battery is empty.",
    example: "40 ft of 16 AWG behind a 40 A fuse: a short at the end draws 47 A, which a 40 A \
              fuse may carry for hours.",
    what_to_do: "A smaller fuse, or thicker wire in both conductors so that the short draws more.",
    sources: &["protection/gates", "battery/short_circuit"],
};

/// The weakest such fault behind one device.
struct Case<'a> {
    fault: &'a FaultResult,
    end: &'a FaultEnd,
}

impl Rule for ShortNeverCleared {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        weakest_by_device(assessment, project)
            .into_iter()
            .filter_map(|(device, case)| find_one(assessment, project, device, &case))
            .collect()
    }

    fn remedies(
        &self,
        finding: &Finding,
        assessment: &Assessment,
        project: &Project,
    ) -> Vec<Remedy> {
        let Some(device) = subjects::device(finding, assessment) else {
            return Vec::new();
        };
        let wires = subjects::wires(finding, assessment);
        let graph = Graph::new(assessment, project);
        let partners = Circuits::new(assessment, &graph).all_partners(&wires);
        let down = fuses::down(project, device);
        let thicker = sizes::thicker_with(assessment, &wires, &partners);
        let both = fuses::both(&down, &thicker);
        Remedy::some(vec![
            down,
            sizes::thicker(assessment, &partners),
            thicker,
            both,
        ])
    }
}

/// Faults at their weakest whose nearest device does not certainly open.
/// Places that a battery feeds without any device belong to
/// `unfused-source-stretch`.
fn weakest_by_device<'a>(
    assessment: &'a Assessment,
    project: &Project,
) -> BTreeMap<usize, Case<'a>> {
    let bare = bare_nodes(assessment, project);
    let mut weakest: BTreeMap<usize, Case<'a>> = BTreeMap::new();
    for fault in assessment
        .faults
        .iter()
        .filter(|fault| !bare.contains(&fault.node))
    {
        let end = &fault.smallest;
        let Some(device) = end.should_open.filter(|_| end.cleared.is_none()) else {
            continue;
        };
        let opens = |o: &Opening| o.device == device && o.latest.is_some();
        if !end.openings.iter().any(opens) {
            let known = weakest.get(&device).map(|case| case.end.amps.amperes());
            if known.is_none_or(|known| end.amps.amperes() < known) {
                weakest.insert(device, Case { fault, end });
            }
        }
    }
    weakest
}

/// Nodes that a battery feeds without any device in between.
fn bare_nodes(assessment: &Assessment, project: &Project) -> BTreeSet<usize> {
    let graph = Graph::new(assessment, project);
    let batteries = assessment
        .consumers
        .iter()
        .filter(|c| c.role == Role::Battery);
    batteries
        .filter_map(|battery| battery.nodes)
        .flat_map(|(plus, _)| graph.reach(plus, |link| !matches!(link, Link::Device(_))))
        .collect()
}

fn find_one(
    assessment: &Assessment,
    project: &Project,
    device: usize,
    case: &Case<'_>,
) -> Option<Finding> {
    let device = assessment.devices.get(device)?;
    let burnt = case.end.stresses.iter().any(|stress| !stress.survives);
    let severity = if burnt {
        Severity::Danger
    } else {
        Severity::Warning
    };
    let rating = device.rating.value;
    let (least, certain) = words::currents(case.end.amps, rating * CERTAIN);
    let headline = format!(
        "{} may never open for a short circuit at {} ({}.{}): it draws as little as {least}, \
         opening is certain from {certain} only.",
        words::capital(&names::device(project, device)),
        names::item(project, &case.fault.at.0),
        case.fault.at.0,
        case.fault.at.1,
    );
    let certain = Amount::computed(
        "I_2",
        rating.amperes() * CERTAIN,
        format!("{} (1.35 × rating)", words::amps(rating * CERTAIN)),
    );
    let mut finding = Finding::new(
        DOC.id,
        severity,
        Subject::device(&device.item, device.way),
        headline,
    )
    .under(limits::current("I_k", case.end.amps), certain)
    .memory(true)
    .asking(Ask::FaultCurrent {
        node: case.fault.node,
    });
    for index in &case.fault.wires {
        if let Some(wire) = assessment.wires.get(*index) {
            finding = finding
                .also(Subject::Wire(wire.id.clone()))
                .assuming(assessment, &["wire", wire.id.as_str()]);
        }
    }
    if let Some(stress) = case.end.stresses.first() {
        let wire = assessment
            .wires
            .get(stress.wire)
            .map(names::wire)
            .unwrap_or_default();
        finding = finding.note(format!(
            "Meanwhile {wire} reaches {}.",
            words::heat(stress.hottest, limits::system(project))
        ));
    }
    Some(finding)
}

/// From this multiple of its rating a fuse opens for certain; below it the
/// gates promise nothing.
const CERTAIN: f64 = 1.35;
