//! How everything is cut: for each material a plan to scale, what to take and to buy, how sure it is. Not here: the sheets
//! of paper (`paper`).

use super::{framed, has_pieces, plans, rests, stock, study, words};
use crate::web::act::blocking;
use crate::web::html::{count, slug};
use crate::web::view::View;
use axum::response::Response;
use maud::{Markup, PreEscaped, html};
use wainwright_analysis::result::lining::{CuttingJob, JobPlan, LiningResult};
use wainwright_drawing::cutting::{bars, cut_sheet};
use wainwright_drawing::{Css, Picture, Style};
use wainwright_model::Goods;
use wainwright_units::Length;

/// The page.
const HERE: &str = "/lining/cut";
/// Width of a drawing on a wide screen and on a narrow one [px].
const WIDE: f64 = 1080.0;
const NARROW: f64 = 346.0;
/// Width and height of the drawing of a sheet on a wide screen.
const SHEET: (f64, f64) = (620.0, 420.0);
/// Height of it on a narrow one.
const SHEET_NARROW: f64 = 420.0;

/// What to mind before the first cut, in one line.
pub const CARE: &str = "Saws take fingers and eyes: glasses, ear protection and a dust mask on, work clamped, hands behind the blade's path; unplug the saw before you reach near the blade.";

/// The page.
pub async fn page(view: View) -> Response {
    let found = study(&view);
    let main = blocking(|| whole(&view, &found));
    view.page(framed(
        HERE,
        "Cutting",
        "What is still to be cut, from what, in which order, and what to buy for it.",
        &html! { div #cut-page data-region { (main) } },
    ))
}

fn whole(view: &View, found: &LiningResult) -> Markup {
    if found.jobs.is_empty() {
        return nothing(found);
    }
    html! {
        p.care { (CARE) }
        p.row.take-along {
            a.button.primary href="/print/cut" { "Cut sheets to print" }
            a.button href="/edit/tools?back=/lining/cut" { "Tools" }
            a.button href="/add/stock?back=/lining/cut" { "Add what is on sale, or in the shed" }
        }
        @for (index, job) in found.jobs.iter().enumerate() { (one(view, job, index)) }
        (supplies(view, found))
        (rests::rests(view, found))
    }
}

/// Where nothing is to be cut: why, and where to go.
pub fn nothing(found: &LiningResult) -> Markup {
    let laid = found.layers().any(|(_, layer)| has_pieces(layer.kind));
    html! {
        section.next.beginning #next-step {
            @if laid && found.layers().all(|(_, layer)| layer.done || !has_pieces(layer.kind)) {
                h2 { "Nothing is left to cut" }
                p { "Every layer is in already." }
                p.row { a.button.primary href="/lining" { "See the sides" } }
            } @else {
                h2 { "First the sides, then how they are cut" }
                p { "Say which layers go on walls, ceiling and floor; cutting plans and what to buy follow from them." }
                p.row { a.button.primary href="/lining" { "To the sides" } }
            }
        }
    }
}

fn one(view: &View, job: &CuttingJob, index: usize) -> Markup {
    let heading = words::job(view, job);
    let id = format!("job-{index}");
    html! {
        section.cutting-job aria-labelledby=(id) data-job=(slug(&job.material)) {
            h2 id=(id) { (heading) }
            p.hint {
                "For " (job.layers.iter().map(|layer| words::layer(view, layer.as_str())).collect::<Vec<_>>().join(", "))
                ". Saw cut " (words::tape(view, job.kerf)) @if job.goods == Goods::Foam { ": a knife" } "."
            }
            @if let JobPlan::None(why) = &job.plan {
                p.callout { (words::no_plan(view, why)) }
                p.row {
                    a.button href="/add/stock?back=/lining/cut" { "Add what is on sale, or in the shed" }
                    a.button href="/edit/tools?back=/lining/cut" { "Tools" }
                }
            } @else {
                (stock::figures(view, job))
                (stock::to_get(view, job))
            }
            @if let Some(odds) = words::odds(job) { p.odds { (odds) } }
            @if let Some(other) = &job.other {
                p { (words::other(view, other, job)) }
            }
            (drawn(view, job, index))
        }
    }
}

