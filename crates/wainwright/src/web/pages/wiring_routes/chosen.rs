//! What is chosen, beside the drawing: a wire with its length worked out, a
//! trunk with its corners, the wires of a thing or an opening.

use super::scene::Selected;
use super::{Asked, trunk_name, wire_link};
use crate::views::lists::{end_words, route_words};
use crate::views::road::words;
use crate::views::working::WorkingView;
use crate::web::act::blocking;
use crate::web::html::working::working;
use crate::web::html::{back, count, encoded, finding, revision};
use crate::web::layout_scene::place_words;
use crate::web::schematic::run_words;
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::Ask;
use wainwright_analysis::result::{Lack, Route, Through, TrunkRoute, WireRoute};
use wainwright_model::Side;

/// The panel.
pub fn chosen(view: &View, asked: &Asked) -> Markup {
    html! {
        div #chosen-route data-region {
            @match &asked.selected {
                None => (summary(view)),
                Some(selected) => {
                    div.chosen-head {
                        h2 #chosen-name { (name(view, selected)) }
                        a.button.close href=(asked.with(None)) data-live { "Close" }
                    }
                    @match selected {
                        Selected::Wire(id) => (wire(view, id)),
                        Selected::Trunk(id) => (trunk(view, asked, id)),
                        Selected::Item(id) => (ends_at(view, asked, id)),
                        Selected::Opening(id) => (across(view, asked, id)),
                    }
                },
            }
        }
    }
}

fn name(view: &View, selected: &Selected) -> String {
    let project = &view.study().project;
    match selected {
        Selected::Wire(id) => {
            let name = finding::label(view, "wire", id);
            name.replacen("wire", "Wire", 1)
        }
        Selected::Trunk(id) => trunk_name(view, id),
        Selected::Item(id) => words::item(project, id),
        Selected::Opening(id) => words::opening(project, id),
    }
}

/// What there is, while nothing is chosen.
fn summary(view: &View) -> Markup {
    let routing = &view.study().assessment.routing;
    let routed = routing
        .wires
        .iter()
        .filter(|wire| wire.route.is_some())
        .count();
    let crossing = routing.wires.iter().filter(|wire| {
        wire.route
            .as_ref()
            .is_some_and(|route| !route.crosses.is_empty())
    });
    html! {
        h2 { (routed) " of " (count(routing.wires.len(), "wire has", "wires have")) " a route" }
        dl.small-figures {
            div { dt { "Trunks" } dd { (routing.trunks.len()) } }
            div { dt { "Gear without a place" } dd { (routing.unplaced.len()) } }
            div { dt { "Wires across an opening" } dd { (crossing.count()) } }
            div { dt { "Wires beside trunks, in all" } dd { (view.show(routing.off_trunk)) } }
        }
        @if routing.trunks.is_empty() {
            section.next #next-step {
                h2 { "Next step" }
                p { "Draw where wires may run: along a wall, up a corner, across the ceiling. Wires then follow the shortest way." }
                p.row { a.button.primary href="/add/trunk?back=/wiring/routes" { "Add a trunk" } }
            }
        } @else if routing.wires.is_empty() {
            section.next #next-step {
                h2 { "Next step" }
                p { "There is no wire yet." }
                p.row { a.button.primary href="/wiring/plan" { "Plan the wiring" } a.button href="/add/wire" { "Add a wire" } }
            }
        } @else {
            p.hint { "Pick a wire to see where it runs and how its length comes about; pick a trunk to move its corners." }
        }
    }
}

fn wire(view: &View, id: &str) -> Markup {
    let study = view.study();
    let found = study.assessment.routing.wire(id);
    let entry = blocking(|| wainwright_analysis::schedules(&study.project, &study.assessment));
    let entry = entry.wires.into_iter().find(|wire| wire.wire == *id);
    html! {
        @if let Some(entry) = &entry {
            p { (end_words(&entry.from)) " → " (end_words(&entry.to)) }
            @if !entry.route.is_empty() { p.hint { (route_words(&entry.route, view.units())) } }
        }
        @match found.map(|found| (found, &found.route)) {
            Some((found, Some(route))) => (legs(view, found, route)),
            Some((found, None)) => (lacks(view, &found.lacks)),
            None => p { "One of its ends names nothing that is in the project." },
        }
        (length_working(view, id))
        p.row {
            a.button href={ "/wiring?select=wire." (encoded(id)) "#panel" } { "Its numbers" }
            a.button href={ "/edit/wire/" (encoded(id)) "?back=" (encoded(&view.here)) } { "Change it" }
        }
    }
}

