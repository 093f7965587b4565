//! The schematic in one state, and beside it what is selected. Not here: the
//! drawing itself, and how it is moved (`app.js`).

mod bands;
mod controls;
mod gear;
mod panel;
mod short;
mod way;
mod wire;

pub use gear::afterwards;
pub use wire::limits_itself;

use crate::views::state::{find_state, state_id, state_label};
use crate::web::act::blocking;
use crate::web::html::shell::{Page, Tab};
use crate::web::html::within::{WIRING, sheets};
use crate::web::schematic::{self, Colour, Shown};
use crate::web::view::View;
use crate::web::what_if::{self, Situation, WHAT_IF};
use axum::response::Response;
use maud::{Markup, PreEscaped, html};
use std::sync::Arc;
use wainwright_analysis::result::Assessment;
use wainwright_drawing::{Css, Style, layout, svg};
use wainwright_model::Project;

/// Put before every id of the drawing.
const PREFIX: &str = "s-";

/// What one address of this page asks for.
pub struct Asked {
    /// The assessment shown.
    pub assessment: Arc<Assessment>,
    /// The project it belongs to: with one more state when that was tried out.
    pub project: Project,
    /// Index of the state, when any was solved.
    pub state: Option<usize>,
    /// The situation tried out, when it is one.
    pub situation: Option<Situation>,
    /// What colours mean.
    pub colour: Colour,
    /// What is selected.
    pub selected: Option<Selected>,
}

/// Something in the drawing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Selected {
    /// A wire by its id.
    Wire(String),
    /// A piece of gear by its id.
    Item(String),
}

impl Asked {
    fn of(view: &View) -> Self {
        let study = view.study();
        // A button may send a second state; the last one is meant.
        let wanted = view.query.all("state").filter(|id| !id.is_empty()).last();
        let situation = (wanted == Some(WHAT_IF)).then(|| Situation::of(&view.query));
        let assessment = situation.as_ref().map_or_else(
            || Arc::new(study.assessment.clone()),
            |situation| blocking(|| view.app.what_ifs.assess(study, situation)),
        );
        let project = situation.as_ref().map_or_else(
            || study.project.clone(),
            |situation| what_if::with_state(&study.project, situation),
        );
        let state = find_state(&assessment, wanted).or_else(|| find_state(&assessment, None));
        Self {
            state,
            situation,
            colour: Colour::named(view.query.get("colour")),
            selected: view.query.get("select").and_then(Selected::named),
            project,
            assessment,
        }
    }

    /// Stable id of the state shown.
    pub fn state_id(&self) -> String {
        let state = self
            .state
            .and_then(|index| self.assessment.states.get(index));
        match (&self.situation, state) {
            (Some(_), _) => WHAT_IF.into(),
            (None, Some(state)) => state_id(&state.kind),
            (None, None) => String::new(),
        }
    }

    /// Name of the state shown.
    pub fn state_words(&self) -> String {
        let state = self
            .state
            .and_then(|index| self.assessment.states.get(index));
        state.map_or_else(|| "nothing to compute yet".into(), state_label)
    }
}

impl Selected {
    fn named(text: &str) -> Option<Self> {
        let (element, id) = text.split_once('.')?;
        match element {
            "wire" => Some(Self::Wire(id.into())),
            "item" => Some(Self::Item(id.into())),
            _ => None,
        }
    }
}

/// The page.
pub async fn page(view: View) -> Response {
    let asked = Asked::of(&view);
    let empty = view.study().project.items.is_empty();
    view.page(Page {
        tab: Some(Tab::Wiring),
        title: "Wiring".into(),
        lede: "The whole wiring in one situation; pick a wire or a piece of gear to see its numbers.",
        main: html! {
            (sheets(&WIRING, "/wiring"))
            @if empty { (nothing_yet()) } @else {
                div #controls data-region { (controls::controls(&view, &asked)) }
                div.bench-top {
                    (sheet(&view, &asked))
                    (panel::panel(&view, &asked))
                }
            }
        },
    })
}

fn nothing_yet() -> Markup {
    html! {
        section.next.beginning #next-step {
            h2 { "There is nothing to draw yet" }
            p { "Add the gear and the wires between its terminals; the drawing makes itself." }
            p.row {
                a.button.primary href="/add/item?kind=battery" { "Add the battery" }
                a.button href="/add/item" { "Add something else" }
            }
        }
    }
}

fn sheet(view: &View, asked: &Asked) -> Markup {
    let drawing = blocking(|| draw(view, asked));
    html! {
        section.sheet aria-label="Schematic" {
            div.zoom hidden {
                button type="button" data-zoom="in" aria-label="Larger" { "+" }
                button type="button" data-zoom="out" aria-label="Smaller" { "−" }
                button type="button" data-zoom="fit" { "Fit" }
            }
            div.drawn {
                div.frame #frame tabindex="0" role="region" aria-label="Schematic; arrow keys move it, plus and minus zoom, 0 fits it" {
                    div #drawing data-region data-keep { (PreEscaped(drawing)) }
                }
                svg.map hidden aria-hidden="true" focusable="false" { path {} rect {} }
            }
            div #legend data-region { (controls::legend(asked.colour)) }
            p.hint {
                "Drag to move, wheel or pinch to zoom. Tab reaches every wire and device; arrow keys go to the neighbour, Enter selects."
            }
        }
    }
}

fn draw(view: &View, asked: &Asked) -> String {
    let diagram = schematic::diagram(&Shown {
        study: view.study(),
        assessment: &asked.assessment,
        state: asked.state,
        colour: asked.colour,
        units: view.units(),
    });
    let style = Style {
        title: format!("Wiring schematic: {}", asked.state_words()),
        id_prefix: PREFIX.into(),
        css: Css::OnPage,
    };
    let drawing = svg(&layout(&diagram), &style);
    let chosen = match &asked.selected {
        Some(Selected::Wire(id)) => format!("id=\"{PREFIX}link-{id}\" class=\""),
        Some(Selected::Item(id)) => format!("id=\"{PREFIX}block-{id}\" class=\""),
        None => return drawing,
    };
    drawing.replacen(&chosen, &format!("{chosen}selected "), 1)
}
