//! A climate as fields of the project: from a weather file, or from the list of places. Not here: reading files.

use serde::Serialize;
use wainwright_analysis::weather::{WeatherFault, WeatherMonth, WeatherRead};
use wainwright_model::{Edit, Project, Value, path};
use wainwright_reference::climate::{Site, sites};
use wainwright_units::{Angle, Quantity, System};

/// Clearness that the project file takes.
const CLEARNESS: std::ops::RangeInclusive<f64> = 0.05..=0.8;

/// A weather file, for machines.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WeatherReport {
    /// Version of this shape.
    pub weather_report: u32,
    /// Version of the program.
    pub program: &'static str,
    /// Where the file is from.
    pub name: String,
    /// Its form: EPW, TMY3 or days.
    pub form: String,
    /// Rows that were read.
    pub rows: usize,
    /// What is wrong with it.
    pub faults: Vec<String>,
    /// Its months, January first.
    pub months: Vec<WeatherMonthView>,
    /// Id of the climate that was put in the project, when it was.
    pub put_in_as: Option<String>,
}

/// A month.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WeatherMonthView {
    /// Days with light.
    pub days: usize,
    /// Light on the ground over light above the air.
    pub clearness: Option<f64>,
    /// Light on flat ground, a day.
    pub kilowatt_hours_per_square_metre: Option<f64>,
    /// Mean temperature.
    pub mean_celsius: Option<f64>,
    /// Mean of the daily lows.
    pub coldest_celsius: Option<f64>,
    /// Mean of the daily highs.
    pub warmest_celsius: Option<f64>,
    /// Mean wind.
    pub wind_metres_per_second: Option<f64>,
}

impl WeatherReport {
    /// The same as plain data.
    pub fn of(read: &WeatherRead, put_in_as: Option<String>) -> Self {
        Self {
            weather_report: 1,
            program: env!("CARGO_PKG_VERSION"),
            name: read.name.clone(),
            form: read.form.into(),
            rows: read.rows,
            faults: read.warnings.iter().map(fault).collect(),
            months: read.months.iter().flatten().map(month).collect(),
            put_in_as,
        }
    }
}

fn month(month: &WeatherMonth) -> WeatherMonthView {
    WeatherMonthView {
        days: month.days,
        clearness: month.clearness,
        kilowatt_hours_per_square_metre: month.sun,
        mean_celsius: month.mean.map(|air| air.celsius()),
        coldest_celsius: month.coldest.map(|air| air.celsius()),
        warmest_celsius: month.warmest.map(|air| air.celsius()),
        wind_metres_per_second: month.wind.map(|wind| wind.metres_per_second()),
    }
}

/// What is wrong with a file, as a sentence.
pub fn fault(fault: &WeatherFault) -> String {
    let line = fault
        .line
        .map_or_else(|| "The file: ".to_owned(), |line| format!("Line {line}: "));
    format!(
        "{line}found {}; expected {}; {}.",
        fault.found, fault.expected, fault.remedy
    )
}

/// The edit that puts a weather file in the project as a climate.
///
/// # Errors
/// What is missing, as a sentence.
pub fn put_in(
    read: &WeatherRead,
    project: &Project,
    id: &str,
    units: System,
) -> Result<Edit, String> {
    let months = read
        .months
        .as_deref()
        .ok_or("It is not said where the file is from: type latitude and longitude.")?;
    let mut fields = vec![("label".to_owned(), Value::from(label(read).as_str()))];
    if let (Some(latitude), Some(longitude)) = (read.latitude, read.longitude) {
        fields.push(("latitude".into(), Value::Text(degrees(latitude))));
        fields.push(("longitude".into(), Value::Text(degrees(longitude))));
    }
    if let Some(altitude) = read.altitude {
        fields.push(("altitude".into(), Value::Text(altitude.show(units))));
    }
    if let Some(zone) = read.zone {
        fields.push(("time_zone".into(), Value::Number(zone)));
    }
    fields.push(light(months)?);
    let texts = |of: fn(&WeatherMonth, System) -> Option<String>| -> Option<Value> {
        let all: Option<Vec<Value>> = months
            .iter()
            .map(|month| of(month, units).map(Value::Text))
            .collect();
        all.map(Value::List)
    };
    let known = [
        ("mean", texts(|month, units| Some(month.mean?.show(units)))),
        (
            "coldest",
            texts(|month, units| Some(month.coldest?.show(units))),
        ),
        (
            "warmest",
            texts(|month, units| Some(month.warmest?.show(units))),
        ),
        ("wind", texts(|month, units| Some(month.wind?.show(units)))),
    ];
    for (name, value) in known {
        fields.extend(value.map(|value| (name.to_owned(), value)));
    }
    let source = format!("{} file, {} rows", read.form, read.rows);
    fields.push(("source".into(), Value::Text(source)));
    Ok(Edit::Add {
        table: path(["climate", &unused(project, id)]),
        fields,
        after: None,
    })
}