/// Legs and slack, which make its length.
fn legs(view: &View, wire: &WireRoute, route: &Route) -> Markup {
    let slack = &route.slack;
    html! {
        table.legs {
            thead { tr { th scope="col" { "Leg" } th.number scope="col" { "Length" } th.number scope="col" { "Wires beside it" } } }
            tbody {
                @for leg in &route.legs {
                    tr {
                        th scope="row" { @match &leg.trunk { Some(id) => (trunk_name(view, id.as_str())), None => "beside trunks" } }
                        td.number { (view.show(leg.length)) }
                        td.number { (leg.loaded.saturating_sub(1)) }
                    }
                }
                tr { th scope="row" { "for bends" } td.number { (view.show(slack.bends.value)) } td {} }
                tr { th scope="row" { "drip loop" } td.number { (view.show(slack.drop_loop.value)) } td {} }
                @if let Some(ends) = &slack.terminations { tr { th scope="row" { "for both ends" } td.number { (view.show(ends.value)) } td {} } }
                tr.total { th scope="row" { b { "Cut" } } td.number { b { (view.show(route.cut)) } } td {} }
            }
        }
        @if let Some(typed) = &wire.typed {
            p { "Typed in the project: " b { (view.show(typed.value)) } ". What is typed goes first." }
        }
        @if !route.crosses.is_empty() {
            p.in-the-way { "It runs across "
                @for (number, id) in route.crosses.iter().enumerate() {
                    @if number > 0 { ", " } (words::opening(&view.study().project, id.as_str()))
                } "."
            }
        }
        @if !route.passes.is_empty() {
            ul.plain.passes { @for pass in &route.passes {
                li { "Goes through " (through(view, &pass.through)) ": a grommet " (place_words(pass.at, view.units())) }
            } }
        }
    }
}

fn through(view: &View, through: &Through) -> String {
    match through {
        Through::Wall(Side::Roof) => "the roof".into(),
        Through::Wall(Side::Floor) => "the floor".into(),
        Through::Wall(side) => format!("the {} wall", side.as_str()),
        Through::Lining(trunk) => format!("the lining to “{}”", trunk_name(view, trunk.as_str())),
    }
}

fn lacks(view: &View, lacks: &[Lack]) -> Markup {
    html! {
        p { "It has no route:" }
        ul.plain.rows {
            @for lack in lacks {
                li {
                    @match lack {
                        Lack::Spot(item) => {
                            span { (words::item(&view.study().project, item.as_str())) " has no place." }
                            a.button href={ "/layout?item=" (encoded(item.as_str())) } { "Place it" }
                        },
                        Lack::Trunk(id) => {
                            span { (trunk_name(view, id.as_str())) " has fewer than two corners." }
                            a.button href={ "/edit/trunk/" (encoded(id.as_str())) "?back=/wiring/routes" } { "Change it" }
                        },
                        Lack::NoRoute => span { "No way could be found with these figures." },
                    }
                }
            }
        }
    }
}

fn length_working(view: &View, id: &str) -> Markup {
    let study = view.study();
    let ask = Ask::WireLength {
        wire: id.to_owned(),
    };
    let found = blocking(|| wainwright_analysis::working(&study.project, &study.assessment, &ask));
    html! {
        @if let Some(found) = found {
            details.how #how-length { summary { "Working of its length" } (working(&WorkingView::of(&found))) }
        }
    }
}

