//! Water in the chosen side month by month, mould, and what helps. Not here: where in the side it is (`wall`).

use super::verdicts::{fares, wettest};
use super::words::{self, Fare, pill};
use crate::web::pages::energy::both_years as both;
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::result::indoors::{
    DampResult, DampSide, DampWay, IndoorsResult, SideHeat,
};
use wainwright_drawing::Tone;
use wainwright_drawing::chart::{Mark, MonthColumn, Year};

/// Width on a desk [px].
const WIDE: f64 = 900.0;

/// The year of the chosen side.
pub fn damp(view: &View, found: &IndoorsResult, side: &SideHeat) -> Markup {
    let Some(damp) = &found.damp else {
        return html! {};
    };
    let Some(own) = damp.sides.iter().find(|one| one.side == side.side) else {
        return html! {};
    };
    html! {
        section #damp aria-labelledby="damp-heading" {
            h2 #damp-heading { "Water in the " (words::side(side.side).to_lowercase()) " through a year" }
            @if let Some(way) = wettest(own) { (year(damp, side, way)) }
            (ways(view, damp, own))
            (helps(view, side, own))
        }
    }
}

fn year(damp: &DampResult, side: &SideHeat, way: &DampWay) -> Markup {
    if way.peak <= damp.counts_from {
        return html! { p { (pill(Fare::Good, "dry")) " No water forms in it in any month." } };
    }
    let top = way.peak.max(damp.runs_off * 0.25) * 1.15;
    // Four digits have no room over a narrow column.
    let heavy = way.peak >= 1000.0;
    let figure = |grams: f64| match heavy {
        true => format!("{:.1}", grams / 1000.0),
        false => format!("{grams:.0}"),
    };
    let unit = if heavy { "kg/m²" } else { "g/m²" };
    let column = |month: &wainwright_analysis::result::indoors::DampMonth| MonthColumn {
        from: 0.0,
        to: month.stored.max(0.0),
        mark: None,
        text: if month.stored >= 0.5 {
            figure(month.stored)
        } else {
            String::new()
        },
        tone: if month.stored > damp.runs_off {
            Tone::Bad
        } else if month.stored > damp.counts_from {
            Tone::Watch
        } else {
            Tone::Calm
        },
    };
    let limit = (damp.runs_off <= top).then(|| {
        Mark::new(
            damp.runs_off,
            format!("runs off from {} on", words::grams(damp.runs_off)),
        )
    });
    let chart = Year {
        span: (0.0, top),
        marks: [0.0, 0.5, 1.0]
            .map(|share| Mark::new(way.peak * share, figure(way.peak * share)))
            .to_vec(),
        months: way.months.iter().map(column).collect(),
        limit,
        about: way.peak_month,
    };
    let title = format!(
        "Water in the {} {} at the end of each month, in grams on a square metre; at most {}",
        words::side(side.side).to_lowercase(),
        words::way(way.kind),
        words::grams(way.peak)
    );
    html! {
        p { "Water that is there at the end of each month " (words::way(way.kind)) ", in " (unit) ":" }
        (both(&chart, WIDE, &title))
    }
}

/// Each way through the side with its water and its surface.
fn ways(view: &View, damp: &DampResult, own: &DampSide) -> Markup {
    html! {
        table.cards.ways {
            thead { tr {
                th scope="col" { "Where" } th scope="col" { "How it fares" } th.number scope="col" { "Most water" }
                th.number scope="col" { "Left after a year" } th.number scope="col" { "Surface in the coldest month" }
            } }
            tbody {
                @for way in &own.ways {
                    @let fare = fares(damp, way);
                    tr {
                        th scope="row" { (capital(words::way(way.kind))) " " span.hint { (words::percent(way.share)) " of it" } }
                        td data-label="Fares" { (pill(fare.0, fare.1)) }
                        td.number data-label="Most water" { (words::grams(way.peak)) }
                        td.number data-label="Left" { (words::grams(way.left)) }
                        td.number data-label="Surface" {
                            (view.show(way.mould.temperature)) ", " (words::percent(way.mould.humidity)) " humid, limit " (words::percent(way.mould.limit))
                        }
                    }
                }
            }
        }
        @for way in own.ways.iter().filter(|way| way.mould.wet_on_cold_night) {
            p.hint { "On the coldest night the surface " (words::way(way.kind)) " is at " (view.show(way.mould.cold_night)) ": the breath of sleepers runs down it." }
        }
    }
}

fn capital(text: &str) -> String {
    let mut letters = text.chars();
    let first = letters.next().map(|c| c.to_uppercase().to_string());
    format!("{}{}", first.unwrap_or_default(), letters.as_str())
}

fn helps(view: &View, side: &SideHeat, own: &DampSide) -> Markup {
    html! {
        @if !own.helps.is_empty() {
            h3 { "What would help" }
            ul.plain.damp-helps {
                @for help in &own.helps {
                    li {
                        b { (words::change(view, side, &help.change)) "." } " "
                        span { (words::cures(help)) "." }
                    }
                }
            }
        }
    }
}
