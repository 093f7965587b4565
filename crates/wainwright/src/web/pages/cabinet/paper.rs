//! The face of a cabinet on paper in true size. Not here: pages and lines (the drawing crate), holes (the cabinet study).

use super::drawing::place;
use super::{Asked, HERE, words};
use crate::web::act::blocking;
use crate::web::html::encoded;
use crate::web::pages::air::framed;
use crate::web::pages::lists::paper::{Choice, paper_of, papers};
use crate::web::view::View;
use axum::response::Response;
use maud::{Markup, PreEscaped, html};
use wainwright_analysis::cabinets::template;
use wainwright_analysis::result::cabinet::{CabinetResult, CabinetTemplate, TemplateCut};
use wainwright_drawing::true_size::{Cut, Drill, Template, Words, pages};
use wainwright_drawing::{Css, Style};

/// The page.
pub async fn page(view: View) -> Response {
    let choice = paper_of(&view);
    let asked = Asked::of(&view);
    let main = match asked.cabinet() {
        Some(cabinet) => sheets(&view, cabinet, choice),
        None => {
            html! { p { "There is no cabinet yet." } p.row { a.button.primary href={ "/add/cabinet?back=" (HERE) } { "Add a cabinet" } } }
        }
    };
    view.page(framed(
        "/print/cabinet",
        "Template in true size",
        "To tape on the board: print at 100 %, without margins, and measure the bars.",
        &main,
    ))
}

fn sheets(view: &View, cabinet: &CabinetResult, choice: Choice) -> Markup {
    let found = template(cabinet);
    let printed = found.as_ref().and_then(|found| {
        let drawing = drawing(view, cabinet, found);
        blocking(|| pages(&drawing, choice.paper(), &sentences(cabinet)))
    });
    html! {
        form.controls method="get" action="/print/cabinet" {
            input type="hidden" name="id" value=(cabinet.cabinet.as_str());
            (papers(choice))
            p.row {
                button { "Show" } button.primary type="button" data-print hidden { "Print" }
                a.button href=(super::address(&cabinet.cabinet, None)) { "Back to the cabinet" }
            }
        }
        @match &printed {
            None => section.next #next-step {
                h2 { "There is nothing to draw yet" }
                p { "Type spot and size of the cabinet first. A board larger than some metres takes too many pages." }
                p.row { a.button.primary href=(format!("/edit/cabinet/{}?back={HERE}", encoded(cabinet.cabinet.as_str()))) { "Type spot and size" } }
            },
            Some((tiles, all)) => {
                ul.plain.damp-helps.template-notes {
                    li { b { (all.len()) } " pages: " (tiles.columns) " beside each other, " (tiles.rows) " below each other, each sharing 10 mm with its neighbour." }
                    li { "Print at 100 %, not “fit to page”. Measure both bars on the first page: 100 mm each. Otherwise nothing fits." }
                    @if found.as_ref().is_some_and(|found| found.cuts.is_empty()) { li { "No device on the face has a hole typed, so there is nothing to cut yet." } }
                }
                div.papers {
                    @for (index, picture) in all.iter().enumerate() {
                        figure.paper.true-size.{ (choice.id()) (if tiles.landscape { "-landscape" } else { "-portrait" }) } {
                            (PreEscaped(picture.svg(&Style {
                                title: format!("{}, page {} of {}", cabinet.label, index + 1, all.len()),
                                id_prefix: format!("p{index}-"),
                                css: Css::OnPage,
                            }).replacen(" role=\"group\"", " role=\"img\"", 1)))
                        }
                    }
                }
            },
        }
    }
}

fn sentences(cabinet: &CabinetResult) -> Words {
    Words {
        title: format!("{}: face, true size", cabinet.label),
        print: "Print at 100 %. Measure both bars before you cut.".into(),
        bar: "100 mm".into(),
        cut: "Grey is waste: keep the saw on the grey side of the line.".into(),
        join: "Cut along a dashed edge, lay the crosses of one name over each other, tape.".into(),
        page: "Page".into(),
        of: "of".into(),
        place: ["row".into(), "column".into()],
    }
}

fn drawing(view: &View, cabinet: &CabinetResult, found: &CabinetTemplate) -> Template {
    Template {
        board: place(&found.board),
        inside: place(&found.inside),
        cuts: found
            .cuts
            .iter()
            .map(|cut| hole(view, found, cut))
            .collect(),
        drills: found
            .drills
            .iter()
            .map(|drill| Drill {
                x_m: drill.x.metres(),
                y_m: drill.y.metres(),
                diameter_m: drill.diameter.metres(),
            })
            .collect(),
        behind: found
            .outlines
            .iter()
            .filter(|(id, _)| {
                cabinet
                    .devices
                    .iter()
                    .any(|device| device.item == *id && device.inside == Some(true))
            })
            .map(|(_, rect)| place(rect))
            .collect(),
    }
}

/// A hole with its name, its size, and its middle from the edges of the board.
fn hole(view: &View, found: &CabinetTemplate, cut: &TemplateCut) -> Cut {
    let name = view.study().project.label_or_id("item", cut.item.as_str());
    let rect = &cut.hole.rect;
    let size = if cut.hole.round {
        format!("⌀ {}", words::millimetres(rect.width))
    } else {
        format!(
            "{} × {}",
            words::millimetres(rect.width),
            words::millimetres(rect.height)
        )
    };
    let (x, y) = (cut.centre.0 - found.board.x, cut.centre.1 - found.board.y);
    Cut {
        id: cut.item.to_string(),
        name: format!("{name}: {size}"),
        middle: format!(
            "Middle {} from the left edge, {} from the lower edge of the board",
            words::millimetres(x),
            words::millimetres(y)
        ),
        place: place(rect),
        round: cut.hole.round,
    }
}
