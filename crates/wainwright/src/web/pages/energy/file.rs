//! A weather file in the browser: its text is sent, what is in it is shown, and one press puts it in the project. Not
//! here: reading it (the analysis).

use super::climate::{HERE, Twelve, charts};
use crate::views::energy::weather;
use crate::web::act::{Sent, after, blocking, go};
use crate::web::html::{back, count, revision};
use crate::web::view::View;
use crate::web::weather_files::WeatherFile;
use axum::body::Bytes;
use axum::response::Response;
use maud::{Markup, html};
use wainwright_analysis::weather::{
    MOST_WEATHER_BYTES, WeatherFault, WeatherMonth, WeatherPlace, WeatherRead,
};
use wainwright_units::{Altitude, Angle, Quantity};

/// Most bytes of such a form.
pub const LARGEST_WEATHER_FORM: usize = MOST_WEATHER_BYTES + 64 * 1024;

/// Faults that are listed unfolded.
const UNFOLDED: usize = 5;

/// Where the file is chosen or pasted. The text goes as it is, so that a year of hours is no burden.
pub fn ask() -> Markup {
    html! {
        section #weather-file aria-labelledby="weather-file-heading" {
            h2 #weather-file-heading { "Read a weather file" }
            p { "A file for the very place beats a listed one far away. Three forms are read: EPW, TMY3, and days as "
                code { "date,ghi_kwh_m2,tmin_c,tmax_c" } ". At most " (MOST_WEATHER_BYTES / (1 << 20)) " MiB. Nothing leaves this computer." }
            form.try.weather-form method="post" action="/energy/climate/read" enctype="text/plain" {
                div.field.only-script {
                    label for="weather-choose" { "The file" }
                    input #weather-choose type="file" accept=".epw,.csv,.txt,text/plain" data-into="weather-text";
                }
                div.field {
                    label for="weather-text" { "Or its text" }
                    textarea.code #weather-text name="text" rows="6" spellcheck="false" autocomplete="off"
                        placeholder="LOCATION,… or date,ghi_kwh_m2" {}
                }
                p.row { button.primary { "Read it" } }
            }
            script src="/assets/choose.js" defer {}
        }
    }
}

/// A file was sent.
pub async fn read(view: View, body: Bytes) -> Response {
    let text = body.strip_prefix(b"text=").unwrap_or(&body);
    let number = blocking(|| view.app.weather_files.read(text));
    go(&format!("{HERE}?read={number}#weather-read"))
}

/// What is to be done with the file that was read.
pub async fn taken(view: View, sent: Sent) -> Response {
    let number = sent
        .0
        .get("read")
        .and_then(|text| text.parse().ok())
        .unwrap_or(0);
    let Some(file) = view.app.weather_files.of(number) else {
        return view.missing("That weather file is not there any more. Read it again.");
    };
    if sent.0.has("latitude") {
        return placed(&view, &sent, number);
    }
    let Ok(found) = file.found.as_ref() else {
        return view.missing("Nothing useful was found in that weather file.");
    };
    let id = weather::id_of(&weather::label(found));
    match weather::put_in(found, &view.study().project, &id, view.units()) {
        Err(why) => view.missing(&why),
        Ok(edit) => {
            let label = format!("Add the weather of {}", weather::label(found));
            let done = blocking(|| view.app.session.apply(&[edit], sent.revision(), &label));
            after(&view, &sent, done)
        }
    }
}

/// Where the file is from was typed.
fn placed(view: &View, sent: &Sent, number: u64) -> Response {
    let text = |name| sent.0.get(name).unwrap_or("");
    let angle = |name, most: f64| {
        let angle = Angle::parse(text(name)).ok();
        angle.filter(|angle| angle.degrees().abs() <= most)
    };
    let altitude = match sent.0.get("altitude") {
        Some(text) => Altitude::parse(text).ok(),
        None => Some(Altitude::ZERO),
    };
    match (angle("latitude", 90.0), angle("longitude", 180.0), altitude) {
        (Some(latitude), Some(longitude), Some(altitude)) => {
            let place = WeatherPlace {
                latitude,
                longitude,
                altitude,
            };
            blocking(|| view.app.weather_files.read_again(number, place));
            go(&format!("{HERE}?read={number}#weather-read"))
        }
        _ => go(&format!("{HERE}?read={number}&place=wrong#weather-read")),
    }
}

