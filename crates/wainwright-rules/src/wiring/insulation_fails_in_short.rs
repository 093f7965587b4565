//! `insulation-fails-in-short`: a short that is ended, but too late for the
//! wire. One finding for each circuit. Not here: shorts that may
//! never end (`short-never-cleared`).

use super::oversized_fuse;
use crate::finding::{Finding, Subject};
use crate::remedy::{added, fuses, sizes};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{Circuits, Graph, limits, names, subjects, words};
use std::collections::BTreeMap;
use wainwright_analysis::Ask;
use wainwright_analysis::result::{Assessment, DeviceResult, FaultEnd, Stress, WireResult};
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
    example: "An 18 AWG lead behind a 40 A fuse: a short at its end lets a little more than 1.35 \
              times the rating flow for minutes and heats it to 400 °C.",
    what_to_do: "A smaller fuse, thicker wire, or wire with cross-linked insulation, which bears \
                 250 °C in a short instead of 160 °C.",
    sources: &[
        "conductor/adiabatic_k",
        "insulation/materials",
        "protection/gates",
        "Above 6 times the rating, the last gate of the standards, it is a caution only.",
        "Danger from 400 °C, where plastics near the wire ignite: judgement of this project.",
    ],
};

/// The standards' last gate, as a multiple of the rating. Above it they
/// promise no shorter time, although fuses open much faster there.
pub(crate) const LAST_GATE: f64 = 6.0;

/// Metal this hot lights what lies against it [°C]. Judgement.
const IGNITES: f64 = 400.0;

/// The worst fault for one wire.
#[derive(Clone, Copy)]
struct Worst<'a> {
    /// The current is inside the range for which the device's standard
    /// promises opening times.
    promised: bool,
    node: usize,
    end: &'a FaultEnd,
    stress: &'a Stress,
}

impl Rule for InsulationFailsInShort {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let circuits = Circuits::new(assessment, &Graph::new(assessment, project));
        let mut by_circuit: BTreeMap<usize, BTreeMap<usize, Worst<'_>>> = BTreeMap::new();
        for (wire, worst) in worst_by_wire(assessment) {
            by_circuit
                .entry(circuits.name_of(wire))
                .or_default()
                .insert(wire, worst);
        }
        by_circuit
            .iter()
            .filter_map(|(name, wires)| find_one(assessment, project, *name, wires))
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
        let partners = Circuits::new(assessment, &graph).all_partners(&wires);
        let thicker = sizes::thicker(assessment, &wires);
        let mut remedies = vec![
            sizes::thicker_with(assessment, &wires, &partners),
            sizes::insulation(assessment, &wires, sizes::better_insulation(project)),
        ];
        if let Some(device) = subjects::device(finding, assessment) {
            let down = fuses::down(project, device);
            remedies.push(fuses::both(&down, &thicker));
            remedies.push(down);
            remedies.push(added::at_thin_starts(assessment, project, device, &wires));
        }
        remedies.push(thicker);
        Remedy::some(remedies)
    }
}

/// The wires that do not survive until a device has opened, each with its
/// worst case. Wires whose fuse is too big anyway belong to `oversized-fuse`
/// where that says as much.
fn worst_by_wire(assessment: &Assessment) -> BTreeMap<usize, Worst<'_>> {
    let mut found: BTreeMap<usize, Worst<'_>> = BTreeMap::new();
    let faults = assessment.faults.iter();
    for (fault, end) in faults.flat_map(|f| [(f, &f.largest), (f, &f.smallest)]) {
        let Some(opening) = end.openings.first().filter(|_| end.cleared.is_some()) else {
            continue;
        };
        let device = assessment.devices.get(opening.device);
        let rating = device.map_or(0.0, |device| device.rating.value.amperes());
        let promised = opening.amps.amperes() <= LAST_GATE * rating;
        for stress in end.stresses.iter().filter(|stress| !stress.survives) {
            let worst = Worst {
                promised,
                node: fault.node,
                end,
                stress,
            };
            let known = found.entry(stress.wire).or_insert(worst);
            if worst.rank() > known.rank() {
                *known = worst;
            }
        }
    }
    found.retain(|wire, _| {
        assessment
            .wires
            .get(*wire)
            .is_some_and(|wire| !limits::is_tap(assessment, wire))
    });
    for case in oversized_fuse::cases(assessment) {
        let said = found.get(&case.wire).map(Worst::severity);
        if said.is_some_and(|said| case.severity.at_least(said)) {
            found.remove(&case.wire);
        }
    }
    found
}

