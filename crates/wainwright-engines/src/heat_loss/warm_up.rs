//! How long a cold room takes to warm up, and how strong a heater must be for a time. Not here: how
//! much heat the room stores.

use wainwright_units::{Duration, Power, Temperature};

use crate::refusal::{Refusal, above_zero, finite, require};

/// A room that is warmed from one temperature to another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Warming {
    /// What leaves the room per kelvin [W/K], above zero.
    pub watts_per_kelvin: f64,
    /// What the room stores [J/K], above zero.
    pub joules_per_kelvin: f64,
    /// Air outside.
    pub outside: Temperature,
    /// Where it begins.
    pub from: Temperature,
    /// Where it shall end, above where it begins.
    pub to: Temperature,
}

impl Warming {
    /// Time in which a difference falls to 1/e of itself.
    ///
    /// # Errors
    /// A value that cannot be.
    pub fn time_constant(&self) -> Result<Duration, Refusal> {
        self.check()?;
        Ok(Duration::from_seconds(
            self.joules_per_kelvin / self.watts_per_kelvin,
        ))
    }

    fn check(&self) -> Result<(), Refusal> {
        above_zero("heat that leaves [W/K]", self.watts_per_kelvin)?;
        above_zero("heat that is stored [J/K]", self.joules_per_kelvin)?;
        finite("temperature outside [°C]", self.outside.celsius())?;
        finite("temperature at the start [°C]", self.from.celsius())?;
        require(
            "temperature to reach [°C]",
            self.to.celsius(),
            self.to.is_finite() && self.to > self.from,
            "above that at the start",
        )
    }
}

/// Time a heater takes; `None` when it never gets there.
///
/// # Errors
/// A value that cannot be.
pub fn warm_up(warming: &Warming, heater: Power) -> Result<Option<Duration>, Refusal> {
    finite("heater [W]", heater.watts())?;
    let constant = warming.time_constant()?;
    let outside = warming.outside.celsius();
    let ends_at = outside + heater.watts() / warming.watts_per_kelvin;
    if ends_at <= warming.to.celsius() {
        return Ok(None);
    }
    let share = (ends_at - warming.from.celsius()) / (ends_at - warming.to.celsius());
    Ok(Some(constant * share.ln()))
}

/// Power of the heater that gets there in a time.
///
/// # Errors
/// A value that cannot be, or a time that is not above zero.
pub fn power_for_warm_up(warming: &Warming, time: Duration) -> Result<Power, Refusal> {
    above_zero("time to warm up [s]", time.seconds())?;
    let left = (-(time / warming.time_constant()?)).exp();
    let outside = warming.outside.celsius();
    let (from, to) = (
        warming.from.celsius() - outside,
        warming.to.celsius() - outside,
    );
    let rise = (to - from * left) / (1.0 - left);
    Ok(Power::from_watts(
        (rise * warming.watts_per_kelvin).max(0.0),
    ))
}
