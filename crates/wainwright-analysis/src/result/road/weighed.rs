//! What scales say, and the bare trailer that follows.

use wainwright_engines::weigh_in::{Contradiction, Measured, Scale};
use wainwright_model::{Id, WeighedBy};
use wainwright_units::{Length, Mass, Ratio};

/// One weighing.
#[derive(Debug, Clone, PartialEq)]
pub struct WeighingResult {
    /// The weighing.
    pub id: Id,
    /// How it was taken.
    pub by: WeighedBy,
    /// Loads that the readings give; `None` when one is missing.
    pub loads: Option<WeighedLoads>,
    /// Index of the state with the same things aboard.
    pub state: Option<usize>,
    /// Items that were aboard but whose mass or spot is not known: the weighing cannot be used for the bare trailer.
    pub unknown_aboard: Vec<Id>,
}

/// Loads that one weighing gives; each `None` when it says nothing of it.
#[derive(Debug, Clone, Copy, Default, PartialEq)]
#[allow(missing_docs, reason = "the fields say it")]
pub struct WeighedLoads {
    pub tongue: Option<Measured<Mass>>,
    pub axle: Option<Measured<Mass>>,
    pub whole: Option<Measured<Mass>>,
    pub left: Option<Measured<Mass>>,
    pub right: Option<Measured<Mass>>,
}

/// The bare trailer from all weighings.
#[derive(Debug, Clone, PartialEq)]
pub struct ShellFound {
    /// Its mass.
    pub mass: Measured<Mass>,
    /// Its load on the ball.
    pub tongue: Measured<Mass>,
    /// Its centre behind the ball.
    pub centre: Measured<Length>,
    /// Each reading against the fit.
    pub readings: Vec<ShellWeighed>,
    /// Readings beyond the two that are needed.
    pub spare_readings: usize,
    /// Sum of squares of the residuals in standard uncertainties.
    pub chi_squared: f64,
    /// What speaks against the weighings: something missing or misplaced, or a reading is wrong.
    pub contradiction: Option<Contradiction>,
    /// The weighing with the reading furthest off, when they contradict each other.
    pub worst: Option<Id>,
    /// Mass of the bare trailer found, less the one in use; `None` when none is in use.
    pub mass_change: Option<Mass>,
    /// The same of its load on the ball.
    pub tongue_change: Option<Mass>,
    /// Change of mass as a share of the one in use.
    pub mass_change_share: Option<Ratio>,
}

/// One reading against the fit.
#[derive(Debug, Clone, PartialEq)]
pub struct ShellWeighed {
    /// The weighing.
    pub weighing: Id,
    /// Which reading.
    pub scale: Scale,
    /// Reading less prediction \[kg\].
    pub off: Mass,
    /// The same in standard uncertainties.
    pub sigmas: f64,
}
