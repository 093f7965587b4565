//! The study: states solved, faults followed, guards found, and all of it
//! gathered into one assessment.

mod ampacity;
mod assemble;
mod faults;
mod flows;
mod graph;
mod guards;
mod network;
mod solve;
mod states;

use crate::circuit::{self, Circuit};
use crate::result::Assessment;
pub(crate) use ampacity::of as ampacity_of;
pub(crate) use graph::Graph;
use solve::{Solved, WireHeat};
use states::State;
use wainwright_engines::network::{Network, OperatingPoint, Options, operating_point};
use wainwright_model::Project;

/// Assesses a project. Total: an unfinished or wrong project gives every
/// answer it can, and says what is missing.
pub fn assess(project: &Project) -> Assessment {
    let circuit = circuit::lower(project);
    let states = states::all(project, &circuit);
    let solved = solve_all(&circuit, &states);
    let hottest = hottest(&circuit, &states, &solved);
    let graph = Graph::new(&circuit);
    let faults = faults::run(&circuit, &graph, &hottest);
    let guards = guards::all(&circuit, &graph);
    let together = flows::together(&circuit, &graph);
    let protection = assemble::Protection {
        faults,
        guards,
        together,
    };
    assemble::assessment(project, circuit, states, solved, protection)
}

/// One state's network with its final resistances, and its operating point.
pub(crate) struct Solution {
    pub(crate) network: Network,
    pub(crate) point: OperatingPoint,
}

/// Solves one state on its own; `None` when it has no operating point.
pub(crate) fn solve_state(project: &Project, circuit: &Circuit, state: usize) -> Option<Solution> {
    let states = states::all(project, circuit);
    let mut solved = solve_all(circuit, &states);
    let wanted = states.get(state)?;
    let inputs = inputs(circuit, &states);
    if state >= solved.len() {
        return None;
    }
    let found = solved.swap_remove(state);
    let resistances: Vec<_> = found.wires.iter().map(|wire| wire.resistance).collect();
    let network = network::network(circuit, wanted, &resistances, &inputs);
    let point = operating_point(&network, &Options::default()).ok()?;
    Some(Solution { network, point })
}

/// Voltages at which controllers hold their modules.
fn inputs(circuit: &Circuit, states: &[State]) -> Vec<wainwright_units::Voltage> {
    let charging = states
        .iter()
        .find(|s| s.kind == crate::result::StateKind::Charging);
    charging.map_or_else(Vec::new, |state| {
        solve::module_inputs(circuit, state, &solve::cold(circuit))
    })
}

/// Solves every state. A state that does not last starts from the conductors
/// as the everything-on state leaves them.
fn solve_all(circuit: &Circuit, states: &[State]) -> Vec<Solved> {
    let cold = solve::cold(circuit);
    let inputs = inputs(circuit, states);
    let mut solved: Vec<Solved> = Vec::with_capacity(states.len());
    for state in states {
        let start = match (state.lasting, solved.first()) {
            (false, Some(first)) => first.wires.clone(),
            _ => cold.clone(),
        };
        solved.push(solve::solve(circuit, state, &start, &inputs));
    }
    solved
}

/// Each wire as it is in the lasting state in which it is hottest.
fn hottest(circuit: &Circuit, states: &[State], solved: &[Solved]) -> Vec<WireHeat> {
    let mut hottest = solve::cold(circuit);
    for (_, found) in states.iter().zip(solved).filter(|(state, _)| state.lasting) {
        for (most, wire) in hottest.iter_mut().zip(&found.wires) {
            if wire.temperature.celsius() > most.temperature.celsius() {
                *most = *wire;
            }
        }
    }
    hottest
}
