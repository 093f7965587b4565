//! Cabinets for equipment: the face to scale with what is on it, whether it fits and can be reached, heat and air. Not
//! here: reckoning it (the cabinet study), the face on paper (`paper`).

mod checks;
mod chosen;
mod drawing;
mod heat;
pub mod paper;
mod place;
mod words;

pub use place::moved;

use super::air::framed;
use crate::web::act::blocking;
use crate::web::html::encoded;
use crate::web::view::View;
use axum::response::Response;
use maud::{Markup, html};
use wainwright_analysis::cabinets::study;
use wainwright_analysis::result::cabinet::{CabinetDevice, CabinetResult};
use wainwright_model::Id;

/// The page.
const HERE: &str = "/lining/cabinet";

/// What one address asks for.
struct Asked {
    all: Vec<CabinetResult>,
    index: usize,
    item: Option<String>,
}

impl Asked {
    fn of(view: &View) -> Self {
        let study_of = view.study();
        let all = blocking(|| study(&study_of.project, Some(&study_of.assessment)));
        let asked = view.query.get("id");
        let index = asked.and_then(|id| all.iter().position(|one| one.cabinet.as_str() == id));
        Self {
            all,
            index: index.unwrap_or(0),
            item: view.query.get("item").map(str::to_owned),
        }
    }

    fn cabinet(&self) -> Option<&CabinetResult> {
        self.all.get(self.index)
    }

    fn device<'a>(&self, cabinet: &'a CabinetResult) -> Option<&'a CabinetDevice> {
        let item = self.item.as_deref()?;
        cabinet.devices.iter().find(|one| one.item.as_str() == item)
    }
}

/// The address of a cabinet, with a device of it chosen.
fn address(cabinet: &Id, item: Option<&Id>) -> String {
    let page = format!("{HERE}?id={}", encoded(cabinet.as_str()));
    match item {
        Some(item) => format!("{page}&item={}", encoded(item.as_str())),
        None => page,
    }
}

/// The page.
pub async fn page(view: View) -> Response {
    let asked = Asked::of(&view);
    view.page(framed(
        HERE,
        "Cabinet",
        "What is built into a cabinet: does it fit, can it be reached, does it stay cool enough.",
        &html! {
            div #cabinet-page data-region {
                @match asked.cabinet() {
                    Some(cabinet) => (whole(&view, &asked, cabinet)),
                    None => (beginning()),
                }
            }
            script src="/assets/face.js" defer {}
        },
    ))
}

fn beginning() -> Markup {
    html! {
        section.next.beginning #next-step aria-labelledby="next-heading" {
            h2 #next-heading { "Which cabinet holds the equipment?" }
            p { "Say where a cabinet stands, how large it is inside and what it holds. Its face is then drawn to scale, and the air inside it is reckoned." }
            p.row { a.button.primary href={ "/add/cabinet?back=" (HERE) } { "Add a cabinet" } }
        }
    }
}

fn whole(view: &View, asked: &Asked, cabinet: &CabinetResult) -> Markup {
    let here = encoded(&address(&cabinet.cabinet, None));
    html! {
        @if asked.all.len() > 1 {
            div.sides.looks role="group" aria-label="Cabinet" {
                @for one in &asked.all {
                    a.button href=(address(&one.cabinet, None)) data-live
                        aria-current=[(one.cabinet == cabinet.cabinet).then_some("true")] { (one.label) }
                }
            }
        }
        (heat::verdicts(view, cabinet))
        div.floor-top {
            section.plans aria-label="Face and devices" {
                (drawing::drawing(view, asked, cabinet))
                (chosen::devices(view, asked, cabinet))
            }
            aside.beside aria-label="Chosen device and checks" {
                (chosen::chosen(view, asked, cabinet))
                (checks::checks(view, cabinet))
                p.row {
                    a.button href=(format!("/edit/cabinet/{}?back={here}", encoded(cabinet.cabinet.as_str()))) { "Change this cabinet" }
                    a.button href=(format!("/add/cabinet?back={here}")) { "Add a cabinet" }
                    @if cabinet.face.is_some() { a.button href=(format!("/print/cabinet?id={}", encoded(cabinet.cabinet.as_str()))) { "Template in true size" } }
                }
            }
        }
        (heat::heat(view, cabinet))
        (heat::judged(view, cabinet))
        (super::air::stand_ins(view, &cabinet.assumptions, HERE))
        @for refused in &cabinet.refused { p.callout { (refused) } }
    }
}
