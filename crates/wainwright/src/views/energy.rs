//! Trips and sizing as plain data and in words: odds, hours, shares, what helps, months, combinations. Shared by
//! pages and command line. Not here: simulating (the trip study), layout of any kind.

pub mod months;
pub mod put_in;
pub mod size;
pub mod typical;
pub mod weather;
pub mod words;
pub mod working;

use super::system::{AssumptionView, assumed};
use serde::Serialize;
use wainwright_analysis::result::trip::{
    Band, Chance, EnergyShare, NoOutlook, TripHour, TripOutlook,
};
use wainwright_analysis::trips::ClimateFound;
use wainwright_analysis::weather::{date_of, night};
use wainwright_model::{Day, FieldExt, Project};
use wainwright_units::System;

/// Version of [`TripReport`].
pub const TRIP_VERSION: u32 = 1;

/// One trip, for machines.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TripReport {
    /// [`TRIP_VERSION`].
    pub trip_report: u32,
    /// Version of the program.
    pub program: &'static str,
    /// The file, when there is one.
    pub file: Option<String>,
    /// The trip's id.
    pub trip: String,
    /// What it is called.
    pub label: String,
    /// Why there are no odds; none when there are.
    pub why_none: Option<String>,
    /// What was found.
    pub found: Option<TripView>,
}

/// What was found about a trip.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TripView {
    /// Trips that were simulated.
    pub runs: usize,
    /// The verdict as a word: `lasts`, `close` or `too-often`.
    pub verdict: &'static str,
    /// The same as a sentence.
    pub headline: String,
    /// Odds that anything runs out.
    pub any: ChanceView,
    /// Odds that are still accepted.
    pub accepted_share: f64,
    /// Odds of each thing.
    pub odds: Vec<OddsView>,
    /// Hour by hour.
    pub hours: Vec<HourView>,
    /// Where energy comes from.
    pub given: Vec<ShareView>,
    /// Where it goes.
    pub taken: Vec<ShareView>,
    /// What would change the odds, the best first.
    pub helps: Vec<HelpView>,
    /// The same trip in each month, January first.
    pub months: Vec<MonthView>,
    /// Loads that nobody said the use of, and which do not count.
    pub unused: Vec<String>,
    /// Stand-ins.
    pub assumptions: Vec<AssumptionView>,
}

/// Odds with their interval.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct ChanceView {
    /// Share of the trips.
    pub share: f64,
    /// Lower end of the 95 % interval.
    pub low: f64,
    /// Upper end of it.
    pub high: f64,
}

impl ChanceView {
    fn of(chance: Chance) -> Self {
        Self {
            share: chance.share.fraction(),
            low: chance.low.fraction(),
            high: chance.high.fraction(),
        }
    }
}

/// Odds of one thing.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OddsView {
    /// `energy`, `water`, `waste` or `fuel`.
    pub what: &'static str,
    /// As a sentence.
    pub words: String,
    /// How likely.
    pub chance: ChanceView,
    /// The middle day on which it first happens, in trips in which it does.
    pub day: Option<f64>,
}

/// One hour; of each stock the values below which 10, 50 and 90 of a hundred trips are.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HourView {
    /// Day of the trip, from 1.
    pub day: u32,
    /// Hour of the day, from 0.
    pub hour: u32,
    /// It is night.
    pub night: bool,
    /// The trailer is towed.
    pub driving: bool,
    /// Shore power is there.
    pub shore: bool,
    /// Tanks are filled and emptied.
    pub tap: bool,
    /// State of charge.
    pub charge_shares: Option<[f64; 3]>,
    /// Fresh water.
    pub fresh_litres: Option<[f64; 3]>,
    /// Waste water.
    pub waste_litres: Option<[f64; 3]>,
    /// Fuel of the heater.
    pub fuel_litres: Option<[f64; 3]>,
}

/// A source or a use.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ShareView {
    /// What it is called.
    pub label: String,
    /// Energy over the trip.
    pub watt_hours: f64,
}

/// A change that was tried.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct HelpView {
    /// What would be done.
    pub words: String,
    /// What it helps against: `energy`, `water`, `waste` or `fuel`.
    pub of: &'static str,
    /// Odds of that with it.
    pub chance: ChanceView,
    /// How much the odds fall.
    pub gain_share: f64,
    /// Half the width of the 95 % interval of that.
    pub margin_share: f64,
    /// Mass it adds.
    pub kilograms: Option<f64>,
}

/// A month.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MonthView {
    /// 1 is January.
    pub month: u32,
    /// Odds that the battery runs empty.
    pub chance: ChanceView,
}

impl TripView {
    /// The same as plain data.
    pub fn of(
        outlook: &TripOutlook,
        timeline: &Timeline,
        project: &Project,
        units: System,
    ) -> Self {
        let share = |share: &EnergyShare| ShareView {
            label: share.label.clone(),
            watt_hours: share.energy.watt_hours(),
        };
        let verdict = words::verdict(outlook.any, outlook.accepted.value);
        Self {
            runs: outlook.runs,
            verdict: verdict.id(),
            headline: words::headline(outlook),
            any: ChanceView::of(outlook.any),
            accepted_share: outlook.accepted.value.fraction(),
            odds: odds(outlook),
            hours: hours(outlook, timeline),
            given: outlook.energy.given.iter().map(share).collect(),
            taken: outlook.energy.taken.iter().map(share).collect(),
            helps: helps(outlook, project, units),
            months: outlook
                .months
                .iter()
                .map(|month| MonthView {
                    month: month.month,
                    chance: ChanceView::of(month.energy),
                })
                .collect(),
            unused: outlook.unused.iter().map(ToString::to_string).collect(),
            assumptions: assumed(&outlook.assumptions),
        }
    }
}

