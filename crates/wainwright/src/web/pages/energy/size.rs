//! How much battery and how many modules: every combination with its odds. Not here: trying them (the trip study).

use super::courses::{NARROW, WIDE};
use super::{begin, chosen, framed, inputs_of, missing, odds, picker};
use crate::views::energy::size::{combination, fares, holds, sentence};
use crate::views::energy::words;
use crate::views::energy::working::of_chance;
use crate::web::html::working::working;
use crate::web::outlooks::Look;
use crate::web::view::View;
use axum::response::Response;
use maud::{Markup, PreEscaped, html};
use wainwright_analysis::result::trip::{SizeChart, SizePoint};
use wainwright_drawing::chart::{Cell, TradeOff, trade_off};
use wainwright_drawing::{Css, Style, Tone};
use wainwright_model::Id;

const HERE: &str = "/energy/size";
const TITLE: &str = "How much";
const LEDE: &str = "How many modules and batteries the trip needs: every combination was tried in the same weather.";

/// The page.
pub async fn page(view: View) -> Response {
    let main = match chosen(&view) {
        None => begin::beginning(&view),
        Some(trip) => {
            let pick = picker::picker(&view, HERE, &trip);
            let rest = match inputs_of(&view, &trip) {
                Err(why) => missing::missing(&view, &trip, &why, HERE),
                Ok(inputs) => {
                    let look = view.app.outlooks.sizes(trip.as_str(), inputs).await;
                    shown(&view, &trip, &look)
                }
            };
            html! { (pick) (rest) }
        }
    };
    view.page(framed(
        HERE,
        TITLE,
        LEDE,
        &html! { div #size-page data-region { (main) } },
    ))
}

fn shown(view: &View, trip: &Id, look: &Look<SizeChart>) -> Markup {
    let chart = match look.found.as_ref() {
        Err(why) => return missing::missing(view, trip, why, HERE),
        Ok(chart) => chart,
    };
    html! {
        section.verdict #size-verdict aria-labelledby="size-heading" {
            h2 #size-heading { (heading(chart)) }
            p { (sentence(chart, &view.study().project, view.units())) }
            @if look.waits {
                p.waiting { "A first look at " (chart.runs) " trips for each. Finer odds are being worked out and will stand here in a moment." }
            }
        }
        section #size-chart aria-labelledby="size-chart-heading" {
            h2 #size-chart-heading { "Every combination" }
            p.hint { "The figure is how many of 100 trips the battery runs empty in. A thick frame: the smallest that hold what you accept. A dashed frame: what is there now." }
            (drawn(chart))
        }
        (table(view, chart))
    }
}

fn heading(chart: &SizeChart) -> String {
    let now = chart.now.and_then(|at| chart.points.get(at));
    match now {
        Some(point) if holds(chart, point) => "What is there now is enough".into(),
        Some(_) if chart.best.is_empty() => "More is needed than was tried".into(),
        Some(_) => "More is needed".into(),
        None => "What the trip needs".into(),
    }
}

fn drawn(chart: &SizeChart) -> Markup {
    let picture = |width: f64, prefix: &str| {
        trade_off(&lowered(chart), width).svg(&Style {
            title: "Odds that the battery runs empty, by number of modules and batteries".into(),
            id_prefix: prefix.into(),
            css: Css::OnPage,
        })
    };
    html! {
        figure.trip-chart.size-chart {
            div.for-wide { (PreEscaped(picture(WIDE, "w-"))) }
            div.for-narrow tabindex="0" role="region" aria-label="Chart of combinations" { (PreEscaped(picture(NARROW, "n-"))) }
        }
    }
}

