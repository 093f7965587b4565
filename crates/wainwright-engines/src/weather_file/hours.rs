//! Rows of any step gathered into the hours of a year. Not here: how a row is written.

use std::collections::BTreeMap;

use super::cell_range::{AIR, Kind, LIGHT, WIND};
use super::fault::{Fault, Faults};
use super::record::HourReading;
use super::text::MOST_ROWS;
use crate::weather::{MONTH_DAYS, is_date};
use wainwright_units::Temperature;

/// Share of the rows that may be unreadable before a file is refused.
const MOST_BAD: f64 = 0.05;

/// Hours that may come twice: a clock that is put back repeats one.
const MOST_REPEATED: usize = 24;

/// When a row ends, or begins in a file whose first row is at 0:00.
#[derive(Debug, Clone, Copy)]
pub(super) struct Stamp {
    pub month: u32,
    pub day: u32,
    /// The hour of the day the row belongs to; `None` for the last hour of the day before.
    pub hour: Option<u32>,
    /// Minute that tells the rows of an hour apart, 0 to 59.
    pub minute: u32,
}

/// Readings of a row: global, beam and diffuse light, air, wind.
pub(super) type Values = [Option<f64>; 5];

/// What the five readings are.
pub(super) const KINDS: [Kind; 5] = [LIGHT, LIGHT, LIGHT, AIR, WIND];

/// How light is written.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Light {
    /// As energy of each row, which adds up over an hour.
    Energy,
    /// As mean power of each row.
    Power,
}

#[derive(Debug, Clone, Copy, Default)]
struct Slot {
    minutes: u64,
    counts: [f64; 5],
    sums: [f64; 5],
}

/// Rows gathered so far.
#[derive(Debug, Default)]
pub(super) struct Gathered {
    slots: BTreeMap<(u32, u32, u32), Slot>,
    pub rows: usize,
    bad: usize,
    last_bad: usize,
    repeated: usize,
    first_repeated: usize,
    /// What is wrong with single cells.
    pub faults: Faults,
}

impl Gathered {
    /// Counts a row; `false` when there are more than can be.
    pub(super) fn begin_row(&mut self) -> bool {
        self.rows += 1;
        self.rows <= MOST_ROWS
    }

    /// Something in a line cannot be read: the row counts as bad once.
    pub(super) fn bad(&mut self, fault: Fault) {
        self.bad += usize::from(self.last_bad != fault.line);
        self.last_bad = fault.line;
        self.faults.add(fault);
    }

    /// Reads the five cells of a row; what cannot be read counts as missing.
    pub(super) fn values(&mut self, line: usize, cells: [Option<&&str>; 5]) -> Values {
        let mut values = [None; 5];
        for ((value, cell), kind) in values.iter_mut().zip(cells).zip(KINDS) {
            match kind.read(cell) {
                Ok(found) => *value = found,
                Err((found, expected)) => self.bad(Fault::new(
                    line,
                    found,
                    expected,
                    "correct it or leave it empty; it counts as missing",
                )),
            }
        }
        values
    }

    /// Adds a row to its hour.
    pub(super) fn add(&mut self, line: usize, stamp: Stamp, values: Values) {
        if !is_date(stamp.month, stamp.day) {
            let found = format!("month {} day {}", stamp.month, stamp.day);
            self.bad(Fault::new(
                line,
                found,
                "a day of the calendar",
                "correct the date; the row is left out",
            ));
            return;
        }
        let (month, day, hour) = match stamp.hour {
            Some(hour) => (stamp.month, stamp.day, hour.min(23)),
            None => day_before(stamp.month, stamp.day),
        };
        let slot = self.slots.entry((month, day, hour)).or_default();
        let bit = 1_u64 << (stamp.minute % 60);
        if slot.minutes & bit != 0 {
            if self.repeated == 0 {
                self.first_repeated = line;
            }
            self.repeated += 1;
            return;
        }
        slot.minutes |= bit;
        for ((count, sum), value) in slot.counts.iter_mut().zip(&mut slot.sums).zip(values) {
            if let Some(value) = value {
                *count += 1.0;
                *sum += value;
            }
        }
    }

    /// The hours, and what is wrong with them; or why they are of no use.
    pub(super) fn finish(
        mut self,
        light: Light,
    ) -> Result<(Vec<HourReading>, Vec<Fault>), Vec<Fault>> {
        if let Some(why) = self.useless() {
            let mut all = vec![why];
            all.extend(self.faults.finish());
            return Err(all);
        }
        let parts = self.usual_parts();
        let hours: Vec<HourReading> = self
            .slots
            .iter()
            .map(|(key, slot)| reading(*key, slot, light, parts))
            .collect();
        if hours.iter().all(|hour| hour.global.is_none()) {
            return Err(vec![Fault::new(
                0,
                "no global light in any row",
                "global light on flat ground",
                "choose a file with measured or modelled light",
            )]);
        }
        self.note_gaps(&hours, parts);
        Ok((hours, self.faults.finish()))
    }

