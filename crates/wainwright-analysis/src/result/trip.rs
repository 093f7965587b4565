//! What the trip study finds about one trip, as plain data: hours, bands, odds, where energy and water go, what
//! helps, how the other months are, how large battery and modules would have to be. Not here: judgement and words
//! for people.

use crate::known::Known;
use crate::result::AssumedValue;
use wainwright_model::{Id, Kind};
use wainwright_units::{Charge, Energy, Mass, Power, Ratio, Temperature, Volume};

/// Everything found about one trip.
#[derive(Debug, Clone)]
pub struct TripOutlook {
    /// The trip.
    pub trip: Id,
    /// Its hours in order, the first is the one it begins with.
    pub hours: Vec<TripHour>,
    /// Trips that were simulated.
    pub runs: usize,
    /// State of charge by hour, as shares.
    pub charge: Vec<Band>,
    /// Fresh water by hour \[L\]; empty without a tank.
    pub fresh: Vec<Band>,
    /// Waste water by hour \[L\]; empty without a tank.
    pub waste: Vec<Band>,
    /// Fuel of the heater by hour \[L\]; empty without a tank.
    pub fuel: Vec<Band>,
    /// Odds of each thing that can run out or over, those that cannot happen left out.
    pub odds: Vec<TripOdds>,
    /// Odds that anything runs out.
    pub any: Chance,
    /// Odds that are still accepted.
    pub accepted: Known<Ratio>,
    /// Energy by source and use, the mean of all runs.
    pub energy: EnergyShares,
    /// Water used on the whole trip \[L\], and fuel burnt \[L\], the mean of all runs.
    pub water_wanted: Volume,
    /// Fuel burnt, the mean of all runs.
    pub fuel_burnt: Volume,
    /// What would change the odds, the best first.
    pub helps: Vec<Help>,
    /// The same trip in each month of the year, January first.
    pub months: Vec<MonthChance>,
    /// Lowest charge of a trip, as a share.
    pub lowest: Band,
    /// What the protection did.
    pub guard: GuardFound,
    /// The battery that was reckoned with.
    pub bank: BankFound,
    /// The modules that were reckoned with, one for each controller.
    pub fields: Vec<FieldFound>,
    /// The climate of the trip's month.
    pub weather: WeatherFound,
    /// Wear of the battery by this trip and by a year of its age, as shares of its capacity, when it is known.
    pub wear: Option<(Ratio, Ratio)>,
    /// Loads that nobody said how they are used, and which therefore do not count.
    pub unused: Vec<Id>,
    /// Values that nobody gave, with the stand-ins used.
    pub assumptions: Vec<AssumedValue>,
}

/// One hour of a trip.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct TripHour {
    /// Day of the trip, 1 is the first.
    pub day: u32,
    /// Hour of the day, 0 is the one from midnight.
    pub hour: u32,
    /// The trailer is towed.
    pub driving: bool,
    /// Shore power is there.
    pub shore: bool,
    /// The tanks are filled and emptied.
    pub tap: bool,
}

/// The values below which 10, 50 and 90 of a hundred runs are.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Band {
    /// Ten of a hundred are below.
    pub low: f64,
    /// Half are below.
    pub middle: f64,
    /// Ninety of a hundred are below.
    pub high: f64,
}

/// What can go wrong on a trip.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum RunsOut {
    /// A load got no power.
    Energy,
    /// There was no water.
    Water,
    /// The waste water tank ran over.
    Waste,
    /// The heater had no fuel.
    Fuel,
}

/// Odds with their interval.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Chance {
    /// Share of the runs in which it happened.
    pub share: Ratio,
    /// Lower end of the 95 % interval (Wilson).
    pub low: Ratio,
    /// Upper end of it.
    pub high: Ratio,
}

/// Odds of one thing, and when it happens.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TripOdds {
    /// What runs out.
    pub what: RunsOut,
    /// How likely.
    pub chance: Chance,
    /// Day on which it first happens, of the runs in which it does: the day below which a tenth, a half and nine
    /// tenths of these runs are. 1 is the first day.
    pub day: Option<Band>,
}

/// Where energy comes from and goes, mean of all runs over the whole trip.
#[derive(Debug, Clone, PartialEq)]
pub struct EnergyShares {
    /// Who gave.
    pub given: Vec<EnergyShare>,
    /// Who got.
    pub taken: Vec<EnergyShare>,
    /// Lost in the battery.
    pub battery_losses: Energy,
    /// Taken out of the battery over the trip, negative when it is fuller at the end.
    pub from_battery: Energy,
    /// Sun that nobody could use.
    pub spilled: Energy,
    /// Wanted and not given.
    pub unserved: Energy,
}

/// One source or one use.
#[derive(Debug, Clone, PartialEq)]
pub struct EnergyShare {
    /// The item, when it is one.
    pub item: Option<Id>,
    /// The use as typed, when it is one.
    pub used: Option<Id>,
    /// What it is called.
    pub label: String,
    /// What is lost between the battery and the gear, in an inverter: shown as part of it.
    pub lost: Energy,
    /// Energy over the trip.
    pub energy: Energy,
}

/// A change that was tried on the same weather.
#[derive(Debug, Clone, PartialEq)]
pub struct Help {
    /// What would be done.
    pub what: HelpKind,
    /// What it helps against.
    pub of: RunsOut,
    /// Odds that this runs out with it.
    pub chance: Chance,
    /// How much the odds fall; negative when they rise.
    pub gain: Ratio,
    /// Half the width of the 95 % interval of that gain, from pairs of runs on the same weather.
    pub margin: Ratio,
    /// Mass it adds, when it is known.
    pub mass: Option<Mass>,
}

