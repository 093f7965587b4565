//! The highest voltage each node can see: charging voltage of the system, or
//! solar modules in series without load. Not here: which parts bear it.

use crate::view::Graph;
use std::collections::{BTreeMap, BTreeSet};
use wainwright_analysis::result::{Assessment, Role};
use wainwright_model::{Project, Spec};
use wainwright_units::Voltage;

/// Highest voltage of each node against the minus of its own part of the
/// circuit, over all states; at solar modules their open-circuit voltages in
/// series.
pub(crate) fn highest_volts(
    assessment: &Assessment,
    project: &Project,
    graph: &Graph,
) -> BTreeMap<usize, Voltage> {
    let mut highest: BTreeMap<usize, Voltage> = BTreeMap::new();
    let mut raise = |node: usize, volts: Voltage| {
        let known = highest.entry(node).or_insert(volts);
        *known = known.max(volts);
    };
    for state in &assessment.states {
        for (node, volts) in state.node_volts.iter().enumerate() {
            if let Some(volts) = volts {
                raise(node, volts.abs());
            }
        }
    }
    for (node, volts) in module_volts(assessment, project, graph) {
        raise(node, volts);
    }
    highest
}

/// Walks from the minus of every string of modules upwards, adding one
/// open-circuit voltage at each module. Capped at one visit of each module.
fn module_volts(
    assessment: &Assessment,
    project: &Project,
    graph: &Graph,
) -> BTreeMap<usize, Voltage> {
    let modules = modules(assessment, project);
    let islands: Vec<(BTreeSet<usize>, BTreeSet<usize>, Voltage)> = modules
        .iter()
        .map(|(plus, minus, volts)| {
            (
                graph.reach(*plus, |_| true),
                graph.reach(*minus, |_| true),
                *volts,
            )
        })
        .filter(|(plus, minus, _)| plus.is_disjoint(minus))
        .collect();
    let mut highest: BTreeMap<usize, Voltage> = BTreeMap::new();
    for _ in 0..islands.len() {
        for (plus, minus, volts) in &islands {
            let below = minus
                .iter()
                .filter_map(|node| highest.get(node))
                .fold(Voltage::from_volts(0.0), |most, volts| most.max(*volts));
            for node in plus {
                let known = highest.entry(*node).or_insert(Voltage::from_volts(0.0));
                *known = known.max(below + *volts);
            }
        }
    }
    highest
}

fn modules(assessment: &Assessment, project: &Project) -> Vec<(usize, usize, Voltage)> {
    assessment
        .consumers
        .iter()
        .filter(|c| c.role == Role::Source)
        .filter_map(|c| {
            let (plus, minus) = c.nodes?;
            let item = project.items.get(c.item.as_str())?;
            let Spec::SolarModule(module) = &item.spec else {
                return None;
            };
            Some((plus, minus, module.open_voltage.as_ref()?.value))
        })
        .collect()
}
