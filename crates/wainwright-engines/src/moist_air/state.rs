//! What a state of the air means in water, heat and mass. Not here: saturation itself.

use wainwright_units::{Ratio, Temperature};

use super::saturation::{Formula, dew_point, saturation, saturation_pressure};
use crate::refusal::{Refusal, above_zero, require};

/// Gas constant of dry air [J/(kg·K)] (handbook; read).
const DRY_AIR: f64 = 287.042;
/// Gas constant of water vapour [J/(kg·K)] (ISO 13788; read).
const VAPOUR: f64 = 461.5;
/// Molar mass of water over that of dry air (handbook; read).
const MASS_SHARE: f64 = 0.621_945;
/// The inverse, as the handbook prints it for the volume (read).
const VOLUME_SHARE: f64 = 1.607_858;
/// Specific heat of dry air [kJ/(kg·K)] (handbook; read).
const DRY_AIR_HEAT: f64 = 1.006;
/// Specific heat of water vapour [kJ/(kg·K)] (handbook; read).
const VAPOUR_HEAT: f64 = 1.86;
/// Heat of evaporation at 0 °C [kJ/kg] (handbook; read).
const EVAPORATION: f64 = 2501.0;
/// Heat of sublimation at 0 °C [kJ/kg] (handbook; read).
const SUBLIMATION: f64 = 2830.0;
/// Most halvings of the wet bulb's bracket.
const MOST_HALVINGS: usize = 80;
/// Width of the bracket at which that stops [K].
const FINE_KELVINS: f64 = 1e-10;

/// Air with its water.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MoistAir {
    /// Pressure of the vapour if the air were saturated [Pa].
    pub saturation_pascals: f64,
    /// Pressure of the vapour [Pa].
    pub vapour_pascals: f64,
    /// Where water begins to come out.
    pub dew_point: Temperature,
    /// What a wet thermometer shows.
    pub wet_bulb: Temperature,
    /// Water over dry air [kg/kg].
    pub humidity_ratio: f64,
    /// Heat in the air above dry air at 0 °C [kJ per kg of dry air].
    pub kilojoules_per_kg: f64,
    /// Volume [m³ per kg of dry air].
    pub m3_per_kg: f64,
    /// Density, water included [kg/m³].
    pub kg_per_m3: f64,
    /// Water in a volume [g/m³].
    pub grams_per_m3: f64,
}

/// What carries heat when air moves.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Carrier {
    /// Density [kg/m³], above zero.
    pub kg_per_m3: f64,
    /// Specific heat [J/(kg·K)], above zero.
    pub joules_per_kg_kelvin: f64,
}

impl Carrier {
    /// Heat of a volume [J/(m³·K)].
    #[must_use]
    pub fn joules_per_m3_kelvin(self) -> f64 {
        self.kg_per_m3 * self.joules_per_kg_kelvin
    }

    /// Refuses what cannot be.
    pub(crate) fn check(self) -> Result<(), Refusal> {
        above_zero("density of the air [kg/m³]", self.kg_per_m3)?;
        above_zero(
            "specific heat of the air [J/(kg·K)]",
            self.joules_per_kg_kelvin,
        )
    }
}

/// The state of air at a temperature, a relative humidity and a pressure [Pa], in handbook form.
///
/// # Errors
/// A value that cannot be, or air as hot as boiling water.
pub fn state(
    air: Temperature,
    humidity: Ratio,
    pressure_pascals: f64,
) -> Result<MoistAir, Refusal> {
    above_zero("pressure of the air [Pa]", pressure_pascals)?;
    let saturation_pascals = saturation_pressure(air, Formula::Handbook)?;
    let vapour_pascals = vapour_pressure(air, humidity, Formula::Handbook)?;
    require(
        "saturation pressure of the air [Pa]",
        saturation_pascals,
        saturation_pascals < pressure_pascals,
        "below the pressure of the air: colder than boiling water",
    )?;
    let celsius = air.celsius();
    let kelvin = air.kelvins_absolute();
    let ratio = mixing(vapour_pascals, pressure_pascals);
    let volume = DRY_AIR * kelvin * (1.0 + VOLUME_SHARE * ratio) / pressure_pascals;
    Ok(MoistAir {
        saturation_pascals,
        vapour_pascals,
        dew_point: dew_point(vapour_pascals, Formula::Handbook)?.min(air),
        wet_bulb: wet_bulb(celsius, ratio, pressure_pascals),
        humidity_ratio: ratio,
        kilojoules_per_kg: DRY_AIR_HEAT * celsius + ratio * (EVAPORATION + VAPOUR_HEAT * celsius),
        m3_per_kg: volume,
        kg_per_m3: (1.0 + ratio) / volume,
        grams_per_m3: grams_per_m3(vapour_pascals, air)?,
    })
}

