//! Short circuits at every live node: the networks, devices and conductors
//! for the fault engine, and its outcome in the assessment's terms.

use super::graph::{Graph, Reach};
use super::solve::WireHeat;
use crate::circuit::{self, Circuit, Demand, Part};
use crate::result::{FaultEnd, FaultResult, Opening, Overload, Side, Stress};
use wainwright_engines::conductor::{MELTING, resistance_at};
use wainwright_engines::faults::{
    Clearing, Device, FaultCase, Outcome, Selectivity, Withstand, overload_at_most, study_each_way,
};
use wainwright_engines::network::{Branch, Element, Network};
use wainwright_reference::battery::short_circuit_factors;
use wainwright_units::{Duration, Resistance, Temperature, Voltage};

/// Temperature of a cold conductor, which lets the largest current through [°C].
const COLD_CELSIUS: f64 = 20.0;
/// Longest time for which heat loss may be left out [s].
const ADIABATIC_SECONDS: f64 = 5.0;
/// Conductors named in a fault result, worst first.
const MOST_STRESSES: usize = 8;

/// The fault study of a circuit.
pub(crate) struct Faults {
    pub(crate) results: Vec<FaultResult>,
    devices: Vec<Device>,
    conductors: Vec<Withstand>,
}

/// Runs the study. `hottest` is each wire's condition in its worst lasting state.
pub(crate) fn run(circuit: &Circuit, hottest: &[WireHeat]) -> Faults {
    let devices = devices(circuit);
    let conductors = conductors(circuit, hottest);
    let places = places(circuit);
    let largest = network(circuit, End::Largest);
    let smallest = network(circuit, End::Smallest);
    let short: Vec<FaultCase> = places
        .iter()
        .enumerate()
        .map(|(i, p)| p.case(i, p.near))
        .collect();
    let long: Vec<FaultCase> = places
        .iter()
        .enumerate()
        .map(|(i, p)| p.case(i, p.far))
        .collect();
    let outcome = study_each_way(
        (&largest, &short),
        (&smallest, &long),
        &devices,
        &conductors,
    );
    let results = match outcome {
        Ok(found) => found
            .cases
            .iter()
            .filter_map(|case| {
                let place = places.get(case.place)?;
                Some(result(circuit, place, &case.largest, &case.smallest))
            })
            .collect(),
        Err(_) => Vec::new(),
    };
    Faults {
        results,
        devices,
        conductors,
    }
}

impl Faults {
    /// What the slow region of a device does to a wire.
    pub(crate) fn overload(&self, device: usize, wire: usize, largest: f64) -> Option<Overload> {
        let largest = wainwright_units::Current::from_amperes(largest);
        let found = overload_at_most(
            self.devices.get(device)?,
            self.conductors.get(wire)?,
            largest,
        )
        .ok()?;
        let fast = found.completeness;
        let melting = Temperature::from_celsius(MELTING);
        Some(Overload {
            carried_for_ever: found.carried,
            slow_region: found.worst.min(melting),
            fast_region: fast.map_or(found.carried, |fast| fast.hottest).min(melting),
            fast_region_amps: fast.map_or(found.carries, |fast| fast.current),
        })
    }
}

#[derive(Clone, Copy, PartialEq)]
enum End {
    Largest,
    Smallest,
}

/// A node where plus may meet minus.
struct Place {
    node: usize,
    /// The source's own minus terminal: the shortest way back.
    near: usize,
    /// The minus terminal of the gear farthest behind: the longest way back.
    far: usize,
}

impl Place {
    fn case(&self, place: usize, back: usize) -> FaultCase {
        FaultCase {
            place,
            from: self.node,
            to: back,
            bridge: Resistance::from_ohms(0.0),
        }
    }
}

fn devices(circuit: &Circuit) -> Vec<Device> {
    let mut branches = vec![0; circuit.devices.len()];
    for (index, branch) in circuit.branches.iter().enumerate() {
        if let Part::Device(device) = branch.part {
            branches[device] = index;
        }
    }
    let device = |(device, branch): (&circuit::Device, usize)| Device {
        branch,
        rating: device.rating.value,
        curve: device.curve.clone(),
        interrupt: device.interrupt.as_ref().map(|known| known.value),
        recloses: device.reclose == crate::result::Reclose::Automatic,
    };
    circuit.devices.iter().zip(branches).map(device).collect()
}

