//! Steady temperature at a current, and the current for a temperature.
//! Both solve the same balance, so the wire at its ampacity is exactly at its limit.

use super::path::{HeatPath, Near};
use super::{Build, HeatError, Surroundings};
use crate::conductor::{ZERO_RESISTANCE, resistance_at};
use wainwright_units::{Current, LineHeat, LineResistance, Temperature};

/// A wire that has settled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Steady {
    /// Temperature of the metal [°C].
    pub conductor: Temperature,
    /// Temperature of the outside of the wire, or of its bundle [°C].
    pub surface: Temperature,
    /// Heat of this wire [W/m].
    pub heat: LineHeat,
    /// Resistance at that temperature [Ω/m].
    pub resistance: LineResistance,
    /// Steps of the search.
    pub iterations: usize,
}

/// Temperature at which a wire settles when it carries `current` for ever.
///
/// In a bundle or in foam every loaded wire carries it. The sign of the current does not matter.
///
/// # Errors
/// [`HeatError::Malformed`] for an impossible wire, [`HeatError::Melts`] when nothing settles below
/// the melting point of copper.
pub fn steady(
    build: &Build,
    surroundings: &Surroundings,
    ambient: Temperature,
    current: Current,
) -> Result<Steady, HeatError> {
    HeatPath::alike(build, surroundings, ambient)?.steady(build, current)
}

/// Current that brings the conductor to `limit` and keeps it there; zero when the ambient is there
/// already.
///
/// # Errors
/// [`HeatError::Malformed`] for an impossible wire or a limit that is not a number.
pub fn ampacity(
    build: &Build,
    surroundings: &Surroundings,
    ambient: Temperature,
    limit: Temperature,
) -> Result<Current, HeatError> {
    let path = HeatPath::alike(build, surroundings, ambient)?;
    let limit = limit.celsius();
    if !limit.is_finite() {
        return Err(HeatError::malformed(
            "temperature limit [°C]",
            limit,
            "a number",
        ));
    }
    if limit <= path.ambient {
        return Ok(Current::from_amperes(0.0));
    }
    let watts = path
        .heat_out(limit, Near::at(0.5 * (limit + path.ambient)))?
        .watts;
    let ohms = path.slope_ohms * (ZERO_RESISTANCE + limit);
    Ok(Current::from_amperes((watts / ohms).max(0.0).sqrt()))
}

impl HeatPath {
    /// Steady state at a current, with whatever else heats the bundle.
    pub(crate) fn steady(&self, build: &Build, current: Current) -> Result<Steady, HeatError> {
        let amperes = current.amperes();
        if !amperes.is_finite() {
            return Err(HeatError::malformed("current [A]", amperes, "a number"));
        }
        let balance = self.balance(amperes.abs())?;
        let conductor = Temperature::from_celsius(balance.conductor);
        Ok(Steady {
            conductor,
            surface: Temperature::from_celsius(balance.surface),
            heat: LineHeat::from_watts_per_metre(balance.watts),
            resistance: resistance_at(build.resistance_at_20, conductor),
            iterations: balance.iterations,
        })
    }
}
