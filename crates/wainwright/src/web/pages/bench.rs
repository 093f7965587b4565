//! One wire or one joint tried without a project. Not here: the computation.

mod asks;
mod result;

use crate::web::html::shell::{Page, Tab};
use crate::web::schematic::run_words;
use crate::web::view::{Query, View};
use asks::{Ask, JOINT, RUNS, WIRE};
use axum::response::Response;
use maud::{Markup, html};
use result::{joint_result, problem_words, wire_result};
use wainwright_analysis::quick::{self, WireQuestion};
use wainwright_analysis::result::Run;
use wainwright_units::{Quantity, QuantityError, System, WireSize};

/// The page.
pub async fn page(view: View) -> Response {
    let (wire_asked, joint_asked) = (view.query.has("size"), view.query.has("resistance"));
    let wire_tried = with_usual(&view, &WIRE, wire_asked);
    let joint_tried = with_usual(&view, &JOINT, joint_asked);
    view.page(Page {
        tab: Some(Tab::Bench),
        title: "Bench check".into(),
        lede: "One wire or one joint, tried here without a project; nothing is kept.",
        main: html! {
            (care_words())
            div.two {
                section aria-labelledby="wire-heading" {
                    h2 #wire-heading { "One wire" }
                    (wire_form(&view))
                    div #wire-result data-region aria-live="polite" {
                        @if !wire_asked { (example()) }
                        (wire(&view, &wire_tried))
                    }
                }
                section aria-labelledby="joint-heading" {
                    h2 #joint-heading { "One joint" }
                    (joint_form(&view))
                    div #joint-result data-region aria-live="polite" {
                        @if !joint_asked { (example()) }
                        (joint(&view, &joint_tried))
                    }
                }
            }
        },
    })
}

fn care_words() -> Markup {
    html! {
        p.care {
            "A wire that holds here can still burn without a fuse that fits it. "
            "Disconnect every source before you work on it; mains voltage is for a licensed trade."
        }
    }
}

fn example() -> Markup {
    html! { p.hint.example { "An example; change anything above and this follows." } }
}

/// What was asked, or the example while nothing was.
fn with_usual(view: &View, asks: &[Ask], asked: bool) -> Query {
    if asked {
        return view.query.clone();
    }
    let usual = asks
        .iter()
        .map(|ask| (ask.name.to_owned(), usual(view, ask).to_owned()));
    Query(usual.collect())
}

fn usual(view: &View, ask: &Ask) -> &'static str {
    match view.units() {
        System::Us => ask.usual,
        System::Metric => ask.usual_metric,
    }
}

fn given<'v>(view: &'v View, ask: &Ask, asked: bool) -> &'v str {
    match view.query.get(ask.name) {
        Some(text) => text,
        None if asked => "",
        None => usual(view, ask),
    }
}

fn inputs(view: &View, asks: &[Ask], asked: bool) -> Markup {
    html! {
        @for ask in asks {
            @let error = if asked { error(&view.query, ask.name) } else { None };
            div.field {
                label for={ "try-" (ask.name) } { (ask.label) }
                input id={ "try-" (ask.name) } name=(ask.name) value=(given(view, ask, asked)) placeholder=(ask.hint)
                    autocomplete="off" spellcheck="false" aria-invalid[error.is_some()]
                    list=[list_of(ask.name)];
                @if let Some(error) = error { p.error { (error) } }
            }
        }
    }
}

/// Choices offered while typing.
fn list_of(name: &str) -> Option<&'static str> {
    match name {
        "size" => Some("sizes"),
        "insulation" => Some("insulations"),
        _ => None,
    }
}

fn wire_form(view: &View) -> Markup {
    let asked = view.query.has("size");
    let runs = view.query.get("runs").unwrap_or("open");
    html! {
        form.try method="get" action="/bench" data-live data-auto {
            (crate::web::form::insulations())
            (crate::web::form::sizes())
            div.fields {
                (inputs(view, &WIRE, asked))
                div.field {
                    label for="try-runs" { "Where it runs" }
                    select #try-runs name="runs" {
                        @for (id, run) in RUNS { option value=(id) selected[id == runs] { (run_words(run)) } }
                    }
                }
            }
            label.switch {
                input type="checkbox" name="one-way" value="1" checked[view.query.has("one-way")];
                span { "Count one way only" }
            }
            p.row { button.primary { "Try the wire" } }
        }
    }
}

fn joint_form(view: &View) -> Markup {
    html! {
        form.try method="get" action="/bench" data-live data-auto {
            div.fields { (inputs(view, &JOINT, view.query.has("resistance"))) }
            p.row { button.primary { "Try the joint" } }
        }
    }
}

/// What is wrong with one input.
fn error(query: &Query, name: &str) -> Option<String> {
    let text = query.get(name);
    let read = |text: &str| -> Result<(), QuantityError> {
        match name {
            "size" => WireSize::parse(text).map(|_| ()),
            "length" => wainwright_units::Length::parse(text).map(|_| ()),
            "current" | "through" => wainwright_units::Current::parse(text).map(|_| ()),
            "volts" => wainwright_units::Voltage::parse(text).map(|_| ()),
            "air" => wainwright_units::Temperature::parse(text).map(|_| ()),
            "resistance" => wainwright_units::Resistance::parse(text).map(|_| ()),
            _ => Ok(()),
        }
    };
    match (name, text) {
        ("air", None) => None,
        ("bundle", Some(text)) => match text.parse::<u32>() {
            Ok(1..=200) => None,
            _ => Some(format!(
                "found {text}, expected a whole number from 1 to 200"
            )),
        },
        (_, None) => Some("is needed".into()),
        (_, Some(text)) => read(text).err().map(|error| error.to_string()),
    }
}

fn question(query: &Query) -> Option<WireQuestion> {
    let runs = query.get("runs").unwrap_or("open");
    let air = match query.get("air") {
        Some(text) => Some(Quantity::parse(text).ok()?),
        None => None,
    };
    Some(WireQuestion {
        size: WireSize::parse(query.get("size")?).ok()?,
        insulation: query.get("insulation")?.to_owned(),
        length: Quantity::parse(query.get("length")?).ok()?,
        both_ways: !query.has("one-way"),
        current: Quantity::parse(query.get("current")?).ok()?,
        run: RUNS
            .iter()
            .find(|(id, _)| *id == runs)
            .map_or(Run::Open, |(_, run)| *run),
        bundle: query
            .get("bundle")?
            .parse()
            .ok()
            .filter(|n| (1..=200).contains(n))?,
        air,
        system: Quantity::parse(query.get("volts")?).ok()?,
        tinned: false,
    })
}

fn wire(view: &View, tried: &Query) -> Markup {
    let Some(question) = question(tried) else {
        return html! { p.callout role="alert" { "Something above was not understood; what you typed is kept." } };
    };
    match quick::wire(&question, view.units()) {
        Ok(found) => wire_result(view, &question, &found),
        Err(problem) => html! { p.callout role="alert" { (problem_words(&problem)) } },
    }
}

fn joint(view: &View, tried: &Query) -> Markup {
    let resistance = tried
        .get("resistance")
        .and_then(|text| Quantity::parse(text).ok());
    let current = tried
        .get("through")
        .and_then(|text| Quantity::parse(text).ok());
    match (resistance, current) {
        (Some(resistance), Some(current)) => {
            joint_result(view, &quick::joint(resistance, current, view.units()))
        }
        _ => {
            html! { p.callout role="alert" { "Something above was not understood; what you typed is kept." } }
        }
    }
}