fn odds(outlook: &TripOutlook) -> Vec<OddsView> {
    let all = outlook.odds.iter();
    all.map(|odds| OddsView {
        what: words::id(odds.what),
        words: words::odds(odds, outlook.runs),
        chance: ChanceView::of(odds.chance),
        day: odds.day.map(|day| day.middle),
    })
    .collect()
}

fn helps(outlook: &TripOutlook, project: &Project, units: System) -> Vec<HelpView> {
    let all = outlook.helps.iter();
    all.map(|help| HelpView {
        words: words::help(project, &help.what, units),
        of: words::id(help.of),
        chance: ChanceView::of(help.chance),
        gain_share: help.gain.fraction(),
        margin_share: help.margin.fraction(),
        kilograms: help.mass.map(|mass| mass.kilograms()),
    })
    .collect()
}

fn hours(outlook: &TripOutlook, timeline: &Timeline) -> Vec<HourView> {
    let band = |all: &[Band], at: usize| all.get(at).map(|band| [band.low, band.middle, band.high]);
    let view = |(at, hour): (usize, &TripHour)| HourView {
        day: hour.day,
        hour: hour.hour,
        night: timeline.night.get(at).copied().unwrap_or(false),
        driving: hour.driving,
        shore: hour.shore,
        tap: hour.tap,
        charge_shares: band(&outlook.charge, at),
        fresh_litres: band(&outlook.fresh, at),
        waste_litres: band(&outlook.waste, at),
        fuel_litres: band(&outlook.fuel, at),
    };
    outlook.hours.iter().enumerate().map(view).collect()
}

/// The days of a trip with their dates, and its nights.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub struct Timeline {
    /// Hours in which it is night.
    pub night: Vec<bool>,
    /// Days: number of its hours, number of the day, month, day of the month.
    pub days: Vec<TripDay>,
}

/// A day of a trip.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TripDay {
    /// 1 is the first.
    pub day: u32,
    /// 1 is January.
    pub month: u32,
    /// Day of the month.
    pub date: u32,
    /// How many of its hours belong to the trip.
    pub hours: usize,
    /// Index of its first hour.
    pub first: usize,
}

impl Timeline {
    /// Days and nights of a trip of the project.
    pub fn of(project: &Project, outlook: &TripOutlook) -> Self {
        let trip = project.trips.get(outlook.trip.as_str());
        let begins = trip.and_then(|trip| trip.begins.value().copied());
        let climate =
            wainwright_analysis::trips::climate_found(project, outlook.weather.climate.as_str());
        Self::new(&outlook.hours, begins, climate.ok().as_ref())
    }

    fn new(hours: &[TripHour], begins: Option<Day>, climate: Option<&ClimateFound>) -> Self {
        let night = match (begins, climate) {
            (Some(begins), Some(climate)) => night(climate, begins, hours),
            _ => vec![false; hours.len()],
        };
        let mut days: Vec<TripDay> = Vec::new();
        for (first, hour) in hours.iter().enumerate() {
            match days.last_mut() {
                Some(last) if last.day == hour.day => last.hours += 1,
                _ => {
                    let (month, date) = begins.map_or((0, 0), |begins| date_of(begins, hour.day));
                    days.push(TripDay {
                        day: hour.day,
                        month,
                        date,
                        hours: 1,
                        first,
                    });
                }
            }
        }
        Self { night, days }
    }

    /// Indexes of the hours in which the sun rises: when the battery is lowest.
    pub fn dawns(&self) -> Vec<usize> {
        let pairs = self.night.windows(2).enumerate();
        pairs
            .filter(|(_, pair)| matches!(pair, [true, false]))
            .map(|(at, _)| at)
            .collect()
    }
}

/// Why there is no outlook, as a sentence.
pub fn why_none(why: &NoOutlook) -> String {
    match why {
        NoOutlook::NoTrip => "There is no such trip in the project.".into(),
        NoOutlook::Missing { path, wanted } => {
            let path: Vec<&str> = path
                .iter()
                .map(String::as_str)
                .filter(|part| !part.is_empty())
                .collect();
            format!("Missing: {wanted} ({}).", path.join("."))
        }
        NoOutlook::Refused(sentence) => format!("It cannot be worked out: {sentence}."),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn days_are_counted_from_the_first_hour_and_dawn_is_the_last_hour_of_a_night() {
        let hour = |day, hour| TripHour {
            day,
            hour,
            driving: false,
            shore: false,
            tap: false,
        };
        let hours: Vec<TripHour> = (16..24)
            .map(|h| hour(1, h))
            .chain((0..24).map(|h| hour(2, h)))
            .collect();
        let begins = Day::new(2027, 10, 31);
        let mut timeline = Timeline::new(&hours, begins, None);
        let days: Vec<(usize, usize, u32, u32)> = timeline
            .days
            .iter()
            .map(|day| (day.first, day.hours, day.month, day.date))
            .collect();
        assert_eq!(days, [(0, 8, 10, 31), (8, 24, 11, 1)]);
        timeline.night = hours
            .iter()
            .map(|hour| hour.hour < 6 || hour.hour > 18)
            .collect();
        assert_eq!(
            timeline.dawns(),
            [13],
            "the hour from five to six of the second day"
        );
    }
}
