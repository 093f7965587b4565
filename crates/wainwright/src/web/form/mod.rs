//! Forms for every element of the project, made from the one table that also
//! reads the file. Not here: what a value may be, which is asked of the
//! reader itself (`answer`).

mod answer;
mod choices;
mod essential;
mod field;
mod several;

pub use answer::{Answer, answer, sent_texts, unused};
pub use choices::{insulations, sizes};

use super::html::{back, encoded, revision, slug};
use super::view::View;
use maud::{Markup, html};
use std::collections::BTreeMap;
use wainwright_model::schema::{self, ElementSpec, FieldSpec};
use wainwright_model::{KINDS, Kind, Value, path, typed};

/// A form for one element, with what is typed in it.
#[derive(Debug, Clone)]
pub struct Form {
    /// Which table of the file.
    pub element: &'static ElementSpec,
    /// Id of the element; none for a new one, or one that has no id.
    pub id: Option<String>,
    /// Id typed in the form.
    pub typed_id: String,
    /// What kind of item or part it is.
    pub kind: Kind,
    /// Texts by field; several for a list of choices.
    pub texts: BTreeMap<&'static str, Vec<String>>,
    /// What is wrong with a field.
    pub errors: BTreeMap<String, Vec<String>>,
    /// What is wrong with the whole.
    pub trouble: Option<String>,
}

impl Form {
    /// An empty form for a new element.
    pub fn new(element: &'static ElementSpec, kind: Kind) -> Self {
        Self {
            element,
            id: None,
            typed_id: String::new(),
            kind,
            texts: BTreeMap::new(),
            errors: BTreeMap::new(),
            trouble: None,
        }
    }

    /// The form of an element of the project; none when it is not there.
    pub fn of(view: &View, element: &'static ElementSpec, id: Option<&str>) -> Option<Self> {
        let project = &view.study().project;
        let there = match (element.name, id) {
            (name, Some(id)) => element.keyed && project.contains(name, id),
            (_, None) => !element.keyed,
        };
        let kind = match (element.name, id) {
            ("item", Some(id)) => project.items.get(id).map(|item| item.spec.kind()),
            ("part", Some(id)) => project.parts.get(id).map(|part| part.spec.kind()),
            _ => None,
        };
        let mut form = Self::new(element, kind.unwrap_or_default());
        form.id = id.map(str::to_owned);
        form.typed_id = id.unwrap_or_default().to_owned();
        form.fill(&typed(&view.study().text, &form.table()));
        there.then_some(form)
    }

    /// Takes over values as they stand in a file.
    pub fn fill(&mut self, values: &[(String, Value)]) {
        for spec in self.fields() {
            let value = values.iter().find(|(name, _)| name == spec.name);
            if let Some((_, value)) = value {
                self.texts.insert(spec.name, field::texts(value));
            }
        }
    }

    /// Path of the table in the file.
    pub fn table(&self) -> Vec<String> {
        match &self.id {
            Some(id) => path([self.element.name, id]).to_vec(),
            None => path([self.element.name]).to_vec(),
        }
    }

    /// Every field of it, in the order they are shown.
    pub fn fields(&self) -> Vec<&'static FieldSpec> {
        let own = KINDS.iter().find(|spec| spec.kind == self.kind);
        let has_kind = matches!(self.element.name, "item" | "part");
        let own = own.filter(|_| has_kind).map_or(&[][..], |spec| spec.fields);
        // What it is comes first, its own figures next, remarks last.
        let remark = |spec: &&FieldSpec| matches!(spec.name, "note" | "supplied" | "source");
        let head = self.element.fields.iter().filter(|spec| !remark(spec));
        let tail = self.element.fields.iter().filter(remark);
        head.chain(own).chain(tail).collect()
    }

    /// Texts typed in a field.
    pub fn texts(&self, name: &str) -> &[String] {
        self.texts.get(name).map_or(&[], Vec::as_slice)
    }

    /// The only text typed in a field.
    pub fn text(&self, name: &str) -> &str {
        self.texts(name).first().map_or("", String::as_str)
    }

    /// The page the form is on.
    pub fn address(&self) -> String {
        let element = self.element.name;
        match (&self.id, self.element.keyed) {
            (Some(id), _) => format!("/edit/{element}/{}", encoded(id)),
            (None, true) => format!("/add/{element}"),
            (None, false) => format!("/edit/{element}"),
        }
    }
}

/// The table of the file with this name.
pub fn element(name: &str) -> Option<&'static ElementSpec> {
    schema::element(name)
}

/// The form of an element as part of another page.
pub fn inline(view: &View, name: &str, id: &str) -> Markup {
    let form = element(name).and_then(|element| Form::of(view, element, Some(id)));
    html! { @if let Some(form) = form { (draw(view, &form, &view.here)) } }
}

/// The form with its button; afterwards it leads to `after`.
pub fn draw(view: &View, form: &Form, after: &str) -> Markup {
    let new = form.id.is_none() && form.element.keyed;
    html! {
        form.edit method="post" action=(form.address()) data-live data-form={ (form.table().join(".")) } novalidate {
            (revision(view.now.revision))
            (back(after))
            @if let Some(trouble) = &form.trouble {
                p.callout role="alert" { (trouble) }
            }
            (summary(form))
            (fields(view, form))
            p.row {
                button.primary { @if new { "Add" } @else { "Save" } }
                @if let Some(id) = &form.id {
                    a.button href={ "/add/" (form.element.name) "?copy=" (encoded(id)) } { "Duplicate" }
                    a.button.danger href={ "/delete/" (form.element.name) "/" (encoded(id)) } { "Delete" }
                }
            }
        }
    }
}

/// The usual fields, and the others folded away.
fn fields(view: &View, form: &Form) -> Markup {
    let (seen, folded): (Vec<_>, Vec<_>) = form
        .fields()
        .into_iter()
        .partition(|spec| essential::is_seen(form, spec));
    let id_wrong = form.errors.contains_key("id");
    let fold_id = form.element.keyed && !id_wrong;
    html! {
        div.fields {
            @if id_wrong { (field::id(form)) }
            @for spec in seen { (field::field(view, form, spec)) }
        }
        @if fold_id || !folded.is_empty() {
            details.more-fields id={ "more-fields-" (slug(&form.table().join("-"))) } {
                summary { "More fields" span.hint { "none of them is needed" } }
                div.fields {
                    @for spec in folded { (field::field(view, form, spec)) }
                    @if fold_id { (field::id(form)) }
                }
            }
        }
    }
}

/// All errors in one place, each leading to its field.
fn summary(form: &Form) -> Markup {
    html! {
        @if !form.errors.is_empty() {
            div.callout role="alert" #errors {
                p { strong { "Not saved. " } "Put this right; what you typed is kept:" }
                ul {
                    @for (name, errors) in &form.errors {
                        @for error in errors {
                            li { a href={ "#" (field::anchor(name)) } { (field::name_words(name)) } ": " (error) }
                        }
                    }
                }
            }
        }
    }
}
