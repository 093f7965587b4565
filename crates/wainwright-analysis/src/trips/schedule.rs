//! The hours of a trip: when it is towed, when there is shore power or a tap. Not here: the weather in them.

use crate::result::trip::TripHour;
use wainwright_engines::trip::Happening;
use wainwright_model::{FieldExt, Trip};

/// Hour at which a trip begins when nobody said (judgement).
const BEGINS: u32 = 16;
/// Hour at which a day's drive begins (judgement).
const SETS_OFF: u32 = 10;
/// Hours of driving on a day of driving when nobody said (judgement).
const DRIVES: f64 = 3.0;
/// Hour from which shore power is there, and at which tanks are filled: when places are taken (judgement).
const ARRIVES: u32 = 12;

/// The hours of a trip in order.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct TripHours {
    pub(super) nights: u32,
    pub(super) first_hour: u32,
    pub(super) happenings: Vec<Happening>,
}

/// The hours of a trip: it ends at the hour of the day at which it begins.
pub(super) fn hours(trip: &Trip, nights: u32) -> TripHours {
    let first_hour = trip.begins_hour.value().copied().unwrap_or(BEGINS).min(23);
    let driving = trip
        .driving
        .value()
        .map_or(DRIVES, |time| time.hours())
        .round()
        .max(0.0) as u32;
    let on = |days: &wainwright_model::Field<Vec<u32>>, day: u32| {
        days.value().is_some_and(|days| days.contains(&day))
    };
    let happening = |at: u32| {
        let (day, hour) = ((first_hour + at) / 24 + 1, (first_hour + at) % 24);
        let sets_off = if day == 1 {
            first_hour.max(SETS_OFF)
        } else {
            SETS_OFF
        };
        let before_noon = hour < ARRIVES;
        let taps_at = if day == 1 {
            first_hour.max(ARRIVES)
        } else {
            ARRIVES
        };
        Happening {
            driving: on(&trip.driving_days, day) && (sets_off..sets_off + driving).contains(&hour),
            shore: on(&trip.shore_days, day) && !before_noon
                || day > 1 && on(&trip.shore_days, day - 1) && before_noon,
            tap: on(&trip.tap_days, day) && hour == taps_at,
        }
    };
    TripHours {
        nights,
        first_hour,
        happenings: (0..24 * nights).map(happening).collect(),
    }
}

impl TripHours {
    /// The hours as shown.
    pub(super) fn shown(&self) -> Vec<TripHour> {
        let hour = |(at, happening): (usize, &Happening)| {
            let (day, hour) = self.day_and_hour(at);
            TripHour {
                day,
                hour,
                driving: happening.driving,
                shore: happening.shore,
                tap: happening.tap,
            }
        };
        self.happenings.iter().enumerate().map(hour).collect()
    }

    /// Day of the trip, 1 is the first, and hour of that day.
    pub(super) fn day_and_hour(&self, at: usize) -> (u32, u32) {
        let hours = self.first_hour + at as u32;
        (hours / 24 + 1, hours % 24)
    }

    /// Days that it touches.
    pub(super) fn days(&self) -> u32 {
        (self.first_hour + self.happenings.len() as u32).div_ceil(24)
    }

    /// Length in days.
    pub(super) fn length(&self) -> f64 {
        self.happenings.len() as f64 / 24.0
    }
}
