//! One wire or one joint tried without a project. Not here: the computation.

use crate::views::basis::SourceView;
use crate::views::working::WorkingView;
use crate::web::html::bar::{bar, share_bar};
use crate::web::html::shell::{Page, Tab};
use crate::web::html::working::working;
use crate::web::schematic::run_words;
use crate::web::view::{Query, View};
use axum::response::Response;
use maud::{Markup, html};
use wainwright_analysis::quick::{self, JointVerdict, QuickJoint, QuickProblem, QuickWire, WireQuestion};
use wainwright_analysis::result::Run;
use wainwright_units::{Quantity, QuantityError, WireSize};

/// Where a wire can run, as in the file.
const RUNS: [(&str, Run); 5] = [
    ("open", Run::Open),
    ("bundle", Run::Bundle),
    ("foam", Run::Foam),
    ("cavity", Run::Cavity),
    ("conduit", Run::Conduit),
];

/// One input with its name, label, example and what stands in it at first.
struct Ask {
    name: &'static str,
    label: &'static str,
    hint: &'static str,
    usual: &'static str,
}

const WIRE: [Ask; 7] = [
    Ask { name: "size", label: "Size", hint: "10 AWG, 10 SAE or 6 mm2", usual: "12 AWG" },
    Ask { name: "length", label: "Length, one way", hint: "12 ft, 3.5 m", usual: "12 ft" },
    Ask { name: "current", label: "Current", hint: "15 A", usual: "15 A" },
    Ask { name: "insulation", label: "Insulation", hint: "gpt, gxl, boat-105, thwn …", usual: "gxl" },
    Ask { name: "bundle", label: "Loaded wires side by side", hint: "this one counted", usual: "1" },
    Ask { name: "volts", label: "System voltage", hint: "12.8 V", usual: "12.8 V" },
    Ask { name: "air", label: "Air around it, if known", hint: "104 °F, 40 °C", usual: "" },
];

const JOINT: [Ask; 2] = [
    Ask { name: "resistance", label: "Resistance of the joint", hint: "2 mohm", usual: "2 mohm" },
    Ask { name: "through", label: "Current through it", hint: "30 A", usual: "30 A" },
];

/// The page.
pub async fn page(view: View) -> Response {
    let wire_asked = view.query.has("size");
    let joint_asked = view.query.has("resistance");
    view.page(Page {
        tab: Some(Tab::Bench),
        title: "Bench check".into(),
        lede: "One wire or one joint, tried here without a project; nothing is kept.",
        main: html! {
            div.two {
                section aria-labelledby="wire-heading" {
                    h2 #wire-heading { "One wire" }
                    (wire_form(&view))
                    div #wire-result data-region aria-live="polite" { @if wire_asked { (wire(&view)) } }
                }
                section aria-labelledby="joint-heading" {
                    h2 #joint-heading { "One joint" }
                    (joint_form(&view))
                    div #joint-result data-region aria-live="polite" { @if joint_asked { (joint(&view)) } }
                }
            }
        },
    })
}

fn given<'v>(view: &'v View, ask: &Ask, asked: bool) -> &'v str {
    match view.query.get(ask.name) {
        Some(text) => text,
        None if asked => "",
        None => ask.usual,
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
                    list=[(ask.name == "insulation").then_some("insulations")];
                @if let Some(error) = error { p.error { (error) } }
            }
        }
    }
}

fn wire_form(view: &View) -> Markup {
    let asked = view.query.has("size");
    let runs = view.query.get("runs").unwrap_or("open");
    html! {
        form.try method="get" action="/bench" data-live data-auto {
            (crate::web::form::insulations())
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
            _ => Some(format!("found {text}, expected a whole number from 1 to 200")),
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
        run: RUNS.iter().find(|(id, _)| *id == runs).map_or(Run::Open, |(_, run)| *run),
        bundle: query.get("bundle")?.parse().ok().filter(|n| (1..=200).contains(n))?,
        air,
        system: Quantity::parse(query.get("volts")?).ok()?,
        tinned: false,
    })
}

