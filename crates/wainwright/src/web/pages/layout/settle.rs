//! Things of which too little is known, each with what is lacking right there,
//! and the list of all things. Not here: the drawing.

use super::{Asked, road_of};
use crate::views::road::words;
use crate::web::html::{back, count, revision, slug};
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::result::road::Unsettled;
use wainwright_model::FieldExt;

/// Most rows that are shown unfolded.
const MOST_ROWS: usize = 8;

/// Things without mass or place, those that matter most first.
pub fn unsettled(view: &View, asked: &Asked) -> Markup {
    let mut all: Vec<&Unsettled> = road_of(view).unsettled.iter().collect();
    all.sort_by(|one, other| weight(other).total_cmp(&weight(one)));
    let (first, rest) = all.split_at(all.len().min(MOST_ROWS));
    html! {
        section #unsettled data-region aria-labelledby="unsettled-heading" {
            @if view.study().project.items.is_empty() {
                div.next #next-step {
                    h2 #unsettled-heading { "Next step" }
                    p { "The box is there. Add what goes in, the heaviest first: battery, tanks, bed, galley, tools, food." }
                    p { a.button.primary href="/add/item?back=/layout" { "Add the first thing" } }
                }
            } @else if all.is_empty() {
                h2.unseen #unsettled-heading { "Everything is counted" }
            } @else {
                h2 #unsettled-heading { "Not counted yet" }
                p { (count(all.len(), "thing has", "things have")) " no mass or no place yet and is left out of every figure." }
                ul.plain.settle { @for found in first { (row(view, asked, found)) } }
                @if !rest.is_empty() {
                    details #more-unsettled {
                        summary { (rest.len()) " more" }
                        ul.plain.settle { @for found in rest { (row(view, asked, found)) } }
                    }
                }
            }
        }
    }
}

/// Share of the whole that is known to be left out; what is not known comes first.
fn weight(found: &Unsettled) -> f64 {
    found.share_of_all.map_or_else(
        || if found.unplaced { -1.0 } else { f64::INFINITY },
        |share| share.fraction(),
    )
}

fn row(view: &View, asked: &Asked, found: &Unsettled) -> Markup {
    let id = found.item.as_str();
    let name = words::item(&view.study().project, id);
    let input = format!("mass-{}", slug(id));
    html! {
        li data-unsettled=(id) {
            a.settle-name href=(asked.with_item(Some(id))) data-live data-item=(id) { (name) }
            @match found.mass {
                Some(mass) => span.settle-mass { (view.show(mass)) },
                None => form.settle-form method="post" action="/layout/place" data-live {
                    (revision(view.now.revision))
                    (back(&asked.with_item(asked.item.as_deref())))
                    input type="hidden" name="item" value=(id);
                    label.unseen for=(input) { "Mass of " (name) }
                    input id=(input) name="mass" placeholder="mass" autocomplete="off";
                    button { "Weigh" span.unseen { " " (name) } }
                },
            }
            @if let Some((rear, front)) = found.tongue {
                span.hint { "at the rear wall " (signed(view, rear)) ", at the front wall " (signed(view, front)) " on the ball" }
            }
            @if found.unplaced {
                form method="post" action="/layout/middle" data-live {
                    (revision(view.now.revision))
                    (back(&asked.with_item(Some(id))))
                    input type="hidden" name="item" value=(id);
                    button.primary { "Put it on the floor" span.unseen { ": " (name) } }
                }
            }
        }
    }
}

fn signed(view: &View, mass: wainwright_units::Mass) -> String {
    let sign = if mass.kilograms() < 0.0 { "−" } else { "+" };
    format!("{sign}{}", view.show(mass.abs()))
}

/// Every thing with a place; the script finds places and sizes here.
pub fn all(view: &View, asked: &Asked) -> Markup {
    let placed: Vec<_> = view
        .study()
        .project
        .items
        .iter()
        .filter_map(|(id, item)| Some((id, item, *item.body.spot.value()?)))
        .collect();
    html! {
        section #all-things data-region {
            details #things-list {
                summary { "All things with a place (" (placed.len()) ")" }
                ul.plain.columns {
                    @for (id, item, spot) in &placed {
                        li {
                            a href=(asked.with_item(Some(id.as_str()))) data-live data-item=(id)
                                data-at=(mm([spot.from_front, spot.from_left, spot.above_floor]))
                                data-size=[item.body.size.value().map(|size| mm([size.along, size.across, size.up]))] {
                                (words::item(&view.study().project, id.as_str()))
                            }
                            " " span.hint { (crate::web::layout_scene::place_words(*spot, view.units())) }
                        }
                    }
                }
            }
        }
    }
}

/// Three lengths for the script [mm].
fn mm(lengths: [wainwright_units::Length; 3]) -> String {
    lengths
        .map(|length| format!("{:.1}", length.millimetres()))
        .join(" ")
}
