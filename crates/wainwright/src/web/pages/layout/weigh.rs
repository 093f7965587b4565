//! Weighing: what each weighing says against the model, and the bare trailer
//! that follows from all of them. Not here: how to weigh (`how`).

mod how;

use super::{begin, framed, road_of};
use crate::views::road::words;
use crate::web::act::{Sent, after, blocking};
use crate::web::html::{back, encoded, revision};
use crate::web::view::View;
use axum::response::Response;
use maud::{Markup, html};
use wainwright_analysis::result::road::{
    Measured, RoadState, Scale, ShellFound, WeighedLoads, WeighingResult,
};
use wainwright_model::{Edit, Value, path};
use wainwright_units::Mass;

const HERE: &str = "/layout/weigh";
const TITLE: &str = "Weighing";
const LEDE: &str =
    "Check the figures on a scale: a bathroom scale and a plank are enough for the hitch.";

/// The page.
pub async fn page(view: View) -> Response {
    let road = road_of(&view);
    if !road.begun {
        return begin::page(
            &view,
            HERE,
            TITLE,
            LEDE,
            "Does the trailer weigh what the figures say?",
        );
    }
    let main = html! {
        div #weigh-page data-region {
            p.care {
                "Chock both wheels on both sides before you uncouple. Stand the trailer level on firm ground. "
                "Never reach under a trailer that only a jack or a plank holds up, and let it down slowly onto the scale."
            }
            (shell(&view))
            (done(&view))
            (how::how(&view))
        }
    };
    view.page(framed(HERE, TITLE, LEDE, &main))
}

/// The bare trailer found by the weighings is to be used.
pub async fn taken(view: View, sent: Sent) -> Response {
    let Some(found) = &road_of(&view).shell_found else {
        return view.missing("The weighings do not tell the bare trailer any more.");
    };
    let set = |field: &str, mass: Mass| Edit::Set {
        path: path(["trailer", field]),
        value: Value::Text(view.show(mass)),
    };
    let edits = [
        set("empty_mass", found.mass.value),
        set("empty_tongue", found.tongue.value),
    ];
    let label = "Take over the weighed bare trailer";
    let done = blocking(|| view.app.session.apply(&edits, sent.revision(), label));
    after(&view, &sent, done)
}

/// The bare trailer from all weighings.
fn shell(view: &View) -> Markup {
    let Some(found) = &road_of(view).shell_found else {
        return html! {};
    };
    html! {
        section.next #shell aria-labelledby="shell-heading" {
            h2 #shell-heading { "The bare trailer, by your scales" }
            dl.small-figures.three {
                div { dt { "Its mass" } dd { (mass(view, &found.mass)) (change(view, found.mass_change)) } }
                div { dt { "On the ball" } dd { (mass(view, &found.tongue)) (change(view, found.tongue_change)) } }
                div { dt { "Its centre behind the ball" } dd { (view.show(found.centre.value)) span.hint { "± " (view.show(found.centre.sigma)) } } }
            }
            (contradiction(view, found))
            form method="post" action="/layout/take" data-live {
                (revision(view.now.revision))
                (back(HERE))
                button.primary { "Take these over" }
            }
            p.hint { "Writes mass and load on the ball of the bare trailer into the project; every figure follows." }
        }
    }
}

fn mass(view: &View, measured: &Measured<Mass>) -> Markup {
    html! { (view.show(measured.value)) " " span.hint { "± " (view.show(measured.sigma)) } }
}

fn change(view: &View, by: Option<Mass>) -> Markup {
    html! {
        @if let Some(by) = by {
            span.hint {
                (view.show(by.abs()))
                @if by.kilograms() < 0.0 { " less" } @else { " more" }
                " than is in use"
            }
        }
    }
}

