//! `climate`: the weather of the project's places, and weather files taken in. Not here: reading such files (the
//! analysis).

use super::args::ClimateArgs;
use super::change;
use super::exit::{Status, Trouble};
use super::out::Out;
use super::show;
use super::table::{Align, print as print_table};
use crate::session::Session;
use crate::store;
use crate::study::Study;
use crate::views::energy::weather::{WeatherReport, fault, id_of, label, put_in};
use crate::views::energy::{why_none, words};
use std::path::Path;
use wainwright_analysis::trips::climate_found;
use wainwright_analysis::weather::{
    MOST_WEATHER_BYTES, WeatherMonth, WeatherPlace, WeatherRead, read_weather,
};
use wainwright_model::Edit;
use wainwright_units::{Altitude, Angle, Quantity, System};

/// Prints the months, and puts them in the project when asked to.
pub fn run(args: &ClimateArgs, out: &mut Out) -> Result<Status, Trouble> {
    let session = Session::open(&args.file)?;
    let before = session.snapshot();
    let study = &before.study;
    let Some(file) = &args.import else {
        return Ok(places(args, study, out));
    };
    let read = match read(args, file)? {
        Ok(read) => read,
        Err(faults) => {
            for text in faults {
                out.hanging("", "  ", &text);
            }
            return Ok(Status::Incomplete(None));
        }
    };
    let units = show::units(&study.project);
    let id = args.id.clone().unwrap_or_else(|| id_of(&label(&read)));
    let edit = put_in(&read, &study.project, &id, units);
    let mut put_in_as = None;
    if let (true, Ok(edit)) = (args.write, &edit) {
        let title = format!("Add the weather of {}", label(&read));
        change::apply(&session, &before, std::slice::from_ref(edit), &title)?;
        put_in_as = id_in(edit);
    }
    if args.json {
        out.json(&WeatherReport::of(&read, put_in_as));
    } else {
        print(file, &read, units, out);
        end(args, file, &edit, put_in_as.as_deref(), out);
    }
    Ok(if edit.is_ok() {
        Status::Done
    } else {
        Status::Incomplete(None)
    })
}

/// Id of the climate that an edit adds.
fn id_in(edit: &Edit) -> Option<String> {
    match edit {
        Edit::Add { table, .. } => table.last().cloned(),
        _ => None,
    }
}

/// The file, or what is wrong with it.
fn read(args: &ClimateArgs, file: &Path) -> Result<Result<WeatherRead, Vec<String>>, Trouble> {
    let bytes = store::read_other(file, MOST_WEATHER_BYTES)?;
    let read = read_weather(&bytes, place(args)?);
    Ok(read.map_err(|faults| faults.iter().map(fault).collect()))
}

fn place(args: &ClimateArgs) -> Result<Option<WeatherPlace>, Trouble> {
    let usage =
        |what: &str, error: &dyn std::fmt::Display| Trouble::Usage(format!("--{what}: {error}"));
    let (Some(latitude), Some(longitude)) = (&args.latitude, &args.longitude) else {
        return Ok(None);
    };
    let altitude = match &args.altitude {
        Some(text) => Altitude::parse(text).map_err(|error| usage("altitude", &error))?,
        None => Altitude::ZERO,
    };
    Ok(Some(WeatherPlace {
        latitude: Angle::parse(latitude).map_err(|error| usage("latitude", &error))?,
        longitude: Angle::parse(longitude).map_err(|error| usage("longitude", &error))?,
        altitude,
    }))
}

fn print(file: &Path, read: &WeatherRead, units: System, out: &mut Out) {
    let name = if read.name.is_empty() {
        file.display().to_string()
    } else {
        read.name.clone()
    };
    let title = out
        .paint
        .bold(&format!("{name}: {}, {} rows", read.form, read.rows));
    out.line(title);
    for warning in &read.warnings {
        out.hanging("  ", "    ", &fault(warning));
    }
    match &read.months {
        None => out.wrapped(
            "",
            "The file does not say where it is from: give --latitude and --longitude.",
        ),
        Some(months) => table(months, units, out),
    }
}

