//! EPW: `LOCATION`, seven more lines of header, then hours of 35 fields.

use super::fault::{Fault, Faults, quote};
use super::hours::{Gathered, Light, Stamp};
use super::place::{PlaceCells, site};
use super::record::{Hourly, Site};
use super::text::{cells, lines, whole};

/// Fewest fields of a row: the wind is the 22nd.
const LEAST_FIELDS: usize = 22;

/// Lines of a header.
const HEADER_LINES: usize = 8;

/// Reads the place and the hours.
pub(super) fn read(text: &str) -> Result<Hourly, Vec<Fault>> {
    let mut faults = Faults::default();
    let mut gathered = Gathered::default();
    let mut place = Site::default();
    let (mut in_rows, mut header_ended) = (false, false);
    let mut begins = None;
    for (at, (line, row)) in lines(text).enumerate() {
        let fields = cells(row);
        if at == 0 {
            place = site(line, &place_cells(&fields), &mut faults);
            continue;
        }
        if !in_rows {
            // The header is eight lines, but some files lost one.
            in_rows = header_ended || at >= HEADER_LINES || is_row(&fields);
            header_ended |= row.to_ascii_uppercase().starts_with("DATA PERIODS");
            if !in_rows {
                continue;
            }
        }
        if !gathered.begin_row() {
            break;
        }
        row_of(line, row, &fields, &mut begins, &mut gathered);
    }
    if begins == Some(true) {
        gathered.faults.add(starts_at_nought());
    }
    let rows = gathered.rows;
    let (hours, more) = gathered.finish(Light::Energy)?;
    let mut warnings = faults.finish();
    warnings.extend(more);
    Ok((place, hours, rows, warnings))
}

/// The fault of a file whose hours are named by their beginning.
pub(super) fn starts_at_nought() -> Fault {
    Fault::new(
        0,
        "hours that are counted from 0",
        "hours 1 to 24, named by their end",
        "each row is taken to begin at its time",
    )
}

/// Whether fields are a row: a year or nothing, then month, day and hour.
fn is_row(fields: &[&str]) -> bool {
    let is_number = |cell: &&str| cell.parse::<f64>().is_ok();
    fields.len() >= LEAST_FIELDS
        && fields
            .first()
            .is_some_and(|year| year.is_empty() || is_number(year))
        && fields
            .get(1..4)
            .is_some_and(|date| date.iter().all(is_number))
}

fn place_cells<'a>(fields: &'a [&'a str]) -> PlaceCells<'a> {
    PlaceCells {
        name: fields.get(1),
        region: fields.get(2),
        country: fields.get(3),
        station: fields.get(5),
        latitude: fields.get(6),
        longitude: fields.get(7),
        zone: fields.get(8),
        altitude: fields.get(9),
    }
}

fn row_of(
    line: usize,
    row: &str,
    fields: &[&str],
    begins: &mut Option<bool>,
    gathered: &mut Gathered,
) {
    if fields.len() < LEAST_FIELDS {
        let found = format!("{} fields in {}", fields.len(), quote(row));
        gathered.bad(Fault::new(
            line,
            found,
            "a row of 35 fields",
            "complete the row; it is left out",
        ));
        return;
    }
    let date = || {
        let month = whole(fields.get(1), 12)?;
        let day = whole(fields.get(2), 31)?;
        let hour = whole(fields.get(3), 24)?;
        // Not every file knows minutes.
        let minute = whole(fields.get(4), 60).unwrap_or(0);
        Ok((month, day, hour, minute))
    };
    let (month, day, hour, minute) = match date() {
        Ok(date) => date,
        Err(found) => {
            gathered.bad(bad_date(line, found, "month, day and hour 1 to 24"));
            return;
        }
    };
    let begins = *begins.get_or_insert(hour == 0);
    let hour = if begins {
        Some(hour)
    } else {
        hour.checked_sub(1)
    };
    let stamp = Stamp {
        month,
        day,
        hour,
        minute: minute % 60,
    };
    let wanted = [13, 14, 15, 6, 21].map(|at| fields.get(at));
    let values = gathered.values(line, wanted);
    gathered.add(line, stamp, values);
}

/// The fault of a row whose date or time cannot be read.
pub(super) fn bad_date(line: usize, found: String, expected: &str) -> Fault {
    Fault::new(
        line,
        found,
        expected,
        "correct the date; the row is left out",
    )
}
