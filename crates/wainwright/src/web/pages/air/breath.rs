//! Carbon dioxide over a night, and what brings air enough. Not here: the heat that air takes along.

use super::verdicts::breathes;
use super::words::{self, pill};
use crate::web::view::View;
use maud::{Markup, PreEscaped, html};
use wainwright_analysis::result::indoors::{FreshAir, IndoorsResult};
use wainwright_drawing::chart::{Curves, Mark, curves};
use wainwright_drawing::{Css, Style};

/// Widths on a desk and on a phone [px].
const WIDE: f64 = 900.0;
const NARROW: f64 = 340.0;
/// The scale ends at this many times the limit; what is higher runs along the top.
const SCALE: f64 = 3.0;

/// The night.
pub fn breath(view: &View, found: &IndoorsResult) -> Markup {
    let Some(air) = &found.air else {
        return html! {};
    };
    html! {
        section #breath aria-labelledby="breath-heading" {
            h2 #breath-heading { "Air through the night" }
            p { "Carbon dioxide while " (found.room.people.value) " sleep for " (view.show(air.night)) ", in parts of a million (ppm):" }
            (drawn(air))
            ul.plain.curve-key {
                @for (index, curve) in air.curves.iter().enumerate() {
                    @let fare = breathes(air, curve);
                    li {
                        span.curve-line.{ "c" (index) } {}
                        span {
                            (words::from(curve.from)) ": " (view.show(curve.airflow)) ", " b { (format!("{:.0} ppm", curve.end_ppm)) } " at dawn "
                            (pill(fare.0, fare.1))
                            @if let Some(humidity) = curve.humidity {
                                " " span.hint {
                                    @if humidity.fraction() >= 1.0 { "Breath alone makes water run on a cold night." }
                                    @else { (words::percent(humidity)) " humid on a cold night, by breath alone." }
                                }
                            }
                        }
                    }
                }
            }
            (needed(view, found, air))
            p.row {
                a.button href="/edit/living?back=/lining/air" { "Fan, vents and people" }
                a.button href="/add/opening?back=/lining/air" { "Add an opening" }
            }
            details.how #how-breath {
                summary { "Working" span.unseen { " of the air" } }
                ol.working { li {
                    p.formula { "C(t) = C outside + G / Q · (1 − e^(−Q·t/V)) + (C start − C outside) · e^(−Q·t/V)" }
                    ul.inputs {
                        li { span.formula { "G = " (format!("{:.4} L/s", air.made_litres_per_second)) } " breathed out by all together" }
                        li { span.formula { "V = " (view.show(found.room.volume)) } " of room" }
                        li { span.formula { "C outside = " (format!("{:.0} ppm", air.outside_ppm)) } }
                        li { span.formula { (format!("{:.0} g/h", air.water_grams_per_hour)) } " of water with the breath" }
                        @for curve in &air.curves { li { span.formula { "Q = " (view.show(curve.airflow)) } " " (words::from(curve.from).to_lowercase()) } }
                    }
                } }
            }
        }
    }
}

fn needed(view: &View, found: &IndoorsResult, air: &FreshAir) -> Markup {
    let needed = &air.needed;
    html! {
        h3 { "What brings air enough" }
        ul.plain.damp-helps {
            @if let Some(flow) = needed.airflow {
                li { b { (view.show(flow)) } " of air all night keep it below " (format!("{:.0} ppm", air.most_ppm)) "." }
            }
            @match needed.opening {
                Some(area) => li { b { (words::area(view, area)) } " low and as much high, " (view.show(needed.height.value)) " apart, bring that without a fan on a calm night." },
                None => li { "Openings alone cannot bring that on a calm night: it takes a fan." },
            }
            @if let Some(flow) = needed.for_humidity {
                li { b { (view.show(flow)) } " carry the water of breath out on the coldest night." }
            }
            li {
                "There are " (words::area(view, air.low)) " low and " (words::area(view, air.high)) " high that are always open"
                @if let Some(height) = air.height { ", " (view.show(height)) " apart" }
                @if let Some((low, high)) = air.guidance { "; published guidance for a camper of this size is " (words::area(view, low)) " low and " (words::area(view, high)) " high" }
                "."
            }
        }
        @if found.room.people.is_assumed() { p.hint { "Nobody said how many sleep in it; " (found.room.people.value) " stands in." } }
    }
}

fn drawn(air: &FreshAir) -> Markup {
    let top = air.most_ppm * SCALE;
    let highest = air
        .curves
        .iter()
        .map(|curve| curve.end_ppm)
        .fold(air.most_ppm * 1.2, f64::max);
    let top = highest.min(top);
    let hours = air.night.hours();
    let step = 500.0;
    let marks = (0..=(top / step) as usize)
        .filter(|count| top <= 2500.0 || count % 2 == 0)
        .map(|count| Mark::new(count as f64 * step, format!("{:.0}", count as f64 * step)));
    let chart = Curves {
        span: (0.0, top),
        marks: marks.collect(),
        hours,
        hour_marks: (0..=hours as usize)
            .map(|hour| Mark::new(hour as f64, format!("{hour} h")))
            .collect(),
        curves: air
            .curves
            .iter()
            .map(|curve| curve.points.clone())
            .collect(),
        limits: vec![
            Mark::new(
                air.most_ppm,
                format!("no more than {:.0} ppm", air.most_ppm),
            ),
            Mark::new(air.good_ppm, format!("good air: {:.0} ppm", air.good_ppm)),
        ],
    };
    let title = "Carbon dioxide over the night, a curve for each way that air comes in; figures stand below";
    let one = |width: f64, prefix: &str| {
        curves(&chart, width).svg(&Style {
            title: title.into(),
            id_prefix: prefix.into(),
            css: Css::OnPage,
        })
    };
    html! {
        figure.trip-chart {
            div.for-wide { (PreEscaped(one(WIDE, "w-"))) }
            div.for-narrow { (PreEscaped(one(NARROW, "n-"))) }
        }
    }
}
