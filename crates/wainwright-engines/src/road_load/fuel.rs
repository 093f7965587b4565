//! Fuel as an estimate, and two outfits side by side.

use wainwright_units::{Force, Length, Mass, Power, Ratio, Volume};

use super::force::{Road, Vehicle, driving_force};
use crate::refusal::{Refusal, above_zero, finite, require};

/// Litres per 100 km times miles per US gallon: 100 km in miles times litres in a gallon.
const LITRES_TIMES_MILES: f64 = 100.0 / 1.609_344 * 3.785_411_784;

/// An engine as a straight line of fuel power over work.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Engine {
    /// Fuel power that turns the engine without work \[W\], at `idle_speed`; zero or above.
    pub idle_power: Power,
    /// Speed at which that was taken [m/s], above zero.
    pub idle_speed: f64,
    /// Work at the wheels for each further fuel energy, above 0 to 1.
    pub marginal_efficiency: Ratio,
    /// Heat in the fuel [MJ/L], above zero.
    pub megajoules_per_litre: f64,
}

/// An estimate of fuel use.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fuel {
    /// Force at the wheels \[N\].
    pub force: Force,
    /// Heat in the fuel burnt \[W\].
    pub fuel_power: Power,
    /// Litres for 100 km.
    pub litres_per_100_km: f64,
    /// Miles on a US gallon.
    pub miles_per_gallon: f64,
}

/// Two outfits behind the same engine.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Comparison {
    /// The first outfit.
    pub first: Fuel,
    /// The second outfit.
    pub second: Fuel,
    /// What the second burns more for 100 km \[L\].
    pub more_litres_per_100_km: f64,
    /// What it burns more over a distance \[L\].
    pub more_over_distance: Volume,
    /// Fuel of the second over that of the first.
    pub ratio: f64,
}

/// Fuel of an outfit at a steady speed [m/s].
///
/// # Errors
/// A value that cannot be.
pub fn fuel(
    vehicles: &[Vehicle],
    engine: &Engine,
    road: &Road,
    metres_per_second: f64,
) -> Result<Fuel, Refusal> {
    check(engine)?;
    let force = driving_force(vehicles, road, metres_per_second)?;
    let work = force.newtons().max(0.0) * metres_per_second;
    let idle = engine.idle_power.watts() * metres_per_second / engine.idle_speed;
    let fuel_power = idle + work / engine.marginal_efficiency.fraction();
    let per_metre = fuel_power / (engine.megajoules_per_litre * 1e6 * metres_per_second);
    let litres_per_100_km = per_metre * 1e5;
    Ok(Fuel {
        force,
        fuel_power: Power::from_watts(fuel_power),
        litres_per_100_km,
        miles_per_gallon: LITRES_TIMES_MILES / litres_per_100_km,
    })
}

/// Two outfits at the same speed [m/s] on the same road, over a distance in kilometres.
///
/// # Errors
/// A value that cannot be, or an outfit that needs no fuel.
pub fn compare(
    outfits: [&[Vehicle]; 2],
    engine: &Engine,
    road: &Road,
    metres_per_second: f64,
    kilometres: f64,
) -> Result<Comparison, Refusal> {
    above_zero("distance [km]", kilometres)?;
    let first = fuel(outfits[0], engine, road, metres_per_second)?;
    let second = fuel(outfits[1], engine, road, metres_per_second)?;
    above_zero(
        "fuel of the first outfit [L/100 km]",
        first.litres_per_100_km,
    )?;
    let more = second.litres_per_100_km - first.litres_per_100_km;
    Ok(Comparison {
        first,
        second,
        more_litres_per_100_km: more,
        more_over_distance: Volume::from_litres(more * kilometres / 100.0),
        ratio: second.litres_per_100_km / first.litres_per_100_km,
    })
}

/// Fuel that lifts an outfit by a height \[L\].
///
/// # Errors
/// A value that cannot be.
pub fn climb_fuel(mass: Mass, rise: Length, engine: &Engine) -> Result<Volume, Refusal> {
    check(engine)?;
    above_zero("mass [kg]", mass.kilograms())?;
    finite("rise [m]", rise.metres())?;
    let work = mass.weight().newtons() * rise.metres();
    let litres = work / (engine.marginal_efficiency.fraction() * engine.megajoules_per_litre * 1e6);
    Ok(Volume::from_litres(litres))
}

fn check(engine: &Engine) -> Result<(), Refusal> {
    crate::refusal::not_below_zero("idle fuel power [W]", engine.idle_power.watts())?;
    above_zero("speed of the idle power [m/s]", engine.idle_speed)?;
    above_zero("heat of the fuel [MJ/L]", engine.megajoules_per_litre)?;
    let efficiency = engine.marginal_efficiency.fraction();
    require(
        "marginal efficiency",
        efficiency,
        efficiency > 0.0 && efficiency <= 1.0,
        "above 0 to 1",
    )
}
