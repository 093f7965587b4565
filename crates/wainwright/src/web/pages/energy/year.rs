//! The same trip in every month of the year. Not here: its odds.

use super::courses::{NARROW, WIDE};
use crate::views::energy::months::{fares, sentence};
use crate::views::energy::words::{self, Verdict};
use crate::web::view::View;
use maud::{Markup, PreEscaped, html};
use wainwright_analysis::result::trip::{MonthChance, TripOutlook};
use wainwright_drawing::chart::{Mark, MonthColumn, Year, year as draw};
use wainwright_drawing::{Css, Style, Tone};

/// The chart, what it says, and the same as a table.
pub fn year(view: &View, outlook: &TripOutlook) -> Markup {
    if outlook.months.is_empty() {
        return html! {};
    }
    let said = sentence(outlook);
    html! {
        section #year aria-labelledby="year-heading" {
            h2 #year-heading { "The same trip in other months" }
            p #year-words { (said) }
            (both(&chart(outlook), WIDE, &format!("How often the battery runs empty, month by month. {said}")))
            details.how #year-numbers {
                summary { "In numbers" }
                (table(view, outlook))
            }
        }
    }
}

/// A year in both widths.
pub fn both(chart: &Year, wide: f64, title: &str) -> Markup {
    let style = |prefix: &str| Style {
        title: title.to_owned(),
        id_prefix: prefix.into(),
        css: Css::OnPage,
    };
    html! {
        figure.trip-chart {
            div.for-wide { (PreEscaped(draw(chart, wide).svg(&style("w-")))) }
            div.for-narrow { (PreEscaped(draw(chart, NARROW).svg(&style("n-")))) }
        }
    }
}

fn chart(outlook: &TripOutlook) -> Year {
    let accepted = outlook.accepted.value;
    let column = |(index, month): (usize, &MonthChance)| MonthColumn {
        from: 0.0,
        to: month.energy.share.fraction(),
        mark: None,
        text: words::percent(month.energy.share).replace(" %", ""),
        tone: match fares(outlook, index) {
            Some(Verdict::TooOften) => Tone::Bad,
            Some(Verdict::Close) => Tone::Watch,
            _ => Tone::Calm,
        },
    };
    Year {
        span: (0.0, 1.0),
        marks: [0.0, 0.5, 1.0]
            .map(|share| Mark::new(share, format!("{:.0}", share * 100.0)))
            .to_vec(),
        months: outlook.months.iter().enumerate().map(column).collect(),
        limit: Some(Mark::new(
            accepted.fraction(),
            format!("accepted: {} trips", words::of_hundred(accepted)),
        )),
        about: Some(outlook.weather.month),
    }
}

fn table(view: &View, outlook: &TripOutlook) -> Markup {
    html! {
        table.cards {
            thead { tr {
                th scope="col" { "Month" } th.number scope="col" { "Runs empty" } th.number scope="col" { "Sun on a mean day" }
                th.number scope="col" { "Used on a mean day" } th.number scope="col" { "Mean temperature" }
            } }
            tbody {
                @for (index, month) in outlook.months.iter().enumerate() {
                    tr {
                        th scope="row" {
                            (words::month(month.month))
                            @if month.month == outlook.weather.month { " " span.mark { "your trip" } }
                        }
                        td.number data-label="Runs empty" {
                            (words::percent(month.energy.share))
                            @if let Some(fares) = fares(outlook, index) { " " (super::odds::fares(fares)) }
                        }
                        td.number data-label="Sun" { (view.show(month.sun)) }
                        td.number data-label="Used" { (view.show(month.used)) }
                        td.number data-label="Temperature" { (view.show(month.air)) }
                    }
                }
            }
        }
    }
}