    fn useless(&self) -> Option<Fault> {
        if self.rows > MOST_ROWS {
            return Some(Fault::new(
                0,
                format!("more than {MOST_ROWS} rows"),
                "one year in steps of five minutes or longer",
                "keep one year, or add the rows up to hours",
            ));
        }
        if self.repeated > MOST_REPEATED {
            return Some(Fault::new(
                self.first_repeated,
                format!("an hour that came before, as do {} more", self.repeated - 1),
                "each hour of one year once",
                "keep one year; give rows of less than an hour a minute of their own",
            ));
        }
        if self.slots.is_empty() {
            return Some(Fault::new(
                0,
                "no hour that can be read",
                "8760 or 8784 hours",
                "look at the first rows of the file, or choose another",
            ));
        }
        (self.bad as f64 > MOST_BAD * self.rows as f64).then(|| {
            Fault::new(
                0,
                format!("{} of {} rows that cannot be read", self.bad, self.rows),
                format!("at most {} in a hundred", MOST_BAD * 100.0),
                "correct the rows listed here, or choose another file",
            )
        })
    }

    /// How many rows most hours have.
    fn usual_parts(&self) -> u32 {
        let mut seen = [0_usize; 61];
        for slot in self.slots.values() {
            if let Some(count) = seen.get_mut(slot.minutes.count_ones() as usize) {
                *count += 1;
            }
        }
        let most = seen.iter().enumerate().max_by_key(|(_, count)| **count);
        most.map_or(1, |(parts, _)| parts.max(1) as u32)
    }

    fn note_gaps(&mut self, hours: &[HourReading], parts: u32) {
        if self.repeated > 0 {
            self.faults.add(Fault::new(
                self.first_repeated,
                format!("{} hours that came before", self.repeated),
                "each hour once",
                "the first of each is kept; give the file without daylight saving",
            ));
        }
        let uneven = self
            .slots
            .values()
            .filter(|slot| slot.minutes.count_ones() != parts);
        let uneven = uneven.count();
        if uneven > 0 {
            self.faults.add(Fault::new(
                0,
                format!("{uneven} hours with more or fewer than {parts} rows"),
                format!("{parts} rows for each hour"),
                "their means are taken; complete them if you can",
            ));
        }
        if !matches!(hours.len(), 8760 | 8784) {
            self.faults.add(Fault::new(
                0,
                format!("{} hours{}", hours.len(), gaps(hours)),
                "8760, or 8784 in a leap year",
                "months with less than ten whole days will be unknown; complete the year if you can",
            ));
        }
        if hours.iter().all(|hour| hour.air.is_none()) {
            self.faults.add(Fault::new(
                0,
                "no air temperature",
                "a column of air temperature",
                "type the temperatures by hand, or choose another file",
            ));
        }
    }
}

fn reading(key: (u32, u32, u32), slot: &Slot, light: Light, parts: u32) -> HourReading {
    let mean = |at: usize| {
        let (count, sum) = (slot.counts.get(at)?, slot.sums.get(at)?);
        (*count > 0.0).then(|| sum / count)
    };
    let hour_sum = match light {
        Light::Energy => f64::from(parts),
        Light::Power => 1.0,
    };
    HourReading {
        month: key.0,
        day: key.1,
        hour: key.2,
        global: mean(0).map(|light| light * hour_sum),
        beam: mean(1).map(|light| light * hour_sum),
        diffuse: mean(2).map(|light| light * hour_sum),
        air: mean(3).map(Temperature::from_celsius),
        wind: mean(4),
    }
}

/// Last hour of the day before; the one before 1 January is the year's last.
fn day_before(month: u32, day: u32) -> (u32, u32, u32) {
    if day > 1 {
        return (month, day - 1, 23);
    }
    let before = if month > 1 { month - 1 } else { 12 };
    let days = MONTH_DAYS.get(before as usize - 1).copied().unwrap_or(31);
    (before, days, 23)
}

/// The months with fewer hours than they have, as the end of a sentence.
fn gaps(hours: &[HourReading]) -> String {
    let short = (1..=12_u32).zip(MONTH_DAYS).filter(|(month, days)| {
        let count = hours.iter().filter(|hour| hour.month == *month).count();
        count < 24 * *days as usize
    });
    let names: Vec<String> = short.map(|(month, _)| month.to_string()).collect();
    match names.as_slice() {
        [] => String::new(),
        some => format!(", gaps in month {}", some.join(", ")),
    }
}
