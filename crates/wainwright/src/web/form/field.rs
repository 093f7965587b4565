//! One field of a form: label, what it means, input, error. Not here: what
//! can be chosen (`choices`).

use super::Form;
use super::choices::{Choice, insulations, parts, rows, sizes, terminals, trunks, wires};
use super::several;
use crate::web::html::slug;
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_model::schema::{FieldSpec, Target, ValueKind};
use wainwright_model::{Day, Extent, Spot, Value};

/// Place of a field on the page.
pub fn anchor(name: &str) -> String {
    format!("field-{}", slug(name))
}

/// A field's name for people.
pub fn name_words(name: &str) -> String {
    let words = name.replace('_', " ");
    let mut letters = words.chars();
    let first = letters
        .next()
        .map(|c| c.to_uppercase().to_string())
        .unwrap_or_default();
    format!("{first}{}", letters.as_str())
}

/// A value of the file as texts of a form.
pub fn texts(value: &Value) -> Vec<String> {
    match value {
        Value::Text(text) => vec![text.clone()],
        Value::Integer(number) => vec![number.to_string()],
        Value::Number(number) => vec![number.to_string()],
        Value::Bool(flag) => vec![flag.to_string()],
        Value::List(values) => values.iter().flat_map(texts).collect(),
    }
}

/// The field for the id.
pub fn id(form: &Form) -> Markup {
    let hint = match form.id {
        Some(_) => {
            "Short name in the file. When it is changed, everything that refers to it follows."
        }
        None => {
            "Short name in the file: small letters, digits, - and _. Made from the label when left empty."
        }
    };
    html! {
        div.field id=(anchor("id")) {
            label for="input-id" { "Id" }
            p.hint #hint-id { (hint) }
            input #input-id name="id" value=(form.typed_id) maxlength="64" autocomplete="off" autocapitalize="none"
                spellcheck="false" aria-describedby="hint-id" aria-invalid[form.errors.contains_key("id")];
            (errors(form, "id"))
        }
    }
}

/// One field.
pub fn field(view: &View, form: &Form, spec: &'static FieldSpec) -> Markup {
    let shape = several::shape(spec);
    html! {
        div.field id=(anchor(spec.name)) data-field=(spec.name) {
            @if let Some(shape) = shape {
                fieldset aria-describedby=(hint_id(spec)) {
                    legend { (name_words(spec.name)) }
                    (hint(spec))
                    (several::inputs(view, form, spec, shape))
                }
            } @else {
                label for=(input_id(spec)) {
                    (name_words(spec.name))
                    @if spec.required { " " span.needed { "(needed)" } }
                }
                (hint(spec))
                (input(view, form, spec))
            }
            (errors(form, spec.name))
        }
    }
}

fn input_id(spec: &FieldSpec) -> String {
    format!("input-{}", slug(spec.name))
}

fn hint_id(spec: &FieldSpec) -> String {
    format!("hint-{}", slug(spec.name))
}

fn hint(spec: &FieldSpec) -> Markup {
    html! { p.hint id=(hint_id(spec)) { (spec.doc) " " (may_be(spec)) } }
}

/// What may be typed, from the table of legal ranges.
fn may_be(spec: &FieldSpec) -> String {
    match &spec.value {
        ValueKind::Quantity { examples, .. } => such_as(examples),
        ValueKind::Integer { low, high } => format!("{low} to {high}."),
        ValueKind::WireSize => "Such as 10 AWG, 2/0 AWG, 10 SAE or 16 mm2.".into(),
        ValueKind::Ratings => {
            "One rating on a line, in the order of the ways; an empty line is an empty way.".into()
        }
        ValueKind::List(ValueKind::Integer { .. }) if several::shape(spec).is_some() => {
            String::new()
        }
        ValueKind::List(ValueKind::Integer { .. }) => {
            "Numbers with commas between, such as 1, 4 or 2-5.".into()
        }
        ValueKind::List(
            ValueKind::Reference(Target::Item | Target::Trip) | ValueKind::Choice(_),
        ) => String::new(),
        ValueKind::Text if spec.name == "listed" => String::new(),
        ValueKind::List(ValueKind::Reference(_)) => "Ids with commas between, in order.".into(),
        ValueKind::Number { .. } => "A number without a unit.".into(),
        ValueKind::Day => such_as(Day::EXAMPLES),
        ValueKind::List(ValueKind::Number { .. }) if several::shape(spec).is_some() => {
            String::new()
        }
        ValueKind::List(ValueKind::Number { .. }) => "Numbers with commas between.".into(),
        ValueKind::List(ValueKind::Quantity { examples, .. }) if several::shape(spec).is_some() => {
            such_as(examples)
        }
        ValueKind::List(ValueKind::Quantity { examples, .. }) => {
            format!("Values with commas between. {}", such_as(examples))
        }
        ValueKind::Spot => such_as(Spot::EXAMPLES),
        ValueKind::Extent => such_as(Extent::EXAMPLES),
        ValueKind::List(ValueKind::Spot) => {
            format!("One corner on a line. {}", such_as(Spot::EXAMPLES))
        }
        _ => String::new(),
    }
}

fn such_as(examples: &[&str]) -> String {
    match examples {
        [first, second, ..] => format!("Such as {first} or {second}."),
        [only] => format!("Such as {only}."),
        [] => String::new(),
    }
}

fn errors(form: &Form, name: &str) -> Markup {
    html! {
        @for error in form.errors.get(name).into_iter().flatten() {
            p.error { (error) }
        }
    }
}