fn lowered(chart: &SizeChart) -> TradeOff {
    let mut modules: Vec<u32> = chart.points.iter().map(|point| point.modules).collect();
    let mut batteries: Vec<u32> = chart.points.iter().map(|point| point.batteries).collect();
    for all in [&mut modules, &mut batteries] {
        all.sort_unstable();
        all.dedup();
    }
    let cell = |(at, point): (usize, &SizePoint)| {
        let (best, now) = (chart.best.contains(&at), chart.now == Some(at));
        let fares = fares(chart, point);
        Some(Cell {
            column: modules.binary_search(&point.modules).ok()?,
            row: batteries.binary_search(&point.batteries).ok()?,
            figure: words::percent(point.chance.share).replace(" %", ""),
            word: if holds(chart, point) {
                "holds"
            } else {
                "too few"
            }
            .into(),
            mark: match (now, best) {
                (true, _) => "now".into(),
                (false, true) => "least".into(),
                _ => String::new(),
            },
            tone: match fares {
                words::Verdict::Lasts => Tone::Calm,
                words::Verdict::Close => Tone::Watch,
                words::Verdict::TooOften => Tone::Bad,
            },
            best,
            now,
            words: format!(
                "{}: runs empty in {} trips",
                combination(point.modules, point.batteries),
                words::of_hundred(point.chance.share)
            ),
        })
    };
    TradeOff {
        across: "Number of modules".into(),
        upwards: "Batteries".into(),
        columns: modules.iter().map(u32::to_string).collect(),
        rows: batteries.iter().map(u32::to_string).collect(),
        cells: chart.points.iter().enumerate().filter_map(cell).collect(),
    }
}

/// What is there and the smallest ones; all others folded away.
fn table(view: &View, chart: &SizeChart) -> Markup {
    let all = chart.points.iter().enumerate();
    let (first, rest): (Vec<_>, Vec<_>) =
        all.partition(|(at, _)| chart.now == Some(*at) || chart.best.contains(at));
    let weighed = chart.points.iter().any(|point| point.mass.is_some());
    html! {
        section #size-table aria-labelledby="size-table-heading" {
            h2 #size-table-heading { "In numbers" }
            @if !weighed { p.hint { "Their mass is not known: type it at the module and at the battery, and it stands here." } }
            (rows(view, chart, &first))
            @if !rest.is_empty() {
                details #other-sizes {
                    summary { (rest.len()) " other combinations" }
                    (rows(view, chart, &rest))
                }
            }
        }
    }
}

fn rows(view: &View, chart: &SizeChart, points: &[(usize, &SizePoint)]) -> Markup {
    let priced = chart.points.iter().any(|point| point.price.is_some());
    let weighed = chart.points.iter().any(|point| point.mass.is_some());
    html! {
        table.cards.size-list {
            thead { tr {
                th scope="col" { "Combination" } th.number scope="col" { "Modules" } th.number scope="col" { "Battery" }
                th.number scope="col" { "Runs empty" }
                @if weighed { th.number scope="col" { "Mass" } }
                @if priced { th.number scope="col" { "Price of what is new" } }
                th scope="col" { "Working" }
            } }
            tbody { @for point in points { (row(view, chart, *point, weighed, priced)) } }
        }
    }
}

fn row(
    view: &View,
    chart: &SizeChart,
    (at, point): (usize, &SizePoint),
    weighed: bool,
    priced: bool,
) -> Markup {
    let name = combination(point.modules, point.batteries);
    html! {
        tr data-point=(at) {
            th scope="row" {
                (name)
                @if chart.now == Some(at) { " " span.mark { "now" } }
                @if chart.best.contains(&at) { " " span.mark { "smallest that holds" } }
            }
            td.number data-label="Modules" { (view.show(point.power)) }
            td.number data-label="Battery" { (view.show(point.energy)) }
            td.number data-label="Runs empty" { (words::of_hundred(point.chance.share)) " " (odds::fares(fares(chart, point))) }
            @if weighed { td.number data-label="Mass" { (point.mass.map_or_else(|| "–".into(), |mass| view.show(mass))) } }
            @if priced { td.number data-label="Price" { (point.price.map_or_else(|| "–".into(), |price| format!("{price:.0}"))) } }
            td.long data-label="" {
                details.how id={ "how-size-" (at) } {
                    summary { "Working" span.unseen { " of " (name) } }
                    (working(&of_chance(point.chance, chart.runs)))
                }
            }
        }
    }
}
