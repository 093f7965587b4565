//! What draws power in an hour, by the clock and by the temperature outside, and what it burns.

use super::hour::{Hour, HourResult};
use crate::battery::flow::lesser;
use wainwright_units::{Duration, Energy, Power, Ratio, Temperature, Volume};

/// A load with its day.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Load {
    /// How its power depends on the temperature.
    pub law: Law,
    /// Share of each hour of the day that it is on, the first from midnight.
    pub day: [Ratio; 24],
}

/// How the power of a load depends on the temperature outside.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Law {
    /// It does not.
    Fixed(Power),
    /// A compressor fridge, which works harder in the heat.
    Fridge(Fridge),
    /// The fan and pump of a fuel heater, which run for a part of the hour.
    Heater {
        /// Power while it runs [W].
        electric: Power,
        /// Heat it gives while it runs [W].
        heat: Power,
        /// Heat lost by the camper per kelvin [W/K].
        watts_per_kelvin: f64,
        /// Temperature it keeps inside [°C].
        keeps: Temperature,
        /// Fuel it burns; without fuel it stands still and draws nothing.
        burns: Burn,
    },
}

/// Fuel of a heater.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Burn {
    /// None that is counted.
    Nothing,
    /// By the heat it gives.
    PerHeat {
        /// Fuel for a kilowatt-hour of heat [L/kWh].
        litres_per_kwh: f64,
    },
    /// By the time it runs.
    PerHour {
        /// Fuel for an hour of running [L].
        running: Volume,
    },
}

/// What loads want in an hour.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Demand {
    /// Power of loads that burn nothing [W].
    pub steady: f64,
    /// Power of those that burn fuel, while there is some [W].
    pub burners: f64,
    /// Fuel they would burn [L].
    pub litres: f64,
}

/// A compressor fridge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Fridge {
    /// Heat that leaks in per kelvin [W/K].
    pub watts_per_kelvin: f64,
    /// Temperature inside [°C].
    pub inside: Temperature,
    /// Share of the ideal machine's performance (0.30 for small ones; judgement).
    pub of_ideal: f64,
    /// How much colder than the inside the evaporator is [K] (12; judgement).
    pub colder: f64,
    /// How much warmer than the air the condenser is [K] (15; judgement).
    pub warmer: f64,
    /// Electronics, always on [W].
    pub electronics: Power,
}

impl Load {
    /// The same load all day.
    #[must_use]
    pub const fn steady(law: Law) -> Load {
        Load {
            law,
            day: [Ratio::ONE; 24],
        }
    }

    /// Mean power in an hour of the day, 0 to 23, in air of a temperature.
    #[must_use]
    pub fn power(&self, hour_of_day: u32, air: Temperature) -> Power {
        self.law.power(air) * self.on(hour_of_day)
    }

    /// Fuel it burns in an hour of the day, 0 to 23, in air of a temperature [L].
    #[must_use]
    pub fn fuel(&self, hour_of_day: u32, air: Temperature) -> Volume {
        self.law.fuel(air) * self.on(hour_of_day).fraction()
    }

    /// Energy it got in an hour of a trip.
    #[must_use]
    pub fn energy(&self, hour: &Hour, result: &HourResult) -> Energy {
        let running = if self.law.burns() {
            result.burning
        } else {
            Ratio::ONE
        };
        let power = self.power(hour.hour_of_day, hour.air);
        power * running * result.served() * Duration::from_hours(1.0)
    }

    fn on(&self, hour_of_day: u32) -> Ratio {
        let on = self.day.get((hour_of_day % 24) as usize);
        on.copied().unwrap_or(Ratio::ZERO)
    }
}

impl Demand {
    pub const NONE: Demand = Demand {
        steady: 0.0,
        burners: 0.0,
        litres: 0.0,
    };

    /// Whether it is finite and not below zero.
    #[inline(always)]
    pub fn makes_sense(&self) -> bool {
        let all = self.steady + self.burners + self.litres;
        let lowest = lesser(self.steady, lesser(self.burners, self.litres));
        lowest >= 0.0 && all < f64::INFINITY
    }

    /// With these loads added.
    #[inline(always)]
    pub fn and(mut self, loads: &[Load], hour_of_day: u32, air: Temperature) -> Demand {
        for load in loads {
            let watts = load.power(hour_of_day, air).watts();
            if load.law.burns() {
                self.burners += watts;
                self.litres += load.fuel(hour_of_day, air).litres();
            } else {
                self.steady += watts;
            }
        }
        self
    }
}

impl Law {
    /// Mean power while the load is wanted.
    #[must_use]
    pub fn power(&self, air: Temperature) -> Power {
        match self {
            Law::Fixed(power) => *power,
            Law::Fridge(fridge) => fridge.power(air),
            Law::Heater { electric, .. } => *electric * self.running(air),
        }
    }

    /// Fuel for an hour in which the load is wanted [L].
    #[must_use]
    pub fn fuel(&self, air: Temperature) -> Volume {
        let Law::Heater { heat, burns, .. } = self else {
            return Volume::ZERO;
        };
        match burns {
            Burn::Nothing => Volume::ZERO,
            Burn::PerHeat { litres_per_kwh } => {
                Volume::from_litres(litres_per_kwh * heat.watts() / 1000.0) * self.running(air)
            }
            Burn::PerHour { running } => *running * self.running(air),
        }
    }

    /// Whether it depends on nothing but the clock.
    pub(super) const fn is_fixed(&self) -> bool {
        matches!(self, Law::Fixed(_))
    }

    const fn burns(&self) -> bool {
        matches!(
            self,
            Law::Heater {
                burns: Burn::PerHeat { .. } | Burn::PerHour { .. },
                ..
            }
        )
    }

    /// Share of the hour that a heater runs; 1 for other loads.
    fn running(&self, air: Temperature) -> f64 {
        let Law::Heater {
            heat,
            watts_per_kelvin,
            keeps,
            ..
        } = self
        else {
            return 1.0;
        };
        let needed = watts_per_kelvin * (*keeps - air).kelvins().max(0.0);
        if heat.watts() > 0.0 {
            (needed / heat.watts()).min(1.0)
        } else {
            0.0
        }
    }
}

impl Fridge {
    /// Mean power in air of a temperature; only the electronics when the air is colder than the
    /// inside.
    #[must_use]
    pub fn power(&self, air: Temperature) -> Power {
        let leak = self.watts_per_kelvin * (air - self.inside).kelvins().max(0.0);
        let evaporator = self.inside.kelvins_absolute() - self.colder;
        let condenser = air.kelvins_absolute() + self.warmer;
        let lift = (condenser - evaporator).max(1.0);
        self.electronics + Power::from_watts(leak * lift / (self.of_ideal * evaporator))
    }
}