fn conductors(circuit: &Circuit, hottest: &[WireHeat]) -> Vec<Withstand> {
    let first = circuit.branches.len() - circuit.wires.len();
    let conductor = |(index, (wire, heat)): (usize, (&circuit::Wire, &WireHeat))| Withstand {
        branch: first + index,
        build: wire.build,
        surroundings: wire.surroundings,
        ambient: wire.air.value,
        start: heat.temperature.min(wire.limit),
        insulation_limit: wire.limit,
        short_limit: wire.short_limit,
    };
    circuit
        .wires
        .iter()
        .zip(hottest)
        .enumerate()
        .map(conductor)
        .collect()
}

/// The network of the strongest or the weakest fault currents: loads left
/// out, every contact closed.
fn network(circuit: &Circuit, end: End) -> Network {
    let branches = circuit.branches.iter().map(|branch| {
        let element = match branch.part {
            Part::Wire(index) => Element::Resistor(wire_resistance(&circuit.wires[index], end)),
            Part::Device(index) => Element::Resistor(circuit.devices[index].resistance.value),
            Part::Contact(index) => Element::Resistor(circuit.contacts[index].resistance.value),
            Part::Fixed(resistance) => Element::Resistor(resistance),
            Part::Consumer(index) => source(circuit.consumers[index].demand, end),
        };
        Branch {
            from: branch.from,
            to: branch.to,
            element,
        }
    });
    let battery = circuit
        .consumers
        .iter()
        .find(|c| matches!(c.demand, Demand::Battery { .. }));
    Network {
        node_count: circuit.nodes.len(),
        ground: battery.map_or(0, |c| c.nodes.1),
        branches: branches.collect(),
    }
}

/// Largest: cold metal, joints as good as they get. Smallest: metal at the
/// insulation's limit, joints as bad as they may be.
fn wire_resistance(wire: &circuit::Wire, end: End) -> Resistance {
    let line = |celsius| {
        resistance_at(
            wire.build.resistance_at_20,
            Temperature::from_celsius(celsius),
        )
    };
    match end {
        End::Largest => line(COLD_CELSIUS) * wire.length.value,
        End::Smallest => {
            let joint = circuit::worst_joint(wire.metal);
            let joints = wire.joint_from.value.max(joint) + wire.joint_to.value.max(joint);
            line(wire.limit.celsius()) * wire.length.value + joints
        }
    }
}

/// A source as a voltage behind a resistance. One that limits its own current
/// gives that current into a short circuit.
fn source(demand: Demand, end: End) -> Element {
    let limited = |volts: Voltage, amps: wainwright_units::Current| Element::Source {
        emf: volts,
        resistance: circuit::at_least_contact(volts / amps),
    };
    match (demand, end) {
        (
            Demand::Battery {
                nominal,
                full,
                resistance,
                ..
            },
            End::Largest,
        ) => {
            let factors = short_circuit_factors();
            let high = factors.as_ref().map_or(1.0, |f| f.highest_voltage.value);
            let share = factors.as_ref().map_or(1.0, |f| f.lowest_resistance.value);
            Element::Source {
                emf: full.max(nominal * high),
                resistance: resistance * share,
            }
        }
        (Demand::Battery { low, weakest, .. }, End::Smallest) => Element::Source {
            emf: low,
            resistance: weakest,
        },
        (
            Demand::Supply {
                emf, resistance, ..
            },
            _,
        ) => Element::Source { emf, resistance },
        (Demand::Charger { limit, most }, End::Largest) if most.amperes() > 0.0 => {
            limited(limit, most)
        }
        (Demand::Module { open, short, .. }, End::Largest) if short.amperes() > 0.0 => {
            limited(open, short)
        }
        _ => Element::Open,
    }
}