impl Worst<'_> {
    /// Shown cases before those the standard is silent about, hotter first.
    fn rank(&self) -> (bool, f64) {
        (self.promised, self.stress.hottest.celsius())
    }

    /// Danger and warning need a promised time; without one it is only not
    /// shown that the wire survives.
    fn severity(&self) -> Severity {
        match (self.promised, self.stress.hottest.celsius() >= IGNITES) {
            (false, _) => Severity::Caution,
            (true, false) => Severity::Warning,
            (true, true) => Severity::Danger,
        }
    }
}

fn find_one(
    assessment: &Assessment,
    project: &Project,
    name: usize,
    wires: &BTreeMap<usize, Worst<'_>>,
) -> Option<Finding> {
    let order = |a: &Worst<'_>, b: &Worst<'_>| {
        a.promised
            .cmp(&b.promised)
            .then(a.stress.hottest.total_cmp(&b.stress.hottest))
    };
    let (index, worst) = wires
        .iter()
        .max_by(|a, b| order(a.1, b.1).then(b.0.cmp(a.0)))?;
    let wire = assessment.wires.get(*index)?;
    let opening = worst.end.openings.first()?;
    let device = assessment.devices.get(opening.device)?;
    let others: Vec<&WireResult> = wires
        .keys()
        .filter(|other| *other != index)
        .filter_map(|other| assessment.wires.get(*other))
        .collect();
    let system = limits::system(project);
    let headline = headline(project, wire, device, worst, others.len());
    let subject = Subject::Wire(assessment.wires.get(name)?.id.clone());
    let mut finding = Finding::new(DOC.id, worst.severity(), subject, headline)
        .over(
            limits::heat("θ_k", worst.stress.hottest, system),
            limits::heat("θ_k,max", wire.short_limit, system),
        )
        .note(flow(worst, wire))
        .memory(true)
        .also(Subject::device(&device.item, device.way))
        .also(Subject::Wire(wire.id.clone()))
        .asking(Ask::FaultCurrent { node: worst.node });
    if !worst.promised {
        finding = finding.note(
            "The let-through energy in the fuse maker's data sheet may show that it survives.",
        );
    }
    if !others.is_empty() {
        let others = words::capital(&names::together(&others, 6));
        finding = finding.note(format!("{others} of the same circuit: likewise."));
    }
    for index in wires.keys() {
        if let Some(wire) = assessment.wires.get(*index) {
            finding = finding
                .also(Subject::Wire(wire.id.clone()))
                .assuming(assessment, &["wire", wire.id.as_str()]);
        }
    }
    Some(finding)
}

fn headline(
    project: &Project,
    wire: &WireResult,
    device: &DeviceResult,
    worst: &Worst<'_>,
    more: usize,
) -> String {
    let (name, device) = (names::wire(wire), names::device(project, device));
    let system = limits::system(project);
    let bears = words::heat(wire.short_limit, system);
    if worst.promised {
        let more = match more {
            0 => String::new(),
            many => format!(", and {} with it,", words::counted(many, "more wire")),
        };
        let hot = words::heat(worst.stress.hottest, system);
        return format!(
            "A short circuit heats {name}{more} to {hot} before {device} has certainly opened; \
             its insulation bears {bears} for a few seconds."
        );
    }
    let survive = match more {
        0 => " survives".to_string(),
        many => format!(" and {} survive", words::counted(many, "more wire")),
    };
    format!(
        "It cannot be shown that {name}{survive} a short circuit of {} behind {device}: above \
         {LAST_GATE} times the rating the standard promises no opening time.",
        words::amps(worst.stress.amps),
    )
}

fn flow(worst: &Worst<'_>, wire: &WireResult) -> String {
    let time = worst
        .end
        .cleared
        .map(|(_, latest)| format!(" for up to {}", words::time(latest)));
    let amps = words::amps(worst.stress.amps);
    let name = names::again(wire);
    format!("{amps} flows through {name}{}.", time.unwrap_or_default())
}