fn input(view: &View, form: &Form, spec: &'static FieldSpec) -> Markup {
    let text = form.text(spec.name);
    let wrong = form.errors.contains_key(spec.name);
    match &spec.value {
        ValueKind::Boolean => select(spec, text, wrong, &yes_no()),
        ValueKind::Choice(words) => select(
            spec,
            text,
            wrong,
            &words.iter().map(|w| Choice::plain(w)).collect::<Vec<_>>(),
        ),
        ValueKind::Reference(Target::Part) => select(spec, text, wrong, &parts(view, form.kind)),
        ValueKind::Reference(Target::Wire) => {
            select(spec, text, wrong, &wires(view, form.id.as_deref()))
        }
        ValueKind::Reference(Target::Item) => {
            select(spec, text, wrong, &super::choices::items(view, spec.name))
        }
        ValueKind::Reference(Target::Climate) => select(spec, text, wrong, &rows(view, "climate")),
        ValueKind::Reference(Target::Trip) => select(spec, text, wrong, &rows(view, "trip")),
        ValueKind::Day => day(spec, text, wrong),
        ValueKind::Terminal => select(spec, text, wrong, &terminals(view, text)),
        ValueKind::Ratings | ValueKind::List(ValueKind::Spot) => lines(form, spec, wrong),
        ValueKind::List(ValueKind::Reference(Target::Trunk)) => {
            let ids = form.texts(spec.name).join(", ");
            html! { (line(spec, &ids, wrong, None, "")) (trunks(view)) }
        }
        ValueKind::List(_) => line(spec, &form.texts(spec.name).join(", "), wrong, None, ""),
        ValueKind::Integer { low, high } => whole(spec, text, wrong, *low, *high),
        ValueKind::Text if spec.name == "note" => html! {
            textarea id=(input_id(spec)) name=(spec.name) rows="3" aria-describedby=(hint_id(spec)) aria-invalid[wrong] { "\n" (text) }
        },
        ValueKind::Text if several::is_listed(form, spec) => {
            select(spec, text, wrong, &several::listed_places())
        }
        ValueKind::Text if spec.name == "insulation" => html! {
            (line(spec, text, wrong, Some("insulations"), ""))
            (insulations())
        },
        ValueKind::WireSize => html! {
            (line(spec, text, wrong, Some("sizes"), &stand_in(view, form, spec)))
            (sizes())
        },
        _ => line(spec, text, wrong, None, &stand_in(view, form, spec)),
    }
}

/// What stands in while the field is empty.
fn stand_in(view: &View, form: &Form, spec: &FieldSpec) -> String {
    let mut wanted = form.table();
    wanted.push(spec.name.to_owned());
    let assumed = view
        .study()
        .assessment
        .assumptions
        .iter()
        .find(|assumed| assumed.path == wanted);
    assumed.map_or_else(String::new, |assumed| {
        format!("stand-in: {}", assumed.value)
    })
}

fn line(spec: &FieldSpec, text: &str, wrong: bool, list: Option<&str>, stand_in: &str) -> Markup {
    html! {
        input id=(input_id(spec)) name=(spec.name) value=(text) autocomplete="off" spellcheck="false" list=[list]
            placeholder=(stand_in) aria-describedby=(hint_id(spec)) aria-invalid[wrong] aria-required[spec.required];
    }
}

fn whole(spec: &FieldSpec, text: &str, wrong: bool, low: i64, high: i64) -> Markup {
    html! {
        input id=(input_id(spec)) name=(spec.name) value=(text) inputmode="numeric" autocomplete="off"
            data-low=(low) data-high=(high) aria-describedby=(hint_id(spec)) aria-invalid[wrong];
    }
}

/// A day, typed or picked from the browser's own calendar.
fn day(spec: &FieldSpec, text: &str, wrong: bool) -> Markup {
    html! {
        input id=(input_id(spec)) name=(spec.name) value=(text) type="date" autocomplete="off"
            aria-describedby=(hint_id(spec)) aria-invalid[wrong] aria-required[spec.required];
    }
}

fn lines(form: &Form, spec: &FieldSpec, wrong: bool) -> Markup {
    let texts = form.texts(spec.name);
    html! {
        textarea id=(input_id(spec)) name=(spec.name) rows=(texts.len().clamp(3, 16)) spellcheck="false"
            aria-describedby=(hint_id(spec)) aria-invalid[wrong] {
            // The first line break inside is dropped by browsers.
            "\n" (texts.join("\n"))
        }
    }
}

fn yes_no() -> [Choice; 2] {
    let choice = |value: &str, words: &str| Choice {
        value: value.into(),
        words: words.into(),
        group: None,
    };
    [choice("true", "yes"), choice("false", "no")]
}

/// A list to choose from; a text that is not on it stays, marked as typed.
fn select(spec: &FieldSpec, text: &str, wrong: bool, choices: &[Choice]) -> Markup {
    let known = text.is_empty() || choices.iter().any(|choice| choice.value == text);
    let mut groups: Vec<Option<&str>> = Vec::new();
    for choice in choices {
        if !groups.contains(&choice.group.as_deref()) {
            groups.push(choice.group.as_deref());
        }
    }
    html! {
        select id=(input_id(spec)) name=(spec.name) aria-describedby=(hint_id(spec)) aria-invalid[wrong] {
            option value="" selected[text.is_empty()] { "not said" }
            @if !known { option value=(text) selected { (text) " (as typed)" } }
            @for group in groups {
                @let own = choices.iter().filter(|choice| choice.group.as_deref() == group);
                @match group {
                    Some(group) => optgroup label=(group) { @for choice in own { (option(choice, text)) } },
                    None => { @for choice in own { (option(choice, text)) } },
                }
            }
        }
    }
}

fn option(choice: &Choice, text: &str) -> Markup {
    html! { option value=(choice.value) selected[choice.value == text] { (choice.words) } }
}
