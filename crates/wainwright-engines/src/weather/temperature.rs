//! Temperatures of days and hours.

use super::random::Randomness;
use std::f64::consts::TAU;
use wainwright_units::{Temperature, TemperatureDifference};

/// How far days are from the month's mean, one day after the other.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DailyAnomaly {
    /// How much a day keeps of the day before, 0 to 1 (0.66 in the United States; derived).
    pub memory: f64,
    /// Deviation of daily means [K] (4.6 in January to 2.2 in July; derived).
    pub deviation: TemperatureDifference,
}

impl DailyAnomaly {
    /// The anomaly of the next day after `present`.
    #[must_use]
    pub fn next(
        self,
        present: TemperatureDifference,
        random: &mut Randomness,
    ) -> TemperatureDifference {
        let fresh = (1.0 - self.memory * self.memory).max(0.0).sqrt();
        present * self.memory + self.deviation * (fresh * random.normal())
    }
}

/// Temperature in an hour of the day, 1 to 24 local standard time, from the day's mean and swing.
pub fn hour_temperature(mean: Temperature, swing: TemperatureDifference, hour: f64) -> Temperature {
    let angle = TAU * (hour - 1.0) / 24.0;
    let shape = 0.4632 * (angle - 3.805).cos()
        + 0.0984 * (2.0 * angle - 0.360).cos()
        + 0.0168 * (3.0 * angle - 0.822).cos()
        + 0.0138 * (4.0 * angle - 3.513).cos();
    mean + swing * shape
}

/// Swing between coldest and warmest hour, from the month's clearness; never below zero.
pub fn estimated_swing(month_clearness: f64) -> TemperatureDifference {
    TemperatureDifference::from_kelvins((25.8 * month_clearness - 5.21).max(0.0))
}
