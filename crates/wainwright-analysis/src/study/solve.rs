//! One state solved with its conductors as hot as they get: the operating
//! point gives currents, currents give temperatures, temperatures give
//! resistances, until nothing moves any more.

use super::states::{self, State};
use crate::circuit::{Circuit, Demand};
use wainwright_engines::conductor::{MELTING, resistance_at};
use wainwright_engines::conductor_heat::{HeatError, Steady, steady};
use wainwright_engines::network::{
    Element, NetworkError, OperatingPoint, Options, Plan, operating_point,
};
use wainwright_units::{Current, LineHeat, Resistance, Temperature, Voltage};

/// Temperature change below which the loop has settled [K].
const SETTLED_KELVINS: f64 = 0.1;
/// Heat passes allowed for one state.
const MOST_PASSES: usize = 12;

/// A solved state.
pub(crate) struct Solved {
    pub(crate) point: Result<OperatingPoint, NetworkError>,
    /// Temperature and heat of each wire.
    pub(crate) wires: Vec<WireHeat>,
    /// Newton steps over all passes.
    pub(crate) steps: usize,
}

/// How one wire stands in a state.
#[derive(Debug, Clone, Copy)]
pub(crate) struct WireHeat {
    pub(crate) temperature: Temperature,
    pub(crate) heat: LineHeat,
    pub(crate) resistance: Resistance,
}

/// Solves one state. `start` gives the wires' condition to begin from.
pub(crate) fn solve(
    circuit: &Circuit,
    state: &State,
    start: &[WireHeat],
    inputs: &[Voltage],
) -> Solved {
    let mut wires = start.to_vec();
    let mut steps = 0;
    let mut network = states::network(circuit, state, &resistances(&wires), inputs);
    let plan = match Plan::new(&network) {
        Ok(plan) => plan,
        Err(error) => {
            return Solved {
                point: Err(error),
                wires,
                steps,
            };
        }
    };
    let mut point = plan.solve(&network, None);
    for _ in 0..MOST_PASSES {
        let Ok(found) = &point else { break };
        steps += found.iterations;
        if !state.lasting || warm_up(circuit, found, &mut wires) < SETTLED_KELVINS {
            break;
        }
        network = states::network(circuit, state, &resistances(&wires), inputs);
        point = plan.solve(&network, Some(found));
    }
    Solved {
        point,
        wires,
        steps,
    }
}

fn resistances(wires: &[WireHeat]) -> Vec<Resistance> {
    wires.iter().map(|wire| wire.resistance).collect()
}

/// Every wire at the temperature of what surrounds it.
pub(crate) fn cold(circuit: &Circuit) -> Vec<WireHeat> {
    let wires = circuit.wires.iter();
    wires
        .map(|wire| {
            let line = resistance_at(wire.build.resistance_at_20, wire.air.value);
            WireHeat {
                temperature: wire.air.value,
                heat: LineHeat::from_watts_per_metre(0.0),
                resistance: line * wire.length.value + wire.joint_from.value + wire.joint_to.value,
            }
        })
        .collect()
}

/// Voltage each controller holds its modules at, found from what the modules
/// give without load; zero for every other consumer.
pub(crate) fn module_inputs(
    circuit: &Circuit,
    charging: &State,
    cold: &[WireHeat],
) -> Vec<Voltage> {
    let nothing = vec![Voltage::from_volts(0.0); circuit.consumers.len()];
    let share = circuit.consumers.iter().find_map(|c| match c.demand {
        Demand::Module {
            open, best_volts, ..
        } => Some(best_volts / open),
        _ => None,
    });
    let Some(share) = share else { return nothing };
    let mut network = states::network(circuit, charging, &resistances(cold), &nothing);
    for branch in &mut network.branches {
        if matches!(
            branch.element,
            Element::ConstantPower { .. } | Element::Regulated { .. }
        ) {
            branch.element = Element::Open;
        }
    }
    let Ok(point) = operating_point(&network, &Options::default()) else {
        return nothing;
    };
    let volts = |node: usize| point.node_volts.get(node).copied().flatten();
    let input = |consumer: &crate::circuit::Consumer| match consumer.demand {
        Demand::ModuleInput => match (volts(consumer.nodes.0), volts(consumer.nodes.1)) {
            (Some(plus), Some(minus)) => (plus - minus) * share,
            _ => Voltage::from_volts(0.0),
        },
        _ => Voltage::from_volts(0.0),
    };
    circuit.consumers.iter().map(input).collect()
}

/// Brings every wire to the temperature its current gives; the largest move [K].
fn warm_up(circuit: &Circuit, point: &OperatingPoint, wires: &mut [WireHeat]) -> f64 {
    let mut moved: f64 = 0.0;
    let first = circuit.branches.len() - circuit.wires.len();
    for (index, (wire, now)) in circuit.wires.iter().zip(wires).enumerate() {
        let amps = point
            .branch_amps
            .get(first + index)
            .map_or(0.0, |amps| amps.amperes().abs());
        let (temperature, heat) = settled(wire, Current::from_amperes(amps));
        moved = moved.max((temperature.celsius() - now.temperature.celsius()).abs());
        let line = resistance_at(wire.build.resistance_at_20, temperature);
        let resistance = line * wire.length.value + wire.joint_from.value + wire.joint_to.value;
        *now = WireHeat {
            temperature,
            heat,
            resistance,
        };
    }
    moved
}

fn settled(wire: &crate::circuit::Wire, current: Current) -> (Temperature, LineHeat) {
    match steady(&wire.build, &wire.surroundings, wire.air.value, current) {
        Ok(Steady {
            conductor, heat, ..
        }) => (conductor, heat),
        Err(HeatError::Melts { .. }) => {
            let melted = Temperature::from_celsius(MELTING);
            let line = resistance_at(wire.build.resistance_at_20, melted).ohms_per_metre();
            let watts = current.amperes() * current.amperes() * line;
            (melted, LineHeat::from_watts_per_metre(watts))
        }
        Err(_) => (wire.air.value, LineHeat::from_watts_per_metre(0.0)),
    }
}