fn contradiction(view: &View, found: &ShellFound) -> Markup {
    let worst = found.contradiction.as_ref().and_then(|contradiction| {
        let id = found.worst.as_ref()?;
        let name = words::weighing(&view.study().project, id.as_str());
        Some((
            id,
            name,
            scale(contradiction.worst.scale),
            view.show(contradiction.worst.off.abs()),
        ))
    });
    html! {
        @match worst {
            Some((id, name, scale, off)) => div.callout role="alert" {
                p { strong { "The weighings contradict each other. " }
                    "Furthest off is the " (scale) " of " a href={ "/edit/weighing/" (encoded(id.as_str())) "?back=" (HERE) } { (name) } ", by " (off) "." }
                p { "Something was aboard that is not in the project, lies elsewhere, or that reading is wrong. Weigh again before you take these over." }
            },
            None => @if found.spare_readings == 0 {
                p.hint { "There is no reading to spare, so nothing checks these. One more weighing of another kind would." }
            } @else {
                p.hint { "The readings agree within what the scales are said to be off." }
            },
        }
    }
}

fn scale(scale: Scale) -> &'static str {
    match scale {
        Scale::Tongue => "load on the ball",
        Scale::Axle => "load of the wheels",
        Scale::Whole => "whole mass",
    }
}

/// Weighings so far.
fn done(view: &View) -> Markup {
    let road = road_of(view);
    html! {
        section #weighings aria-labelledby="weighings-heading" {
            h2 #weighings-heading { "Weighings so far" }
            @if road.weighings.is_empty() {
                p { "None yet. Pick a way to weigh below; the load on the ball matters most." }
            }
            @for found in &road.weighings { (one(view, found)) }
        }
    }
}

fn one(view: &View, found: &WeighingResult) -> Markup {
    let road = road_of(view);
    let project = &view.study().project;
    let id = found.id.as_str();
    let state = found.state.and_then(|index| road.states.get(index));
    html! {
        article.weighing id={ "weighing-" (id) } {
            h3 {
                a href={ "/edit/weighing/" (encoded(id)) "?back=" (HERE) } { (words::weighing(project, id)) }
                span.hint { " " (words::weighed_by(found.by)) }
            }
            @match &found.loads {
                Some(loads) => (compared(view, loads, state)),
                None => p { "A reading or a length is missing. "
                    a href={ "/edit/weighing/" (encoded(id)) "?back=" (HERE) } { "Type it" } },
            }
            @if !found.unknown_aboard.is_empty() {
                p.hint {
                    "Aboard without a known mass or place, so the bare trailer cannot be told from it: "
                    @for (number, item) in found.unknown_aboard.iter().enumerate() {
                        @if number > 0 { ", " }
                        a href={ "/layout?item=" (encoded(item.as_str())) } { (words::item(project, item.as_str())) }
                    }
                }
            }
        }
    }
}

/// Scale against model.
fn compared(view: &View, loads: &WeighedLoads, state: Option<&RoadState>) -> Markup {
    let rows = [
        ("On the ball", loads.tongue, state.map(|state| state.tongue)),
        ("On the wheels", loads.axle, state.map(|state| state.axle)),
        ("All of it", loads.whole, state.map(|state| state.mass)),
        ("Left wheels", loads.left, state.map(|state| state.left)),
        ("Right wheels", loads.right, state.map(|state| state.right)),
    ];
    html! {
        table.cards {
            thead { tr {
                th scope="col" { "What" } th.number scope="col" { "Scale" } th.number scope="col" { "Model" }
                th.number scope="col" { "Scale less model" }
            } }
            tbody {
                @for (name, measured, model) in rows {
                    @if let Some(measured) = measured {
                        tr {
                            th scope="row" { (name) }
                            td.number data-label="Scale" { (mass(view, &measured)) }
                            td.number data-label="Model" { (model.map_or_else(|| "not known".into(), |model| view.show(model))) }
                            td.number data-label="Off" { @if let Some(model) = model { (signed(view, measured.value - model)) } }
                        }
                    }
                }
            }
        }
    }
}

fn signed(view: &View, by: Mass) -> String {
    let sign = if by.kilograms() < 0.0 { "−" } else { "+" };
    format!("{sign}{}", view.show(by.abs()))
}
