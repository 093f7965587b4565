//! Weather files as text: typical years in two public forms, and our own daily form.
//! What follows from a record by months is in `climate`.
//!
//! # Computes
//! The hours or days of a file, where it is from, everything that is wrong with it, and whether
//! its light follows the sun of its place.
//!
//! # Equation
//! - light of an hour: mean of its rows, times their number where a row holds energy
//! - alignment: correlation of light with light above the air, the record put up to 12 h early or late
//!
//! # Assumptions and limits
//! Hours are local standard time without daylight saving, named by their end; a file whose first
//! row is at 0:00 names them by their beginning. Years are ignored in hourly files, whose months
//! may be of different ones. Numbers outside what can be count as missing; when more than one row
//! in twenty cannot be read the file is refused. At most 32 MiB, 110,000 rows, 100 cells of a row
//! and 40 listed faults.
//!
//! # Valid range
//! Rows of 1 to 60 minutes. Text in UTF-8 or Latin-1, with any line ends.
//!
//! # Example
//! ```
//! use wainwright_engines::weather_file::{self, Form};
//! let record = weather_file::read(b"date,ghi_kwh_m2\n2025-07-01,6.2\n2025-07-02,5.9\n")?;
//! assert_eq!(record.form, Form::Daily);
//! assert!(record.warnings[0].to_string().contains("2 days"));
//! # Ok::<(), Vec<weather_file::Fault>>(())
//! ```
//!
//! # Sources
//! - EPW: description of the fields in the documentation of the simulation program it was made for
//!   (read); codes for missing values (memory).
//! - TMY3: user's manual of the typical years (read); column names (memory).

mod alignment;
mod cell_range;
mod daily;
mod energy_plus;
mod fault;
mod hours;
mod place;
mod record;
mod text;
mod typical_year;

pub use alignment::Alignment;
pub use fault::{Fault, MOST_FAULTS};
pub use record::{DayReading, Form, HourReading, Readings, Record, Site};
pub use text::{MOST_BYTES, MOST_ROWS};

use crate::weather::LightAbove;
use record::Hourly;

/// Correlation below which the light does not follow the sun of the place at all.
const LEAST_CORRELATION: f64 = 0.6;

/// Clearness of a whole record above which its light cannot be true.
const CLEAREST_RECORD: f64 = 0.85;

/// Reads a weather file.
///
/// # Errors
/// Why the file is of no use, the weightiest fault first. Faults that leave it useful are in
/// [`Record::warnings`].
pub fn read(bytes: &[u8]) -> Result<Record, Vec<Fault>> {
    let text = text::decode(bytes).map_err(|fault| vec![fault])?;
    let form = form_of(&text)?;
    let (site, readings, rows, mut warnings) = match form {
        Form::EnergyPlusWeather => hourly(energy_plus::read(&text)?),
        Form::TypicalYear => hourly(typical_year::read(&text)?),
        Form::Daily => {
            let (days, rows, warnings) = daily::read(&text)?;
            (Site::default(), Readings::Days(days), rows, warnings)
        }
    };
    let alignment = match &readings {
        Readings::Hours(hours) => {
            warnings.extend(too_bright(hours, &site));
            alignment::align(hours, &site)
        }
        Readings::Days(_) => None,
    };
    warnings.extend(alignment.and_then(out_of_step));
    Ok(Record {
        form,
        site,
        readings,
        rows,
        alignment,
        warnings,
    })
}

fn hourly((site, hours, rows, warnings): Hourly) -> (Site, Readings, usize, Vec<Fault>) {
    (site, Readings::Hours(hours), rows, warnings)
}

fn form_of(text: &str) -> Result<Form, Vec<Fault>> {
    let first = text::lines(text).next();
    let (line, first) = first.unwrap_or((0, ""));
    if text::plain(first).starts_with("location,") {
        Ok(Form::EnergyPlusWeather)
    } else if daily::is_daily(text) {
        Ok(Form::Daily)
    } else if typical_year::is_typical_year(text) {
        Ok(Form::TypicalYear)
    } else {
        let remedy = if first.contains(';') {
            "save the file with commas between the columns and points in the numbers"
        } else {
            "choose an EPW or TMY3 file, or write days as date,ghi_kwh_m2,tmin_c,tmax_c"
        };
        Err(vec![Fault::new(
            line,
            fault::quote(first),
            "LOCATION, (EPW), column names with GHI (W/m^2) (TMY3), or date,ghi_kwh_m2 (daily)",
            remedy,
        )])
    }
}

fn out_of_step(alignment: Alignment) -> Option<Fault> {
    if alignment.best_correlation < LEAST_CORRELATION {
        return Some(Fault::new(
            0,
            "light that does not follow the sun of this place",
            "light by day and none by night",
            "check latitude, longitude and time zone in the file, and the column of light",
        ));
    }
    let word = if alignment.best > 0 { "late" } else { "early" };
    let remedy = if alignment.best.abs() == 1 {
        "daily sums stay right; correct the time zone of the file to get the hours right"
    } else {
        "correct the time zone of the file: its days are cut at the wrong hour"
    };
    (alignment.best != 0).then(|| {
        Fault::new(
            0,
            format!("hours that are {} h {word}", alignment.best.abs()),
            "hours in step with the sun",
            remedy,
        )
    })
}

fn too_bright(hours: &[HourReading], site: &Site) -> Option<Fault> {
    let (place, zone) = (site.place()?, site.zone_or_nearest()?);
    let (mut ground, mut above) = (0.0, 0.0);
    for hour in hours.iter().filter(|hour| hour.hour == 12) {
        above += LightAbove::new(place, zone, hour.month, hour.day)
            .ok()?
            .day();
    }
    for hour in hours {
        ground += hour.global.unwrap_or(0.0);
    }
    (ground > CLEAREST_RECORD * above && above > 0.0).then(|| {
        Fault::new(
            0,
            format!("{:.2} times the light above the air", ground / above),
            format!("at most {CLEAREST_RECORD} times"),
            "check the unit of light: Wh/m² for each row in EPW, W/m² in TMY3",
        )
    })
}
