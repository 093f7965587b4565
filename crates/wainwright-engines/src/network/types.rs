//! The network as the caller describes it and the operating point as it is returned.
//!
//! Not here: how one becomes the other (`plan`, `newton`, `settle`, `report`).

use wainwright_units::{Current, Power, Resistance, Voltage};

/// Nodes joined by branches. Nodes are `0..node_count`.
///
/// Parallel branches, loops, several sources, islands without connection to `ground`, islands
/// without any source, loads of zero and branches that start and end on one node are all legal.
#[derive(Debug, Clone, PartialEq)]
pub struct Network {
    /// Number of nodes.
    pub node_count: usize,
    /// The node that counts as 0 V. It is a reference only: it conducts nothing by itself, so the
    /// return conductors are branches like any others.
    pub ground: usize,
    /// The branches; results are given in the same order.
    pub branches: Vec<Branch>,
}

/// One two-terminal element; its current is positive when it flows `from` → `to` through it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Branch {
    /// Node at the first terminal.
    pub from: usize,
    /// Node at the second terminal.
    pub to: usize,
    /// What is between the terminals.
    pub element: Element,
}

/// What a branch does.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Element {
    /// A wire, joint, closed switch, fuse or resistive load, above 0 [Ω].
    Resistor(Resistance),
    /// An open switch, an opened fuse or a missing wire: no current.
    Open,
    /// A battery or supply. `from` is plus and `to` is minus; its current is positive when it
    /// discharges out of plus. A discharged or opposed source takes current.
    Source {
        /// Voltage without load [V].
        emf: Voltage,
        /// Internal resistance, above 0 [Ω].
        resistance: Resistance,
    },
    /// A load that draws the same current at any voltage [A]; a negative one feeds in.
    ConstantCurrent(Current),
    /// A load that draws power/voltage down to `lowest`, and below it behaves as the resistor
    /// lowest²/power. `lowest` zero means that it never lets go.
    ConstantPower {
        /// Power drawn, zero or more [W].
        power: Power,
        /// Voltage below which the load drops out [V]; zero for none.
        lowest: Voltage,
    },
    /// A charger with plus at `from`: gives up to `most` until its terminals reach `limit`, then
    /// holds `limit`; never takes current. Its current is positive when it gives.
    Regulated {
        /// Voltage that it holds, above 0 [V].
        limit: Voltage,
        /// Largest current, zero or more [A].
        most: Current,
    },
}

/// Caps and tolerances of the solver.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Options {
    /// Newton steps allowed per attempt.
    pub most_steps: usize,
    /// Largest accepted current error at a node, as a part of the currents that meet there.
    pub relative_residual: f64,
}

impl Default for Options {
    fn default() -> Self {
        Self {
            most_steps: 60,
            relative_residual: 1e-9,
        }
    }
}

/// The steady state of a network.
#[derive(Debug, Clone, PartialEq)]
pub struct OperatingPoint {
    /// Potential of each node [V]; `None` in an island that no source feeds. In an island without
    /// `ground`, the minus terminal of its first source counts as 0 V.
    pub node_volts: Vec<Option<Voltage>>,
    /// Current in each branch [A], signed as [`Branch`] and [`Element`] say.
    pub branch_amps: Vec<Current>,
    /// How each branch ended up.
    pub branch_state: Vec<BranchState>,
    /// Where the power goes.
    pub balance: Balance,
    /// Largest sum of currents left over at any node [A].
    pub largest_residual: Current,
    /// Newton steps taken in total.
    pub iterations: usize,
}

/// How a branch ended up in the operating point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum BranchState {
    /// It does what it is meant to do.
    Normal,
    /// The voltage is too low for the load: a constant-power load below its `lowest`, or a
    /// constant-current load that would have to work at zero or reversed voltage.
    DroppedOut,
    /// A charger that gives its most.
    CurrentLimited,
    /// A charger that holds its limit voltage.
    VoltageLimited,
    /// A charger whose terminals are held above its limit by others.
    Idle,
    /// No source reaches it, or its return is interrupted.
    NoSupply,
}

/// Where the power goes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Balance {
    /// Given by source voltages and chargers, less what charges a source [W].
    pub sources: Power,
    /// Taken by constant-current and constant-power loads [W].
    pub loads: Power,
    /// Heat in resistors and inside sources [W]; resistive loads count here.
    pub losses: Power,
    /// sources − loads − losses; zero but for rounding [W].
    pub residual: Power,
}
