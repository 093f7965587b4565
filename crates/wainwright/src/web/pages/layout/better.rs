//! A better layout: what to move where, what it brings, and the button that
//! makes the moves. Not here: looking for it (the road study).

use super::{framed, road_of};
use crate::views::place::{self, Figures};
use crate::views::road::words;
use crate::web::act::{Sent, after, blocking};
use crate::web::html::{back, count, revision};
use crate::web::layout_scene::{self, Shown, place_words};
use crate::web::view::View;
use axum::response::Response;
use maud::{Markup, PreEscaped, html};
use wainwright_analysis::result::road::{BetterLayout, Move};
use wainwright_analysis::road::{LayoutOptions, NoLayout, better_layout, road_with};
use wainwright_drawing::scene::{Fit, View as Looked};
use wainwright_model::{Edit, Id, Spot, Value, path};
use wainwright_units::{Quantity, Ratio};

const TITLE: &str = "A better layout";
const LEDE: &str =
    "The things that may be moved were tried in many places; this is the best that was found.";

/// The page. Looking takes a moment.
pub async fn page(view: View) -> Response {
    let study = view.study();
    let road = road_of(&view);
    let found = blocking(|| better_layout(&study.project, road, &LayoutOptions::default()));
    let main = html! {
        @match &found {
            Ok(found) if found.moves.is_empty() => {
                h2 { "Nothing better was found" }
                p { (place::proof_words(found, view.units())) }
            },
            Ok(found) => (shown(&view, found)),
            Err(why) => (none(why)),
        }
    };
    view.page(framed("/layout", TITLE, LEDE, &main))
}

fn none(why: &NoLayout) -> Markup {
    let (goal, button) = match why {
        NoLayout::TrailerNotKnown => ("/edit/trailer?back=/layout/better", "Type them"),
        NoLayout::NothingMoves => ("/layout#unsettled", "Place and weigh things"),
        NoLayout::Refused(_) => ("/layout", "Back to the floor"),
    };
    html! {
        section.next #next-step {
            h2 { "No layout can be looked for yet" }
            p { (place::why_none(why)) }
            p { a.button.primary href=(goal) { (button) } }
        }
    }
}

fn shown(view: &View, found: &BetterLayout) -> Markup {
    html! {
        h2 #better-verdict {
            (count(found.moves.len(), "move", "moves"))
            @match (found.kept_before, found.kept_after) {
                (false, true) => " put it right",
                (true, true) => " make it better",
                _ => " bring it nearer",
            }
        }
        div.floor-top {
            section.plans aria-label="Drawing and figures" { (drawing(view, found)) (compared(view, found)) (afterwards(view, found)) }
            aside.beside aria-label="Moves" { (moves(view, found)) }
        }
    }
}

/// What is still in the way, and what is known of the layout against all others.
fn afterwards(view: &View, found: &BetterLayout) -> Markup {
    let blocked = place::blocked(found, &view.study().project);
    html! {
        @if !blocked.is_empty() {
            div {
                p { "Still in the way afterwards:" }
                ul { @for still in &blocked { li { (still) } } }
            }
        }
        p.hint { (place::proof_words(found, view.units())) }
    }
}

fn drawing(view: &View, found: &BetterLayout) -> Markup {
    let study = view.study();
    let moved = spots(found);
    let scene = blocking(|| {
        let road = road_with(&study.project, &moved);
        layout_scene::scene(&Shown {
            project: &study.project,
            road: &road,
            chosen: None,
            zone: None,
            moved: &moved,
            small: false,
            units: view.units(),
        })
    });
    let draw = |looked: &Looked, width: f64, height: f64, prefix: &str| {
        scene.as_ref().map_or_else(String::new, |scene| {
            let fit = Fit::Within { width, height };
            let title = "The floor after the moves; dashed where things are now";
            layout_scene::draw(scene, looked, fit, title, prefix, view.units())
        })
    };
    html! {
        div.for-wide { (PreEscaped(draw(&Looked::plan(), 840.0, 400.0, "w-"))) }
        div.for-narrow { (PreEscaped(draw(&Looked::plan_upright(), 358.0, 640.0, "n-"))) }
        p.hint { "Drawn after the moves; dashed is where a thing is now." }
    }
}

