//! Copper conductors by themselves: resistance, adiabatic heating, fusing.
//! Heat that leaves the wire is in `conductor_heat`; published sizes and resistances are not here.
//!
//! # Computes
//! Resistance of a copper conductor at a temperature, resistance from a cross-section, the energy a
//! conductor survives when no heat leaves it, and the time to reach a temperature or to melt.
//!
//! # Equation
//! - R(θ) = R20 · (234.5 + θ) / 254.5
//! - R20 = ρ20 / S · lay
//! - I²t = k²S², k = K √ln((234.5 + θf) / (234.5 + θi)), K = 226 A·√s/mm²
//! - Onderdonk: I = A √(log10(1 + (1083 − θi) / (234 + θi)) / (33 t)), A in circular mils
//!
//! # Assumptions and limits
//! Annealed copper. Strands are laid up 2 % longer than the conductor. Direct current: no skin effect.
//! Adiabatic means that no heat leaves the metal, which errs on the hot side.
//!
//! # Valid range
//! −50 °C to 1083 °C for resistance (the straight line is exact to about 1 % below 250 °C); the
//! adiabatic equations up to about 5 s.
//!
//! # Example
//! ```
//! use wainwright_engines::conductor;
//! use wainwright_units::{CrossSection, Temperature};
//! let wire = conductor::stranded_resistance(CrossSection::from_square_millimetres(1.309));
//! let warm = conductor::resistance_at(wire, Temperature::from_celsius(75.0));
//! assert!((warm.ohms_per_metre() * 1e3 - 16.33).abs() < 0.05);
//! ```
//!
//! # Sources
//! - IEC 60228 and NEC Chapter 9 Table 8: resistances, and the rule for other temperatures (read).
//! - IEC 60364-5-54 Annex A: K = 226, β = 234.5 °C, factors k (read).
//! - I. M. Onderdonk's equation as printed in handbooks (memory).

mod adiabatic;
mod ambient;

pub use adiabatic::{
    COPPER_ADIABATIC, MELTING, adiabatic_k, adiabatic_temperature, adiabatic_time, fusing_time,
    withstand_energy,
};
pub use ambient::ambient_factor;

use wainwright_units::{CrossSection, LineResistance, Temperature};

/// Resistivity of annealed copper at 20 °C [Ω·mm²/m] (the international standard value; read).
pub const RESISTIVITY_20: f64 = 17.241e-3;

/// Temperature below zero at which copper's straight line of resistance reaches zero [°C] (read).
pub const ZERO_RESISTANCE: f64 = 234.5;

/// Length of a strand over the length of the stranded conductor (derived: it reproduces the
/// stranded uncoated column of NEC Chapter 9 Table 8 within 0.6 % from 18 AWG to 4/0).
pub const LAY: f64 = 1.02;

/// Resistance at a temperature from the resistance at 20 °C, because a hot wire drops more volts.
///
/// Below −234.5 °C the straight line has no meaning and zero is returned.
pub fn resistance_at(at_20: LineResistance, temperature: Temperature) -> LineResistance {
    LineResistance::from_ohms_per_metre(at_20.ohms_per_metre() * factor(temperature))
}

/// Resistance at 20 °C from a resistance measured at another temperature.
///
/// `None` at or below −234.5 °C, where the rule cannot be turned round.
pub fn resistance_at_20(
    measured: LineResistance,
    temperature: Temperature,
) -> Option<LineResistance> {
    let factor = factor(temperature);
    (factor > 0.0).then(|| LineResistance::from_ohms_per_metre(measured.ohms_per_metre() / factor))
}

/// Resistance at 20 °C of a stranded copper conductor of this metal area, for wire whose own
/// resistance nobody printed.
///
/// A cross-section of zero gives an infinite resistance.
pub fn stranded_resistance(metal: CrossSection) -> LineResistance {
    LineResistance::from_ohms_per_metre(RESISTIVITY_20 * LAY / metal.square_millimetres())
}

/// R(θ) / R20.
fn factor(temperature: Temperature) -> f64 {
    ((ZERO_RESISTANCE + temperature.celsius()) / (ZERO_RESISTANCE + 20.0)).max(0.0)
}
