//! Drawings as sheets of paper: single line, floor, walls, ceiling, each on
//! one page with a title block. Not here: sheets of labels.

use super::fuses::still;
use crate::web::act::blocking;
use crate::web::html::shell::{Page, Tab};
use crate::web::layout_scene::scale_bars;
use crate::web::pages::wiring_routes::scene::{Look, scene};
use crate::web::single_line;
use crate::web::view::View;
use axum::response::Response;
use maud::{Markup, PreEscaped, html};
use wainwright_drawing::scene::{Layer, Options, Thing, Words};
use wainwright_drawing::sheet::{self, Paper, Ratio, Sheet};
use wainwright_drawing::{Css, Picture, Style};
use wainwright_units::System;

/// Below this a thing is small [m].
const SMALL: f64 = 0.15;

/// A size of paper that can be chosen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Choice(Paper);

impl Choice {
    /// As in an address and a class.
    pub fn id(self) -> &'static str {
        match self.0 {
            Paper::Letter => "letter",
            Paper::A4 => "a4",
        }
    }

    /// The paper.
    pub fn paper(self) -> Paper {
        self.0
    }
}

/// The paper asked for, or the usual one of the project's units.
pub fn paper_of(view: &View) -> Choice {
    Choice(match (view.query.get("paper"), view.units()) {
        (Some("letter"), _) => Paper::Letter,
        (Some("a4"), _) | (None | Some(_), System::Metric) => Paper::A4,
        (None | Some(_), System::Us) => Paper::Letter,
    })
}

/// The field that chooses the paper.
pub fn papers(choice: Choice) -> Markup {
    html! {
        div.field {
            label for="paper" { "Paper" }
            select #paper name="paper" {
                option value="letter" selected[choice.0 == Paper::Letter] { "Letter" }
                option value="a4" selected[choice.0 == Paper::A4] { "A4" }
            }
        }
    }
}

/// The page.
pub async fn page(view: View) -> Response {
    let choice = paper_of(&view);
    let sheets = blocking(|| sheets(&view, choice));
    view.page(Page {
        tab: Some(Tab::Lists),
        title: "Drawings on paper".into(),
        lede: "One page each, to scale. Print at 100 %, without margins.",
        main: html! {
            form.controls method="get" action="/print/routes" {
                (papers(choice))
                p.row { button { "Show" } button.primary type="button" data-print hidden { "Print" } a.button href="/wiring/routes" { "Back to the routes" } }
            }
            @if sheets.is_empty() {
                section.next #next-step {
                    h2 { "There is nothing to draw yet" }
                    p { "Type the inside of the box, or add the first wire." }
                    p.row { a.button.primary href="/edit/trailer?back=/print/routes" { "Type the box" } a.button href="/wiring/plan" { "Plan the wiring" } }
                }
            }
            div.papers {
                @for sheet in &sheets { figure.paper.{ (choice.id()) "-landscape" } { (PreEscaped(sheet)) } }
            }
            script src="/assets/routes.js" defer {}
        },
    })
}

/// All sheets, numbered.
fn sheets(view: &View, choice: Choice) -> Vec<String> {
    let line = single_line::of(view.study(), view.units());
    let looks: Vec<Look> = Look::ALL
        .into_iter()
        .filter(|look| scene(view, *look, None).is_some())
        .collect();
    let all = looks.len() + usize::from(line.is_some());
    let mut out = Vec::new();
    if let Some(line) = &line {
        let sheet = title_block(view, choice, "Single line", 1, all);
        let picture = single_line::picture(line, 900.0, "p0-");
        out.push(text(
            &sheet::picture_sheet(&sheet, &picture, "no scale"),
            "Single line",
            0,
        ));
    }
    for look in looks {
        let number = out.len();
        let sheet = title_block(view, choice, look.words(), number + 1, all);
        if let Some(picture) = drawn(view, look, &sheet, &format!("p{number}-")) {
            out.push(text(&picture, look.words(), number));
        }
    }
    out
}

fn title_block(view: &View, choice: Choice, title: &str, number: usize, all: usize) -> Sheet {
    let name = view.study().project.head.name.as_ref();
    Sheet {
        paper: choice.0,
        landscape: true,
        title: title.to_owned(),
        subtitle: name.map_or_else(|| "Unnamed trailer".into(), |name| name.value.clone()),
        number_text: format!("Sheet {number} of {all}"),
        date_text: String::new(),
        note:
            "Measured from the inside of walls and floor. Look behind the lining before you drill."
                .into(),
    }
}

fn drawn(view: &View, look: Look, sheet: &Sheet, prefix: &str) -> Option<Picture> {
    let mut scene = scene(view, look, None)?;
    // The drawbar would make everything else smaller.
    scene.hitch = None;
    scene.running_gear = None;
    let options = Options {
        top: Layer::Wires,
        scale_bars: scale_bars(view.units()),
        words: Words::default(),
        id_prefix: prefix.to_owned(),
        ..Options::default()
    };
    let (looked, _) = look.views();
    let ratios = ratios(view.units());
    let printed = sheet::scene_sheet(sheet, &scene, &looked, &options, &ratios);
    if printed.ratio.is_some() {
        return Some(printed.picture);
    }
    // A scale is worth more than names that stand on the sheets of the walls too.
    for trunk in &mut scene.trunks {
        trunk.label.clear();
    }
    for opening in &mut scene.openings {
        opening.label.clear();
    }
    for thing in scene.things.iter_mut().filter(|thing| is_small(thing)) {
        thing.label.clear();
    }
    Some(sheet::scene_sheet(sheet, &scene, &looked, &options, &ratios).picture)
}

/// Whether a thing is so small that its name hides more than it says.
fn is_small(thing: &Thing) -> bool {
    thing.space.size.along_m.max(thing.space.size.across_m) < SMALL
}

fn text(picture: &Picture, title: &str, number: usize) -> String {
    still(&picture.svg(&Style {
        title: title.to_owned(),
        id_prefix: format!("p{number}-"),
        css: Css::OnPage,
    }))
}

/// Scales people draw in: whole steps of an inch to the foot, or round numbers.
fn ratios(units: System) -> Vec<Ratio> {
    let ratio = |real_per_paper: f64, text: &str| Ratio {
        real_per_paper,
        text: text.to_owned(),
    };
    match units {
        System::Us => vec![
            ratio(8.0, "1-1/2 in to 1 ft"),
            ratio(12.0, "1 in to 1 ft"),
            ratio(16.0, "3/4 in to 1 ft"),
            ratio(24.0, "1/2 in to 1 ft"),
            ratio(32.0, "3/8 in to 1 ft"),
            ratio(40.0, "3/10 in to 1 ft"),
            ratio(48.0, "1/4 in to 1 ft"),
        ],
        System::Metric => vec![
            ratio(10.0, "1:10"),
            ratio(15.0, "1:15"),
            ratio(20.0, "1:20"),
            ratio(25.0, "1:25"),
            ratio(30.0, "1:30"),
            ratio(50.0, "1:50"),
        ],
    }
}
