//! The tables of living aboard: who lives in it, climates, trips, how things are used through a day.
//!
//! One declaration each, as in `elements`. Not here: what is computed from them (the analysis).

use crate::day::Day;
use crate::define::element;
use crate::schema::{Target, ValueKind};
use crate::value::FieldValue;
use wainwright_units::{
    Airflow, Altitude, Angle, Area, Duration, Power, Ratio, Speed, Temperature, Volume,
};

const PEOPLE: ValueKind = ValueKind::Integer { low: 0, high: 12 };
const NIGHTS: ValueKind = ValueKind::Integer { low: 1, high: 120 };
const HOUR: ValueKind = ValueKind::Integer { low: 0, high: 23 };
const HOURS: ValueKind = ValueKind::List(&HOUR);
const DAYS: ValueKind = ValueKind::List(&ValueKind::Integer { low: 1, high: 121 });
/// A trailer that drifts away loses a roof; twenty changes of air an hour is an open door.
const CHANGES: ValueKind = ValueKind::Number {
    low: 0.0,
    high: 60.0,
};
/// Universal time is at most 14 hours behind.
const ZONE: ValueKind = ValueKind::Number {
    low: -12.0,
    high: 14.0,
};
/// Clearness of a month: light on the ground over light above the air.
const CLEARNESS: ValueKind = ValueKind::List(&ValueKind::Number {
    low: 0.05,
    high: 0.8,
});
/// The strongest month on earth has about 9.
const SUN: ValueKind = ValueKind::List(&ValueKind::Number {
    low: 0.0,
    high: 12.0,
});
const SPREAD: ValueKind = Ratio::KIND.within(0.0, 0.5, &["8 %", "0.12"]);
const SHARE: ValueKind = Ratio::KIND.within(0.0, 1.0, &["80 %", "0.8"]);
const SHARES: ValueKind = ValueKind::List(&SHARE);
const LATITUDE: ValueKind = Angle::KIND.within(-90.0, 90.0, &["39.7 deg", "-33.9°"]);
const LONGITUDE: ValueKind = Angle::KIND.within(-180.0, 180.0, &["-105.2 deg", "18.6°"]);

element! {
    /// Who lives in the trailer, and in what air.
    Living {
        /// How many people sleep in it.
        people: u32 = PEOPLE,
        /// Coldest night it is slept in.
        winter_air: Temperature,
        /// Air inside that is kept on such a night.
        inside_air: Temperature,
        /// Humidity of the air inside on such a night.
        humidity: Ratio = SHARE,
        /// How often an hour the air inside is changed with everything shut.
        air_changes: f64 = CHANGES,
        /// Air that the fan moves when it runs at night.
        fan_flow: Airflow,
        /// Openings that are never shut, all together, clear of mesh.
        vent_area: Area,
        /// Share of the sunlight that the outer skin takes up: white about 0.3, dark about 0.9.
        skin_absorbs: Ratio = SHARE,
        /// The climate that damp in the walls is looked at in; the first one when nothing is said.
        climate: String = ValueKind::Reference(Target::Climate),
    }
}

element! {
    /// A place and its weather, month by month. Give a listed place, or twelve numbers of your own.
    Climate placed at {
        /// What it is called.
        label: String,
        /// A place of the list, by its name; its figures stand for what is not given here.
        listed: String,
        /// Latitude, north positive.
        latitude: Angle = LATITUDE,
        /// Longitude, east positive.
        longitude: Angle = LONGITUDE,
        /// Height over the sea.
        altitude: Altitude,
        /// Hours that its standard time is ahead of universal time; behind is negative.
        time_zone: f64 = ZONE,
        /// Mean clearness of each month, January first: light on flat ground over light above the air.
        clearness: Vec<f64> = CLEARNESS,
        /// Sun on flat ground in each month, January first: kilowatt hours on a square metre and day.
        sun: Vec<f64> = SUN,
        /// Mean temperature of each month, January first.
        mean: Vec<Temperature>,
        /// Mean coldest temperature of the day in each month, January first.
        coldest: Vec<Temperature>,
        /// Mean warmest temperature of the day in each month, January first.
        warmest: Vec<Temperature>,
        /// Mean wind of each month, January first.
        wind: Vec<Speed>,
        /// Mean humidity of each month, January first.
        humidity: Vec<Ratio> = SHARES,
        /// How much the clearness of a month differs from year to year.
        spread: Ratio = SPREAD,
        /// Where the figures are from.
        source: String,
        /// Anything worth remembering.
        note: String,
    }
}

element! {
    /// A journey that energy and water must last for.
    Trip placed at {
        /// What it is called.
        label: String,
        /// The climate it goes to.
        to: String = ValueKind::Reference(Target::Climate),
        /// The day it begins.
        begins: Day,
        /// Hour of that day at which it begins, 0 to 23.
        begins_hour: u32 = HOUR,
        /// Nights away.
        nights: u32 = NIGHTS,
        /// People who come along.
        people: u32 = PEOPLE,
        /// Days of the trip on which the trailer is towed, 1 is the first.
        driving_days: Vec<u32> = DAYS,
        /// How long the engine runs on such a day.
        driving: Duration,
        /// Days of the trip with shore power from noon to the next noon, 1 is the first.
        shore_days: Vec<u32> = DAYS,
        /// Days of the trip on which the tanks are filled and emptied, 1 is the first.
        tap_days: Vec<u32> = DAYS,
        /// How full the battery is at the start.
        charge: Ratio = SHARE,
        /// How full the fresh water tanks are at the start.
        fresh: Ratio = SHARE,
        /// Water that a person uses on a day.
        water: Volume,
        /// Share of the used water that goes into the grey water tank.
        to_grey: Ratio = SHARE,
        /// Light that is left on the modules in each two hours of the day, midnight first: twelve shares.
        light: Vec<Ratio> = SHARES,
        /// Odds of running out that are still accepted.
        accepted: Ratio = SHARE,
        /// Anything worth remembering.
        note: String,
    }
}

element! {
    /// How something is used through a day.
    Use placed at {
        /// What it is called.
        label: String,
        /// The item that is used; when none is given, something that is plugged in.
        of: String = ValueKind::Reference(Target::Item),
        /// Power it takes while it is used, when it is not that of the item.
        power: Power = Power::KIND.positive(),
        /// The inverter it is plugged into, when it is mains gear.
        inverter: String = ValueKind::Reference(Target::Item),
        /// How long it is used on a day, all together.
        per_day: Duration,
        /// Hours of the day in which it is used, 0 is the one from midnight; spread over all of them.
        hours: Vec<u32> = HOURS,
        /// Whether that is for each person.
        per_person: bool,
        /// The trips it is for; all trips when none is given.
        trips: Vec<String> = ValueKind::List(&ValueKind::Reference(Target::Trip)),
        /// Anything worth remembering.
        note: String,
    }
}
