//! Run time of lead-acid batteries, which shrinks with the current.

use wainwright_units::{Charge, Current, Duration};

/// Time a constant current can be drawn (Peukert), from the rated charge and its rated time.
///
/// Infinite for no current.
pub fn peukert_time(
    rated: Charge,
    rated_time: Duration,
    exponent: f64,
    current: Current,
) -> Duration {
    let rated_current = rated.ampere_hours() / rated_time.hours();
    rated_time * (rated_current / current.amperes()).powf(exponent)
}

/// Charge that a constant current gets out of the battery.
pub fn peukert_capacity(
    rated: Charge,
    rated_time: Duration,
    exponent: f64,
    current: Current,
) -> Charge {
    current * peukert_time(rated, rated_time, exponent, current)
}
