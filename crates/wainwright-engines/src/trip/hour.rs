//! What an hour brings and what it did. How it is worked out is in `electric`.

use super::camper::MOST_FIELDS;
use wainwright_units::{Current, Energy, Power, Ratio, Resistance, Temperature, Voltage, Volume};

/// What an hour brings.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hour {
    /// Hour of the day, 0 is the one from midnight.
    pub hour_of_day: u32,
    /// Air temperature [°C].
    pub air: Temperature,
    /// Best power of the panels of each field in this hour [W].
    pub panel: [Power; MOST_FIELDS],
    /// Light behind their glass [W/m²], for controllers that follow the current.
    pub light: [f64; MOST_FIELDS],
    /// Whether the engine charges.
    pub driving: bool,
    /// Whether shore power is there.
    pub shore: bool,
    /// Whether there is a tap to fill from and a drain to empty into.
    pub tap: bool,
}

/// What an hour did.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HourResult {
    /// State of charge at the end.
    pub charge: Ratio,
    /// Temperature of the cells.
    pub cell: Temperature,
    /// Open voltage at the start [V].
    pub open: Voltage,
    /// Resistance at the start [Ω].
    pub resistance: Resistance,
    /// Current while it flowed, positive into the battery [A].
    pub current: Current,
    /// Solar energy after the controllers [Wh], used or not.
    pub solar: Energy,
    /// Energy drawn from each solar field [Wh].
    pub fields: [Energy; MOST_FIELDS],
    /// Energy drawn from the alternator's charger [Wh].
    pub alternator: Energy,
    /// Energy drawn from the shore charger [Wh].
    pub shore: Energy,
    /// Energy the loads wanted [Wh].
    pub wanted: Energy,
    /// Energy the loads did not get [Wh].
    pub unserved: Energy,
    /// Solar energy nobody could use [Wh].
    pub spilled: Energy,
    /// Energy into the battery's terminals, negative out [Wh].
    pub into_battery: Energy,
    /// Energy kept in the cells, negative when taken [Wh].
    pub stored: Energy,
    /// Heat and lost charge in the battery [Wh].
    pub lost: Energy,
    /// Whether loads are cut off from the battery at the end.
    pub cut_off: bool,
    /// Whether the protection board lets charge in at the end.
    pub can_charge: bool,
    /// Whether the protection board lets charge out at the end; when not, the terminals are dead.
    pub can_discharge: bool,
    /// Whether the board opened the charging path in this hour because a cell was too high.
    pub board_trip: bool,
    /// Whether it did so while the sun gave power, which then has nowhere to go but the loads.
    pub load_dump: bool,
    /// Whether the sun shone and no controller woke, the terminals being dead.
    pub asleep: bool,
    /// Whether cold or heat kept an offered charge out.
    pub blocked: bool,
    /// Share of their wanted time for which heaters had fuel.
    pub burning: Ratio,
    /// Water wanted and not there [L].
    pub water_missing: Volume,
    /// Fresh water at the end [L].
    pub fresh: Volume,
    /// Waste water at the end [L].
    pub waste: Volume,
    /// Waste water for which there was no room [L].
    pub waste_spilled: Volume,
    /// Fuel at the end [L].
    pub fuel: Volume,
    /// Fuel burnt [L].
    pub fuel_used: Volume,
    /// Fuel heaters wanted and that was not there [L].
    pub fuel_missing: Volume,
}

impl Hour {
    /// An hour without sun, engine, shore power or tap.
    #[must_use]
    pub const fn dark(hour_of_day: u32, air: Temperature) -> Hour {
        Hour {
            hour_of_day,
            air,
            panel: [Power::ZERO; MOST_FIELDS],
            light: [0.0; MOST_FIELDS],
            driving: false,
            shore: false,
            tap: false,
        }
    }

    /// What is wrong with its numbers, those of the first `N` fields.
    #[inline(always)]
    pub(super) fn nonsense<const N: usize>(&self) -> Option<&'static str> {
        let fields = self.panel.iter().zip(&self.light).take(N);
        let mut all = self.air.celsius();
        let mut below_zero = false;
        for (panel, light) in fields {
            all += panel.watts() + light;
            below_zero |= panel.watts() < 0.0;
        }
        if all.is_finite() && !below_zero {
            return None;
        }
        self.named_nonsense()
    }

    #[cold]
    fn named_nonsense(&self) -> Option<&'static str> {
        if !self.air.is_finite() {
            Some("the air temperature is no number")
        } else if !self
            .panel
            .iter()
            .all(|power| power.is_finite() && *power >= Power::ZERO)
        {
            Some("the panel power is no number or below zero")
        } else if !self.light.iter().all(|light| light.is_finite()) {
            Some("the light is no number")
        } else {
            None
        }
    }
}

impl HourResult {
    /// Share of what the loads wanted that they got; all when they wanted nothing.
    #[must_use]
    pub fn served(&self) -> Ratio {
        if self.wanted > Energy::ZERO {
            Ratio::from_fraction(1.0 - self.unserved / self.wanted)
        } else {
            Ratio::ONE
        }
    }
}
