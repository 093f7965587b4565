//! Where the wires run: the floor and every wall to scale, with trunks and
//! wires, and what lies behind each wall. Not here: how routes are found (the
//! analysis), how corners are dragged (`routes.js`).

mod chosen;
mod corner;
mod drawing;
pub mod scene;
mod walls;

pub use corner::corner;

use crate::web::html::shell::{Page, Tab};
use crate::web::html::within::{WIRING, sheets};
use crate::web::html::{count, encoded, finding};
use crate::web::view::View;
use axum::response::Response;
use maud::{Markup, html};
use scene::{Look, Selected};

/// The page.
const HERE: &str = "/wiring/routes";

/// What one address of the page asks for.
pub struct Asked {
    /// What is looked at.
    pub look: Look,
    /// What is chosen, when it is there.
    pub selected: Option<Selected>,
}

impl Asked {
    fn of(view: &View) -> Self {
        let selected = view.query.get("select").and_then(Selected::named);
        Self {
            look: Look::named(view.query.get("face")),
            selected: selected.filter(|selected| selected.is_in(&view.study().project)),
        }
    }

    fn address(look: Look, selected: Option<&Selected>) -> String {
        match selected {
            Some(selected) => format!(
                "{HERE}?face={}&select={}",
                look.id(),
                encoded(&selected.key())
            ),
            None => format!("{HERE}?face={}", look.id()),
        }
    }

    /// The address with another choice.
    fn with(&self, selected: Option<&Selected>) -> String {
        Self::address(self.look, selected)
    }
}

/// The page.
pub async fn page(view: View) -> Response {
    let asked = Asked::of(&view);
    view.page(Page {
        tab: Some(Tab::Wiring),
        title: "Routes".into(),
        lede: "Where the wires run, to scale. Pick a wire, a trunk or a thing.",
        main: html! {
            (sheets(&WIRING, HERE))
            (body(&view, &asked))
            script src="/assets/routes.js" defer {}
        },
    })
}

fn body(view: &View, asked: &Asked) -> Markup {
    let road = &view.study().assessment.road;
    let known = road.trailer.inside_length.is_some()
        && road.trailer.inside_width.is_some()
        && road.trailer.inside_height.is_some();
    html! {
        @if !known {
            section.next.beginning #next-step {
                h2 { "First the box, then the wires in it" }
                p { "Type the inside length, width and height. The floor and the walls are then drawn here to scale, with every wire in its place." }
                p.row { a.button.primary href="/edit/trailer?back=/wiring/routes" { "Type the box" } }
            }
        } @else {
            (corner::drop_form(view))
            div.floor-top {
                section.plans aria-label="Drawing" {
                    (looks(asked))
                    (drawing::drawing(view, asked))
                }
                aside.beside aria-label="What is chosen" { (chosen::chosen(view, asked)) }
            }
            div #route-lists data-region {
                (walls::table(view, asked))
                (open_ends(view))
                (everything(view, asked))
            }
        }
    }
}

/// What can be looked at.
fn looks(asked: &Asked) -> Markup {
    html! {
        div.sides.looks #looks data-region role="group" aria-label="What is looked at" {
            @for look in Look::ALL {
                a.button href=(Asked::address(look, asked.selected.as_ref())) data-live
                    aria-current=[(look == asked.look).then_some("true")] { (look.words()) }
            }
        }
    }
}

/// Gear without a place, and wires that cross openings.
fn open_ends(view: &View) -> Markup {
    let routing = &view.study().assessment.routing;
    let crossing = routing.wires.iter().filter_map(|wire| {
        let crosses = &wire.route.as_ref()?.crosses;
        (!crosses.is_empty()).then_some((&wire.wire, crosses))
    });
    let crossing: Vec<_> = crossing.collect();
    html! {
        @if !crossing.is_empty() {
            section aria-labelledby="crossing" {
                h2 #crossing { "Across an opening" }
                ul.plain.rows {
                    @for (wire, openings) in crossing {
                        li.in-opening {
                            span {
                                (wire_link(view, Look::Above, wire.as_str())) " runs across "
                                @for (number, opening) in openings.iter().enumerate() {
                                    @if number > 0 { ", " }
                                    (crate::views::road::words::opening(&view.study().project, opening.as_str()))
                                }
                            }
                            a.button href={ "/edit/wire/" (encoded(wire.as_str())) "?back=/wiring/routes#field-route" } { "Choose its trunks" }
                        }
                    }
                }
            }
        }
        @if !routing.unplaced.is_empty() {
            section aria-labelledby="unplaced" {
                h2 #unplaced { (count(routing.unplaced.len(), "thing has", "things have")) " no place yet" }
                p.hint { "Wires that end there have no route, and their lengths are typed or stood in for." }
                ul.plain.rows {
                    @for gear in &routing.unplaced {
                        li data-unplaced=(gear.item) {
                            span { b { (finding::label(view, "item", gear.item.as_str())) } " · " (count(gear.wires.len(), "wire", "wires")) }
                            a.button href={ "/layout?item=" (encoded(gear.item.as_str())) } { "Place it" }
                        }
                    }
                }
            }
        }
    }
}

/// All trunks and wires as links: what the drawing leads to, and what works
/// without it.
fn everything(view: &View, asked: &Asked) -> Markup {
    let project = &view.study().project;
    html! {
        section aria-labelledby="all-routes" {
            h2 #all-routes { "Trunks and wires" }
            p.row { a.button href="/add/trunk?back=/wiring/routes" { "Add a trunk" } a.button href="/print/routes" { "Print these drawings" } }
            details #all-trunks open[project.trunks.len() <= 12] {
                summary { "Trunks (" (project.trunks.len()) ")" }
                ul.plain.columns { @for id in project.trunks.ids() {
                    li { (link(asked, &Selected::Trunk(id.to_string()), &trunk_name(view, id.as_str()))) }
                } }
            }
            details #all-route-wires {
                summary { "Wires (" (project.wires.len()) ")" }
                ul.plain.columns { @for id in project.wires.ids() {
                    li { (link(asked, &Selected::Wire(id.to_string()), &finding::label(view, "wire", id.as_str()))) }
                } }
            }
            details #all-placed {
                summary { "Gear and openings" }
                ul.plain.columns {
                    @for (id, item) in &project.items {
                        @if item.body.spot.is_some() {
                            li { (link(asked, &Selected::Item(id.to_string()), &finding::label(view, "item", id.as_str()))) }
                        }
                    }
                    @for id in project.openings.ids() {
                        li { (link(asked, &Selected::Opening(id.to_string()), &crate::views::road::words::opening(project, id.as_str()))) }
                    }
                }
            }
        }
    }
}

fn link(asked: &Asked, selected: &Selected, words: &str) -> Markup {
    html! { a href=(asked.with(Some(selected))) data-live data-key=(selected.key()) { (words) } }
}

/// A link that chooses a wire.
fn wire_link(view: &View, look: Look, id: &str) -> Markup {
    let selected = Selected::Wire(id.to_owned());
    html! { a href=(Asked::address(look, Some(&selected))) data-live { (finding::label(view, "wire", id)) } }
}

/// What people call a trunk.
fn trunk_name(view: &View, id: &str) -> String {
    let label = view
        .study()
        .project
        .trunks
        .get(id)
        .and_then(|trunk| trunk.label.as_ref());
    label.map_or_else(|| id.to_owned(), |label| label.value.clone())
}
