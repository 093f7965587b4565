//! What sizing found, or why nothing can be found. Not here: words for people.

use crate::refusal::Refusal;
use std::fmt;
use wainwright_units::{Current, Mass, Resistance, Voltage};

/// The choices of least cost.
#[derive(Debug, Clone, PartialEq)]
pub struct Plan {
    /// For each section the index of its choice.
    pub chosen: Vec<usize>,
    /// What they cost and how the limits are kept.
    pub appraisal: Appraisal,
    /// Whether no plan is cheaper, nor lighter at the same cost.
    pub proven: bool,
    /// No plan costs less than this.
    pub lower_bound: f64,
    /// Cost above the lower bound; zero when proven.
    pub gap: f64,
    /// How much work it was.
    pub effort: Effort,
}

/// Work done.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Effort {
    /// Part plans looked at.
    pub plans: usize,
    /// Times the whole was solved, with ever fewer choices left.
    pub rounds: usize,
}

/// What some choices cost, and how each limit is kept.
#[derive(Debug, Clone, PartialEq)]
pub struct Appraisal {
    /// Sum of costs.
    pub cost: f64,
    /// Sum of masses.
    pub mass: Mass,
    /// One for each limit.
    pub limits: Vec<Kept>,
    /// Sections whose device is too close to the nearest one further up.
    pub not_selective: Vec<NotSelective>,
    /// Groups, by index, whose sections did not all take the same choice.
    pub unlike: Vec<usize>,
}

/// How one limit is kept.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Kept {
    /// Sum of drops.
    pub drop: Voltage,
    /// Highest sum allowed, if there is one.
    pub most_drop: Option<Voltage>,
    /// Sum of resistances.
    pub resistance: Resistance,
    /// Rating of the device that has to open, if there is one.
    pub device: Option<Current>,
    /// Highest sum of resistances allowed with that device, if there is one; below zero when the device
    /// is not allowed at all.
    pub most_resistance: Option<Resistance>,
    /// Whether both sums are within their limits, to a billionth for each section.
    pub kept: bool,
}

/// A device too close to the one further up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct NotSelective {
    /// Section with the device.
    pub section: usize,
    /// Section with the nearest device further up.
    pub upstream: usize,
}

impl Appraisal {
    /// Whether the choices keep everything.
    #[must_use]
    pub fn holds(&self) -> bool {
        self.limits.iter().all(|limit| limit.kept)
            && self.not_selective.is_empty()
            && self.unlike.is_empty()
    }
}

/// Why there is no plan.
#[derive(Debug, Clone, PartialEq)]
pub enum SizingError {
    /// The problem itself is wrong.
    Refused(Refusal),
    /// No plan keeps everything: every reason found, the plainest kind only.
    Impossible(Vec<Obstacle>),
    /// Neither a plan nor a proof that there is none within the caps.
    NotFound {
        /// A plan would cost at least this.
        lower_bound: f64,
    },
}

/// What stands in the way of any plan.
#[derive(Debug, Clone, PartialEq)]
pub enum Obstacle {
    /// A section has nothing to choose from.
    NoChoice {
        /// Which one.
        section: usize,
    },
    /// A limit of drop cannot be kept whatever is chosen.
    Drop {
        /// Which limit.
        limit: usize,
        /// The least sum there is.
        least: Voltage,
        /// The sum allowed.
        most: Voltage,
    },
    /// A limit of resistance cannot be kept whatever is chosen.
    Resistance {
        /// Which limit.
        limit: usize,
        /// The least sum there is.
        least: Resistance,
        /// The highest sum allowed with any device it may have; `None`: no device is allowed.
        most: Option<Resistance>,
    },
    /// No device of a section suits any device of the next section further up.
    Selectivity {
        /// The section.
        section: usize,
        /// The next one further up that has a device.
        upstream: usize,
    },
    /// Each could be kept alone, but not all together. Leave any one out and the rest can be kept.
    Together {
        /// Limits that stand against one another.
        limits: Vec<usize>,
        /// Sections whose device has to suit the one further up, likewise.
        sections: Vec<usize>,
    },
}

impl From<Refusal> for SizingError {
    fn from(refusal: Refusal) -> Self {
        SizingError::Refused(refusal)
    }
}

impl fmt::Display for SizingError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            SizingError::Refused(refusal) => refusal.fmt(out),
            SizingError::Impossible(obstacles) => write!(
                out,
                "no choice of sizes keeps every limit; {} found in the way; allow more or offer larger sizes",
                obstacles.len()
            ),
            SizingError::NotFound { lower_bound } => write!(
                out,
                "no plan was found within the caps; one would cost at least {lower_bound}; take away choices or limits"
            ),
        }
    }
}

impl std::error::Error for SizingError {}
