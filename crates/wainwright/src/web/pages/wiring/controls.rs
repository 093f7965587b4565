//! What the drawing shows: state, meaning of the colours, and what is
//! switched on. Not here: solving (see `what_if`).

use super::{Asked, Selected};
use crate::views::state::{state_id, state_label};
use crate::web::schematic::Colour;
use crate::web::view::View;
use crate::web::what_if::{WHAT_IF, switchable};
use maud::{Markup, html};
use wainwright_analysis::result::{Assessment, Outcome, StateKind};
use wainwright_model::BatteryState;

/// The form above the drawing. It only reads: nothing of it is kept in the file.
pub fn controls(view: &View, asked: &Asked) -> Markup {
    html! {
        form.controls method="get" action="/wiring" data-live data-auto {
            @if let Some(selected) = &asked.selected {
                input type="hidden" name="select" value=(selected_text(selected));
            }
            div.field {
                label for="state" { "Situation" }
                select #state name="state" { (states(asked)) }
            }
            div.field {
                label for="colour" { "Colour by" }
                select #colour name="colour" {
                    @for colour in Colour::ALL {
                        option value=(colour.id()) selected[colour == asked.colour] { (colour.words()) }
                    }
                }
            }
            button.show { "Show" }
            (outcome(view, asked))
            (loads(view, asked))
        }
    }
}

/// As in the address.
pub fn selected_text(selected: &Selected) -> String {
    match selected {
        Selected::Wire(id) => format!("wire.{id}"),
        Selected::Item(id) => format!("item.{id}"),
    }
}

fn states(asked: &Asked) -> Markup {
    let own = asked.state_id();
    let tried = |kind: &StateKind| matches!(kind, StateKind::Named(id) if *id == WHAT_IF);
    html! {
        @for state in &asked.assessment.states {
            @if asked.situation.is_none() || !tried(&state.kind) {
                @let id = state_id(&state.kind);
                option value=(id) selected[id == own] { (state_label(state)) }
            }
        }
        option value=(WHAT_IF) selected[asked.situation.is_some()] { "what you switch on below" }
    }
}

fn loads(view: &View, asked: &Asked) -> Markup {
    let gear = switchable(&view.study().project);
    let battery = asked
        .situation
        .as_ref()
        .map_or(BatteryState::Resting, |s| s.battery);
    html! {
        @if !gear.is_empty() {
            details.loads #loads open[asked.situation.is_some()] {
                summary { "Switch things on and off" }
                p.hint { "Only on this page: the file stays as it is." }
                div.field {
                    label for="battery" { "Battery" }
                    select #battery name="battery" data-try {
                        @for state in BatteryState::ALL {
                            option value=(state.as_str()) selected[*state == battery] { (battery_words(*state)) }
                        }
                    }
                }
                fieldset {
                    legend { "What is on" }
                    div.switches {
                        @for (id, label) in &gear {
                            label.switch {
                                input type="checkbox" name="on" value=(id) data-try data-load=(id)
                                    checked[is_on(asked, id.as_str())];
                                span { (label) }
                            }
                        }
                    }
                }
                p.row {
                    button.primary name="state" value=(WHAT_IF) { "Try this" }
                    @if asked.situation.is_some() {
                        a.button href=(keep_address(asked)) { "Keep it as a situation of the project" }
                    }
                }
            }
        }
    }
}

/// A form for a new state with what is switched on here.
fn keep_address(asked: &Asked) -> String {
    let Some(situation) = &asked.situation else {
        return "/add/state".into();
    };
    let on: String = situation.on.iter().map(|id| format!("&on={id}")).collect();
    format!("/add/state?battery={}{on}", situation.battery)
}

fn is_on(asked: &Asked, id: &str) -> bool {
    if let Some(situation) = &asked.situation {
        return situation.on.contains(id);
    }
    let gear = asked.assessment.consumer(id);
    let there = asked.state.and_then(|state| gear?.states.get(state));
    there.is_some_and(|there| there.on)
}

/// A battery's state for people.
pub fn battery_words(state: BatteryState) -> &'static str {
    match state {
        BatteryState::Low => "nearly empty",
        BatteryState::Full => "full, on charge",
        BatteryState::Resting => "full, at rest",
    }
}

fn outcome(view: &View, asked: &Asked) -> Markup {
    let state = asked
        .state
        .and_then(|index| asked.assessment.states.get(index));
    html! {
        @if let Some(state) = state {
            p.outcome #outcome role="status" {
                @match &state.outcome {
                    Outcome::Steady { sources, loads, losses, .. } => {
                        "Given " b { (view.show(*sources)) } ", taken " b { (view.show(*loads)) }
                        ", lost on the way " b { (view.show(*losses)) } "."
                        @if !state.lasting { " This lasts for seconds only." }
                    },
                    Outcome::Collapse { carried, wanted, weakest, .. } => {
                        strong { "The supply cannot carry this: " }
                        (view.show(*wanted)) " is wanted, " (view.show(*carried)) " of it can be carried"
                        @if let Some(weakest) = weakest { "; " (weakest_words(&asked.assessment, weakest.as_str())) " gives way first" }
                        "."
                    },
                    Outcome::Empty => { "There is nothing to solve: no source, or no closed circuit." },
                }
            }
        }
    }
}

fn weakest_words(assessment: &Assessment, item: &str) -> String {
    assessment
        .consumer(item)
        .map_or_else(|| item.to_owned(), |gear| gear.label.clone())
}

/// What the colours mean.
pub fn legend(colour: Colour) -> Markup {
    let ends = match colour {
        Colour::Findings => None,
        Colour::Temperature => Some(("as the air around", "at the limit of the insulation")),
        Colour::Drop => Some(("no drop", "all that a critical circuit may lose")),
        Colour::Loading => Some(("no current", "all the wire bears for ever")),
    };
    html! {
        div.legend role="group" aria-label="Meaning of the colours" {
            @match ends {
                Some((low, high)) => {
                    span { (low) }
                    svg.drawing.scale viewBox="0 0 110 10" preserveAspectRatio="none" aria-hidden="true" {
                        @for step in 0..=10 {
                            g class={ "s" (step) } { rect.fill x=(step * 10) y="0" width="10.5" height="10" {} }
                        }
                    }
                    span { (high) }
                },
                None => {
                    span.key { span.swatch.plus {} "plus" }
                    span.key { span.swatch.minus {} "minus" }
                    span.key { span.swatch.bad {} "danger or warning" }
                    span.key { span.swatch.watch {} "caution" }
                },
            }
            span.key { span.swatch.off {} "carries nothing" }
        }
    }
}
