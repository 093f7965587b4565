//! Gathers circuit, states, faults and guards into the assessment.

mod devices;
mod gear;
mod wires;
mod wiring;

use super::faults::Faults;
use super::solve::Solved;
use super::states::State;
use crate::circuit::{Circuit, Demand, Part};
use crate::result::{Assessment, Guard, Node, Outcome, StateResult};
use wainwright_engines::network::{NetworkError, OperatingPoint};
use wainwright_model::Project;
use wainwright_units::{Current, Power, TemperatureDifference};

/// What protects the conductors.
pub(super) struct Protection {
    pub(super) faults: Faults,
    /// Per wire.
    pub(super) guards: Vec<Vec<Guard>>,
    /// Per wire: largest lasting current of all sources together.
    pub(super) together: Vec<Option<Current>>,
}

pub(super) fn assessment(
    project: &Project,
    circuit: Circuit,
    states: Vec<State>,
    solved: Vec<Solved>,
    mut protection: Protection,
) -> Assessment {
    wires::add_overloads(&circuit, &mut protection);
    let desk = Desk {
        circuit: &circuit,
        states: &states,
        solved: &solved,
    };
    let nodes = (0..circuit.nodes.len()).map(|node| Node {
        terminals: circuit.nodes.members(node).to_vec(),
        side: circuit.sides[node],
    });
    let capacity = wiring::capacity(project, &circuit);
    let settings = crate::settings::study(project, &circuit, capacity);
    Assessment {
        capacity,
        settings,
        nodes: nodes.collect(),
        devices: desk.devices(&protection),
        consumers: desk.consumers(),
        states: desk.states(),
        loose: wiring::loose(project),
        reversed: wiring::reversed(&circuit),
        joints: desk.joints(),
        wires: desk.wires(protection.guards, &protection.together),
        unstudied: protection.faults.unstudied,
        faults: protection.faults.results,
        system_volts: circuit.system_volts,
        limits: circuit.limits,
        assumptions: circuit.notes.assumed,
        missing: circuit.notes.missing,
        routing: circuit.routing,
        road: crate::road::study(project),
    }
}

/// Everything that results are written from.
struct Desk<'a> {
    circuit: &'a Circuit,
    states: &'a [State],
    solved: &'a [Solved],
}

impl Desk<'_> {
    fn states(&self) -> Vec<StateResult> {
        let states = self.states.iter().zip(self.solved);
        states
            .map(|(state, solved)| StateResult {
                kind: state.kind.clone(),
                label: state.label.clone(),
                lasting: state.lasting,
                outcome: self.outcome(solved),
                heat_residual: TemperatureDifference::from_kelvins(solved.moved),
                node_volts: solved
                    .point
                    .as_ref()
                    .map_or_else(|_| Vec::new(), |p| p.node_volts.clone()),
            })
            .collect()
    }

    /// Power of loads that are resistances: the engine counts it as lost.
    fn heaters(&self, point: &OperatingPoint) -> Power {
        let branches = self.circuit.branches.iter().zip(&point.branch_amps);
        let powers = branches.filter_map(|(branch, amps)| match branch.part {
            Part::Consumer(index) => match self.circuit.consumers[index].demand {
                Demand::Resistance(ohms) => Some((*amps * ohms) * *amps),
                _ => None,
            },
            _ => None,
        });
        powers.fold(Power::from_watts(0.0), |sum, one| sum + one)
    }

    fn outcome(&self, solved: &Solved) -> Outcome {
        match &solved.point {
            Ok(point) if point.node_volts.iter().all(Option::is_none) => Outcome::Empty,
            Ok(point) => {
                let heaters = self.heaters(point);
                Outcome::Steady {
                    sources: point.balance.sources,
                    loads: point.balance.loads + heaters,
                    losses: point.balance.losses - heaters,
                    residual: point.largest_residual,
                    iterations: solved.steps,
                }
            }
            Err(NetworkError::Collapse(collapse)) => {
                let part = self
                    .circuit
                    .branches
                    .get(collapse.weakest_branch)
                    .map(|b| b.part);
                let weakest = match part {
                    Some(Part::Consumer(index)) => Some(self.circuit.consumers[index].item.clone()),
                    _ => None,
                };
                Outcome::Collapse {
                    carried: collapse.carried,
                    wanted: collapse.power_wanted,
                    possible: collapse.power_carried,
                    weakest,
                    volts: collapse.volts_there,
                }
            }
            Err(_) => Outcome::Empty,
        }
    }

    /// Largest current of a branch over the lasting states, and the state.
    fn most_lasting(&self, branch: usize) -> Option<(Current, usize)> {
        let lasting = (0..self.states.len())
            .filter(|s| self.states[*s].lasting && self.solved[*s].point.is_ok());
        lasting
            .map(|state| (amps(&self.solved[state], branch).amperes().abs(), state))
            .max_by(|a, b| a.0.total_cmp(&b.0).then(b.1.cmp(&a.1)))
            .map(|(amps, state)| (Current::from_amperes(amps), state))
    }
}

/// Current of a branch in a solved state; none where it has no operating point.
fn amps(solved: &Solved, branch: usize) -> Current {
    let zero = Current::from_amperes(0.0);
    solved.point.as_ref().map_or(zero, |point| {
        point.branch_amps.get(branch).copied().unwrap_or(zero)
    })
}
