//! What to change so that it stays dry: the same year and the same surface, asked again and again.
//! Not here: what it costs.

use wainwright_units::{Length, Ratio};

use super::month::{Climate, Month};
use super::surface::surface;
use super::year::year;
use crate::heat_loss::{BuildUp, Films, Layer, thickness_range};
use crate::refusal::{Refusal, above_zero, not_below_zero, require};
use crate::sought::{Sought, least_enough};

/// Water that is allowed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Allowed {
    /// Most at once [g/m²]; zero for none at all.
    pub peak_grams_per_m2: f64,
    /// Most that is left when the year is over [g/m²].
    pub left_grams_per_m2: f64,
}

/// Least s_d [m] of a vapour layer, put before a layer counted from 0 at the outside, with which
/// every way through a build-up stays within what is allowed.
///
/// # Errors
/// As [`year`]; no such layer; a limit below zero.
pub fn vapour_layer_for(
    build_up: &BuildUp,
    before: usize,
    films: Films,
    months: &[Month],
    allowed: Allowed,
    most_metres: f64,
) -> Result<Sought<f64>, Refusal> {
    above_zero("largest s_d [m]", most_metres)?;
    least_enough(0.0, most_metres, |metres| {
        let changed = with_vapour_layer(build_up, before, metres)?;
        stays_dry(&changed, films, months, allowed)
    })
}

/// Least thickness of a layer with which every way stays within what is allowed.
///
/// # Errors
/// As [`year`] and [`BuildUp::with_thickness`].
pub fn foam_for_water(
    build_up: &BuildUp,
    layer: usize,
    films: Films,
    months: &[Month],
    allowed: Allowed,
    (least, most): (Length, Length),
) -> Result<Sought<Length>, Refusal> {
    thickness_range(least, most)?;
    let enough = |metres: f64| {
        let changed = build_up.with_thickness(layer, Length::from_metres(metres))?;
        stays_dry(&changed, films, months, allowed)
    };
    Ok(least_enough(least.metres(), most.metres(), enough)?.map(Length::from_metres))
}

/// Least thickness of a layer with which no inner surface is damper than allowed.
///
/// # Errors
/// As [`surface`] and [`BuildUp::with_thickness`].
pub fn foam_for_surface(
    build_up: &BuildUp,
    layer: usize,
    films: Films,
    climate: &Climate,
    allowed_humidity: Ratio,
    (least, most): (Length, Length),
) -> Result<Sought<Length>, Refusal> {
    thickness_range(least, most)?;
    let enough = |metres: f64| {
        let changed = build_up.with_thickness(layer, Length::from_metres(metres))?;
        let found = surface(&changed, films, climate, allowed_humidity)?;
        Ok(found.iter().all(|one| one.holds))
    };
    Ok(least_enough(least.metres(), most.metres(), enough)?.map(Length::from_metres))
}

/// The same build-up with a vapour layer of an s_d [m] before a layer, counted from 0 at the
/// outside; as many as there are layers puts it on the inner surface. Ribs move along.
///
/// # Errors
/// No such place, or an s_d below zero.
pub fn with_vapour_layer(
    build_up: &BuildUp,
    before: usize,
    metres: f64,
) -> Result<BuildUp, Refusal> {
    not_below_zero("s_d of the vapour layer [m]", metres)?;
    let mut changed = build_up.clone();
    for section in &mut changed.sections {
        require(
            "layer to put a vapour layer before, counted from 0",
            before as f64,
            before <= section.layers.len(),
            "one of the layers, or one after the last",
        )?;
        section.layers.insert(before, Layer::known(0.0, metres));
    }
    if let Some(ribs) = &mut changed.metal {
        if before <= ribs.first_layer {
            ribs.first_layer += 1;
        }
        if before <= ribs.last_layer {
            ribs.last_layer += 1;
        }
    }
    Ok(changed)
}

fn stays_dry(
    build_up: &BuildUp,
    films: Films,
    months: &[Month],
    allowed: Allowed,
) -> Result<bool, Refusal> {
    not_below_zero("water allowed at once [g/m²]", allowed.peak_grams_per_m2)?;
    not_below_zero(
        "water allowed after a year [g/m²]",
        allowed.left_grams_per_m2,
    )?;
    let within = |one: &super::year::WayYear| {
        one.peak_grams_per_m2 <= allowed.peak_grams_per_m2
            && one.left_grams_per_m2 <= allowed.left_grams_per_m2
    };
    Ok(year(build_up, films, months)?.iter().all(within))
}
