//! What draws power in an hour, by the clock and by the temperature outside.

use wainwright_units::{Power, Ratio, Temperature};

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
    },
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
        let on = self.day.get((hour_of_day % 24) as usize);
        self.law.power(air) * on.copied().unwrap_or(Ratio::ZERO)
    }
}

impl Law {
    /// Mean power while the load is wanted.
    #[must_use]
    pub fn power(&self, air: Temperature) -> Power {
        match self {
            Law::Fixed(power) => *power,
            Law::Fridge(fridge) => fridge.power(air),
            Law::Heater {
                electric,
                heat,
                watts_per_kelvin,
                keeps,
            } => {
                let needed = watts_per_kelvin * (*keeps - air).kelvins().max(0.0);
                let share = if heat.watts() > 0.0 {
                    (needed / heat.watts()).min(1.0)
                } else {
                    0.0
                };
                *electric * share
            }
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
        let performance = self.of_ideal * evaporator / lift;
        self.electronics + Power::from_watts(leak / performance)
    }
}
