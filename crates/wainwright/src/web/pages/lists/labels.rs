//! Sheets of labels for the ends of wires: which paper, how many, how large,
//! and each sheet as it comes out of the printer.

use super::fuses::still;
use super::paper::{Choice, paper_of, papers};
use super::{framed, nothing_yet, schedules};
use crate::web::html::count;
use crate::web::view::{Query, View};
use axum::response::Response;
use maud::{Markup, PreEscaped, html};
use wainwright_analysis::result::Schedules;
use wainwright_drawing::sheet::{Fold, LabelGrid, Paper, WireLabel, label_sheets};
use wainwright_drawing::{Css, Style};

/// Fields of the form: name, label, least and most.
const FIELDS: [(&str, &str, f64, f64); 5] = [
    ("columns", "Labels beside each other", 1.0, 12.0),
    ("rows", "Labels below each other", 1.0, 40.0),
    ("width", "Width of a label [mm]", 12.0, 200.0),
    ("height", "Height of a label [mm]", 5.0, 100.0),
    ("used", "Labels of the first sheet used up", 0.0, 400.0),
];

/// The page.
pub async fn page(view: View) -> Response {
    let schedules = schedules(&view);
    let labels = labels(&schedules);
    let main = if labels.is_empty() {
        nothing_yet(&view)
    } else {
        whole(&view, &labels)
    };
    view.page(framed(
        "/lists/labels",
        "Labels",
        "Two labels for each wire: its own name, and where its other end goes.",
        &html! {
            div.label-page #list data-region { (main) }
        },
    ))
}

fn labels(schedules: &Schedules) -> Vec<WireLabel> {
    let ends = schedules
        .wires
        .iter()
        .flat_map(|wire| [&wire.from, &wire.to]);
    ends.map(|end| WireLabel {
        name: end.label_lines[0].clone(),
        lines: vec![end.label_lines[1].clone()],
    })
    .collect()
}

fn whole(view: &View, labels: &[WireLabel]) -> Markup {
    let choice = paper_of(view);
    let grid = grid(&view.query, choice);
    let sheets = label_sheets(&grid, labels);
    html! {
        (form(view, choice, &grid))
        p.found { (count(labels.len(), "label", "labels")) " on " (count(sheets.len(), "sheet", "sheets")) ". Print at 100 %, without margins." }
        div.papers {
            @for (number, sheet) in sheets.iter().enumerate() {
                figure.paper.{ (choice.id()) "-portrait" } {
                    (PreEscaped(still(&sheet.svg(&Style {
                        title: format!("Labels, sheet {}", number + 1),
                        id_prefix: format!("p{number}-"),
                        css: Css::OnPage,
                    }))))
                }
            }
        }
    }
}

fn form(view: &View, choice: Choice, grid: &LabelGrid) -> Markup {
    let shown = |name: &str| match name {
        "columns" => grid.columns.to_string(),
        "rows" => grid.rows.to_string(),
        "width" => trimmed(grid.cell_width_mm),
        "height" => trimmed(grid.cell_height_mm),
        _ => grid.used.to_string(),
    };
    html! {
        form.controls.label-form method="get" action="/lists/labels" {
            (papers(choice))
            @for (name, label, least, most) in FIELDS {
                div.field {
                    label for={ "label-" (name) } { (label) }
                    input id={ "label-" (name) } name=(name) type="number" min=(least) max=(most) step="any" value=(shown(name));
                }
            }
            div.field {
                label for="label-fold" { "How it goes on the wire" }
                select #label-fold name="fold" {
                    option value="flag" selected[grid.fold == Fold::Flag] { "folded round it as a flag" }
                    option value="flat" selected[grid.fold == Fold::Flat] { "flat, under clear tube" }
                }
            }
            p.row {
                button { "Lay out" }
                a.button href="/lists/labels.csv" download { "Download for a label printer" }
                button.primary type="button" data-print hidden { "Print" }
            }
            @if view.query.has("columns") { a href="/lists/labels" { "As before" } }
        }
    }
}

fn trimmed(value: f64) -> String {
    let text = format!("{value:.1}");
    text.trim_end_matches(".0").to_owned()
}

/// The grid a person asked for: it always fits on the paper.
fn grid(query: &Query, choice: Choice) -> LabelGrid {
    let (wide, high) = choice.paper().size_mm(false);
    let number = |name: &str, usual: f64| {
        let (_, _, least, most) = FIELDS
            .iter()
            .find(|field| field.0 == name)
            .copied()
            .unwrap_or(("", "", 0.0, 0.0));
        let given = query
            .get(name)
            .and_then(|text| text.replace(',', ".").parse::<f64>().ok());
        given
            .filter(|number| number.is_finite())
            .unwrap_or(usual)
            .clamp(least, most)
    };
    let edge = 8.0;
    let columns = number("columns", 4.0).floor();
    let rows = number(
        "rows",
        if choice.paper() == Paper::A4 {
            14.0
        } else {
            13.0
        },
    )
    .floor();
    let width = number("width", 48.0).min((wide - 2.0 * edge) / columns);
    let height = number("height", 19.0).min((high - 2.0 * edge) / rows);
    LabelGrid {
        paper: choice.paper(),
        landscape: false,
        columns: columns as usize,
        rows: rows as usize,
        cell_width_mm: width,
        cell_height_mm: height,
        left_mm: (wide - columns * width) / 2.0,
        top_mm: (high - rows * height) / 2.0,
        gap_across_mm: 0.0,
        gap_down_mm: 0.0,
        used: number("used", 0.0) as usize,
        cut_marks: true,
        fold: if query.get("fold") == Some("flat") {
            Fold::Flat
        } else {
            Fold::Flag
        },
    }
}
