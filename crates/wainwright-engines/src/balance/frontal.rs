//! Frontal area of a box against a limit of the tow vehicle. Not here: the limit, and whether the
//! maker counts the drawbar.

use wainwright_units::{Area, Length, Ratio};

use crate::refusal::{Refusal, above_zero};

/// How much of a frontal area limit is left.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AreaMargin {
    /// Width times height [m²].
    pub actual: Area,
    /// The limit [m²].
    pub limit: Area,
    /// Limit minus area [m²]; below zero when the box is too large.
    pub left: Area,
    /// Share of the limit that is used.
    pub used: Ratio,
}

/// The frontal area of a box, its width by its height, against a limit.
///
/// # Errors
/// A length or limit that is not above zero.
pub fn frontal_area_margin(
    width: Length,
    height: Length,
    limit: Area,
) -> Result<AreaMargin, Refusal> {
    above_zero("width of the box [m]", width.metres())?;
    above_zero("height of the box [m]", height.metres())?;
    above_zero("limit of the frontal area [m²]", limit.square_metres())?;
    let actual = width * height;
    Ok(AreaMargin {
        actual,
        limit,
        left: limit - actual,
        used: Ratio::from_fraction(actual / limit),
    })
}