/// What was found in the file that the address names.
pub fn found(view: &View) -> Markup {
    let number = view.query.get("read").and_then(|text| text.parse().ok());
    let file = number.and_then(|number| view.app.weather_files.of(number));
    html! {
        @if let Some(file) = &file {
            section #weather-read.weather-read aria-labelledby="weather-read-heading" {
                @match file.found.as_ref() {
                    Err(faults) => {
                        h2 #weather-read-heading { "This file cannot be used" }
                        (listed(faults))
                    },
                    Ok(read) => (one(view, file, read)),
                }
            }
        }
    }
}

fn listed(faults: &[WeatherFault]) -> Markup {
    let (first, rest) = faults.split_at(faults.len().min(UNFOLDED));
    html! {
        ul.weather-faults { @for fault in first { li { (weather::fault(fault)) } } }
        @if !rest.is_empty() {
            details { summary { (rest.len()) " more" } ul { @for fault in rest { li { (weather::fault(fault)) } } } }
        }
    }
}

fn one(view: &View, file: &WeatherFile, read: &WeatherRead) -> Markup {
    html! {
        h2 #weather-read-heading { (weather::label(read)) }
        p {
            (read.form) ", " (count(read.rows, "row", "rows")) " read"
            @if !read.name.is_empty() { ", from " (read.name) }
            @if read.warnings.is_empty() { "; nothing is wrong with it." } @else { "." }
        }
        @if !read.warnings.is_empty() {
            h3 { "What is wrong with it" }
            (listed(&read.warnings))
        }
        @match &read.months {
            None => (where_from(view, file)),
            Some(months) => {
                (charts(&twelve(months), view))
                (table(view, months))
                @match weather::put_in(read, &view.study().project, "place", view.units()) {
                    Err(why) => p.callout { (why) },
                    Ok(_) => form method="post" action="/energy/climate/take" {
                        (revision(view.now.revision))
                        (back(HERE))
                        input type="hidden" name="read" value=(file.number);
                        p.row { button.primary { "Put it in the project" } }
                    },
                }
            },
        }
    }
}

fn where_from(view: &View, file: &WeatherFile) -> Markup {
    let wrong = view.query.get("place") == Some("wrong");
    html! {
        form.try method="post" action="/energy/climate/take" {
            p { "The file does not say where it is from. The light above the air, and so the clearness, depends on it." }
            (revision(view.now.revision))
            (back(HERE))
            input type="hidden" name="read" value=(file.number);
            @if wrong { p.error role="alert" { "That was not understood: latitude is −90° to 90°, longitude −180° to 180°." } }
            div.fields {
                @for (name, label, hint) in [
                    ("latitude", "Latitude, north positive", "39.7 deg"),
                    ("longitude", "Longitude, east positive", "-105.2 deg"),
                    ("altitude", "Height over the sea", "1600 m"),
                ] {
                    div.field {
                        label for={ "file-" (name) } { (label) }
                        input id={ "file-" (name) } name=(name) placeholder=(hint) autocomplete="off" spellcheck="false";
                    }
                }
            }
            p.row { button.primary { "Use this place" } }
        }
    }
}

fn twelve(months: &[WeatherMonth]) -> Vec<Twelve> {
    months
        .iter()
        .map(|month| Twelve {
            sun: month.sun,
            air: month.mean,
            low: month.coldest,
            high: month.warmest,
        })
        .collect()
}

fn table(view: &View, months: &[WeatherMonth]) -> Markup {
    let number = |value: Option<f64>, decimals: usize| {
        value.map_or_else(|| "–".into(), |value| format!("{value:.decimals$}"))
    };
    html! {
        details.how #weather-numbers {
            summary { "In numbers" }
            table.cards {
                thead { tr {
                    th scope="col" { "Month" } th.number scope="col" { "Days" } th.number scope="col" { "Clearness" }
                    th.number scope="col" { "Sun, kWh/m² a day" } th.number scope="col" { "Mean" }
                    th.number scope="col" { "Lows" } th.number scope="col" { "Highs" } th.number scope="col" { "Wind" }
                } }
                tbody {
                    @for (name, month) in crate::views::energy::words::MONTHS.iter().zip(months) {
                        tr {
                            th scope="row" { (name) }
                            td.number data-label="Days" { (month.days) }
                            td.number data-label="Clearness" { (number(month.clearness, 2)) }
                            td.number data-label="Sun" { (number(month.sun, 1)) }
                            td.number data-label="Mean" { (shown(view, month.mean)) }
                            td.number data-label="Lows" { (shown(view, month.coldest)) }
                            td.number data-label="Highs" { (shown(view, month.warmest)) }
                            td.number data-label="Wind" { (shown(view, month.wind)) }
                        }
                    }
                }
            }
        }
    }
}

fn shown(view: &View, value: Option<impl Quantity>) -> String {
    value.map_or_else(|| "–".into(), |value| view.show(value))
}
