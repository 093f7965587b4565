//! A solved state as a netlist for a general-purpose circuit simulator, so
//! that anybody can check the solver with another one.

use crate::circuit::{self, Circuit};
use crate::study::{Solution, solve_state};
use std::fmt::Write;
use wainwright_engines::network::{Branch, BranchState, Element, OperatingPoint};
use wainwright_model::Project;
use wainwright_units::Voltage;

/// A netlist and what the solver found for its nodes.
#[derive(Debug, Clone, PartialEq)]
pub struct Netlist {
    /// The deck in SPICE syntax: an operating point with every node printed.
    pub text: String,
    /// Potential of each node, in the order of the deck's node names `n0`,
    /// `n1`, …; `None` where no source reaches.
    pub node_volts: Vec<Option<Voltage>>,
}

/// The netlist of one state (index into the assessment's states); `None` when
/// the state does not exist or has no operating point. Conductors have the
/// resistance of their final temperature.
pub fn netlist(project: &Project, state: usize) -> Option<Netlist> {
    let circuit = circuit::lower(project);
    let Solution { network, point } = solve_state(project, &circuit, state)?;
    let mut text = String::from("* operating point of one state\n");
    for (index, (branch, status)) in network.branches.iter().zip(&point.branch_state).enumerate() {
        write_branch(&mut text, index, branch, *status);
    }
    write_references(
        &mut text,
        &circuit,
        network.ground,
        &network.branches,
        &point,
    );
    write_start(&mut text, &point);
    Some(Netlist {
        text,
        node_volts: point.node_volts,
    })
}

fn write_branch(text: &mut String, index: usize, branch: &Branch, status: BranchState) {
    let (from, to) = (branch.from, branch.to);
    let written = match branch.element {
        _ if status == BranchState::NoSupply || from == to => Ok(()),
        Element::Open => Ok(()),
        Element::Resistor(ohms) => writeln!(text, "R{index} n{from} n{to} {:.17e}", ohms.ohms()),
        Element::Source { emf, resistance } => writeln!(
            text,
            "V{index} m{index} n{to} {:.17e}\nR{index} m{index} n{from} {:.17e}",
            emf.volts(),
            resistance.ohms()
        ),
        Element::ConstantCurrent(amps) => {
            writeln!(text, "I{index} n{from} n{to} {:.17e}", amps.amperes())
        }
        Element::ConstantPower { power, lowest } => {
            let (watts, least) = (power.watts(), lowest.volts());
            let volts = format!("v(n{from},n{to})");
            match (watts > 0.0, status) {
                (false, _) => Ok(()),
                (true, BranchState::DroppedOut) => {
                    writeln!(
                        text,
                        "R{index} n{from} n{to} {:.17e}",
                        least * least / watts
                    )
                }
                _ => writeln!(text, "B{index} n{from} n{to} I={watts:.17e}/{volts}"),
            }
        }
        Element::Regulated { limit, most } => match status {
            BranchState::VoltageLimited => {
                writeln!(text, "V{index} n{from} n{to} {:.17e}", limit.volts())
            }
            BranchState::CurrentLimited => {
                writeln!(text, "I{index} n{to} n{from} {:.17e}", most.amperes())
            }
            _ => Ok(()),
        },
    };
    // Writing to a string cannot fail.
    debug_assert!(written.is_ok());
}

/// Ties the ground node, and one node of every other island, to node 0.
fn write_references(
    text: &mut String,
    circuit: &Circuit,
    ground: usize,
    branches: &[Branch],
    point: &OperatingPoint,
) {
    let mut island: Vec<usize> = (0..circuit.nodes.len()).collect();
    for branch in branches
        .iter()
        .filter(|branch| !matches!(branch.element, Element::Open))
    {
        let (one, other) = (root(&mut island, branch.from), root(&mut island, branch.to));
        island[one.max(other)] = one.min(other);
    }
    let home = root(&mut island, ground);
    let mut tied = vec![home];
    let _ = writeln!(text, "Vground n{ground} 0 0");
    for node in 0..circuit.nodes.len() {
        let own = root(&mut island, node);
        let zero = point.node_volts[node].is_none_or(|volts| volts.volts() == 0.0);
        if zero && !tied.contains(&own) {
            tied.push(own);
            let _ = writeln!(text, "Vzero{node} n{node} 0 0");
        }
    }
}

fn root(island: &mut [usize], node: usize) -> usize {
    let mut here = node;
    while island[here] != here {
        island[here] = island[island[here]];
        here = island[here];
    }
    here
}

fn write_start(text: &mut String, point: &OperatingPoint) {
    let live = point
        .node_volts
        .iter()
        .enumerate()
        .filter_map(|(node, volts)| Some((node, (*volts)?)));
    let live: Vec<(usize, Voltage)> = live.collect();
    for (node, volts) in &live {
        let _ = writeln!(text, ".nodeset v(n{node})={:.6}", volts.volts());
    }
    let _ = writeln!(
        text,
        ".options reltol=1e-10 vntol=1e-12 abstol=1e-12 gmin=1e-18\n.op\n.control\nset numdgt=15\nop"
    );
    for (node, _) in &live {
        let _ = writeln!(text, "print v(n{node})");
    }
    let _ = writeln!(text, ".endc\n.end");
}
