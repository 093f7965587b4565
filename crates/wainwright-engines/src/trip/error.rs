//! Why a trip has no result.

use std::fmt;

/// Why a trip has no result.
#[derive(Debug, Clone, PartialEq)]
pub enum TripError {
    /// A number of an hour or of the camper is missing or makes no sense.
    Input {
        /// The hour from the start of the trip, 0 is the first.
        hour: usize,
        /// What is wrong.
        found: &'static str,
    },
    /// Energy in is not energy out: a fault of the calculation, never of the camper.
    NotConserved {
        /// Hours that were added up.
        hours: usize,
        /// What is left over [Wh].
        watt_hours: f64,
    },
    /// More trips or hours than the calculation allows.
    TooMany {
        /// The number asked for.
        asked: usize,
        /// The number allowed.
        most: usize,
    },
}

impl fmt::Display for TripError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            TripError::Input { hour, found } => {
                write!(out, "hour {hour} of the trip: {found}; correct that number")
            }
            TripError::NotConserved { hours, watt_hours } => write!(
                out,
                "{hours} hours of a trip: {watt_hours} Wh are left over; report this fault"
            ),
            TripError::TooMany { asked, most } => {
                write!(out, "{asked} asked for, {most} allowed; ask for fewer")
            }
        }
    }
}

impl std::error::Error for TripError {}
