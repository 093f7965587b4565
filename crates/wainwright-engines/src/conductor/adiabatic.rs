//! Heating of copper when no heat leaves it: the factor k, the withstood energy, times to melt.
//! What happens when heat does leave is in `conductor_heat::transient`.

use super::ZERO_RESISTANCE;
use wainwright_units::{CrossSection, Current, Duration, Temperature};

/// K of copper [A·√s/mm²] (IEC 60364-5-54 Annex A; read).
pub const COPPER_ADIABATIC: f64 = 226.0;

/// Melting point of copper [°C] (handbook value, as used by Onderdonk's equation; memory).
pub const MELTING: f64 = 1083.0;

/// Factor k [A·√s/mm²] for heating from `start` to `last` without loss.
///
/// Zero when the conductor starts at or above the last temperature: nothing is left to withstand.
pub fn adiabatic_k(start: Temperature, last: Temperature) -> f64 {
    let low = ZERO_RESISTANCE + start.celsius();
    let high = ZERO_RESISTANCE + last.celsius();
    if low <= 0.0 || high <= low {
        return 0.0;
    }
    COPPER_ADIABATIC * (high / low).ln().sqrt()
}

/// Energy k²S² [A²·s] that a conductor withstands between two temperatures.
pub fn withstand_energy(metal: CrossSection, start: Temperature, last: Temperature) -> f64 {
    (adiabatic_k(start, last) * metal.square_millimetres()).powi(2)
}

/// Time in which a current heats the conductor from `start` to `last` without loss.
///
/// Infinite for no current.
pub fn adiabatic_time(
    metal: CrossSection,
    start: Temperature,
    last: Temperature,
    current: Current,
) -> Duration {
    Duration::from_seconds(withstand_energy(metal, start, last) / current.amperes().powi(2))
}

/// Temperature after an energy `let_through` [A²·s] has passed without loss.
///
/// Not capped at the melting point: a value above [`MELTING`] says that the wire is gone.
pub fn adiabatic_temperature(
    metal: CrossSection,
    start: Temperature,
    let_through: f64,
) -> Temperature {
    let exponent = let_through / (COPPER_ADIABATIC * metal.square_millimetres()).powi(2);
    let low = ZERO_RESISTANCE + start.celsius();
    Temperature::from_celsius(low * exponent.exp() - ZERO_RESISTANCE)
}

/// Time in which a current melts a bare conductor (Onderdonk), to tell "too hot" from "gone".
///
/// Infinite for no current; zero when it starts at the melting point.
pub fn fusing_time(metal: CrossSection, start: Temperature, current: Current) -> Duration {
    let rise = ((MELTING - start.celsius()) / (234.0 + start.celsius())).max(0.0);
    let density = current.amperes() / metal.circular_mils();
    Duration::from_seconds((1.0 + rise).log10() / (33.0 * density * density))
}
