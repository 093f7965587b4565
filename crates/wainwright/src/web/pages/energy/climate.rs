//! The places with their weather, month by month, and ways to get more of them. Not here: weather files (`file`).

use super::year::both;
use super::{begin, file, framed};
use crate::views::energy::words;
use crate::web::html::encoded;
use crate::web::view::View;
use axum::response::Response;
use maud::{Markup, html};
use wainwright_analysis::trips::{ClimateFound, climate_found};
use wainwright_drawing::Tone;
use wainwright_drawing::chart::{Mark, MonthColumn, Year};
use wainwright_model::Id;
use wainwright_units::{Ratio, System, Temperature};

/// This page.
pub const HERE: &str = "/energy/climate";
const TITLE: &str = "Weather";
const LEDE: &str = "The sun and the cold of the places you go to, month by month.";

/// Width of a chart beside another one [px].
const HALF: f64 = 560.0;

/// The page.
pub async fn page(view: View) -> Response {
    let project = &view.study().project;
    let all: Vec<&Id> = project.climates.ids().collect();
    let main = html! {
        div #climate-page data-region {
            (file::found(&view))
            @for id in &all { (one(&view, id)) }
            section.next.beginning #next-step aria-labelledby="place-heading" {
                @if all.is_empty() {
                    h2 #place-heading { "Where do you go?" }
                    p { "The sun of that place decides what the modules give, and its cold what a heater burns." }
                } @else { h2 #place-heading { "Add another place" } }
                (begin::place_fields(&view))
            }
        }
        (file::ask())
    };
    view.page(framed(HERE, TITLE, LEDE, &main))
}

/// What is drawn of a month.
pub struct Twelve {
    /// Sun on flat ground \[kWh/(m² d)\].
    pub sun: Option<f64>,
    /// Mean temperature.
    pub air: Option<Temperature>,
    /// Usual low of a day.
    pub low: Option<Temperature>,
    /// Usual high of a day.
    pub high: Option<Temperature>,
}

fn one(view: &View, id: &Id) -> Markup {
    let project = &view.study().project;
    let name = project.label_or_id("climate", id.as_str());
    html! {
        section.climate id={ "climate-" (id) } aria-labelledby={ "climate-heading-" (id) } {
            h2 id={ "climate-heading-" (id) } { (name) }
            @match climate_found(project, id.as_str()) {
                Err(why) => p.callout { (crate::views::energy::why_none(&why)) },
                Ok(found) => (months(view, id, &found)),
            }
            p.row { a.button href={ "/edit/climate/" (encoded(id.as_str())) "?back=" (HERE) } { "Change" span.unseen { " " (name) } } }
        }
    }
}

fn months(view: &View, id: &Id, found: &ClimateFound) -> Markup {
    let twelve: Vec<Twelve> = (1..=12)
        .map(|number| {
            let month = found.month(number);
            let half = month.swing * 0.5;
            Twelve {
                sun: Some(month.global),
                air: Some(month.mean),
                low: Some(month.mean - half),
                high: Some(month.mean + half),
            }
        })
        .collect();
    html! {
        @if let Some(listed) = &found.listed { p.hint { "As in " (listed) "." } }
        (charts(&twelve, view))
        details.how id={ "numbers-" (id) } {
            summary { "In numbers" span.unseen { " for " (view.study().project.label_or_id("climate", id.as_str())) } }
            table.cards {
                thead { tr {
                    th scope="col" { "Month" } th.number scope="col" { "Clearness" } th.number scope="col" { "Year to year" }
                    th.number scope="col" { "Sun, kWh/m² a day" } th.number scope="col" { "Mean temperature" } th.number scope="col" { "Coldest hour" }
                } }
                tbody {
                    @for number in 1..=12 {
                        @let month = found.month(number);
                        tr {
                            th scope="row" { (words::month(number)) }
                            td.number data-label="Clearness" { (format!("{:.2}", month.clearness)) }
                            td.number data-label="Year to year" { "± " (view.show(Ratio::from_fraction(month.spread))) }
                            td.number data-label="Sun" { (format!("{:.1}", month.global)) }
                            td.number data-label="Mean" { (view.show(month.mean)) }
                            td.number data-label="Coldest" { (view.show(month.lowest)) }
                        }
                    }
                }
            }
            p.hint { "Clearness is the light on the ground over the light above the air: 0.7 is a clear sky, 0.3 a dull one." }
        }
    }
}

/// Sun and temperature of twelve months.
pub fn charts(twelve: &[Twelve], view: &View) -> Markup {
    html! {
        div.climate-charts {
            div {
                h3 { "Sun on flat ground, kWh on a square metre and day" }
                (both(&sun(twelve), HALF, "Sun on flat ground in each month"))
            }
            div {
                h3 { "Temperature: usual lows to usual highs, the line is the mean" }
                (both(&air(twelve, view), HALF, "Temperature in each month"))
            }
        }
    }
}

fn sun(twelve: &[Twelve]) -> Year {
    let all = twelve.iter().filter_map(|month| month.sun);
    let top = all.fold(1.0, f64::max).ceil();
    let column = |month: &Twelve| MonthColumn {
        from: 0.0,
        to: month.sun.unwrap_or(0.0),
        mark: None,
        text: month
            .sun
            .map_or_else(|| "?".into(), |sun| format!("{sun:.1}")),
        tone: Tone::Watch,
    };
    Year {
        span: (0.0, top),
        marks: (0..=top as u32)
            .step_by(2)
            .map(|at| Mark::new(at.into(), at.to_string()))
            .collect(),
        months: twelve.iter().map(column).collect(),
        limit: None,
        about: None,
    }
}

fn air(twelve: &[Twelve], view: &View) -> Year {
    let both = |month: &Twelve| [month.low.or(month.air), month.high.or(month.air)];
    let all: Vec<f64> = twelve
        .iter()
        .flat_map(both)
        .flatten()
        .map(Temperature::celsius)
        .collect();
    let low = all.iter().copied().fold(0.0, f64::min);
    let high = all.iter().copied().fold(10.0, f64::max);
    let marks: Vec<Temperature> = match view.units() {
        System::Metric => (-6..=5)
            .map(|at| Temperature::from_celsius(f64::from(at) * 10.0))
            .collect(),
        System::Us => (-2..=6)
            .map(|at| Temperature::from_celsius((f64::from(at) * 20.0 - 32.0) / 1.8))
            .collect(),
    };
    let column = |month: &Twelve| {
        let [low, high] = both(month).map(|one| one.map_or(0.0, Temperature::celsius));
        MonthColumn {
            from: low,
            to: high,
            mark: month.air.map(Temperature::celsius),
            text: month.air.map_or_else(|| "?".into(), |air| short(view, air)),
            tone: Tone::Off,
        }
    };
    Year {
        span: (low - 2.0, high + 2.0),
        marks: marks
            .into_iter()
            .map(|mark| Mark::new(mark.celsius(), short(view, mark)))
            .collect(),
        months: twelve.iter().map(column).collect(),
        limit: None,
        about: None,
    }
}

/// Whole degrees without the letter, for a narrow column.
fn short(view: &View, air: Temperature) -> String {
    let degrees = match view.units() {
        System::Metric => air.celsius(),
        System::Us => air.celsius() * 1.8 + 32.0,
    };
    format!("{degrees:.0}°").replace("-0°", "0°")
}
