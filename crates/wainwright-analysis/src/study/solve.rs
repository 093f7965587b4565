//! One state solved with its conductors as hot as they get: the operating
//! point gives currents, currents give temperatures, temperatures give
//! resistances, until nothing moves any more.

use super::network::network;
use super::states::{self, State};
use crate::circuit::{Circuit, Consumer, Demand, Wire};
use wainwright_engines::conductor::{MELTING, resistance_at};
use wainwright_engines::conductor_heat::{HeatError, steady};
use wainwright_engines::network::{
    Element, NetworkError, OperatingPoint, Options, Plan, operating_point,
};
use wainwright_units::{Current, Length, LineHeat, Resistance, Temperature, Voltage};

/// Temperature change below which the loop has settled \[K\].
const SETTLED_KELVINS: f64 = 0.1;
/// Change of a current, as a share of it, that moves no temperature by more
/// than a tenth of what counts as settled: the rise goes with the square.
const SAME_SHARE: f64 = 5e-5;
/// Heat passes allowed for one state.
const MOST_PASSES: usize = 12;

/// A solved state.
pub(crate) struct Solved {
    pub(crate) point: Result<OperatingPoint, NetworkError>,
    /// Temperature and heat of each wire.
    pub(crate) wires: Vec<WireHeat>,
    /// Newton steps over all passes.
    pub(crate) steps: usize,
    /// Largest temperature change of any wire in the last pass \[K\].
    pub(crate) moved: f64,
}

/// How one wire stands in a state.
#[derive(Debug, Clone, Copy)]
pub(crate) struct WireHeat {
    pub(crate) temperature: Temperature,
    pub(crate) heat: LineHeat,
    pub(crate) resistance: Resistance,
    /// Current that gave this temperature, without its sign.
    amps: Current,
}

/// Solves one state. `start` gives the wires' condition to begin from. The
/// resistances handed back are those that the operating point was found with.
pub(crate) fn solve(
    circuit: &Circuit,
    state: &State,
    start: &[WireHeat],
    inputs: &[Voltage],
) -> Solved {
    let mut wires = start.to_vec();
    let mut wired = network(circuit, state, &resistances(&wires), inputs);
    let mut solved = match Plan::new(&wired) {
        Ok(plan) => {
            let point = plan.solve(&wired, None);
            (plan, point)
        }
        Err(error) => {
            return Solved {
                point: Err(error),
                wires,
                steps: 0,
                moved: 0.0,
            };
        }
    };
    let (plan, point) = (&solved.0, &mut solved.1);
    let (mut steps, mut moved) = (0, 0.0);
    for _ in 0..MOST_PASSES {
        let Ok(found) = &*point else { break };
        steps += found.iterations;
        if !state.lasting {
            break;
        }
        let warmer = warm_up(circuit, found, &wires);
        moved = largest_move(&wires, &warmer);
        if moved < SETTLED_KELVINS {
            break;
        }
        wires = warmer;
        wired = network(circuit, state, &resistances(&wires), inputs);
        let next = plan.solve(&wired, Some(found));
        *point = next;
    }
    if let Ok(found) = &*point {
        add_heat(circuit, found, &mut wires);
    }
    Solved {
        point: solved.1,
        wires,
        steps,
        moved,
    }
}

fn resistances(wires: &[WireHeat]) -> Vec<Resistance> {
    wires.iter().map(|wire| wire.resistance).collect()
}

/// Every wire at the temperature of what surrounds it.
pub(crate) fn cold(circuit: &Circuit) -> Vec<WireHeat> {
    let wires = circuit.wires.iter();
    wires
        .map(|wire| WireHeat {
            temperature: wire.air.value,
            heat: LineHeat::from_watts_per_metre(0.0),
            resistance: resistance(wire, wire.air.value),
            amps: Current::from_amperes(0.0),
        })
        .collect()
}

