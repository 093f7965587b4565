//! Deleting one element, after saying what hangs on it. Not here: taking it
//! back, which undo does.

use crate::web::act::{Sent, after, blocking};
use crate::web::form;
use crate::web::html::finding::label;
use crate::web::html::shell::{Page, Tab};
use crate::web::html::{back, encoded, revision};
use crate::web::view::View;
use axum::extract::Path;
use axum::response::Response;
use maud::html;
use wainwright_model::{Edit, path};

/// Asks whether to delete it.
pub async fn delete(view: View, Path((name, id)): Path<(String, String)>) -> Response {
    if !is_there(&view, &name, &id) {
        return view.missing("What was to be deleted is not there any more.");
    }
    let hanging = wires_on(&view, &name, &id);
    view.page(Page {
        tab: Some(Tab::Circuits),
        title: format!("Delete {}?", label(&view, &name, &id)),
        lede: "It is taken out of the file; undo brings it back.",
        main: html! {
            form.edit method="post" action={ "/delete/" (encoded(&name)) "/" (encoded(&id)) } {
                (revision(view.now.revision))
                (back("/circuits"))
                @if !hanging.is_empty() {
                    p { "These wires end at it:" }
                    ul { @for wire in &hanging { li { (label(&view, "wire", wire)) } } }
                    div.field {
                        label.switch {
                            input type="checkbox" name="wires" value="too" checked;
                            span { "Delete them as well" }
                        }
                    }
                }
                p.row {
                    button.primary.danger #delete { "Delete" }
                    a.button href={ "/edit/" (encoded(&name)) "/" (encoded(&id)) } { "Keep it" }
                }
            }
        },
    })
}

/// Deletes it.
pub async fn deleted(view: View, Path((name, id)): Path<(String, String)>, sent: Sent) -> Response {
    if !is_there(&view, &name, &id) {
        return view.missing("What was to be deleted is not there any more.");
    }
    let mut edits = Vec::new();
    if sent.0.has("wires") {
        let hanging = wires_on(&view, &name, &id);
        edits.extend(hanging.iter().map(|wire| Edit::Remove {
            table: path(["wire", wire]),
        }));
    }
    edits.push(Edit::Remove {
        table: path([&name, &id]),
    });
    let label = format!("Delete {}", label(&view, &name, &id));
    let done = blocking(|| view.app.session.apply(&edits, sent.revision(), &label));
    after(&view, &sent, done)
}

fn is_there(view: &View, name: &str, id: &str) -> bool {
    let element = form::element(name).filter(|element| element.keyed);
    element.is_some_and(|element| form::Form::of(view, element, Some(id)).is_some())
}

fn wires_on(view: &View, name: &str, id: &str) -> Vec<String> {
    if name != "item" {
        return Vec::new();
    }
    let wires = view.study().project.wires.iter();
    wires
        .filter(|(_, wire)| {
            let ends = [&wire.from, &wire.to];
            ends.into_iter().flatten().any(|end| end.value.item == *id)
        })
        .map(|(id, _)| id.to_string())
        .collect()
}
