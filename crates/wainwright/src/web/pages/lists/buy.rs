//! What to buy for the wiring, what is there already, and how wire is cut.

use super::{framed, nothing_yet, take_along};
use crate::views::lists::buy::{self, GROUPS};
use crate::web::act::blocking;
use crate::web::html::{count, encoded, finding};
use crate::web::view::View;
use axum::response::Response;
use maud::{Markup, html};
use wainwright_analysis::result::{Amount, CutList, Line, TakeOff};
use wainwright_model::Id;

/// The page.
pub async fn page(view: View) -> Response {
    let study = view.study();
    let takeoff = blocking(|| wainwright_analysis::takeoff(&study.project, &study.assessment));
    let main = if takeoff.lines.is_empty() && takeoff.asked.is_empty() {
        nothing_yet(&view)
    } else {
        whole(&view, &takeoff)
    };
    view.page(framed(
        "/lists/buy",
        "To buy",
        "What the wiring needs, less what you own, rounded up to how it is sold.",
        &html! {
            div #list data-region { (main) }
        },
    ))
}

fn whole(view: &View, takeoff: &TakeOff) -> Markup {
    html! {
        (total(takeoff))
        (take_along("buy"))
        @for group in GROUPS {
            @let lines: Vec<&Line> = takeoff.lines.iter().filter(|line| buy::group(&line.thing) == group).collect();
            @if !lines.is_empty() { (self::group(view, takeoff, group, &lines)) }
        }
        (cuts(view, takeoff))
        (asked(view, takeoff))
    }
}

fn currency(takeoff: &TakeOff) -> &str {
    takeoff.currency.as_deref().unwrap_or("")
}

fn total(takeoff: &TakeOff) -> Markup {
    let to_buy = takeoff
        .lines
        .iter()
        .filter(|line| !buy::is_none(line.buy))
        .count();
    html! {
        dl.small-figures.three {
            div { dt { "Things to buy" } dd { (to_buy) } }
            div {
                dt { "Sum of known prices" }
                dd { (buy::money(takeoff.cost)) " " (currency(takeoff))
                @if takeoff.unpriced > 0 {
                    span.hint { (count(takeoff.unpriced, "line has", "lines have")) " no price yet. " a href="/add/stock?back=/lists/buy" { "Add a price or what you own" } }
                } }
            }
            div { dt { "Lines covered by what you own" } dd { (takeoff.lines.len() - to_buy) } }
        }
    }
}

fn group(view: &View, takeoff: &TakeOff, name: &str, lines: &[&Line]) -> Markup {
    let sum: f64 = lines.iter().filter_map(|line| line.cost).sum();
    html! {
        section aria-label=(name) {
            h2 { (name) }
            table.cards.list.buy-list {
                thead { tr {
                    th scope="col" { "What" }
                    @for title in ["Needed", "Owned", "Buy", "Price", "Cost"] { th.number scope="col" { (title) } }
                } }
                tbody {
                    @for line in lines { (row(view, line)) }
                    @if sum > 0.0 {
                        tr.total {
                            th scope="row" { "Sum" }
                            td.number data-label="Sum" colspan="5" { b { (buy::money(sum)) " " (currency(takeoff)) } }
                        }
                    }
                }
            }
        }
    }
}

fn row(view: &View, line: &Line) -> Markup {
    let units = view.units();
    let text = |amount: Amount| match buy::is_none(amount) {
        true => "–".to_owned(),
        false => buy::amount(amount, units).text().to_owned(),
    };
    html! {
        tr {
            th scope="row" { (buy::thing(&line.thing, units)) (uses(view, line)) }
            td.number data-label="Needed" {
                (text(line.needed))
                @if !buy::is_none(line.more) { span.basis { " + " (text(line.more)) " spare" } }
            }
            td.number data-label="Owned" { (text(line.owned)) }
            td.number data-label="Buy" { b { (text(line.buy)) } }
            td.number data-label="Price" {
                @match buy::price(line, units) {
                    Some(price) => { (buy::money(price)) @if matches!(line.buy, Amount::Length(_)) { span.basis { " per " (buy::unit(line.buy, units)) } } },
                    None => "–",
                }
            }
            td.number data-label="Cost" { @match line.cost { Some(cost) => (buy::money(cost)), None => "–" } }
        }
    }
}

/// What a line is for, folded away.
fn uses(view: &View, line: &Line) -> Markup {
    html! {
        @if !line.uses.is_empty() {
            details { summary { "for " (count(line.uses.len(), "place", "places")) }
                p.basis {
                    @for (number, used) in line.uses.iter().enumerate() {
                        @if number > 0 { ", " }
                        (name(view, used.of.0, &used.of.1)) " (" (buy::amount(used.amount, view.units()).text()) ")"
                    }
                }
            }
        }
    }
}

fn name(view: &View, element: &str, id: &Id) -> String {
    finding::label(view, element, id.as_str())
}

fn cuts(view: &View, takeoff: &TakeOff) -> Markup {
    let lists: Vec<(&Line, &CutList)> = takeoff
        .lines
        .iter()
        .filter_map(|line| Some((line, line.cuts.as_ref()?)))
        .filter(|(_, cuts)| !cuts.pieces.is_empty())
        .collect();
    html! {
        @if !lists.is_empty() {
            section aria-labelledby="cuts" {
                h2 #cuts { "How to cut what you own" }
                @for (line, cuts) in lists {
                    h3 { (buy::thing(&line.thing, view.units())) }
                    ul.plain.cut-list {
                        @for piece in &cuts.pieces {
                            li {
                                b { (stock_name(view, &piece.stock)) ", piece " (piece.number) ", " (view.show(piece.length)) ": " }
                                @if piece.cuts.is_empty() { "not used" }
                                @for (number, cut) in piece.cuts.iter().enumerate() {
                                    @if number > 0 { ", " } (view.show(cut.length)) " for " (name(view, "wire", &cut.wire))
                                }
                                span.basis { " · left " (view.show(piece.left)) }
                            }
                        }
                    }
                    @if cuts.proven { p.hint { "No other cutting uses more of what is there." } }
                }
            }
        }
    }
}

fn stock_name(view: &View, id: &Id) -> String {
    let label = view
        .study()
        .project
        .stock
        .get(id.as_str())
        .and_then(|stock| stock.label.as_ref());
    label.map_or_else(|| id.to_string(), |label| label.value.clone())
}

fn asked(view: &View, takeoff: &TakeOff) -> Markup {
    html! {
        @if !takeoff.asked.is_empty() {
            section aria-labelledby="asked" {
                h2 #asked { "Type these, and more can be counted" }
                ul.plain.columns {
                    @for asked in &takeoff.asked { li { (finding::place(view, &asked.path)) ": " (buy::asked_words(asked.why)) } }
                }
            }
        }
        p.row { a.button href={ "/add/stock?back=" (encoded("/lists/buy")) } { "Add what you own, or a price" } }
    }
}
