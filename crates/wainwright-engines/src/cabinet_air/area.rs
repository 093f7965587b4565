//! A closed cabinet: how much of its skin counts, and its rise. Not here: openings.

use wainwright_units::{Area, Length, Power, TemperatureDifference};

use crate::refusal::{Refusal, above_zero, not_below_zero};

/// Weights of the faces (IEC TR 60890; memory).
const OPEN_TOP: f64 = 1.4;
const COVERED_TOP: f64 = 0.7;
const OPEN_SIDE: f64 = 0.9;
const COVERED_SIDE: f64 = 0.5;

/// Outer size of a cabinet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Size {
    /// Height, above zero.
    pub height: Length,
    /// Width, above zero.
    pub width: Length,
    /// Depth, above zero.
    pub depth: Length,
}

/// Which faces stand against something.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Closed {
    /// Something stands on it.
    pub top: bool,
    /// The back stands against a wall.
    pub back: bool,
    /// Sides that stand against something: 0, 1 or 2; more counts as 2.
    pub sides: usize,
}

/// Effective cooling area of a cabinet. The floor does not count.
///
/// # Errors
/// A size that is not above zero.
pub fn cooling_area(size: &Size, covered: Closed) -> Result<Area, Refusal> {
    above_zero("height of the cabinet [m]", size.height.metres())?;
    above_zero("width of the cabinet [m]", size.width.metres())?;
    above_zero("depth of the cabinet [m]", size.depth.metres())?;
    let top = if covered.top { COVERED_TOP } else { OPEN_TOP };
    let back = if covered.back {
        COVERED_SIDE
    } else {
        OPEN_SIDE
    };
    let against = covered.sides.min(2) as f64;
    let sides = against * COVERED_SIDE + (2.0 - against) * OPEN_SIDE;
    Ok((size.width * size.depth) * top
        + (size.width * size.height) * (OPEN_SIDE + back)
        + (size.height * size.depth) * sides)
}

/// Rise of the air in a closed cabinet from its cooling area and coefficient [W/(m²K)].
///
/// # Errors
/// Heat below zero; an area or coefficient that is not above zero.
pub fn sealed_rise(
    heat: Power,
    area: Area,
    watts_per_m2_kelvin: f64,
) -> Result<TemperatureDifference, Refusal> {
    not_below_zero("heat of the devices [W]", heat.watts())?;
    above_zero("cooling area [m²]", area.square_metres())?;
    above_zero("coefficient of the skin [W/(m²K)]", watts_per_m2_kelvin)?;
    Ok(TemperatureDifference::from_kelvins(
        heat.watts() / (area.square_metres() * watts_per_m2_kelvin),
    ))
}
