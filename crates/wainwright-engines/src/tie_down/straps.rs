//! A strap over the top, which holds by pressing the item to the floor.

use wainwright_units::{Angle, Force, Mass};

use crate::refusal::{Refusal, above_zero, not_below_zero, require};

/// An item under straps.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lashing {
    /// Mass of the item [kg], above zero.
    pub mass: Mass,
    /// Acceleration along the floor, in units of free fall.
    pub along: f64,
    /// Acceleration that presses it down, in units of free fall; 1 on a smooth road.
    pub down: f64,
    /// Friction between item and floor, above zero.
    pub friction: f64,
    /// Straps side by side, at least one.
    pub straps: usize,
    /// Angle of the strap's ends to the floor, above 0° to 90°.
    pub angle: Angle,
    /// Safety factor, 1 or more.
    pub safety: f64,
}

/// Tension that each strap must hold \[N\]; zero when friction alone is enough.
///
/// # Errors
/// A value that cannot be.
pub fn strap_tension(lashing: &Lashing) -> Result<Force, Refusal> {
    above_zero("mass [kg]", lashing.mass.kilograms())?;
    not_below_zero("acceleration along the floor [g]", lashing.along)?;
    not_below_zero("downward acceleration [g]", lashing.down)?;
    above_zero("friction", lashing.friction)?;
    above_zero("number of straps", lashing.straps as f64)?;
    let degrees = lashing.angle.degrees();
    require(
        "angle of the strap [°]",
        degrees,
        degrees > 0.0 && degrees <= 90.0,
        "above 0° to 90°",
    )?;
    require(
        "safety factor",
        lashing.safety,
        lashing.safety.is_finite() && lashing.safety >= 1.0,
        "1 or more",
    )?;
    let unheld = lashing.along - lashing.friction * lashing.down;
    let pressing = 2.0 * lashing.straps as f64 * lashing.friction * lashing.angle.radians().sin();
    Ok(lashing.mass.weight() * (lashing.safety * unheld.max(0.0) / pressing))
}
