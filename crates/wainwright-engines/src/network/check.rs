//! Refuses descriptions that cannot be solved.
//!
//! Not here: anything that depends on how branches hang together.

use super::{Branch, Element, Network, NetworkError};

/// Checks indices and values.
///
/// # Errors
/// [`NetworkError::Malformed`] names the first branch at fault.
pub(crate) fn check(network: &Network) -> Result<(), NetworkError> {
    if network.ground >= network.node_count {
        let (ground, count) = (network.ground, network.node_count);
        return Err(NetworkError::Malformed {
            branch: None,
            why: format!("ground is node {ground}, expected a node below {count}"),
        });
    }
    for (index, branch) in network.branches.iter().enumerate() {
        check_branch(branch, network.node_count).map_err(|why| NetworkError::Malformed {
            branch: Some(index),
            why,
        })?;
    }
    Ok(())
}

fn check_branch(branch: &Branch, node_count: usize) -> Result<(), String> {
    for node in [branch.from, branch.to] {
        if node >= node_count {
            return Err(format!(
                "it ends on node {node}, expected a node below {node_count}"
            ));
        }
    }
    match branch.element {
        Element::Resistor(resistance) => above_zero("resistance", resistance.ohms(), "Ω"),
        Element::Open => Ok(()),
        Element::Source { emf, resistance } => {
            finite("source voltage", emf.volts(), "V")?;
            above_zero("source resistance", resistance.ohms(), "Ω")
        }
        Element::ConstantCurrent(current) => finite("load current", current.amperes(), "A"),
        Element::ConstantPower { power, lowest } => {
            not_negative("load power", power.watts(), "W")?;
            not_negative("lowest voltage", lowest.volts(), "V")
        }
        Element::Regulated { limit, most } => {
            above_zero("limit voltage", limit.volts(), "V")?;
            not_negative("largest current", most.amperes(), "A")
        }
    }
}

/// Smallest and largest magnitude that leaves room for squares and reciprocals.
const USABLE: std::ops::RangeInclusive<f64> = 1e-30..=1e30;

fn above_zero(name: &str, value: f64, unit: &str) -> Result<(), String> {
    if USABLE.contains(&value) {
        return Ok(());
    }
    Err(format!(
        "{name} is {value} {unit}, expected a finite value above 0 {unit}"
    ))
}

fn not_negative(name: &str, value: f64, unit: &str) -> Result<(), String> {
    if value == 0.0 {
        return Ok(());
    }
    above_zero(name, value, unit).map_err(|_| {
        format!("{name} is {value} {unit}, expected a finite value of 0 {unit} or more")
    })
}

fn finite(name: &str, value: f64, unit: &str) -> Result<(), String> {
    if value == 0.0 || USABLE.contains(&value.abs()) {
        return Ok(());
    }
    Err(format!("{name} is {value} {unit}, expected a finite value"))
}
