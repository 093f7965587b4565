//! How much charging current a temperature allows, and how cells follow the air.

use wainwright_units::{Charge, Current, Duration, Ratio, Temperature};

/// From this cell temperature upward, this much of the capacity per hour.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TemperatureRate {
    /// Lowest cell temperature of the band [°C].
    pub from: Temperature,
    /// Largest current as a share of the capacity per hour [1/h].
    pub rate: Ratio,
}

/// Largest charging current at a cell temperature, from bands in rising order.
///
/// Below the first band nothing is allowed; without bands there is no limit.
pub fn allowed_charge(bands: &[TemperatureRate], capacity: Charge, cell: Temperature) -> Current {
    if bands.is_empty() {
        return Current::from_amperes(f64::INFINITY);
    }
    let band = bands
        .iter()
        .rev()
        .find(|band| band.from.celsius() <= cell.celsius());
    let rate = band.map_or(0.0, |band| band.rate.fraction());
    Current::from_amperes(rate * capacity.ampere_hours())
}

/// Cell temperature after a time in air, with one time constant; at once when it is zero.
pub fn cell_temperature_after(
    cell: Temperature,
    air: Temperature,
    constant: Duration,
    time: Duration,
) -> Temperature {
    let kept = difference_kept(constant, time);
    if kept == 0.0 {
        air
    } else {
        air + (cell - air) * kept
    }
}

/// Share of the difference to the air that cells keep over a time; zero for no time constant.
pub(crate) fn difference_kept(constant: Duration, time: Duration) -> f64 {
    if constant <= Duration::ZERO {
        return 0.0;
    }
    (-(time / constant)).exp()
}
