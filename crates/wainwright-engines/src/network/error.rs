//! Why a network has no operating point.
//!
//! Not here: finding out (`check`, `settle`, `collapse`, `report`).

use std::fmt;

use wainwright_units::{Current, Power, Ratio, Voltage};

/// Why a network has no operating point.
#[derive(Debug, Clone, PartialEq)]
pub enum NetworkError {
    /// The supply cannot carry the load: the voltage collapses.
    Collapse(Collapse),
    /// The iteration ended before Kirchhoff's current law held.
    NotConverged {
        /// Newton steps taken.
        iterations: usize,
        /// Largest current left over at a node [A].
        largest_residual: Current,
        /// Which law or cap failed.
        why: String,
    },
    /// The description itself cannot be solved.
    Malformed {
        /// Branch at fault; `None` when it is the network as a whole.
        branch: Option<usize>,
        /// What was found and what was expected.
        why: String,
    },
}

/// How far the supply gets before the voltage collapses.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Collapse {
    /// Part of every constant power that can be carried when all are scaled alike; zero when the
    /// other loads alone are already too much.
    pub carried: Ratio,
    /// Constant power wanted in the island that collapses [W].
    pub power_wanted: Power,
    /// Constant power carried there at the limit [W].
    pub power_carried: Power,
    /// The load whose voltage has sunk furthest below its open-circuit voltage at the limit.
    pub weakest_branch: usize,
    /// Voltage at that load at the limit [V].
    pub volts_there: Voltage,
}

impl fmt::Display for NetworkError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Collapse(collapse) => write!(
                out,
                "the supply cannot carry this load: of {:.1} W it carries {:.1} W ({:.1} %), \
                 where the load on branch {} is down to {:.2} V; lower the load or the resistance \
                 on the way to it",
                collapse.power_wanted.watts(),
                collapse.power_carried.watts(),
                collapse.carried.fraction() * 100.0,
                collapse.weakest_branch,
                collapse.volts_there.volts(),
            ),
            Self::NotConverged {
                iterations,
                largest_residual,
                why,
            } => write!(
                out,
                "no operating point after {iterations} steps, {:e} A left over at a node: {why}",
                largest_residual.amperes(),
            ),
            Self::Malformed {
                branch: Some(branch),
                why,
            } => write!(out, "branch {branch}: {why}"),
            Self::Malformed { branch: None, why } => write!(out, "network: {why}"),
        }
    }
}

impl std::error::Error for NetworkError {}
