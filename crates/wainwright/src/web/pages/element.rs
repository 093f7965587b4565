//! Adding, changing and deleting one element of the project. Not here: the
//! form itself (see `form`).

mod delete;
mod pick;

pub use delete::{delete, deleted};
pub use pick::words as kind_words;

use crate::web::act::{Sent, blocking, go, sentence};
use crate::web::form::{self, Answer, Form, answer};
use crate::web::html::finding::label;
use crate::web::html::shell::{Page, Tab};
use crate::web::view::View;
use axum::extract::Path;
use axum::http::StatusCode;
use axum::response::Response;
use maud::html;
use wainwright_model::schema::ElementSpec;
use wainwright_model::{KINDS, Kind, Value, path, typed};

/// The form for a new element, filled from the address as far as it says.
pub async fn add(view: View, Path(name): Path<String>) -> Response {
    let Some(element) = form::element(&name).filter(|element| element.keyed) else {
        return view.missing("There is nothing of that name to add.");
    };
    if let Some(id) = view.query.get("copy") {
        return copy(&view, element, id);
    }
    let kind = view.query.get("kind").and_then(Kind::parse);
    let part = view.query.get("part");
    let known = part.and_then(|id| wainwright_analysis::catalogue().get(id));
    let own = part.and_then(|id| view.study().project.parts.get(id));
    let kind = kind.or_else(|| own.or(known).map(|part| part.spec.kind()));
    match (element.name, kind) {
        ("item" | "part", None) => pick::page(&view, element),
        _ => {
            let mut form = Form::new(element, kind.unwrap_or_default());
            as_last_wire(&view, &mut form);
            fill_from_address(&view, &mut form);
            if let Some(kind) = kind.filter(|_| part.is_none()) {
                form.texts.insert("kind", vec![kind.as_str().into()]);
            }
            show(&view, &form, "/circuits", StatusCode::OK)
        }
    }
}

/// Takes over what the address says, such as after another kind was chosen.
fn fill_from_address(view: &View, form: &mut Form) {
    for spec in form.fields() {
        if view.query.has(spec.name) {
            let given = form::sent_texts(&view.query, spec);
            form.texts.insert(spec.name, given);
        }
    }
    if let Some(id) = view.query.get("id") {
        form.typed_id = id.to_owned();
    }
}

/// Most wires of a trailer come off the same reel and run the same way.
fn as_last_wire(view: &View, form: &mut Form) {
    let last = view.study().project.wires.iter().last();
    let Some((_, wire)) = last.filter(|_| form.element.name == "wire") else {
        return;
    };
    let insulation = wire.insulation.as_ref().map(|given| given.text.clone());
    let runs = wire.runs.as_ref().map(|given| given.text.clone());
    for (name, text) in [("insulation", insulation), ("runs", runs)] {
        if let Some(text) = text {
            form.texts.insert(name, vec![text]);
        }
    }
}

/// A new element with the values of another.
fn copy(view: &View, element: &'static ElementSpec, id: &str) -> Response {
    let Some(original) = Form::of(view, element, Some(id)) else {
        return view.missing("What was to be duplicated is not there.");
    };
    let mut form = Form::new(element, original.kind);
    let mut values = typed(&view.study().text, &path([element.name, id]));
    for (name, value) in &mut values {
        if let ("label", Value::Text(text)) = (name.as_str(), value) {
            text.push_str(" (copy)");
        }
    }
    form.fill(&values);
    form.typed_id = form::unused(view, element.name, &format!("{id}-2")).unwrap_or_default();
    show(view, &form, "/circuits", StatusCode::OK)
}

/// A new element was sent.
pub async fn added(view: View, Path(name): Path<String>, sent: Sent) -> Response {
    match form::element(&name).filter(|element| element.keyed) {
        Some(element) => save(&view, Form::new(element, Kind::Unknown), &sent),
        None => view.missing("There is nothing of that name to add."),
    }
}

/// The form of a table without id: project, trailer or limits.
pub async fn edit_single(view: View, Path(name): Path<String>) -> Response {
    edit_form(&view, &name, None)
}

/// The form of an element with an id.
pub async fn edit(view: View, Path((name, id)): Path<(String, String)>) -> Response {
    edit_form(&view, &name, Some(&id))
}

/// A changed table without id was sent.
pub async fn edited_single(view: View, Path(name): Path<String>, sent: Sent) -> Response {
    change(&view, &name, None, &sent)
}

