//! Damping from what is seen on the road, and friction as damping.

use std::f64::consts::PI;

use wainwright_units::{Ratio, Torque};

use crate::refusal::{Refusal, above_zero, require};

/// Damping ratio from the sizes of successive half-cycle peaks of a swing that dies out by itself
/// (any unit, signs ignored): r the mean ratio of each to the next, D = ln r/√(π² + ln² r).
///
/// # Errors
/// Fewer than two peaks, or a peak of zero.
pub fn damping_from_peaks(peaks: &[f64]) -> Result<Ratio, Refusal> {
    require(
        "number of peaks",
        peaks.len() as f64,
        peaks.len() >= 2,
        "at least two",
    )?;
    for (index, peak) in peaks.iter().enumerate() {
        above_zero("size of the peak", peak.abs()).map_err(|refusal| refusal.at("peak", index))?;
    }
    let ratios = peaks.windows(2).map(|pair| (pair[0] / pair[1]).abs());
    let mean = ratios.sum::<f64>() / (peaks.len() - 1) as f64;
    let log = mean.ln();
    Ok(Ratio::from_fraction(log / PI.hypot(log)))
}

/// Viscous damper [N·m·s/rad] that takes as much energy from one swing as a friction torque does,
/// for a swing of an amplitude \[rad\] and an angular frequency [rad/s]: c = 4M/(πωq).
///
/// # Errors
/// A value that is not above zero.
pub fn friction_as_damping(
    friction: Torque,
    amplitude_radians: f64,
    radians_per_second: f64,
) -> Result<f64, Refusal> {
    above_zero("friction torque [N·m]", friction.newton_metres())?;
    above_zero("amplitude [rad]", amplitude_radians)?;
    above_zero("angular frequency [rad/s]", radians_per_second)?;
    Ok(4.0 * friction.newton_metres() / (PI * radians_per_second * amplitude_radians))
}
