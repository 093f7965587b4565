//! `insulation-fails-in-short`: a short that is ended, but too late for the
//! wire. Not here: shorts that may never end (`short-never-cleared`).

use crate::finding::{Finding, Subject};
use crate::remedy::{fuses, sizes};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{Graph, limits, names, subjects, words};
use std::collections::BTreeMap;
use wainwright_analysis::result::{Assessment, FaultEnd, FaultResult, Stress};
use wainwright_analysis::Ask;
use wainwright_model::Project;

/// The rule.
pub(crate) struct InsulationFailsInShort;

static DOC: RuleDoc = RuleDoc {
    id: "insulation-fails-in-short",
    title: "A short circuit destroys the insulation before the fuse opens",
    worst: Severity::Danger,
    what: "For a short circuit somewhere on the circuit, the energy let through until the device \
           has certainly opened heats a conductor above what its insulation bears in a short.",
    why: "The fuse opens, but the wire has melted its insulation along its whole length, and \
          those beside it. Behind panelling that is where the next fault, or the fire, begins.",
    example: "An 18 AWG lead behind a 40 A fuse: a short at its end lets 5 A above 1.35 times \
              the rating flow for minutes and heats it to 400 °C.",
    what_to_do: "A smaller fuse, thicker wire, or wire with cross-linked insulation, which bears \
                 250 °C in a short instead of 160 °C.",
    sources: &[
        "conductor/adiabatic_k",
        "insulation/materials",
        "protection/gates",
        "Danger from 400 °C, where plastics near the wire ignite: judgement of this project.",
    ],
};

/// Metal this hot lights what lies against it [°C]. Judgement.
const IGNITES: f64 = 400.0;

/// The worst fault for one wire.
struct Worst<'a> {
    node: usize,
    end: &'a FaultEnd,
    stress: &'a Stress,
}

impl Rule for InsulationFailsInShort {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        worst_by_wire(assessment)
            .into_iter()
            .filter_map(|(wire, worst)| find_one(assessment, project, wire, &worst))
            .collect()
    }

    fn remedies(
        &self,
        finding: &Finding,
        assessment: &Assessment,
        project: &Project,
    ) -> Vec<Remedy> {
        let wires = subjects::wires(finding, assessment);
        let graph = Graph::new(assessment, project);
        let partners = subjects::all_partners(assessment, &graph, &wires);
        let thicker = sizes::thicker(assessment, &wires);
        let mut remedies = vec![
            sizes::thicker_with(assessment, &wires, &partners),
            sizes::insulation(assessment, &wires, sizes::better_insulation(project)),
        ];
        if let Some(device) = subjects::device(finding, assessment) {
            let down = fuses::down(project, device);
            remedies.push(fuses::both(&down, &thicker));
            remedies.push(down);
            remedies.push(fuses::at_thin_starts(assessment, project, device, &wires));
        }
        remedies.push(thicker);
        Remedy::some(remedies)
    }
}

/// The hottest stress of each wire that does not survive a fault which a
/// device certainly ends.
fn worst_by_wire(assessment: &Assessment) -> BTreeMap<usize, Worst<'_>> {
    let mut worst: BTreeMap<usize, Worst<'_>> = BTreeMap::new();
    for (fault, end) in assessment.faults.iter().flat_map(both_ends) {
        if end.cleared.is_none() || end.openings.is_empty() {
            continue;
        }
        for stress in end.stresses.iter().filter(|stress| !stress.survives) {
            let known = worst.get(&stress.wire).map(|worst| worst.stress.hottest.celsius());
            if known.is_none_or(|known| stress.hottest.celsius() > known) {
                worst.insert(stress.wire, Worst { node: fault.node, end, stress });
            }
        }
    }
    worst
}

fn both_ends(fault: &FaultResult) -> [(&FaultResult, &FaultEnd); 2] {
    [(fault, &fault.largest), (fault, &fault.smallest)]
}

fn find_one(
    assessment: &Assessment,
    project: &Project,
    wire: usize,
    worst: &Worst<'_>,
) -> Option<Finding> {
    let wire = assessment.wires.get(wire)?;
    let system = limits::system(project);
    let severity = match worst.stress.hottest.celsius() >= IGNITES {
        true => Severity::Danger,
        false => Severity::Warning,
    };
    let device = worst.end.openings.first().and_then(|o| assessment.devices.get(o.device));
    let before = device.map_or(String::new(), |device| {
        format!(" before the {} has certainly opened", names::device(project, device))
    });
    let headline = format!(
        "A short heats {} to {}{before}; its insulation bears {} for a few seconds.",
        names::wire(wire),
        words::heat(worst.stress.hottest, system),
        words::heat(wire.short_limit, system),
    );
    let value = limits::heat("θ_k", worst.stress.hottest, system);
    let mut finding = Finding::new(DOC.id, severity, Subject::Wire(wire.id.clone()), headline)
        .over(value, limits::heat("θ_k,max", wire.short_limit, system))
        .note(format!(
            "{} flows through it{}.",
            words::capital(&words::amps(worst.stress.amps)),
            worst.end.cleared.map_or(String::new(), |(_, latest)| format!(
                " for up to {}",
                words::time(latest)
            )),
        ))
        .memory(true)
        .assuming(assessment, &["wire", wire.id.as_str()])
        .asking(Ask::FaultCurrent { node: worst.node });
    if let Some(device) = device {
        finding = finding.also(Subject::device(&device.item, device.way));
    }
    Some(finding)
}