/// Pressure of the vapour in air of a relative humidity [Pa].
///
/// # Errors
/// A humidity outside above 0 to 1, or a temperature outside the range of the form.
pub fn vapour_pressure(
    air: Temperature,
    humidity: Ratio,
    formula: Formula,
) -> Result<f64, Refusal> {
    let share = humidity.fraction();
    require(
        "relative humidity",
        share,
        share > 0.0 && share <= 1.0,
        "above 0 to 1",
    )?;
    Ok(share * saturation_pressure(air, formula)?)
}

/// Relative humidity of air that holds vapour of a pressure [Pa]; above one where water comes out.
///
/// # Errors
/// A pressure that is not above zero, or a temperature outside the range of the form.
pub fn relative_humidity(
    air: Temperature,
    vapour_pascals: f64,
    formula: Formula,
) -> Result<Ratio, Refusal> {
    above_zero("vapour pressure [Pa]", vapour_pascals)?;
    Ok(Ratio::from_fraction(
        vapour_pascals / saturation_pressure(air, formula)?,
    ))
}

/// Water in a volume of air [g/m³], from the pressure of its vapour [Pa].
///
/// # Errors
/// A pressure below zero or a temperature at absolute zero.
pub fn grams_per_m3(vapour_pascals: f64, air: Temperature) -> Result<f64, Refusal> {
    crate::refusal::not_below_zero("vapour pressure [Pa]", vapour_pascals)?;
    above_zero("absolute temperature [K]", air.kelvins_absolute())?;
    Ok(1000.0 * vapour_pascals / (VAPOUR * air.kelvins_absolute()))
}

/// Dry air at a pressure [Pa] and a temperature.
///
/// # Errors
/// A pressure that is not above zero or a temperature at absolute zero.
pub fn dry_air(pressure_pascals: f64, air: Temperature) -> Result<Carrier, Refusal> {
    above_zero("pressure of the air [Pa]", pressure_pascals)?;
    above_zero("absolute temperature [K]", air.kelvins_absolute())?;
    Ok(Carrier {
        kg_per_m3: pressure_pascals / (DRY_AIR * air.kelvins_absolute()),
        joules_per_kg_kelvin: 1000.0 * DRY_AIR_HEAT,
    })
}

fn mixing(vapour_pascals: f64, pressure_pascals: f64) -> f64 {
    MASS_SHARE * vapour_pascals / (pressure_pascals - vapour_pascals)
}

/// Wet bulb by halving: the humidity ratio grows with it all the way.
fn wet_bulb(celsius: f64, ratio: f64, pressure_pascals: f64) -> Temperature {
    let (mut low, mut high) = (celsius - 60.0, celsius);
    low = low.max(-99.0);
    for _ in 0..MOST_HALVINGS {
        if high - low <= FINE_KELVINS {
            break;
        }
        let middle = 0.5 * (low + high);
        if ratio_at_wet_bulb(celsius, middle, pressure_pascals) > ratio {
            high = middle;
        } else {
            low = middle;
        }
    }
    Temperature::from_celsius(0.5 * (low + high))
}

/// Humidity ratio of air of a temperature whose wet bulb is given.
fn ratio_at_wet_bulb(celsius: f64, wet: f64, pressure_pascals: f64) -> f64 {
    let saturated = mixing(saturation(wet, Formula::Handbook), pressure_pascals);
    let sensible = DRY_AIR_HEAT * (celsius - wet);
    if wet >= 0.0 {
        ((EVAPORATION - 2.326 * wet) * saturated - sensible)
            / (EVAPORATION + VAPOUR_HEAT * celsius - 4.186 * wet)
    } else {
        ((SUBLIMATION - 0.24 * wet) * saturated - sensible)
            / (SUBLIMATION + VAPOUR_HEAT * celsius - 2.1 * wet)
    }
}