/// What could be done.
#[derive(Debug, Clone, PartialEq)]
pub enum HelpKind {
    /// One more module like this one.
    OneMoreModule(Id),
    /// All flat modules tilted towards the noon sun as steeply as this \[°\].
    Tilt(f64),
    /// One more battery like this one.
    OneMoreBattery(Id),
    /// The inverter only on while mains gear is used.
    InverterOff(Id),
    /// The fresh water tanks half as large again.
    MoreWater(Volume),
    /// The waste water tanks half as large again.
    MoreWaste(Volume),
    /// A day with shore power in the middle of the trip.
    ShoreDay(u32),
    /// A day with a tap and a drain in the middle of the trip.
    TapDay(u32),
    /// An hour more of driving on each driving day.
    DriveLonger,
    /// Half of a use.
    HalfOf(Id),
}

/// The same trip in another month.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MonthChance {
    /// 1 is January.
    pub month: u32,
    /// Odds that energy runs out.
    pub energy: Chance,
    /// Sun that the modules could give on a mean day.
    pub sun: Energy,
    /// What is used on a mean day.
    pub used: Energy,
    /// Mean temperature.
    pub air: Temperature,
}

/// What the protection of the battery did, mean of all runs over the whole trip.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct GuardFound {
    /// Hours in which it stopped charging because a cell was full.
    pub full_stops: f64,
    /// Of these, hours in which the sun shone: loads then hang on the controller alone.
    pub load_dumps: f64,
    /// Hours in which charge was offered and refused for cold or heat.
    pub refused: f64,
    /// Hours in which the sun shone and no controller woke up.
    pub asleep: f64,
}

/// The battery as reckoned with.
#[derive(Debug, Clone, PartialEq)]
pub struct BankFound {
    /// Its batteries.
    pub items: Vec<Id>,
    /// Charge when full.
    pub capacity: Charge,
    /// Energy between full and empty at its open voltage.
    pub energy: Energy,
    /// Share of it that may be used.
    pub usable: Ratio,
}

/// Modules on one controller as reckoned with.
#[derive(Debug, Clone, PartialEq)]
pub struct FieldFound {
    /// The controller.
    pub controller: Id,
    /// Its modules.
    pub modules: Vec<Id>,
    /// Rated power of all of them.
    pub rated: Power,
    /// Share of their light that lasting shade on the roof leaves.
    pub shade: Ratio,
    /// Share that is left after dirt, wire and mismatch.
    pub left: Ratio,
    /// Energy it gives on a mean day of the month.
    pub mean_day: Energy,
    /// Energy it gives on a day without a cloud in that month.
    pub clear_day: Energy,
}

/// The climate of the month.
#[derive(Debug, Clone, PartialEq)]
pub struct WeatherFound {
    /// The climate's id in the project.
    pub climate: Id,
    /// Listed place that the figures are from, when they are; its name.
    pub listed: Option<String>,
    /// Month of the trip's middle, 1 is January.
    pub month: u32,
    /// Mean clearness of that month.
    pub clearness: f64,
    /// How much it differs from year to year, as a share.
    pub spread: f64,
    /// Mean temperature.
    pub mean: Temperature,
}

/// Why there is no outlook.
#[derive(Debug, Clone, PartialEq)]
pub enum NoOutlook {
    /// No such trip.
    NoTrip,
    /// A value is missing: where, and what it is.
    Missing {
        /// Path in the project file.
        path: Vec<String>,
        /// What is wanted, in plain words.
        wanted: &'static str,
    },
    /// An engine refused, with its sentence.
    Refused(String),
}

/// How large battery and modules would have to be.
#[derive(Debug, Clone, PartialEq)]
pub struct SizeChart {
    /// Odds that are accepted.
    pub accepted: Ratio,
    /// Month it was worked out for, 1 is January.
    pub month: u32,
    /// Modules of this kind are added or left out.
    pub module: Option<Id>,
    /// Rated power of one.
    pub module_power: Power,
    /// Batteries of this kind are added or left out.
    pub battery: Option<Id>,
    /// Every combination tried: all batteries for the first number of modules, then for the next.
    pub points: Vec<SizePoint>,
    /// Indexes of the points no other one beats in mass (and price, when prices are known) that hold the odds.
    pub best: Vec<usize>,
    /// Index of what is there now.
    pub now: Option<usize>,
    /// Runs of each point.
    pub runs: usize,
}

/// One combination.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SizePoint {
    /// Number of modules.
    pub modules: u32,
    /// Number of batteries.
    pub batteries: u32,
    /// Their power together.
    pub power: Power,
    /// Their energy together.
    pub energy: Energy,
    /// Odds that energy runs out.
    pub chance: Chance,
    /// Mass of modules and batteries.
    pub mass: Option<Mass>,
    /// Price of those that are not there yet, in the money of the project.
    pub price: Option<f64>,
}

/// A trip of the project in short, for a list.
#[derive(Debug, Clone, PartialEq)]
pub struct TripBrief {
    /// The trip.
    pub trip: Id,
    /// What it is called.
    pub label: String,
    /// Nights away, when it is said.
    pub nights: Option<u32>,
    /// Gear of these kinds that the study needs and does not find.
    pub lacks: Vec<Kind>,
}