fn drawn(view: &View, job: &CuttingJob, index: usize) -> Markup {
    html! {
        @match &job.plan {
            JobPlan::Bars(plan) => {
                @let boards = plans::bars(view, job, plan);
                (both(&bars(&boards, WIDE), &bars(&boards, NARROW), &format!("Boards and their cuts, {}", words::job(view, job)), index))
                (legend(job))
                details { summary { "As a list" }
                    ol.cut-order { @for board in &boards { li {
                        b { (board.head) } ": "
                        @for (number, piece) in board.pieces.iter().enumerate() { @if number > 0 { ", " } b { (piece.mark) } " " (piece.text) }
                        span.basis { " · " (board.note) }
                    } } }
                }
            },
            JobPlan::Sheets(plan) => {
                @if !plan.missing.is_empty() {
                    p.callout { "No room for, or not to be cut with this saw: " (plan.missing.iter().map(ToString::to_string).collect::<Vec<_>>().join(", ")) }
                }
                div.cut-sheets {
                    @for (number, sheet) in plans::sheets(view, job, plan).iter().enumerate() {
                        div {
                            (both(&cut_sheet(sheet, SHEET.0, SHEET.1), &cut_sheet(sheet, NARROW, SHEET_NARROW), &sheet.words, index * 1000 + number))
                            details { summary { (count(sheet.cuts.len(), "cut", "cuts")) " in order" }
                                ol.cut-order { @for cut in &sheet.cuts { li { (cut.words) } } }
                            }
                        }
                    }
                }
                (legend(job))
            },
            JobPlan::None(_) => {},
        }
    }
}

fn both(wide: &Picture, narrow: &Picture, title: &str, number: usize) -> Markup {
    let text = |picture: &Picture, prefix: &str| {
        picture.svg(&Style {
            title: title.to_owned(),
            id_prefix: format!("{prefix}{number}-"),
            css: Css::OnPage,
        })
    };
    html! {
        div.cut-drawing {
            div.for-wide { (PreEscaped(text(wide, "w"))) }
            div.for-narrow { (PreEscaped(text(narrow, "n"))) }
        }
    }
}

fn legend(job: &CuttingJob) -> Markup {
    html! {
        div.legend role="group" aria-label="Meaning of the areas" {
            span.key { span.swatch.piece-todo {} "piece with its mark" }
            span.key { span.swatch.off-cut {} "left over" }
            @if matches!(job.plan, JobPlan::Sheets(_)) { span.key { span.swatch.saw-line {} "cut, numbered in order; each goes all the way through its part" } }
            @else { span.key { span.swatch.saw-line {} "saw cuts and squared ends" } }
        }
    }
}

/// What is mounted beside the pieces.
fn supplies(view: &View, found: &LiningResult) -> Markup {
    let supplies = &found.supplies;
    let length = |value: Length| (value > Length::ZERO).then(|| view.show(value));
    let any = supplies.fasteners > 0
        || [supplies.tape, supplies.adhesive, supplies.trims]
            .iter()
            .any(|one| *one > Length::ZERO);
    html! {
        @if any {
            section #supplies aria-labelledby="supplies-heading" {
                h2 #supplies-heading { "Besides" }
                dl.small-figures {
                    @if supplies.fasteners > 0 { div { dt { "Screws or nails" } dd { (supplies.fasteners) } } }
                    @if let Some(tape) = length(supplies.tape) { div { dt { "Tape over the seams of foam" } dd { (tape) } } }
                    @if let Some(adhesive) = length(supplies.adhesive) { div { dt { "Beads of adhesive" } dd { (adhesive) } } }
                    @if let Some(trims) = length(supplies.trims) { div { dt { "Cover strips" } dd { (trims) } } }
                }
                p.hint { "All that is still to be mounted weighs " (view.show(found.mass_to_come)) ", as far as its mass is known." }
            }
        }
    }
}
