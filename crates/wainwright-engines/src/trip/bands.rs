//! What thousands of trips have in common: bands by the hour, and who gave and who took.

use super::camper::{Camper, MOST_FIELDS};
use super::hour::{Hour, HourResult};
use wainwright_units::Energy;

/// One value of every hour of many trips, for the bands in which they lie. Kept in seven digits.
#[derive(Debug, Clone, PartialEq)]
pub struct Bands {
    trips: usize,
    /// All trips of the first hour, then of the next.
    values: Vec<f32>,
}

/// Energy by who gave it and who took it.
#[derive(Debug, Clone, PartialEq)]
pub struct Shares {
    /// Used of each solar field [Wh].
    pub fields: [Energy; MOST_FIELDS],
    /// From the alternator's charger [Wh].
    pub alternator: Energy,
    /// From the shore charger [Wh].
    pub shore: Energy,
    /// What each load got, in the camper's order [Wh].
    pub loads: Vec<Energy>,
    /// Heat and lost charge of the battery [Wh].
    pub battery_losses: Energy,
    /// What the alternator's and the shore charger lost on top of what they gave [Wh].
    pub charger_losses: Energy,
    /// Change of the energy in the cells [Wh].
    pub stored: Energy,
    /// Sun nobody could use [Wh].
    pub spilled: Energy,
    /// What loads wanted and did not get [Wh].
    pub unserved: Energy,
}

impl Bands {
    /// Room for so many trips of so many hours; values not set are left out.
    #[must_use]
    pub fn new(trips: usize, hours: usize) -> Bands {
        Bands {
            trips,
            values: vec![f32::NAN; trips.saturating_mul(hours)],
        }
    }

    /// Keeps the value of an hour of a trip; ignored beyond the room.
    #[inline]
    pub fn set(&mut self, trip: usize, hour: usize, value: f64) {
        if trip >= self.trips {
            return;
        }
        if let Some(place) = self.values.get_mut(hour * self.trips + trip) {
            *place = value as f32;
        }
    }

    /// The values below which 10, 50 and 90 of a hundred trips lie, hour by hour, as
    /// [`spread`](super::spread); no number for an hour without any value.
    #[must_use]
    pub fn by_hour(&self) -> Vec<[f64; 3]> {
        let hours = self.values.chunks(self.trips.max(1));
        hours.map(|hour| band(hour.to_vec())).collect()
    }
}

impl Shares {
    /// Nothing yet, with a place for each load.
    #[must_use]
    pub fn new(camper: &Camper<'_>) -> Shares {
        Shares {
            fields: [Energy::ZERO; MOST_FIELDS],
            alternator: Energy::ZERO,
            shore: Energy::ZERO,
            loads: vec![Energy::ZERO; camper.loads.len()],
            battery_losses: Energy::ZERO,
            charger_losses: Energy::ZERO,
            stored: Energy::ZERO,
            spilled: Energy::ZERO,
            unserved: Energy::ZERO,
        }
    }

    /// Adds an hour of a trip of this camper.
    pub fn add(&mut self, camper: &Camper<'_>, hour: &Hour, result: &HourResult) {
        for (sum, field) in self.fields.iter_mut().zip(result.fields) {
            *sum += field;
        }
        self.alternator += result.alternator;
        self.shore += result.shore;
        for (sum, load) in self.loads.iter_mut().zip(camper.loads) {
            *sum += load.energy(hour, result);
        }
        let chargers = [
            (result.alternator, camper.alternator),
            (result.shore, camper.shore),
        ];
        for (given, charger) in chargers {
            let efficiency = charger.map_or(1.0, |charger| charger.efficiency.fraction());
            if given > Energy::ZERO {
                self.charger_losses += given / efficiency - given;
            }
        }
        self.battery_losses += result.lost;
        self.stored += result.stored;
        self.spilled += result.spilled;
        self.unserved += result.unserved;
    }
}

fn band(mut values: Vec<f32>) -> [f64; 3] {
    values.retain(|value| !value.is_nan());
    let Some(last) = values.len().checked_sub(1) else {
        return [f64::NAN; 3];
    };
    [0.1, 0.5, 0.9].map(|share: f64| {
        let at = (share * last as f64).round() as usize;
        let (_, value, _) = values.select_nth_unstable_by(at, f32::total_cmp);
        f64::from(*value)
    })
}
