//! Water and mould on the inner surface. Not here: water inside (`month`).

use wainwright_units::{Ratio, Temperature};

use super::month::Climate;
use crate::heat_loss::{BuildUp, Films, ways};
use crate::moist_air::{
    Formula, dew_point, relative_humidity, saturation_pressure, vapour_pressure,
};
use crate::refusal::{Refusal, above_zero, require};

/// The inner surface of one way through a build-up.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Surface {
    /// Its share of the area.
    pub share: Ratio,
    /// Temperature of the surface.
    pub temperature: Temperature,
    /// Relative humidity at it; above one where water forms.
    pub humidity: Ratio,
    /// f_Rsi: how much of the difference of the airs lies outside of the surface.
    pub factor: f64,
    /// f_Rsi that is needed; `None` when it is not colder outside.
    pub needed_factor: Option<f64>,
    /// Lowest surface temperature that is allowed.
    pub needed_temperature: Temperature,
    /// Highest humidity of the room with which this surface stays below what is allowed.
    pub humidity_allowed: Ratio,
    /// Whether the humidity at the surface is at most what is allowed.
    pub holds: bool,
}

/// The inner surface of every way through a build-up: sections in order, then the zone around a
/// metal rib. Against mould the inside film is taken as 0.25 m²K/W, behind furniture more.
///
/// # Errors
/// Layers, films or a climate that cannot be; an allowed humidity outside above 0 to 1.
pub fn surface(
    build_up: &BuildUp,
    films: Films,
    climate: &Climate,
    allowed_humidity: Ratio,
) -> Result<Vec<Surface>, Refusal> {
    let allowed = allowed_humidity.fraction();
    require(
        "humidity allowed at the surface",
        allowed,
        allowed > 0.0 && allowed <= 1.0,
        "above 0 to 1",
    )?;
    let vapour = vapour_pressure(climate.inside, climate.inside_humidity, Formula::Standard)?;
    let full = saturation_pressure(climate.inside, Formula::Standard)?;
    let needed = dew_point(vapour / allowed, Formula::Standard)?;
    let warmer = (climate.inside - climate.outside).kelvins();
    let mut found = Vec::new();
    for (index, way) in ways(build_up, films)?.iter().enumerate() {
        let resolved = way.resolve(build_up.flow, build_up.air_layers_at, films)?;
        let total = resolved.total();
        above_zero("resistance of the section with its films [m²K/W]", total)
            .map_err(|refusal| refusal.at("section", index))?;
        let factor = 1.0 - resolved.films.inside / total;
        let temperature = Temperature::from_celsius(climate.outside.celsius() + factor * warmer);
        let humidity = relative_humidity(temperature, vapour, Formula::Standard)?;
        let most = allowed * saturation_pressure(temperature, Formula::Standard)? / full;
        found.push(Surface {
            share: way.share,
            temperature,
            humidity,
            factor,
            needed_factor: (warmer > 0.0).then(|| (needed - climate.outside).kelvins() / warmer),
            needed_temperature: needed,
            humidity_allowed: Ratio::from_fraction(most.min(1.0)),
            holds: humidity <= allowed_humidity,
        });
    }
    Ok(found)
}