/// Voltage each controller holds its modules at: their share of what they give
/// without load; zero for every other consumer.
pub(crate) fn module_inputs(
    circuit: &Circuit,
    charging: &State,
    cold: &[WireHeat],
) -> Vec<Voltage> {
    let zero = Voltage::from_volts(0.0);
    let mut inputs = vec![zero; circuit.consumers.len()];
    if circuit.module_strings.is_empty() {
        return inputs;
    }
    let mut unloaded = network(circuit, charging, &resistances(cold), &inputs);
    for branch in &mut unloaded.branches {
        let taking = matches!(
            branch.element,
            Element::ConstantPower { .. } | Element::Regulated { .. }
        );
        if taking {
            branch.element = Element::Open;
        }
    }
    let Ok(point) = operating_point(&unloaded, &Options::default()) else {
        return inputs;
    };
    let volts = |node: usize| point.node_volts.get(node).copied().flatten();
    for (held, consumer) in inputs.iter_mut().zip(&circuit.consumers) {
        let ends = (volts(consumer.nodes.0), volts(consumer.nodes.1));
        if let (Demand::ModuleInput, (Some(plus), Some(minus))) = (consumer.demand, ends) {
            *held = (plus - minus) * best_share(circuit, consumer);
        }
    }
    inputs
}

/// Best over open voltage of the modules that feed an input.
fn best_share(circuit: &Circuit, input: &Consumer) -> f64 {
    let mut best = Voltage::from_volts(0.0);
    let mut all = Voltage::from_volts(0.0);
    for source in states::feeding(circuit, input) {
        if let Demand::Module {
            open, best_volts, ..
        } = circuit.consumers[source].demand
        {
            best += best_volts;
            all += open;
        }
    }
    if all.volts() > 0.0 { best / all } else { 0.0 }
}

/// Every wire at the temperature its current gives.
fn warm_up(circuit: &Circuit, point: &OperatingPoint, wires: &[WireHeat]) -> Vec<WireHeat> {
    let each = circuit.wires.iter().zip(wires).enumerate();
    let warmer = each.map(|(index, (wire, now))| {
        let amps = amps(circuit, point, index);
        if (amps - now.amps).abs().amperes() <= SAME_SHARE * amps.amperes() {
            return *now;
        }
        let temperature = settled(wire, amps);
        WireHeat {
            temperature,
            resistance: resistance(wire, temperature),
            amps,
            ..*now
        }
    });
    warmer.collect()
}

fn largest_move(before: &[WireHeat], after: &[WireHeat]) -> f64 {
    let pairs = before.iter().zip(after);
    let moves = pairs.map(|(a, b)| (a.temperature.celsius() - b.temperature.celsius()).abs());
    moves.fold(0.0, f64::max)
}

/// Heat along every wire at its temperature.
fn add_heat(circuit: &Circuit, point: &OperatingPoint, wires: &mut [WireHeat]) {
    let metre = Length::from_metres(1.0);
    for (index, (wire, now)) in circuit.wires.iter().zip(wires).enumerate() {
        let amps = amps(circuit, point, index);
        let line = resistance_at(wire.build.resistance_at_20, now.temperature);
        let power = (amps * (line * metre)) * amps;
        now.heat = LineHeat::from_watts_per_metre(power.watts());
    }
}

/// Current of a wire, without its sign.
fn amps(circuit: &Circuit, point: &OperatingPoint, wire: usize) -> Current {
    let amps = point.branch_amps.get(circuit.first_wire() + wire);
    amps.map_or(Current::from_amperes(0.0), |amps| amps.abs())
}

/// Resistance of a wire at a temperature, its joints included.
fn resistance(wire: &Wire, temperature: Temperature) -> Resistance {
    let line = resistance_at(wire.build.resistance_at_20, temperature);
    line * wire.length.value + wire.joint_from.value + wire.joint_to.value
}

/// Temperature a wire settles at; that of the air where there is no answer.
fn settled(wire: &Wire, current: Current) -> Temperature {
    match steady(&wire.build, &wire.surroundings, wire.air.value, current) {
        Ok(found) => found.conductor,
        Err(HeatError::Melts { .. }) => Temperature::from_celsius(MELTING),
        Err(_) => wire.air.value,
    }
}