/// A changed element was sent.
pub async fn edited(view: View, Path((name, id)): Path<(String, String)>, sent: Sent) -> Response {
    change(&view, &name, Some(&id), &sent)
}

fn found(view: &View, name: &str, id: Option<&str>) -> Option<Form> {
    let element = form::element(name)?;
    Form::of(view, element, id)
}

fn edit_form(view: &View, name: &str, id: Option<&str>) -> Response {
    match found(view, name, id) {
        Some(mut form) => {
            if let Some(kind) = view.query.get("kind").and_then(Kind::parse) {
                form.kind = kind;
                fill_from_address(view, &mut form);
            }
            show(view, &form, "/circuits", StatusCode::OK)
        }
        None => view.missing(
            "There is nothing of that name in this project; it may have been renamed or deleted.",
        ),
    }
}

fn change(view: &View, name: &str, id: Option<&str>, sent: &Sent) -> Response {
    match found(view, name, id) {
        Some(form) => save(view, form, sent),
        None => view.missing(
            "What was to be changed is not there any more; it may have been renamed or deleted.",
        ),
    }
}

fn save(view: &View, form: Form, sent: &Sent) -> Response {
    let element = form.element.name;
    let old = form.id.clone();
    let (edits, id, kept) = match answer(view, form, &sent.0) {
        Answer::Again(form) => {
            return show(view, &form, sent.back(), StatusCode::UNPROCESSABLE_ENTITY);
        }
        Answer::Edits(edits, id, kept) => (edits, id, kept),
    };
    let done = old.as_ref().map_or("Add", |_| "Change");
    let name = id
        .as_deref()
        .map_or_else(|| element.to_owned(), |id| label(view, element, id));
    let label = format!("{done} {name}");
    match blocking(|| view.app.session.apply(&edits, sent.revision(), &label)) {
        Ok(_) => go(&after(element, old.as_deref(), id.as_deref(), sent.back())),
        Err(refusal) => {
            let mut form = *kept;
            form.trouble = Some(sentence(&refusal));
            show(&view.anew(), &form, sent.back(), StatusCode::CONFLICT)
        }
    }
}

/// Where to go afterwards: a renamed selection is followed, something new is
/// shown.
fn after(element: &str, old: Option<&str>, id: Option<&str>, back: &str) -> String {
    match (old, id) {
        (Some(old), Some(id)) if old != id => back.replace(
            &format!("select={element}.{old}"),
            &format!("select={element}.{id}"),
        ),
        (None, Some(id)) if matches!(element, "item" | "wire") && back == "/circuits" => {
            format!("/wiring?select={element}.{id}&new=1#panel")
        }
        (None, Some(id)) if element == "item" && back == "/layout" => {
            format!("/layout?item={id}")
        }
        _ => back.to_owned(),
    }
}

/// What it is.
fn doc(form: &Form) -> &'static str {
    let kind = KINDS.iter().find(|spec| spec.kind == form.kind);
    let has_kind = matches!(form.element.name, "item" | "part");
    kind.filter(|_| has_kind)
        .map_or(form.element.doc, |spec| spec.doc)
}

/// The place an element belongs to.
fn tab(element: &str) -> Tab {
    match element {
        "climate" | "trip" | "use" | "living" => Tab::Energy,
        _ => Tab::Circuits,
    }
}

/// A page with the form.
fn show(view: &View, form: &Form, back: &str, status: StatusCode) -> Response {
    let what = match (form.element.name, form.kind) {
        ("item" | "part", Kind::Unknown) => form.element.name.to_owned(),
        ("part", kind) => format!("part: {}", kind.as_str().replace('-', " ")),
        ("item", kind) => kind.as_str().replace('-', " "),
        (name, _) => name.to_owned(),
    };
    let title = match (&form.id, form.element.keyed) {
        (Some(id), _) => format!("Change {}", label(view, form.element.name, id)),
        (None, true) => format!("New {what}"),
        (None, false) => format!("Change the {what}"),
    };
    let back = view.query.get("back").unwrap_or(back);
    let page = Page {
        tab: Some(tab(form.element.name)),
        title,
        lede: "What you leave empty is filled in with a cautious stand-in, and shown as one.",
        main: html! {
            p.element-doc { (doc(form)) }
            (form::draw(view, form, back))
        },
    };
    if status == StatusCode::OK {
        view.page(page)
    } else {
        view.refused(status, page)
    }
}
