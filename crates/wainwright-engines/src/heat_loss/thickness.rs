//! How thick a layer must be. Not here: what water asks of it (`damp`).

use wainwright_units::Length;

use super::layers::{BuildUp, Films};
use super::transmittance::transmittance;
use crate::refusal::{Refusal, above_zero, require};
use crate::sought::{Sought, least_enough};

/// Least thickness of one layer, between a least and a most, with which the build-up lets through
/// no more than a wanted U [W/(m²K)]. The layer changes in every section, ribs included.
///
/// # Errors
/// As `transmittance` and `BuildUp::with_thickness`; a wanted U that is not above zero; a most that
/// is below the least.
pub fn thickness_for(
    build_up: &BuildUp,
    layer: usize,
    films: Films,
    wanted_watts_per_m2_kelvin: f64,
    least: Length,
    most: Length,
) -> Result<Sought<Length>, Refusal> {
    above_zero("wanted U [W/(m²K)]", wanted_watts_per_m2_kelvin)?;
    range(least, most)?;
    let enough = |metres: f64| {
        let thicker = build_up.with_thickness(layer, Length::from_metres(metres))?;
        Ok(transmittance(&thicker, films)?.watts_per_m2_kelvin <= wanted_watts_per_m2_kelvin)
    };
    Ok(least_enough(least.metres(), most.metres(), enough)?.map(Length::from_metres))
}

/// Refuses thicknesses that no search can go between.
pub(crate) fn range(least: Length, most: Length) -> Result<(), Refusal> {
    above_zero("least thickness [m]", least.metres())?;
    require(
        "largest thickness [m]",
        most.metres(),
        most.is_finite() && most >= least,
        "not below the least",
    )
}
