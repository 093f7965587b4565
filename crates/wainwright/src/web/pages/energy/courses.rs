//! Charge and water hour by hour as charts, and as numbers at each dawn. Not here: drawing them (the drawing crate).

use crate::views::energy::words::{self, Verdict, verdict};
use crate::views::energy::{Timeline, TripDay};
use crate::web::view::View;
use maud::{Markup, PreEscaped, html};
use wainwright_analysis::result::trip::{Band, RunsOut, TripHour, TripOutlook};
use wainwright_drawing::chart::{Course, Lane, Mark, course};
use wainwright_drawing::{Css, Style, Tone};
use wainwright_units::{Ratio, Volume};

/// Widths of the chart on a desk and on a phone [px].
pub const WIDE: f64 = 1000.0;
pub const NARROW: f64 = 356.0;

/// The charge of the battery.
pub fn charge(outlook: &TripOutlook, timeline: &Timeline) -> Markup {
    let percent = |share: f64| Mark::new(share, words::percent(Ratio::from_fraction(share)));
    let mut chart = base(outlook, timeline, &outlook.charge);
    chart.span = (0.0, 1.0);
    chart.marks = [0.0, 0.25, 0.5, 0.75, 1.0].map(percent).to_vec();
    chart.tone = tone(outlook, RunsOut::Energy);
    let lowest = Ratio::from_fraction(outlook.lowest.middle);
    let title = format!(
        "Charge of the battery over the trip, hour by hour; in the middle trip it is never below {}",
        words::percent(lowest)
    );
    html! {
        section #charge aria-labelledby="charge-heading" {
            h2 #charge-heading { "How full the battery is" }
            (drawn(&chart, &title))
            (key(chart.tone))
            (dawns(outlook, timeline, "charge", &[("Battery", &outlook.charge)], &|share| {
                words::percent(Ratio::from_fraction(share))
            }))
        }
    }
}

/// Fresh and waste water, and fuel.
pub fn water(view: &View, outlook: &TripOutlook, timeline: &Timeline) -> Markup {
    let all = [
        ("fresh", "Fresh water left", &outlook.fresh, RunsOut::Water),
        (
            "waste",
            "Waste water in its tank",
            &outlook.waste,
            RunsOut::Waste,
        ),
        ("fuel", "Heater fuel left", &outlook.fuel, RunsOut::Fuel),
    ];
    let there: Vec<_> = all
        .into_iter()
        .filter(|(_, _, bands, _)| !bands.is_empty())
        .collect();
    html! {
        @if !there.is_empty() {
            section #water aria-labelledby="water-heading" {
                h2 #water-heading { "Water and tanks" }
                @for (id, name, bands, what) in &there {
                    h3 { (name) }
                    (tank(view, outlook, timeline, bands, *what, name))
                    (dawns(outlook, timeline, id, &[(*name, bands)], &|litres| {
                        view.show(Volume::from_litres(litres))
                    }))
                }
            }
        }
    }
}

fn tank(
    view: &View,
    outlook: &TripOutlook,
    timeline: &Timeline,
    bands: &[Band],
    what: RunsOut,
    name: &str,
) -> Markup {
    let top = bands.iter().map(|band| band.high).fold(1.0, f64::max);
    let litres = |part: f64| Mark::new(top * part, view.show(Volume::from_litres(top * part)));
    let mut chart = base(outlook, timeline, bands);
    chart.span = (0.0, top * 1.02);
    chart.marks = [0.0, 0.5, 1.0].map(litres).to_vec();
    chart.tone = tone(outlook, what);
    drawn(&chart, &format!("{name}, hour by hour"))
}

fn tone(outlook: &TripOutlook, what: RunsOut) -> Option<Tone> {
    let odds = outlook.odds.iter().find(|odds| odds.what == what)?;
    match verdict(odds.chance, outlook.accepted.value) {
        Verdict::Lasts => None,
        Verdict::Close => Some(Tone::Watch),
        Verdict::TooOften => Some(Tone::Bad),
    }
}

fn base(outlook: &TripOutlook, timeline: &Timeline, bands: &[Band]) -> Course {
    let lane = |name: &str, class, on: fn(&TripHour) -> bool| Lane {
        name: name.into(),
        class,
        on: outlook.hours.iter().map(on).collect(),
    };
    let band = |band: &Band| [band.low, band.middle, band.high];
    Course {
        bands: bands.iter().map(band).collect(),
        night: timeline.night.clone(),
        days: timeline
            .days
            .iter()
            .map(|day| (day.hours, day_names(day)))
            .collect(),
        lanes: vec![
            lane("Driving", "driving", |hour| hour.driving),
            lane("Shore", "shore", |hour| hour.shore),
            lane("Tap", "tap", |hour| hour.tap),
        ],
        ..Course::default()
    }
}

/// Names of a day, the shortest first.
fn day_names(day: &TripDay) -> Vec<String> {
    let number = day.day.to_string();
    if day.month == 0 {
        return vec![number.clone(), format!("Day {number}")];
    }
    let month: String = words::month(day.month).chars().take(3).collect();
    vec![
        number.clone(),
        format!("Day {number}"),
        format!("Day {number}, {month} {}", day.date),
    ]
}

/// The chart in both widths.
fn drawn(chart: &Course, title: &str) -> Markup {
    let style = |prefix: &str| Style {
        title: title.to_owned(),
        id_prefix: prefix.into(),
        css: Css::OnPage,
    };
    html! {
        figure.trip-chart {
            div.for-wide { (PreEscaped(course(chart, WIDE).svg(&style("w-")))) }
            div.for-narrow { (PreEscaped(course(chart, NARROW).svg(&style("n-")))) }
        }
    }
}

fn key(tone: Option<Tone>) -> Markup {
    let class = tone.map_or_else(|| "plain-tone".into(), Tone::class);
    html! {
        ul class={ "plain chart-key " (class) } aria-label="What the chart shows" {
            li { span.key-line {} "the middle trip: half do better, half worse" }
            li { span.key-area {} "8 of 10 trips stay in this band; 1 is above, 1 below" }
            li { span.key-night {} "night" }
        }
    }
}

/// The same in numbers.
fn dawns(
    outlook: &TripOutlook,
    timeline: &Timeline,
    id: &str,
    all: &[(&str, &Vec<Band>)],
    show: &dyn Fn(f64) -> String,
) -> Markup {
    let dawns = timeline.dawns();
    let row = |hour: usize, bands: &[Band]| bands.get(hour).copied();
    html! {
        @if !dawns.is_empty() {
            details.how id={ "dawns-" (id) } {
                summary { "In numbers, at each dawn" }
                @for (name, bands) in all {
                    table.cards.dawn-table {
                        thead { tr {
                            th scope="col" { (name) }
                            th.number scope="col" { "1 in 10 is below" } th.number scope="col" { "Middle" } th.number scope="col" { "1 in 10 is above" }
                        } }
                        tbody {
                            @for hour in &dawns {
                                @if let (Some(band), Some(at)) = (row(*hour, bands), outlook.hours.get(*hour)) {
                                    tr {
                                        th scope="row" { "Day " (at.day) ", " (at.hour + 1) " h" }
                                        td.number data-label="1 in 10 below" { (show(band.low)) }
                                        td.number data-label="Middle" { (show(band.middle)) }
                                        td.number data-label="1 in 10 above" { (show(band.high)) }
                                    }
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}
