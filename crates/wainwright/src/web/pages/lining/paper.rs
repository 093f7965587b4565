//! Cutting plans on paper: each material on pages of its own, large marks, boxes to tick, everything in the order of work.

use super::cut::{CARE, nothing};
use super::{framed, plans, study, words};
use crate::web::act::blocking;
use crate::web::html::shell::Page;
use crate::web::pages::lists::fuses::still;
use crate::web::pages::lists::paper::{Choice, paper_of, papers};
use crate::web::view::View;
use axum::response::Response;
use maud::{PreEscaped, html};
use wainwright_analysis::result::lining::{CuttingJob, JobPlan, LiningResult};
use wainwright_drawing::cutting::{bar_pages, sheet_pages};
use wainwright_drawing::sheet::{Sheet, picture_sheet};
use wainwright_drawing::{Css, Picture, Style};

/// The page.
pub async fn page(view: View) -> Response {
    let choice = paper_of(&view);
    let found = study(&view);
    let pages = blocking(|| pages(&view, &found, choice));
    let main = html! {
        form.controls method="get" action="/print/cut" {
            (papers(choice))
            p.row { button { "Show" } button.primary type="button" data-print hidden { "Print" } a.button href="/lining/cut" { "Back to the cutting" } }
        }
        @if pages.is_empty() { (nothing(&found)) }
        div.papers {
            @for page in &pages { figure.paper.{ (choice.id()) "-portrait" } { (PreEscaped(page)) } }
        }
    };
    let page = framed(
        "/print/cut",
        "Cut sheets",
        "To take along to the saw. Print at 100 %, without margins.",
        &main,
    );
    view.page(Page { ..page })
}

/// All pages, numbered.
fn pages(view: &View, found: &LiningResult, choice: Choice) -> Vec<String> {
    let mut all: Vec<(Picture, String)> = Vec::new();
    for job in &found.jobs {
        let title = words::job(view, job);
        let block = block(view, choice, &title, String::new());
        all.extend(
            contents(view, job, &block)
                .into_iter()
                .map(|page| (page, title.clone())),
        );
    }
    let many = all.len();
    let pages = all.into_iter().enumerate();
    pages
        .map(|(index, (page, title))| {
            let number = format!("Sheet {} of {many}", index + 1);
            let sheet = block(view, choice, &title, number);
            let picture = picture_sheet(&sheet, &page, "lengths as written");
            still(&picture.svg(&Style {
                title: format!("{title}, {}", sheet.number_text),
                id_prefix: format!("p{index}-"),
                css: Css::OnPage,
            }))
        })
        .collect()
}

fn contents(view: &View, job: &CuttingJob, sheet: &Sheet) -> Vec<Picture> {
    let notes = [CARE.to_owned(), order(view, job)];
    match &job.plan {
        JobPlan::Bars(plan) => bar_pages(sheet, &plans::bars(view, job, plan), &notes),
        JobPlan::Sheets(plan) => sheet_pages(sheet, &plans::sheets(view, job, plan), &notes),
        JobPlan::None(_) => Vec::new(),
    }
}

fn order(view: &View, job: &CuttingJob) -> String {
    let kerf = words::tape(view, job.kerf);
    match &job.plan {
        JobPlan::Sheets(_) => format!(
            "Make the cuts in their order, each all the way through; the saw cut of {kerf} lies beyond the measure. Mark every piece at once."
        ),
        _ => format!(
            "Square one end, measure, cut, measure the next from the new end: the saw cut of {kerf} is allowed for. Mark every piece at once."
        ),
    }
}

fn block(view: &View, choice: Choice, title: &str, number_text: String) -> Sheet {
    let name = view.study().project.head.name.as_ref();
    Sheet {
        paper: choice.paper(),
        landscape: false,
        title: title.to_owned(),
        subtitle: name.map_or_else(|| "Unnamed trailer".into(), |name| name.value.clone()),
        number_text,
        date_text: String::new(),
        note: "Measure the opening before you cut: the wall may not be as straight as the plan."
            .into(),
    }
}
