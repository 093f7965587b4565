//! The way from the battery to a piece of gear and back: the parts as links,
//! and the voltage after each. Not here: how the way is found.

use super::{Asked, panel};
use crate::web::view::View;
use maud::{Markup, PreEscaped, html};
use wainwright_analysis::result::{ConsumerResult, Role, WireResult};
use wainwright_analysis::{PathStep, voltage_path};
use wainwright_drawing::chart::{Profile, Step, profile};
use wainwright_drawing::{Css, Tone};

/// The way to a piece of gear; `chosen` is a wire on it that stands out.
pub fn way(view: &View, asked: &Asked, gear: &ConsumerResult, chosen: Option<&str>) -> Markup {
    let path = path_to(asked, gear);
    html! {
        @if !path.is_empty() {
            section {
                h3 { "On the way to " (gear.label) }
                (chain(view, gear, &path, chosen))
                (chart(view, asked, gear, &path, chosen))
            }
        }
    }
}

/// The way a wire is part of: of all gear behind it, the one that loses most.
pub fn of_wire(view: &View, asked: &Asked, wire: &WireResult) -> Markup {
    let is_on_it = |gear: &&ConsumerResult| {
        let path = path_to(asked, gear);
        path.iter().any(|step| step.name == wire.id.as_str())
    };
    let share = |gear: &ConsumerResult| {
        let there = asked.state.and_then(|state| gear.states.get(state));
        let share = there.filter(|there| there.on)?.drop_share?;
        Some(share.fraction())
    };
    let users = asked.assessment.consumers.iter();
    let users = users.filter(|gear| matches!(gear.role, Role::Load | Role::Inverter));
    let most = users.filter(is_on_it).max_by(|a, b| {
        let (a, b) = (share(a).unwrap_or(-1.0), share(b).unwrap_or(-1.0));
        a.total_cmp(&b)
    });
    html! { @if let Some(gear) = most { (way(view, asked, gear, Some(wire.id.as_str()))) } }
}

fn path_to(asked: &Asked, gear: &ConsumerResult) -> Vec<PathStep> {
    let state = asked.state.unwrap_or(0);
    voltage_path(&asked.project, &asked.assessment, gear.item.as_str(), state)
}

/// Battery, every part, gear; and the way back.
fn chain(view: &View, gear: &ConsumerResult, path: &[PathStep], chosen: Option<&str>) -> Markup {
    let (there, back): (Vec<_>, Vec<_>) = path.iter().partition(|step| !step.returning);
    html! {
        p.chain {
            @if let Some(battery) = &gear.fed_by { (panel::link(view, "item", battery.as_str())) }
            (parts(view, &there, chosen))
            " → " (panel::link(view, "item", gear.item.as_str()))
        }
        @if !back.is_empty() {
            p.chain {
                "Back: " (panel::link(view, "item", gear.item.as_str()))
                (parts(view, &back, chosen))
                @if let Some(battery) = &gear.fed_by { " → " (panel::link(view, "item", battery.as_str())) }
            }
        }
    }
}

fn parts(view: &View, steps: &[&PathStep], chosen: Option<&str>) -> Markup {
    html! {
        @for step in steps {
            " → "
            @match part(view, &step.name) {
                Part::Wire(id) => {
                    @if Some(id) == chosen { b { (short_name(view, id)) } } @else {
                        (panel::link_as(view, "wire", id, &short_name(view, id)))
                    }
                },
                Part::Item(id, way) => {
                    (panel::link(view, "item", id))
                    @if let Some(way) = way { " (way " (way) ")" }
                },
            }
        }
    }
}

/// What a step passes.
enum Part<'s> {
    Wire(&'s str),
    Item(&'s str, Option<&'s str>),
}

fn part<'s>(view: &View, name: &'s str) -> Part<'s> {
    if view.study().project.wires.contains(name) {
        return Part::Wire(name);
    }
    match name.split_once(" way ") {
        Some((item, way)) => Part::Item(item, Some(way)),
        None => Part::Item(name, None),
    }
}

/// The label of a wire, or its id.
fn short_name(view: &View, id: &str) -> String {
    let wire = view.study().assessment.wire(id);
    wire.map_or_else(|| id.to_owned(), |wire| wire.label.clone())
}

fn chart(
    view: &View,
    asked: &Asked,
    gear: &ConsumerResult,
    path: &[PathStep],
    chosen: Option<&str>,
) -> Markup {
    let Some(first) = path
        .first()
        .map(|step| step.after.volts() + step.lost.volts())
    else {
        return html! {};
    };
    let limits = &asked.assessment.limits;
    let limit = if gear.critical {
        &limits.drop_critical
    } else {
        &limits.drop_other
    };
    let system = asked.assessment.system_volts.as_ref();
    let allowed_drop = system.map(|system| system.value.volts() * limit.value.fraction());
    let mut level_volts = first;
    let steps = path.iter().map(|step| {
        // The way back lifts the gear's minus: seen from the gear it is lost as well.
        level_volts -= step.lost.volts();
        Step {
            label: match part(view, &step.name) {
                Part::Wire(id) => short_name(view, id),
                Part::Item(id, _) => crate::web::html::finding::label(view, "item", id),
            },
            volts: level_volts,
            tone: if chosen == Some(step.name.as_str()) {
                Tone::Watch
            } else {
                Tone::Calm
            },
        }
    });
    let drawn = Profile {
        title: format!("From the battery to {} and back", gear.label),
        start_volts: first,
        steps: steps.collect(),
        limit_volts: allowed_drop.map(|drop| first - drop),
    };
    html! {
        div.chart.wide #voltage-profile tabindex="0" role="region" aria-label="Voltage on the way" {
            (PreEscaped(profile(&drawn, Css::OnPage)))
        }
        p.hint { "Each step is voltage lost in one part; what is left at the end is " (view.show(wainwright_units::Voltage::from_volts(level_volts))) "." }
    }
}
