//! How much of each known rating is used, as bars with numbers. Not here: which
//! ratings there are.

use super::ask;
use crate::views::road::words;
use crate::web::html::bar::share_bar;
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::Ask;
use wainwright_analysis::result::road::{RoadMargin, RoadRating, RoadResult};

/// Ratings that are shown unfolded.
const UNFOLDED: usize = 6;

/// A rating, the state that leaves least of it, and what is left.
type Tightest<'r> = (&'r RoadRating, usize, RoadMargin);

/// Every rating with the state that leaves least, the tightest first.
fn tightest(road: &RoadResult) -> Vec<Tightest<'_>> {
    let mut all: Vec<_> = road
        .ratings
        .iter()
        .filter_map(|rating| {
            let (state, margin) = road.tightest(rating.kind)?;
            Some((rating, state, margin))
        })
        .collect();
    all.sort_by(|(_, _, one), (_, _, other)| other.used.total_cmp(&one.used));
    all
}

/// Bars, one below the other.
pub fn margins(view: &View, road: &RoadResult) -> Markup {
    let all = tightest(road);
    let axles = axles(road);
    let (first, rest) = all.split_at(all.len().min(UNFOLDED));
    html! {
        section.margins #margins {
            h3 { "What is left of each rating" }
            @if all.is_empty() {
                p { "No rating is known yet. Read them off the plates of trailer, coupler, tyres and tow vehicle." }
                p { a.button href="/edit/trailer?back=/layout" { "Type the trailer's ratings" } }
            }
            (bars(view, axles, first))
            @if !rest.is_empty() {
                details #more-ratings {
                    summary { (rest.len()) " more, with more left" }
                    (bars(view, axles, rest))
                }
            }
        }
    }
}

fn bars(view: &View, axles: usize, all: &[Tightest<'_>]) -> Markup {
    html! {
        dl.rating-bars {
            @for (rating, _, margin) in all {
                @let name = words::rating(rating.kind, axles);
                div { dt { (name) } dd { (one(view, margin, &name)) } }
            }
        }
    }
}

/// One margin: its bar, what is left, what the limit is.
fn one(view: &View, margin: &RoadMargin, name: &str) -> Markup {
    let over = margin.used.fraction() > 1.0;
    let left = view.show(margin.left.abs());
    let words = format!(
        "{name}: {} of {}",
        view.show(margin.actual),
        view.show(margin.limit)
    );
    html! {
        (share_bar(margin.used.fraction(), &words))
        span.margin-words {
            @if over { b.over { (left) " too much" } } @else { b { (left) " left" } }
            span.hint { " of " (view.show(margin.limit)) }
        }
    }
}

/// The same as a table, with the worst state and the working of each.
pub fn table(view: &View, road: &RoadResult) -> Markup {
    let all = tightest(road);
    let axles = axles(road);
    html! {
        table.cards.ratings-table {
            thead { tr {
                th scope="col" { "Rating" } th scope="col" { "Used" } th.number scope="col" { "Load" }
                th.number scope="col" { "Limit" } th.number scope="col" { "Left" } th scope="col" { "In the state" }
            } }
            tbody {
                @for (rating, state, margin) in &all {
                    @let name = words::rating(rating.kind, axles);
                    tr {
                        th scope="row" { (name) }
                        td data-label="Used" { (share_bar(margin.used.fraction(), &format!("{name}: {} used", view.show(margin.used)))) }
                        td.number data-label="Load" { (view.show(margin.actual)) }
                        td.number data-label="Limit" { (view.show(margin.limit)) }
                        td.number.over[margin.used.fraction() > 1.0] data-label="Left" {
                            @if margin.used.fraction() > 1.0 { "over by " } (view.show(margin.left.abs()))
                        }
                        td.long data-label="State" {
                            (words::state(&view.study().project, road, *state))
                            (ask::workings(view, &format!("how-{}-{}", rating.path.join("-"), words_id(&name)), &name,
                                &Ask::RoadMargin { rating: rating.kind, state: *state }))
                        }
                    }
                }
            }
        }
    }
}

fn words_id(name: &str) -> String {
    crate::web::html::slug(&name.to_lowercase())
}

/// Number of axles of the trailer.
pub fn axles(road: &RoadResult) -> usize {
    road.trailer
        .axles
        .as_ref()
        .map_or(1, |known| known.value as usize)
}