fn trunk(view: &View, asked: &Asked, id: &str) -> Markup {
    let found = view.study().assessment.routing.trunk(id);
    html! {
        @match found {
            Some(found) => (trunk_figures(view, found)),
            None => p { "It needs two corners at least." },
        }
        (corners(view, asked, id))
        p.row {
            a.button href={ "/edit/trunk/" (encoded(id)) "?back=" (encoded(&view.here)) } { "All its fields" }
            a.button href="/add/trunk?back=/wiring/routes" { "Add a trunk" }
        }
        @if let Some(found) = found {
            details #trunk-wires { summary { (count(found.wires.len(), "wire", "wires")) " in it" }
                ul.plain { @for wire in &found.wires { li { (wire_link(view, asked.look, wire.as_str())) } } }
            }
        }
    }
}

fn trunk_figures(view: &View, trunk: &TrunkRoute) -> Markup {
    html! {
        dl.small-figures {
            div { dt { "Length" } dd { (view.show(trunk.length)) } }
            div { dt { "Wires run" } dd { (run_words(trunk.run.value)) } }
            @if let Some(behind) = &trunk.behind { div { dt { "Behind" } dd { (behind) } } }
            @if let Some(full) = &trunk.fullest {
                div { dt { "At its fullest" } dd { (count(full.wires.len(), "wire", "wires")) ", " (view.show(full.filled)) } }
            }
        }
        @if !trunk.crosses.is_empty() {
            p.in-the-way { "It runs across "
                @for (number, id) in trunk.crosses.iter().enumerate() {
                    @if number > 0 { ", " } (words::opening(&view.study().project, id.as_str()))
                } "."
            }
        }
    }
}

/// The corners, each with what can be done to it.
fn corners(view: &View, asked: &Asked, id: &str) -> Markup {
    let path = view
        .study()
        .project
        .trunks
        .get(id)
        .and_then(|trunk| trunk.path.as_ref());
    let path = path.map_or(&[][..], |path| path.value.as_slice());
    html! {
        h3 { "Corners" }
        ol.corners {
            @for (number, spot) in path.iter().enumerate() {
                li {
                    form method="post" action="/wiring/routes/corner" data-live {
                        (revision(view.now.revision))
                        (back(&asked.with(asked.selected.as_ref())))
                        input type="hidden" name="trunk" value=(id);
                        input type="hidden" name="corner" value=(number);
                        label.unseen for={ "corner-field-" (number) } { "Place of corner " (number + 1) }
                        input id={ "corner-field-" (number) } name="spot" value=(spot.typed(view.units())) autocomplete="off" spellcheck="false";
                        button name="act" value="set" { "Set" span.unseen { " corner " (number + 1) } }
                        button name="act" value="add" { "Split" span.unseen { " after corner " (number + 1) } }
                        button name="act" value="remove" disabled[path.len() <= 2] { "Remove" span.unseen { " corner " (number + 1) } }
                    }
                }
            }
        }
        p.hint { "From the front wall, from the left wall, above the floor." }
    }
}

fn ends_at(view: &View, asked: &Asked, id: &str) -> Markup {
    let wires = view.study().assessment.routing.wires.iter();
    let wires: Vec<_> = wires
        .filter(|wire| wire.items.0 == *id || wire.items.1 == *id)
        .collect();
    html! {
        @if wires.is_empty() { p { "No wire ends there." } }
        ul.plain { @for wire in wires { li { (wire_link(view, asked.look, wire.wire.as_str())) } } }
        p.row {
            a.button href={ "/layout?item=" (encoded(id)) } { "Move it" }
            a.button href={ "/wiring?select=item." (encoded(id)) "#panel" } { "Its numbers" }
        }
    }
}

fn across(view: &View, asked: &Asked, id: &str) -> Markup {
    let wires = view.study().assessment.routing.wires.iter();
    let crosses = |wire: &&WireRoute| {
        wire.route
            .as_ref()
            .is_some_and(|route| route.crosses.iter().any(|c| *c == *id))
    };
    let wires: Vec<_> = wires.filter(crosses).collect();
    html! {
        @if wires.is_empty() { p.good { "No wire runs across it." } } @else { p { "Wires that run across it:" } }
        ul.plain { @for wire in wires { li { (wire_link(view, asked.look, wire.wire.as_str())) } } }
        p.row { a.button href={ "/edit/opening/" (encoded(id)) "?back=/wiring/routes" } { "Change it" } }
    }
}
