//! The project file itself: its text with line numbers and problems, to be
//! read, changed by hand and taken along. Not here: writing it (see
//! [`crate::session`]).

use crate::session::Refusal;
use crate::views::{Fixes, report};
use crate::web::act::{Sent, blocking, go, sentence};
use crate::web::html::revision;
use crate::web::html::shell::{Page, Tab};
use crate::web::pages::overview::problem;
use crate::web::view::View;
use axum::Json;
use axum::http::{HeaderValue, StatusCode, header};
use axum::response::{IntoResponse, Response};
use maud::{Markup, html};
use std::collections::BTreeMap;
use std::path::Path;
use wainwright_model::Problem;

/// The page.
pub async fn page(view: View) -> Response {
    let text = view.study().text.to_string();
    view.page(whole(&view, &text, None))
}

/// A changed text was sent.
pub async fn save(view: View, sent: Sent) -> Response {
    // Browsers send every line break as two characters; the file keeps its own.
    let text = sent.0.get("text").unwrap_or("").replace("\r\n", "\n");
    let crlf = view.study().text.contains("\r\n");
    let text = if crlf {
        text.replace('\n', "\r\n")
    } else {
        text
    };
    let done = blocking(|| {
        view.app
            .session
            .replace_text(&text, sent.revision(), "Change the text")
    });
    match done {
        Ok(_) => go("/file"),
        Err(refusal) => {
            let now = view.anew();
            let status = match refusal {
                Refusal::TooLarge => StatusCode::PAYLOAD_TOO_LARGE,
                _ => StatusCode::CONFLICT,
            };
            let why = format!(
                "{} Your text is kept below; the text that stands on the disk now is under it. Put both together, then save.",
                sentence(&refusal)
            );
            now.refused(status, whole(&now, &text, Some(&why)))
        }
    }
}

/// Another name for the file was sent.
pub async fn save_as(view: View, sent: Sent) -> Response {
    let typed = sent.0.get("path").unwrap_or("").trim();
    if typed.is_empty() {
        let page = whole(
            &view,
            &view.study().text,
            Some("Not saved: a name is needed."),
        );
        return view.refused(StatusCode::UNPROCESSABLE_ENTITY, page);
    }
    match blocking(|| view.app.session.save_as(Path::new(typed))) {
        Ok(_) => go("/file"),
        Err(error) => {
            let why = format!("Not saved: {error}.");
            let page = whole(&view, &view.study().text, Some(&why));
            view.refused(StatusCode::CONFLICT, page)
        }
    }
}

/// The file to take along.
pub async fn download(view: View) -> Response {
    let name = view
        .now
        .path
        .file_name()
        .map(|name| name.to_string_lossy().into_owned());
    let name: String = name
        .unwrap_or_default()
        .chars()
        .map(|c| {
            if c.is_ascii_alphanumeric() || matches!(c, '.' | '-' | '_') {
                c
            } else {
                '_'
            }
        })
        .collect();
    let shown = HeaderValue::from_str(&format!("attachment; filename=\"{name}\""));
    let headers = [
        (
            header::CONTENT_TYPE,
            HeaderValue::from_static("text/plain; charset=utf-8"),
        ),
        (
            header::CONTENT_DISPOSITION,
            shown.unwrap_or(HeaderValue::from_static("attachment")),
        ),
    ];
    (headers, view.study().text.to_string()).into_response()
}

/// The same report as `check --json`.
pub async fn json(view: View) -> Response {
    let path = view.now.path.to_str().map(str::to_owned);
    let fixes = if view.query.get("fixes") == Some("no") {
        Fixes::LeftOut
    } else {
        Fixes::Proven
    };
    Json(blocking(|| report(view.study(), path.as_deref(), fixes))).into_response()
}

fn whole(view: &View, text: &str, refused: Option<&str>) -> Page {
    Page {
        tab: Some(Tab::File),
        title: "File".into(),
        lede: "The project as it stands on the disk: one readable text that is yours.",
        main: html! {
            p { code.path { (view.now.path.display()) } }
            @if let Some(why) = refused { p.callout role="alert" { (why) } }
            div #file-problems data-region { (problems(view)) }
            (editor(view, text, refused.is_some()))
            div #file-text data-region { (listing(view)) }
        },
    }
}

fn problems(view: &View) -> Markup {
    html! {
        @if !view.study().problems.is_empty() {
            section aria-labelledby="problems-heading" {
                h2 #problems-heading { "What could not be read" }
                ul.plain { @for found in &view.study().problems { (problem(found)) } }
            }
        }
    }
}

fn editor(view: &View, text: &str, open: bool) -> Markup {
    html! {
        p.row { a.button href="/file/download" download { "Download" } a.button href="/api/report" { "Report as JSON" } }
        details #another-name {
            summary { "Save under another name" }
            form.edit method="post" action="/file/save-as" {
                div.field {
                    label for="path" { "New file" }
                    p.hint #hint-path { "A full path, or a name in the folder the program was started in. An existing file is left as it is; from then on the new one is worked on." }
                    input #path name="path" autocomplete="off" spellcheck="false" aria-describedby="hint-path" placeholder="my-trailer.toml";
                }
                p.row { button.primary { "Save as" } }
            }
        }
        details #editor open[open] {
            summary { "Change the text by hand" }
            form method="post" action="/file" #edit-text data-region {
                (revision(view.now.revision))
                label for="text" { "Text of the file" }
                textarea.code #text name="text" rows="24" spellcheck="false" autocomplete="off" autocapitalize="none" wrap="off" {
                    "\n" (text)
                }
                p.row { button.primary { "Save the text" } }
            }
        }
    }
}

/// The text with numbers; a problem stands under its line.
fn listing(view: &View) -> Markup {
    let mut by_line: BTreeMap<usize, Vec<&Problem>> = BTreeMap::new();
    for problem in &view.study().problems {
        by_line.entry(problem.line).or_default().push(problem);
    }
    html! {
        section aria-labelledby="text-heading" {
            h2 #text-heading { "Text" }
            div.listing tabindex="0" role="region" aria-label="Text of the file" {
                ol {
                    @for (index, line) in view.study().text.lines().enumerate() {
                        @let problems = by_line.get(&(index + 1));
                        li.marked[problems.is_some()] id={ "line-" (index + 1) } {
                            code { (line) "\n" }
                            @for problem in problems.into_iter().flatten() {
                                p.error { "Column " (problem.column) ": found " (problem.found) ", expected " (problem.expected) }
                            }
                        }
                    }
                }
            }
        }
    }
}