/// Every node on the plus side, with its nearest and farthest way back.
fn places(circuit: &Circuit) -> Vec<Place> {
    let graph = Graph::new(circuit);
    let count = circuit.nodes.len();
    let mut near = vec![None; count];
    let mut far = vec![None; count];
    let sources = circuit.consumers.iter().filter(|c| c.demand.is_source());
    let (batteries, others): (Vec<_>, Vec<_>) =
        sources.partition(|c| matches!(c.demand, Demand::Battery { .. }));
    for source in batteries.into_iter().chain(others) {
        let plus = graph.reach(source.nodes.0, &circuit.branches);
        let minus = graph.reach(source.nodes.1, &circuit.branches);
        let back = way_back(circuit, &minus);
        let farthest = farthest_gear(circuit, &plus, &back);
        let ways_back = WaysBack::new(circuit, &minus);
        let gear = gear_behind(circuit, &plus, |consumer| consumer.nodes.0);
        let gear_end = |c: &circuit::Consumer| !matches!(c.demand, Demand::Battery { .. });
        let own = |node: usize| {
            circuit
                .consumers
                .iter()
                .any(|c| c.nodes.0 == node && gear_end(c))
        };
        for node in 0..count {
            if plus.reaches(node) && near[node].is_none() && circuit.sides[node] == Side::Plus {
                near[node] = Some(source.nodes.1);
                far[node] = match farthest[node] {
                    Some(minus) if !own(node) => Some(ways_back.meeting(minus, gear[node])),
                    minus => minus,
                };
            }
        }
    }
    let place = |node: usize| {
        let near = near[node]?;
        let far = far[node].filter(|far| *far != node).unwrap_or(near);
        (near != node).then_some(Place { node, near, far })
    };
    (0..count).filter_map(place).collect()
}

/// Resistance of the path tree from a source's minus to each node.
fn way_back(circuit: &Circuit, minus: &Reach) -> Vec<Option<f64>> {
    let mut ohms = vec![None; circuit.nodes.len()];
    for (node, before) in minus.tree() {
        ohms[node] = match before {
            None => Some(0.0),
            Some((branch, before)) => {
                ohms[before].map(|here: f64| here + branch_ohms(circuit, branch))
            }
        };
    }
    ohms
}

fn branch_ohms(circuit: &Circuit, branch: usize) -> f64 {
    match circuit.branches[branch].part {
        Part::Wire(wire) => wire_resistance(&circuit.wires[wire], End::Smallest).ohms(),
        Part::Fixed(resistance) => resistance.ohms(),
        Part::Device(device) => circuit.devices[device].resistance.value.ohms(),
        Part::Contact(contact) => circuit.contacts[contact].resistance.value.ohms(),
        Part::Consumer(_) => 0.0,
    }
}

/// Ways back to a source's minus terminal, as a tree.
struct WaysBack {
    before: Vec<Option<usize>>,
    /// Per node: pieces of gear whose way back leads through it.
    gear: Vec<usize>,
}

impl WaysBack {
    fn new(circuit: &Circuit, minus: &Reach) -> Self {
        let mut before = vec![None; circuit.nodes.len()];
        minus
            .tree()
            .for_each(|(node, by)| before[node] = by.map(|(_, node)| node));
        let gear = gear_behind(circuit, minus, |consumer| consumer.nodes.1);
        Self { before, gear }
    }

    /// The first place, going from a piece of gear towards the source, that
    /// more than `own` pieces of gear share. A short circuit on the way to
    /// gear lies beside that gear's own return, which begins there.
    fn meeting(&self, gear_minus: usize, own: usize) -> usize {
        let mut here = gear_minus;
        while let (true, Some(before)) = (self.gear[here] <= own, self.before[here]) {
            here = before;
        }
        here
    }
}

/// Per node: pieces of gear behind it, as seen from the start of a reach.
fn gear_behind(
    circuit: &Circuit,
    reach: &Reach,
    end: fn(&circuit::Consumer) -> usize,
) -> Vec<usize> {
    let mut behind = vec![0_usize; circuit.nodes.len()];
    circuit
        .consumers
        .iter()
        .for_each(|consumer| behind[end(consumer)] += 1);
    let tree: Vec<_> = reach.tree().collect();
    for (node, before) in tree.into_iter().rev() {
        if let Some((_, before)) = before {
            behind[before] += behind[node];
        }
    }
    behind
}

/// For each node: the minus terminal, of the gear behind it, with the longest way back.
fn farthest_gear(circuit: &Circuit, plus: &Reach, back: &[Option<f64>]) -> Vec<Option<usize>> {
    let mut best: Vec<Option<(f64, usize)>> = vec![None; circuit.nodes.len()];
    for consumer in &circuit.consumers {
        let Some(ohms) = back.get(consumer.nodes.1).copied().flatten() else {
            continue;
        };
        if plus.reaches(consumer.nodes.0) {
            let here = &mut best[consumer.nodes.0];
            if here.is_none_or(|(most, _)| ohms > most) {
                *here = Some((ohms, consumer.nodes.1));
            }
        }
    }
    for (node, before) in plus.tree().collect::<Vec<_>>().into_iter().rev() {
        let (Some((_, before)), Some(found)) = (before, best[node]) else {
            continue;
        };
        if best[before].is_none_or(|(most, _)| found.0 > most) {
            best[before] = Some(found);
        }
    }
    best.into_iter()
        .map(|found| found.map(|(_, node)| node))
        .collect()
}

