//! Ohm and Kirchhoff on random projects, from the printed results alone.

use crate::random::make;
use wainwright_analysis::result::{Assessment, Outcome, Role};
use wainwright_analysis::{assess, voltage_path};

const PROJECTS: u64 = 150;

fn solved(found: &Assessment) -> impl Iterator<Item = usize> + '_ {
    let steady = |state: &usize| matches!(found.states[*state].outcome, Outcome::Steady { .. });
    (0..found.states.len()).filter(steady)
}

#[test]
fn what_sources_give_is_taken_or_lost() {
    for seed in 0..PROJECTS {
        let found = assess(&make(seed).project());
        for state in solved(&found) {
            let Outcome::Steady {
                sources,
                loads,
                losses,
                residual,
                ..
            } = &found.states[state].outcome
            else {
                continue;
            };
            let left = sources.watts() - loads.watts() - losses.watts();
            assert!(
                left.abs() < 1e-6 * sources.watts().abs().max(1.0),
                "{left} W in project {seed}"
            );
            assert!(residual.amperes().abs() < 1e-6);
            let taken = found
                .consumers
                .iter()
                .filter(|c| matches!(c.role, Role::Load | Role::Inverter));
            let taken: f64 = taken.map(|c| c.states[state].power.watts()).sum();
            assert!(
                (taken - loads.watts()).abs() < 1e-6 * taken.abs().max(1.0)
                    || charges(&found, state)
            );
        }
    }
}

/// Batteries that are charged count as loads in the balance.
fn charges(found: &Assessment, state: usize) -> bool {
    let batteries = found.consumers.iter().filter(|c| c.role == Role::Battery);
    let mut batteries = batteries.map(|c| c.states[state].amps.amperes());
    batteries.any(|amps| amps < 0.0)
}

#[test]
fn every_wire_obeys_ohm() {
    for seed in 0..PROJECTS {
        let found = assess(&make(seed).project());
        for state in solved(&found) {
            let volts = |node: usize| found.states[state].node_volts[node].map(|v| v.volts());
            for wire in &found.wires {
                let now = wire.states[state];
                let (Some(from), Some(to)) = (volts(wire.from_node), volts(wire.to_node)) else {
                    assert_eq!(now.amps.amperes(), 0.0);
                    continue;
                };
                let lost = now.amps.amperes() * now.resistance.ohms();
                assert!(
                    (from - to - lost).abs() < 1e-7,
                    "{} in project {seed}",
                    wire.id
                );
            }
        }
    }
}

#[test]
fn currents_into_a_bus_bar_add_up_to_nothing() {
    for seed in 0..PROJECTS {
        let found = assess(&make(seed).project());
        for state in solved(&found) {
            let bars = found.nodes.iter().enumerate();
            let bars = bars.filter(|(_, node)| node.terminals[0].0.as_str().starts_with("bar"));
            for (bar, _) in bars {
                let into: f64 = found
                    .wires
                    .iter()
                    .map(|wire| {
                        let amps = wire.states[state].amps.amperes();
                        let sign = |node| if node == bar { 1.0 } else { 0.0 };
                        amps * (sign(wire.to_node) - sign(wire.from_node))
                    })
                    .sum();
                assert!(into.abs() < 1e-6, "{into} A left over in project {seed}");
            }
        }
    }
}

#[test]
fn the_voltages_lost_on_the_way_add_up_to_the_drop() {
    let mut compared = 0;
    for seed in 0..PROJECTS {
        let project = make(seed).project();
        let found = assess(&project);
        for state in solved(&found) {
            for gear in found.consumers.iter().filter(|c| c.role != Role::Battery) {
                let Some(drop) = gear.states[state].drop else {
                    continue;
                };
                let path = voltage_path(&project, &found, gear.item.as_str(), state);
                let lost: f64 = path.iter().map(|step| step.lost.volts()).sum();
                assert!(
                    (lost - drop.volts()).abs() < 1e-9,
                    "{} in project {seed}",
                    gear.item
                );
                compared += 1;
            }
        }
    }
    assert!(compared > 300, "only {compared} paths were compared");
}
