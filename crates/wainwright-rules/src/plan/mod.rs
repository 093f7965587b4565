//! From a list of gear to complete wiring: what is added, why, at what cost.
//!
//! [`make`] draws the wiring of everything that has none yet (battery and
//! main fuse, switch, bars, fuse blocks, feeds and returns, chargers, bond),
//! sizes it, and holds the planned text against every rule. What is in the
//! file already stays as it is and is used. Not here: physics (the analysis),
//! how the plan is shown.

mod account;
mod adopt;
mod branches;
mod charging;
mod check;
mod choose;
mod cost;
mod desk;
mod draft;
mod least;
mod limits;
mod measure;
mod panel;
mod provisional;
mod room;
mod sized;
mod solar;
mod spine;
mod stock;
mod strings;
mod survey;
mod switches;
mod tighten;
mod write;

pub use account::{Decision, Obstacle, ObstacleKind};

use crate::finding::Finding;
use wainwright_model::{Edit, Project};

/// What the person may choose about a plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Options {
    /// Gear above this current \[A\] gets a feed of its own from the bar.
    pub own_feed_above: f64,
    /// Ways left free in each new fuse block, as a share of those in use.
    pub spare_share: f64,
    /// Least number of ways left free in a new fuse block.
    pub spare_ways: usize,
    /// Most rounds of sizing and checking.
    pub rounds: usize,
}

impl Default for Options {
    /// 20 A as the largest usual plug-in fuse behind a switch panel, a fifth
    /// and at least two ways free: judgements of this project.
    fn default() -> Self {
        Self {
            own_feed_above: 20.0,
            spare_share: 0.2,
            spare_ways: 2,
            rounds: 12,
        }
    }
}

/// A complete wiring plan, as changes of the text and the account of it.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    /// Changes that complete the project; none where nothing is missing.
    pub edits: Vec<Edit>,
    /// The text after them.
    pub text: String,
    /// What was decided, and why.
    pub decisions: Vec<Decision>,
    /// What could not be done, or stands in the way whatever the wiring is.
    pub obstacles: Vec<Obstacle>,
    /// Wires whose length was assumed, by id.
    pub assumed_lengths: Vec<String>,
    /// Cost of what is added, in cost units; owned stock costs nothing.
    pub cost: f64,
    /// No wiring of this layout that meets the limits costs less.
    pub lower_bound: f64,
    /// Everything that is wrong with the planned project, worst first.
    pub findings: Vec<Finding>,
    /// Findings of the two worst severities that the plan brings or leaves
    /// and that were not there before.
    pub unsolved: Vec<Finding>,
    /// Rounds of sizing and checking that were used.
    pub rounds: usize,
}

impl Plan {
    /// Share of the cost that better sizes might save at most.
    pub fn gap(&self) -> f64 {
        match self.cost > 0.0 {
            true => ((self.cost - self.lower_bound) / self.cost).max(0.0),
            false => 0.0,
        }
    }

    /// Whether there is nothing to add.
    pub fn is_empty(&self) -> bool {
        self.edits.is_empty()
    }
}

/// Plans the wiring of everything in the project that has none.
///
/// `project` must be what `text` reads as. Total: what cannot be planned is
/// told in [`Plan::obstacles`].
pub fn make(text: &str, project: &Project, options: &Options) -> Plan {
    check::plan(text, project, options)
}