fn result(circuit: &Circuit, place: &Place, largest: &Outcome, smallest: &Outcome) -> FaultResult {
    let touches = |wire: &circuit::Wire| wire.from_node == place.node || wire.to_node == place.node;
    let wires = circuit
        .wires
        .iter()
        .enumerate()
        .filter(|(_, wire)| touches(wire));
    let members = circuit.nodes.members(place.node);
    let first = circuit
        .consumers
        .first()
        .map(|c| (c.item.clone(), c.plus.clone()));
    FaultResult {
        node: place.node,
        at: members
            .first()
            .cloned()
            .or(first)
            .unwrap_or_else(|| unnamed(circuit)),
        wires: wires.map(|(index, _)| index).collect(),
        largest: end(largest),
        smallest: end(smallest),
    }
}

/// Every node has a terminal; this only keeps the type whole.
fn unnamed(circuit: &Circuit) -> (wainwright_model::Id, String) {
    let wire = &circuit.wires[0];
    wire.from.clone()
}

fn end(outcome: &Outcome) -> FaultEnd {
    let first = outcome.paths.iter().find(|path| !path.devices.is_empty());
    let (selective, rival) = match outcome
        .paths
        .iter()
        .map(|path| path.selectivity)
        .max_by_key(rank)
    {
        Some(Selectivity::NotProven { upstream }) => (Some(false), Some(upstream)),
        Some(Selectivity::Proven | Selectivity::Single) => (Some(true), None),
        _ => (None, None),
    };
    let remaining = match outcome.clearing {
        Clearing::Never { remaining } | Clearing::Uncertain { remaining, .. } => Some(remaining),
        _ => None,
    };
    FaultEnd {
        amps: outcome.current,
        openings: openings(outcome),
        cleared: match outcome.clearing {
            Clearing::Cleared { earliest, latest } => Some((earliest, latest)),
            _ => None,
        },
        stresses: stresses(outcome),
        should_open: first
            .and_then(|path| path.devices.first())
            .map(|duty| duty.device),
        selective,
        rival,
        comes_back: outcome.comes_back,
        remaining,
    }
}

fn rank(selectivity: &Selectivity) -> u8 {
    match selectivity {
        Selectivity::NotProven { .. } => 3,
        Selectivity::Proven => 2,
        Selectivity::Single => 1,
        Selectivity::Unprotected => 0,
    }
}

/// Openings that will happen, then devices that see the fault without being
/// promised to open.
fn openings(outcome: &Outcome) -> Vec<Opening> {
    let mut found: Vec<Opening> = outcome
        .openings
        .iter()
        .map(|opening| Opening {
            device: opening.device,
            amps: opening.current,
            earliest: opening.earliest.unwrap_or(opening.latest),
            latest: Some(opening.latest),
            beyond_interrupt: opening.above_interrupt.unwrap_or(false),
        })
        .collect();
    let duties = outcome.paths.iter().flat_map(|path| &path.devices);
    for duty in duties {
        let known = found.iter().any(|opening| opening.device == duty.device);
        if let (false, Some(earliest)) = (known, duty.band.earliest) {
            found.push(Opening {
                device: duty.device,
                amps: duty.current,
                earliest,
                latest: duty.band.latest,
                beyond_interrupt: duty.above_interrupt.unwrap_or(false),
            });
        }
    }
    found
}

/// How long a current takes to put the energy k²S² [A²·s] into a conductor.
fn adiabatic_time(withstand: f64, amps: f64) -> Option<Duration> {
    let seconds = withstand / (amps * amps);
    (seconds <= ADIABATIC_SECONDS).then(|| Duration::from_seconds(seconds))
}

fn stresses(outcome: &Outcome) -> Vec<Stress> {
    let mut found: Vec<Stress> = outcome
        .stresses
        .iter()
        .map(|stress| Stress {
            wire: stress.conductor,
            amps: stress.current,
            hottest: stress.hottest.min(Temperature::from_celsius(MELTING)),
            survives: stress.survives,
            stands: adiabatic_time(stress.withstand, stress.current.amperes()),
        })
        .collect();
    found.sort_by(|a, b| {
        let heat = b.hottest.celsius().total_cmp(&a.hottest.celsius());
        a.survives
            .cmp(&b.survives)
            .then(heat)
            .then(a.wire.cmp(&b.wire))
    });
    found.truncate(MOST_STRESSES);
    found
}