fn table(months: &[WeatherMonth], units: System, out: &mut Out) {
    let heads = [
        ("Month", Align::Left),
        ("Days", Align::Right),
        ("Clearness", Align::Right),
        ("kWh/m2/d", Align::Right),
        ("Mean", Align::Right),
        ("Lows", Align::Right),
        ("Highs", Align::Right),
        ("Wind", Align::Right),
    ];
    let number = |value: Option<f64>, decimals: usize| {
        value.map_or_else(|| "-".into(), |value| format!("{value:.decimals$}"))
    };
    let rows: Vec<Vec<String>> = words::MONTHS
        .iter()
        .zip(months)
        .map(|(name, month)| {
            vec![
                (*name).to_owned(),
                month.days.to_string(),
                number(month.clearness, 2),
                number(month.sun, 1),
                shown(month.mean, units),
                shown(month.coldest, units),
                shown(month.warmest, units),
                shown(month.wind, units),
            ]
        })
        .collect();
    print_table(out, &heads, &rows);
}

fn shown(value: Option<impl Quantity>, units: System) -> String {
    value.map_or_else(|| "-".into(), |value| value.show(units))
}

fn end(
    args: &ClimateArgs,
    file: &Path,
    edit: &Result<Edit, String>,
    put_in_as: Option<&str>,
    out: &mut Out,
) {
    out.gap();
    match (edit, put_in_as) {
        (Err(why), _) => out.wrapped("", why),
        (Ok(_), Some(id)) => out.line(format!(
            "Written to {} as [climate.{id}]",
            args.file.display()
        )),
        (Ok(_), None) => {
            let command = format!(
                "wainwright climate {} --import {} --write",
                args.file.display(),
                file.display()
            );
            let command = out.paint.dim(&command);
            out.line(command);
        }
    }
}

/// The climates that are in the project.
fn places(args: &ClimateArgs, study: &Study, out: &mut Out) -> Status {
    let project = &study.project;
    let units = show::units(project);
    let mut whole = !study.is_incomplete();
    let mut reports = Vec::new();
    for id in project.climates.ids() {
        let name = project.label_or_id("climate", id.as_str()).to_owned();
        match climate_found(project, id.as_str()) {
            Err(why) => {
                whole = false;
                out.hanging("", "  ", &format!("{name}: {}", why_none(&why)));
            }
            Ok(found) => {
                let months: Vec<WeatherMonth> = (1..=12)
                    .map(|number| {
                        let month = found.month(number);
                        let half = month.swing * 0.5;
                        WeatherMonth {
                            days: 0,
                            clearness: Some(month.clearness),
                            sun: Some(month.global),
                            mean: Some(month.mean),
                            coldest: Some(month.mean - half),
                            warmest: Some(month.mean + half),
                            wind: Some(wainwright_units::Speed::from_metres_per_second(month.wind)),
                        }
                    })
                    .collect();
                reports.push((name, found.listed.clone(), months));
            }
        }
    }
    if args.json {
        let all: Vec<WeatherReport> = reports
            .into_iter()
            .map(|(name, listed, months)| {
                let read = WeatherRead {
                    form: if listed.is_some() { "listed" } else { "typed" },
                    name,
                    latitude: None,
                    longitude: None,
                    altitude: None,
                    zone: None,
                    rows: 0,
                    warnings: Vec::new(),
                    months: Some(months),
                };
                WeatherReport::of(&read, None)
            })
            .collect();
        out.json(&all);
    } else {
        if reports.is_empty() {
            out.wrapped("", "There is no climate in this file. Add a table such as [climate.home] with listed = \"colorado-springs-co\", or read a weather file with --import.");
        }
        for (name, listed, months) in &reports {
            let listed = listed
                .as_ref()
                .map_or_else(String::new, |listed| format!(" (as in {listed})"));
            let title = out.paint.bold(&format!("{name}{listed}"));
            out.line(title);
            table(months, units, out);
            out.gap();
        }
    }
    if whole {
        Status::Done
    } else {
        Status::Incomplete(None)
    }
}