/// Clearness where all twelve are known and can be, else sun on flat ground.
fn light(months: &[WeatherMonth]) -> Result<(String, Value), String> {
    let numbers = |of: fn(&WeatherMonth) -> Option<f64>| -> Option<Vec<f64>> {
        months.iter().map(of).collect()
    };
    let rounded = |all: Vec<f64>| {
        let all = all.into_iter();
        Value::List(
            all.map(|one| Value::Number((one * 1000.0).round() / 1000.0))
                .collect(),
        )
    };
    let clearness = numbers(|month| month.clearness)
        .filter(|all| all.iter().all(|one| CLEARNESS.contains(one)));
    if let Some(all) = clearness {
        return Ok(("clearness".into(), rounded(all)));
    }
    if let Some(all) = numbers(|month| month.sun) {
        return Ok(("sun".into(), rounded(all)));
    }
    let missing: Vec<&str> = months
        .iter()
        .enumerate()
        .filter(|(_, month)| month.sun.is_none())
        .map(|(index, _)| super::words::month(index as u32 + 1))
        .collect();
    Err(format!(
        "The file says too little about the light of {}: at least ten days of every month are needed.",
        missing.join(", ")
    ))
}

/// What a climate from this file is called.
pub fn label(read: &WeatherRead) -> String {
    match read.name.split(", ").next() {
        Some(name) if !name.is_empty() => name.to_owned(),
        _ => "From a weather file".into(),
    }
}

/// An id from a name.
pub fn id_of(name: &str) -> String {
    let letters = name.chars().map(|letter| {
        if letter.is_ascii_alphanumeric() {
            letter.to_ascii_lowercase()
        } else {
            '-'
        }
    });
    let joined: String = letters.collect();
    let parts: Vec<&str> = joined.split('-').filter(|part| !part.is_empty()).collect();
    match parts.join("-") {
        id if id.is_empty() => "place".into(),
        id => id.chars().take(40).collect(),
    }
}

/// An id that no climate has yet.
fn unused(project: &Project, wanted: &str) -> String {
    let numbered = (2..).map(|number| format!("{wanted}-{number}"));
    let mut all = std::iter::once(wanted.to_owned()).chain(numbered);
    all.find(|id| !project.climates.contains(id))
        .unwrap_or_else(|| wanted.to_owned())
}

fn degrees(angle: Angle) -> String {
    format!("{:.3} deg", angle.degrees())
}

/// The listed places, by region.
pub fn listed() -> Vec<Site> {
    let mut all: Vec<Site> = sites().into_iter().map(|site| site.value).collect();
    all.sort_by_key(|site| (site.region, site.name));
    all
}

/// The edit that puts a listed place in the project as a climate, and its id.
pub fn put_in_listed(project: &Project, site: &str) -> Option<(Edit, String)> {
    let site = listed().into_iter().find(|known| known.id == site)?;
    let id = unused(project, site.id);
    let edit = Edit::Add {
        table: path(["climate", &id]),
        fields: vec![
            ("label".into(), Value::from(site.name)),
            ("listed".into(), Value::from(site.id)),
        ],
        after: None,
    };
    Some((edit, id))
}

#[cfg(test)]
mod tests {
    use super::*;
    use wainwright_analysis::weather::read_weather;
    use wainwright_model::FieldExt;

    #[test]
    fn a_name_becomes_an_id() {
        assert_eq!(id_of("Colorado Springs, CO"), "colorado-springs-co");
        assert_eq!(id_of("…"), "place");
    }

    #[test]
    fn a_year_of_days_becomes_a_climate_that_can_be_read_again() {
        let mut text = String::from("date,ghi_kwh_m2,tmin_c,tmax_c\n");
        for month in 1..=12 {
            for day in 1..=28 {
                text.push_str(&format!("2025-{month:02}-{day:02},2.5,1,11\n"));
            }
        }
        let place = wainwright_analysis::weather::WeatherPlace {
            latitude: Angle::from_degrees(10.0),
            longitude: Angle::from_degrees(20.0),
            altitude: wainwright_units::Altitude::from_metres(300.0),
        };
        let read = read_weather(text.as_bytes(), Some(place)).unwrap();
        let edit = put_in(&read, &Project::default(), "plain", System::Metric).unwrap();
        let after = wainwright_model::apply("wainwright = 1\n", &[edit])
            .unwrap()
            .text;
        let parsed = wainwright_model::parse(&after, wainwright_analysis::catalogue());
        assert!(parsed.problems.is_empty(), "{after}\n{:?}", parsed.problems);
        let climate = parsed.project.climates.get("plain").unwrap();
        let clearness = climate.clearness.value().unwrap();
        assert_eq!(clearness.len(), 12);
        assert!(
            clearness.iter().all(|one| (0.2..0.35).contains(one)),
            "{clearness:?}"
        );
        let mean = climate.mean.value().unwrap();
        assert!(
            (mean[0].celsius() - 6.0).abs() < 0.6,
            "halfway between low and high"
        );
    }

    #[test]
    fn half_a_year_says_which_months_are_missing() {
        let mut text = String::from("date,ghi_kwh_m2\n");
        for month in 1..=11 {
            for day in 1..=28 {
                text.push_str(&format!("2025-{month:02}-{day:02},2.5\n"));
            }
        }
        let place = wainwright_analysis::weather::WeatherPlace {
            latitude: Angle::from_degrees(10.0),
            longitude: Angle::from_degrees(20.0),
            altitude: wainwright_units::Altitude::from_metres(300.0),
        };
        let read = read_weather(text.as_bytes(), Some(place)).unwrap();
        let why = put_in(&read, &Project::default(), "plain", System::Metric).unwrap_err();
        assert!(why.contains("December") && !why.contains("May"), "{why}");
    }
}
