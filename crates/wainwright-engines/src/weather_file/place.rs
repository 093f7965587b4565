//! The line of a file that says where it is from. Not here: the readings.

use super::fault::{Fault, Faults};
use super::record::Site;
use super::text::number;
use wainwright_units::{Angle, Length};

/// Cells of the line, by what they hold.
pub(super) struct PlaceCells<'a> {
    pub name: Option<&'a &'a str>,
    pub region: Option<&'a &'a str>,
    pub country: Option<&'a &'a str>,
    pub station: Option<&'a &'a str>,
    pub latitude: Option<&'a &'a str>,
    pub longitude: Option<&'a &'a str>,
    pub zone: Option<&'a &'a str>,
    pub altitude: Option<&'a &'a str>,
}

/// Longest name that is kept [letters].
const LONGEST_NAME: usize = 80;

/// Reads the line; a number that is none or cannot be is a fault, and unknown.
pub(super) fn site(line: usize, cells: &PlaceCells<'_>, faults: &mut Faults) -> Site {
    let text = |cell: Option<&&str>| {
        let name: String = cell
            .map_or("", |cell| *cell)
            .chars()
            .take(LONGEST_NAME)
            .collect();
        name
    };
    let mut within = |name: &str, cell: Option<&&str>, low: f64, high: f64| {
        let found = match number(cell) {
            Ok(Some(value)) if (low..=high).contains(&value) => return Some(value),
            Ok(Some(value)) => value.to_string(),
            Ok(None) => "nothing".to_owned(),
            Err(found) => found,
        };
        faults.add(Fault::new(
            line,
            format!("{found} as {name}"),
            format!("a number from {low} to {high}"),
            "set the place by hand",
        ));
        None
    };
    Site {
        name: text(cells.name),
        region: text(cells.region),
        country: text(cells.country),
        station: text(cells.station),
        latitude: within("latitude", cells.latitude, -90.0, 90.0).map(Angle::from_degrees),
        longitude: within("longitude", cells.longitude, -180.0, 180.0).map(Angle::from_degrees),
        zone: within("hours ahead of universal time", cells.zone, -12.0, 14.0),
        altitude: within("altitude", cells.altitude, -500.0, 9000.0).map(Length::from_metres),
    }
}