fn spots(found: &BetterLayout) -> Vec<(Id, Spot)> {
    let all = found.moves.iter();
    all.map(|one| (one.item.clone(), one.to)).collect()
}

fn moves(view: &View, found: &BetterLayout) -> Markup {
    let project = &view.study().project;
    html! {
        ol.moves {
            @for one in &found.moves {
                li {
                    b { (words::item(project, one.item.as_str())) }
                    ": to " (place_words(one.to, view.units()))
                    @match one.from {
                        Some(from) => span.hint { "now " (place_words(from, view.units())) },
                        None => span.hint { "not placed yet" },
                    }
                }
            }
        }
        form method="post" action="/layout/better" {
            (revision(view.now.revision))
            (back("/layout"))
            @for one in &found.moves {
                input type="hidden" name="move" value=(sent_move(one));
            }
            p.row {
                button.primary { "Make these moves" }
                a.button href="/layout" { "Leave it as it is" }
            }
        }
        p.hint { "One change of the project; undo takes all of it back. Lift heavy things with two people." }
    }
}

/// One move as the form sends it.
fn sent_move(one: &Move) -> String {
    format!("{};{}", one.item, one.to)
}

/// The moves are to be made.
pub async fn moved(view: View, sent: Sent) -> Response {
    let all: Option<Vec<Edit>> = sent
        .0
        .all("move")
        .map(|text| one_edit(&view, text))
        .collect();
    let Some(edits) = all else {
        return view.missing("The moves do not fit this project any more. Look for them again.");
    };
    let label = "Move things to a better layout";
    let done = blocking(|| view.app.session.apply(&edits, sent.revision(), label));
    after(&view, &sent, done)
}

fn one_edit(view: &View, text: &str) -> Option<Edit> {
    let (id, spot) = text.split_once(';')?;
    view.study().project.items.get(id)?;
    let spot = Spot::parse(spot).ok()?;
    Some(Edit::Set {
        path: path(["item", id, "spot"]),
        value: Value::Text(spot.typed(view.units())),
    })
}

/// What it brings, before and after.
fn compared(view: &View, found: &BetterLayout) -> Markup {
    let now = Figures::of(&found.before, &found.sway_before);
    let then = Figures::of(&found.after, &found.sway_after);
    let rows = [
        (
            "Least share of the tongue",
            show(view, now.least_share),
            show(view, then.least_share),
        ),
        (
            "Highest share of the tongue",
            show(view, now.most_share),
            show(view, then.most_share),
        ),
        (
            "Left and right differ at most by",
            show(view, now.side_difference),
            show(view, then.side_difference),
        ),
        (
            "Weight lies on average from its middle",
            show(view, now.yaw_radius),
            show(view, then.yaw_radius),
        ),
    ];
    html! {
        table.cards {
            thead { tr { th scope="col" { "Figure" } th.number scope="col" { "Now" } th.number scope="col" { "After the moves" } } }
            tbody {
                @for (name, before, after) in &rows {
                    tr { th scope="row" { (name) } td.number data-label="Now" { (before) } td.number data-label="After" { (after) } }
                }
                tr {
                    th scope="row" { "How it follows" }
                    td.number data-label="Now" { "" }
                    td.number data-label="After" { (follows(now.damping, then.damping)) }
                }
            }
        }
    }
}

fn show(view: &View, figure: Option<impl Quantity>) -> String {
    figure.map_or_else(String::new, |figure| view.show(figure))
}

/// Damping in relative words only.
fn follows(before: Option<Ratio>, after: Option<Ratio>) -> &'static str {
    match (before.map(Ratio::fraction), after.map(Ratio::fraction)) {
        (Some(before), Some(after)) if after > before + 0.01 => "swings die away faster",
        (Some(before), Some(after)) if after < before - 0.01 => "swings die away more slowly",
        (Some(_), Some(_)) => "about the same",
        _ => "not computed",
    }
}
