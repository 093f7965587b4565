//! Our own form: one row for each day, `date,ghi_kwh_m2[,tmin_c,tmax_c]`.

use std::collections::BTreeMap;

use super::cell_range::{AIR, DAY_LIGHT};
use super::fault::{Fault, Faults, quote};
use super::record::DayReading;
use super::text::{MOST_ROWS, cells, lines, plain, whole};
use crate::weather::is_date;
use wainwright_units::Temperature;

/// Share of the rows that may be unreadable before a file is refused.
const MOST_BAD: f64 = 0.05;

/// Days that may come twice.
const MOST_REPEATED: usize = 10;

/// Where the columns are.
struct Columns {
    date: usize,
    light: usize,
    coldest: Option<usize>,
    warmest: Option<usize>,
}

/// Days read so far.
#[derive(Default)]
struct Days {
    days: BTreeMap<(i32, u32, u32), DayReading>,
    rows: usize,
    bad: usize,
    last_bad: usize,
    repeated: usize,
    faults: Faults,
}

/// Whether the first line names the columns.
pub(super) fn is_daily(text: &str) -> bool {
    lines(text)
        .next()
        .is_some_and(|(_, line)| columns(&cells(line)).is_some())
}

/// Reads the days.
pub(super) fn read(text: &str) -> Result<(Vec<DayReading>, usize, Vec<Fault>), Vec<Fault>> {
    let mut all = Days::default();
    let mut named: Option<Columns> = None;
    for (line, row) in lines(text) {
        let fields = cells(row);
        let Some(names) = &named else {
            named = columns(&fields);
            continue;
        };
        all.rows += 1;
        if all.rows > MOST_ROWS {
            break;
        }
        all.read_row(line, row, &fields, names);
    }
    let rows = all.rows;
    let (days, faults) = all.finish()?;
    Ok((days, rows, faults))
}

fn columns(names: &[&str]) -> Option<Columns> {
    let find = |wanted: &str| names.iter().position(|name| plain(name) == wanted);
    Some(Columns {
        date: find("date")?,
        light: find("ghi_kwh_m2")?,
        coldest: find("tmin_c"),
        warmest: find("tmax_c"),
    })
}

impl Days {
    fn bad(&mut self, fault: Fault) {
        self.bad += usize::from(self.last_bad != fault.line);
        self.last_bad = fault.line;
        self.faults.add(fault);
    }

    fn read_row(&mut self, line: usize, row: &str, fields: &[&str], names: &Columns) {
        let date = fields.get(names.date).and_then(|cell| date_of(cell));
        let Some((year, month, day)) = date else {
            self.bad(Fault::new(
                line,
                quote(row),
                "a date as 2025-07-31",
                "write year, month and day in that order; the row is left out",
            ));
            return;
        };
        let global = self.light(line, fields.get(names.light));
        let mut air = |at: Option<usize>| match AIR.read(fields.get(at?)) {
            Ok(value) => value,
            Err((found, expected)) => {
                let remedy = "write it in °C or leave it empty; it counts as missing";
                self.bad(Fault::new(line, found, expected, remedy));
                None
            }
        };
        let (mut coldest, mut warmest) = (air(names.coldest), air(names.warmest));
        if let (Some(low), Some(high)) = (coldest, warmest)
            && low > high
        {
            self.bad(Fault::new(
                line,
                format!("a low of {low} above a high of {high}"),
                "tmin_c below tmax_c",
                "swap the columns; both count as missing",
            ));
            (coldest, warmest) = (None, None);
        }
        let reading = DayReading {
            year,
            month,
            day,
            global,
            coldest: coldest.map(Temperature::from_celsius),
            warmest: warmest.map(Temperature::from_celsius),
        };
        let before = self.days.len();
        self.days.entry((year, month, day)).or_insert(reading);
        if self.days.len() == before {
            self.repeated += 1;
            self.faults.add(Fault::new(
                line,
                format!("{year}-{month:02}-{day:02} once more"),
                "each day once",
                "the first one is kept; delete this row",
            ));
        }
    }

    /// Light of the day [Wh/m²].
    fn light(&mut self, line: usize, cell: Option<&&str>) -> Option<f64> {
        match DAY_LIGHT.read(cell) {
            Ok(value) => value.map(|kilowatt_hours| 1000.0 * kilowatt_hours),
            Err((found, expected)) => {
                let remedy = "divide MJ by 3.6 and Wh by 1000; it counts as missing";
                self.bad(Fault::new(line, found, expected, remedy));
                None
            }
        }
    }

    fn finish(mut self) -> Result<(Vec<DayReading>, Vec<Fault>), Vec<Fault>> {
        let days: Vec<DayReading> = self.days.into_values().collect();
        let lit = days.iter().filter(|day| day.global.is_some()).count();
        let (found, expected, remedy) = if self.rows > MOST_ROWS {
            let found = format!("more than {MOST_ROWS} rows");
            (found, "days".to_owned(), "add the rows up to days")
        } else if lit == 0 {
            let found = "no light in any row".to_owned();
            let expected = "kWh/m² in column ghi_kwh_m2".to_owned();
            (found, expected, "fill that column")
        } else if self.bad as f64 > MOST_BAD * self.rows as f64 {
            let found = format!("{} of {} rows that cannot be read", self.bad, self.rows);
            let expected = format!("at most {} in a hundred", MOST_BAD * 100.0);
            (found, expected, "correct the rows listed here")
        } else if self.repeated > MOST_REPEATED {
            let found = format!("{} days that came before", self.repeated);
            (found, "each day once".to_owned(), "add the rows up to days")
        } else {
            if lit < 365 {
                self.faults.add(Fault::new(
                    0,
                    format!("{lit} days with light"),
                    "365 or more",
                    "months with less than ten days will be unknown; complete the year if you can",
                ));
            }
            return Ok((days, self.faults.finish()));
        };
        let mut all = vec![Fault::new(0, found, expected, remedy)];
        all.extend(self.faults.finish());
        Err(all)
    }
}

/// Year, month and day of `2025-07-31` or `2025/07/31`.
fn date_of(text: &str) -> Option<(i32, u32, u32)> {
    let parts: Vec<&str> = text.split(['-', '/']).collect();
    let [year, month, day] = parts.as_slice() else {
        return None;
    };
    let year = whole(Some(year), 9999).ok().filter(|year| *year >= 1000)?;
    let (month, day) = (whole(Some(month), 12).ok()?, whole(Some(day), 31).ok()?);
    is_date(month, day).then_some((year as i32, month, day))
}
