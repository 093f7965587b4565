//! The temperature at which heat in and heat out are equal. Not here: the inverse questions (`ask`).

use wainwright_units::{Airflow, Area, Length, Power, Ratio, Temperature, TemperatureDifference};

use crate::fresh_air::{series, stack};
use crate::moist_air::Carrier;
use crate::refusal::{Refusal, above_zero, finite, not_below_zero, require};

/// Largest rise that is searched [K].
pub(super) const MOST_RISE: f64 = 400.0;

/// Most halvings of that.
const MOST_HALVINGS: usize = 100;

/// Heat allowed between in and out, as a share of it.
const CLOSES: f64 = 1e-9;

/// At which density the volume of the air is turned into its mass.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum CountedAt {
    /// That of the air that comes in.
    Incoming,
    /// That of the warm air that leaves: less mass, so a little warmer. The careful choice.
    Leaving,
}

/// A low and a high opening.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Vents {
    /// Free area of the low one.
    pub low: Area,
    /// Free area of the high one.
    pub high: Area,
    /// Discharge coefficient, above 0 to 1.
    pub coefficient: Ratio,
    /// Middle of the heat to the middle of the high one, above zero.
    pub height: Length,
    /// Where the density is taken.
    pub counted_at: CountedAt,
}

/// What takes the heat out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Cooling {
    /// Openings that work by warmth.
    Openings(Vents),
    /// A fan, by what it moves in place.
    Fan(Airflow),
    /// Only the skin.
    Sealed,
}

/// A cabinet with devices in it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cabinet {
    /// Heat of all devices, zero or above.
    pub heat: Power,
    /// What the skin lets out [W/K], zero or above.
    pub skin_watts_per_kelvin: f64,
    /// Air around it.
    pub ambient: Temperature,
    /// That air, as what carries heat.
    pub air: Carrier,
    /// What takes the heat out besides the skin.
    pub cooling: Cooling,
}

/// The air of a cabinet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CabinetAir {
    /// How much warmer than around.
    pub rise: TemperatureDifference,
    /// Its temperature.
    pub inside: Temperature,
    /// Air that passes.
    pub airflow: Airflow,
    /// Heat that it carries.
    pub by_air: Power,
    /// Heat through the skin.
    pub by_skin: Power,
}

/// Heat of a device that gives out a power.
///
/// # Errors
/// A power below zero, or an efficiency outside above 0 to 1.
pub fn device_heat(output: Power, efficiency: Ratio) -> Result<Power, Refusal> {
    let share = efficiency.fraction();
    not_below_zero("power given out [W]", output.watts())?;
    require(
        "efficiency",
        share,
        share > 0.0 && share <= 1.0,
        "above 0 to 1",
    )?;
    Ok(output * (1.0 / share - 1.0))
}

/// How warm a cabinet gets.
///
/// # Errors
/// A value that cannot be, or heat that nothing takes out before 400 K.
pub fn rise(cabinet: &Cabinet) -> Result<CabinetAir, Refusal> {
    check(cabinet)?;
    let heat = cabinet.heat.watts();
    let out = |kelvins: f64| leaving(cabinet, kelvins);
    require(
        "heat of the devices [W]",
        heat,
        heat <= out(MOST_RISE)?,
        "heat that openings, fan or skin can take out; open the cabinet or add a fan",
    )?;
    let (mut low, mut high) = (0.0, MOST_RISE);
    for _ in 0..MOST_HALVINGS {
        let middle = 0.5 * (low + high);
        if out(middle)? < heat {
            low = middle;
        } else {
            high = middle;
        }
    }
    let kelvins = if heat > 0.0 { high } else { 0.0 };
    let open = out(kelvins)? - heat;
    require(
        "heat that is lost [W]",
        open,
        open.abs() <= CLOSES * (heat + 1.0),
        "none",
    )?;
    let (airflow, by_air) = carried(cabinet, kelvins)?;
    let rise = TemperatureDifference::from_kelvins(kelvins);
    Ok(CabinetAir {
        rise,
        inside: cabinet.ambient + rise,
        airflow,
        by_air: Power::from_watts(by_air),
        by_skin: Power::from_watts(cabinet.skin_watts_per_kelvin * kelvins),
    })
}

/// Heat that leaves a cabinet at a rise [W].
pub(super) fn leaving(cabinet: &Cabinet, kelvins: f64) -> Result<f64, Refusal> {
    let (_, by_air) = carried(cabinet, kelvins)?;
    Ok(by_air + cabinet.skin_watts_per_kelvin * kelvins)
}

/// Air that passes at a rise [K], and the heat that it carries [W].
fn carried(cabinet: &Cabinet, kelvins: f64) -> Result<(Airflow, f64), Refusal> {
    let (airflow, thinner) = match cabinet.cooling {
        Cooling::Openings(vents) => {
            let inside = cabinet.ambient + TemperatureDifference::from_kelvins(kelvins);
            let effective = series(&[vents.low, vents.high]);
            let moved = stack(
                effective,
                vents.coefficient,
                vents.height,
                inside,
                cabinet.ambient,
            )?;
            let thinner = match vents.counted_at {
                CountedAt::Incoming => 1.0,
                CountedAt::Leaving => {
                    cabinet.ambient.kelvins_absolute() / inside.kelvins_absolute()
                }
            };
            (moved, thinner)
        }
        Cooling::Fan(airflow) => (airflow, 1.0),
        Cooling::Sealed => (Airflow::ZERO, 1.0),
    };
    let per_kelvin =
        airflow.litres_per_second() / 1000.0 * thinner * cabinet.air.joules_per_m3_kelvin();
    Ok((airflow, per_kelvin * kelvins))
}

pub(super) fn check(cabinet: &Cabinet) -> Result<(), Refusal> {
    not_below_zero("heat of the devices [W]", cabinet.heat.watts())?;
    not_below_zero("heat through the skin [W/K]", cabinet.skin_watts_per_kelvin)?;
    finite(
        "temperature around the cabinet [°C]",
        cabinet.ambient.celsius(),
    )?;
    above_zero(
        "absolute temperature [K]",
        cabinet.ambient.kelvins_absolute(),
    )?;
    cabinet.air.check()?;
    match cabinet.cooling {
        Cooling::Openings(vents) => above_zero("height of the openings [m]", vents.height.metres()),
        Cooling::Fan(airflow) => {
            not_below_zero("airflow of the fan [m³/h]", airflow.cubic_metres_per_hour())
        }
        Cooling::Sealed => Ok(()),
    }
}
