//! TMY3: a line for the place, a line of column names, then hours; columns are found by name.

use super::energy_plus::{bad_date, starts_at_nought};
use super::fault::{Fault, Faults, quote};
use super::hours::{Gathered, Light, Stamp};
use super::place::{PlaceCells, site};
use super::record::{Hourly, Site};
use super::text::{cells, lines, plain, whole};

/// Lines in which the names are looked for.
const NAMES_WITHIN: usize = 5;

/// Where the columns are.
struct Columns {
    date: usize,
    time: usize,
    values: [Option<usize>; 5],
}

/// Whether a text has a line of such names near its top.
pub(super) fn is_typical_year(text: &str) -> bool {
    lines(text)
        .take(NAMES_WITHIN)
        .any(|(_, line)| columns(&cells(line)).is_some())
}

/// Reads the place and the hours.
pub(super) fn read(text: &str) -> Result<Hourly, Vec<Fault>> {
    let mut faults = Faults::default();
    let mut gathered = Gathered::default();
    let mut place = Site::default();
    let mut named: Option<Columns> = None;
    let mut begins = None;
    for (at, (line, row)) in lines(text).enumerate() {
        let fields = cells(row);
        let Some(names) = &named else {
            named = columns(&fields);
            if named.is_none() && at == 0 {
                place = site(line, &place_cells(&fields), &mut faults);
            }
            continue;
        };
        if !gathered.begin_row() {
            break;
        }
        row_of(line, row, &fields, names, &mut begins, &mut gathered);
    }
    if let Some(names) = &named {
        note_missing(names, &mut faults);
    }
    if begins == Some(true) {
        gathered.faults.add(starts_at_nought());
    }
    let rows = gathered.rows;
    let (hours, more) = gathered.finish(Light::Power)?;
    let mut warnings = faults.finish();
    warnings.extend(more);
    Ok((place, hours, rows, warnings))
}

/// The columns, when a line names at least date, time and global light.
fn columns(names: &[&str]) -> Option<Columns> {
    let find = |wanted: &str| {
        names
            .iter()
            .position(|name| plain(name).starts_with(wanted))
    };
    let values = ["ghi(w/m", "dni(w/m", "dhi(w/m", "dry-bulb(c", "wspd(m/s"].map(find);
    values.first().copied().flatten()?;
    Some(Columns {
        date: find("date")?,
        time: find("time")?,
        values,
    })
}

fn note_missing(names: &Columns, faults: &mut Faults) {
    let wanted = [
        "GHI (W/m^2)",
        "DNI (W/m^2)",
        "DHI (W/m^2)",
        "Dry-bulb (C)",
        "Wspd (m/s)",
    ];
    for (name, column) in wanted.into_iter().zip(names.values) {
        if column.is_none() {
            faults.add(Fault::new(
                0,
                format!("no column '{name}'"),
                "a column of that name and unit",
                "add it if you have it; the file is read without",
            ));
        }
    }
}

fn place_cells<'a>(fields: &'a [&'a str]) -> PlaceCells<'a> {
    PlaceCells {
        name: fields.get(1),
        region: fields.get(2),
        country: None,
        station: fields.first(),
        latitude: fields.get(4),
        longitude: fields.get(5),
        zone: fields.get(3),
        altitude: fields.get(6),
    }
}

fn row_of(
    line: usize,
    row: &str,
    fields: &[&str],
    names: &Columns,
    begins: &mut Option<bool>,
    gathered: &mut Gathered,
) {
    let date = fields.get(names.date).and_then(|cell| month_day(cell));
    let time = fields.get(names.time).and_then(|cell| hour_minute(cell));
    let (Some((month, day)), Some((hour, minute))) = (date, time) else {
        let expected = "a date MM/DD/YYYY and a time 01:00 to 24:00";
        gathered.bad(bad_date(line, quote(row), expected));
        return;
    };
    let begins = *begins.get_or_insert(hour == 0 && minute == 0);
    // The row ends at its time: 24:00 is of the same day, 0:00 of the day before.
    let hour = match (begins, minute) {
        (true, _) => Some(hour),
        (false, 0) => hour.checked_sub(1),
        (false, _) => Some(hour),
    };
    let stamp = Stamp {
        month,
        day,
        hour,
        minute,
    };
    let wanted = names.values.map(|at| fields.get(at?));
    let values = gathered.values(line, wanted);
    gathered.add(line, stamp, values);
}

/// Month and day of `MM/DD/YYYY` or `YYYY-MM-DD`; the year does not matter.
fn month_day(text: &str) -> Option<(u32, u32)> {
    let (parts, from) = if text.contains('/') {
        (text.split('/').collect::<Vec<_>>(), 0)
    } else {
        (text.split('-').collect(), 1)
    };
    if parts.len() != 3 {
        return None;
    }
    Some((
        whole(parts.get(from), 12).ok()?,
        whole(parts.get(from + 1), 31).ok()?,
    ))
}

/// Hour and minute of `HH:MM`.
fn hour_minute(text: &str) -> Option<(u32, u32)> {
    let mut parts = text.split(':');
    let hour = whole(parts.next().as_ref(), 24).ok()?;
    let minute = whole(parts.next().as_ref(), 59).ok()?;
    Some((hour, minute))
}