fn wire(view: &View) -> Markup {
    let Some(question) = question(&view.query) else {
        return html! { p.callout role="alert" { "Something above was not understood; what you typed is kept." } };
    };
    match quick::wire(&question, view.units()) {
        Ok(found) => wire_result(view, &question, &found),
        Err(problem) => html! { p.callout role="alert" { (problem_words(&problem)) } },
    }
}

fn problem_words(problem: &QuickProblem) -> String {
    match problem {
        QuickProblem::UnknownInsulation(known) => {
            format!("This insulation is not in the tables; there are: {}.", known.join(", "))
        }
        QuickProblem::Melts => "At this current the wire would melt.".into(),
        QuickProblem::Senseless(why) => format!("This cannot be computed: {why}."),
    }
}

fn wire_result(view: &View, question: &WireQuestion, found: &QuickWire) -> Markup {
    let too_hot = found.temperature > found.limit || question.current > found.ampacity.in_force;
    let share = question.current.amperes() / found.ampacity.in_force.amperes();
    html! {
        p.answer.{ @if too_hot { "bad" } @else { "good" } } {
            @if too_hot { strong { "Too much for this wire." } } @else { strong { "The wire bears this for ever." } }
        }
        dl.numbers {
            div { dt { "Voltage lost" } dd { b { (view.show(found.drop)) } ", " (view.show(found.drop_share)) @if question.both_ways { " there and back" } @else { " one way" } } }
            div { dt { "Metal" } dd {
                b { (view.show(found.temperature)) } " of " (view.show(found.limit))
                (bar(found.temperature.celsius(), found.air.celsius(), found.limit.celsius(), &format!("{} of {}", view.show(found.temperature), view.show(found.limit))))
                span.basis { "air " (view.show(found.air)) }
            } }
            div { dt { "Bears for ever" } dd {
                b { (view.show(found.ampacity.in_force)) }
                (share_bar(share, &format!("{:.0} % used", share * 100.0)))
                span.basis {
                    (view.show(found.ampacity.computed)) " by its heat balance"
                    @if let Some(table) = &found.ampacity.table { ", " (view.show(table.current)) " by " (SourceView::of(table.source).words()) }
                }
            } }
            div { dt { "Largest blade fuse" } dd { b { @match found.largest_fuse { Some(amps) => (view.show(amps)), None => "none is small enough" } } } }
            div { dt { "Heat" } dd { (view.show(found.heat)) } }
        }
        details #wire-working { summary { "Working" } (working(&WorkingView::of(&found.steps))) }
    }
}

fn joint(view: &View) -> Markup {
    let resistance = view.query.get("resistance").and_then(|text| Quantity::parse(text).ok());
    let current = view.query.get("through").and_then(|text| Quantity::parse(text).ok());
    match (resistance, current) {
        (Some(resistance), Some(current)) => {
            joint_result(view, &quick::joint(resistance, current, view.units()))
        }
        _ => html! { p.callout role="alert" { "Something above was not understood; what you typed is kept." } },
    }
}

fn joint_result(view: &View, found: &QuickJoint) -> Markup {
    let (class, words) = match found.verdict {
        JointVerdict::Cool => ("good", "Cool enough for a small terminal."),
        JointVerdict::Warm => ("watch", "Too hot for a small terminal, bearable for a large lug."),
        JointVerdict::Hot => ("bad", "Too hot for any joint: clean it, tighten it or make it anew."),
    };
    html! {
        p.answer.(class) { strong { (words) } }
        dl.numbers {
            div { dt { "Voltage lost" } dd { b { (view.show(found.drop)) } } }
            div { dt { "Heat" } dd {
                b { (view.show(found.heat)) }
                (bar(found.heat.watts(), 0.0, found.large_limit.watts(), &format!("{} of {}", view.show(found.heat), view.show(found.large_limit))))
                span.basis { "a small terminal bears " (view.show(found.small_limit)) ", a large lug " (view.show(found.large_limit)) }
            } }
        }
        details #joint-working { summary { "Working" } (working(&WorkingView::of(&found.steps))) }
    }
}
