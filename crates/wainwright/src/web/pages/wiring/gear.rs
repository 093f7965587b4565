//! One piece of gear in one state: what it takes or gives, its fuses, the
//! wires on it. Not here: short circuits (`short`).

use super::{Asked, panel};
use crate::views::basis::BasisView;
use crate::web::html::bar::{bar, share_bar};
use crate::web::view::{View, marked};
use maud::{Markup, html};
use wainwright_analysis::Ask;
use wainwright_analysis::result::{ConsumerResult, DeviceResult, Reclose, Role};
use wainwright_model::{Item, schema};

/// What it is and what it does in this state.
pub fn numbers(view: &View, asked: &Asked, id: &str, item: &Item) -> Markup {
    let kind = item.spec.kind();
    let doc = wainwright_model::KINDS
        .iter()
        .find(|spec| spec.kind == kind);
    let pairs = asked
        .assessment
        .consumers
        .iter()
        .filter(|gear| gear.item == *id);
    let devices: Vec<_> = asked
        .assessment
        .devices
        .iter()
        .filter(|d| d.item == *id)
        .collect();
    html! {
        p {
            @match doc {
                Some(doc) => (doc.doc),
                None => (schema::element("item").map_or("", |element| element.doc)),
            }
            @if let Some(part) = &item.part { " Part: " (part.value) "." }
        }
        @for gear in pairs { (gear_here(view, asked, gear)) }
        @if !devices.is_empty() { (devices_here(view, asked, &devices)) }
    }
}

fn gear_here(view: &View, asked: &Asked, gear: &ConsumerResult) -> Markup {
    let there = asked.state.and_then(|state| gear.states.get(state));
    let gives = matches!(gear.role, Role::Battery | Role::Source);
    html! {
        section {
            h3 { "Now, " (gear.plus) " to " (gear.minus) ": " (asked.state_words()) }
            @match there {
                Some(there) if there.on => dl.numbers {
                    @if let Some(volts) = there.volts {
                        div { dt { "Voltage" } dd { b { (view.show(volts)) }
                            @if let Some(lowest) = gear.lowest { " works from " (view.show(lowest)) }
                            @if there.dropped_out { " " strong.over { "too low to work" } } } }
                    }
                    div { dt { @if gives { "Gives" } @else { "Takes" } } dd { b { (view.show(there.amps)) } ", " (view.show(there.power)) } }
                    @if let (Some(drop), Some(share)) = (there.drop, there.drop_share) {
                        @let limits = &asked.assessment.limits;
                        @let limit = if gear.critical { &limits.drop_critical } else { &limits.drop_other };
                        div { dt { "Lost on the way" } dd {
                            b { (view.show(drop)) } ", " (view.show(share)) " of " (view.show(limit.value))
                            (bar(share.fraction(), 0.0, limit.value.fraction(), &format!("{} of {}", view.show(share), view.show(limit.value))))
                        } }
                    }
                },
                _ => p { "It is off, or nothing supplies it." },
            }
        }
    }
}

fn devices_here(view: &View, asked: &Asked, devices: &[&DeviceResult]) -> Markup {
    html! {
        section {
            h3 { "Protection" }
            ul.plain { @for device in devices { (device_here(view, asked, device)) } }
        }
    }
}

fn device_here(view: &View, asked: &Asked, device: &DeviceResult) -> Markup {
    let there = asked.state.and_then(|state| device.states.get(state));
    html! {
        li.device data-device={ (device.item) "." (device.way) } {
            b { (device.label) } ": "
            (marked(&view.show(device.rating.value), &BasisView::of(&device.rating.basis)))
            ", " (device.family)
            @if let Some(there) = there {
                ", carries " (view.show(there.amps))
                (share_bar(there.share.fraction(), &format!("{} of its rating", view.show(there.share))))
            }
            span.basis {
                @if let Some(most) = device.largest_fault { "At most " (view.show(most)) " in a short circuit" }
                @if let Some(interrupt) = &device.interrupt { ", can interrupt " (view.show(interrupt.value)) }
                ". " (afterwards(device.reclose))
            }
        }
    }
}

/// What it does after opening.
pub fn afterwards(reclose: Reclose) -> &'static str {
    match reclose {
        Reclose::Fuse => "Stays open until it is replaced.",
        Reclose::Manual => "Stays open until somebody resets it.",
        Reclose::Automatic => "Closes again by itself.",
        Reclose::Held => "Stays open while power is on.",
    }
}

/// The wires on it.
pub fn wires(view: &View, asked: &Asked, id: &str) -> Markup {
    let on_it = asked
        .assessment
        .wires
        .iter()
        .filter(|wire| wire.from.0 == *id || wire.to.0 == *id);
    let loose = asked
        .assessment
        .loose
        .iter()
        .filter(|loose| loose.item == *id);
    html! {
        section {
            h3 { "Wires on it" }
            ul.plain.pick {
                @for wire in on_it {
                    @let (own, other) = if wire.from.0 == *id { (&wire.from, &wire.to) } else { (&wire.to, &wire.from) };
                    li {
                        b { (own.1) } " " (panel::link(view, "wire", wire.id.as_str()))
                        " to " (crate::web::html::finding::label(view, "item", other.0.as_str()))
                    }
                }
                @for loose in loose {
                    li {
                        b { (loose.terminal) } " "
                        @if loose.needed { strong { "nothing is joined to it" } } @else { "free" }
                        " · " a href={ "/add/wire?from=" (id) "." (crate::web::html::encoded(&loose.terminal)) } { "join a wire" }
                    }
                }
            }
        }
    }
}

/// Workings of its numbers.
pub fn workings(asked: &Asked, id: &str) -> Markup {
    let state = asked.state.unwrap_or(0);
    let devices = asked
        .assessment
        .devices
        .iter()
        .filter(|device| device.item == *id);
    let mut asks: Vec<(&str, Ask)> = devices
        .map(|d| {
            (
                d.label.as_str(),
                Ask::DeviceShare {
                    item: id.to_owned(),
                    way: d.way,
                    state,
                },
            )
        })
        .collect();
    let taking = asked
        .assessment
        .consumers
        .iter()
        .find(|gear| gear.item == *id);
    let taking = taking.filter(|gear| matches!(gear.role, Role::Load | Role::Inverter));
    if taking.is_some() {
        asks.push((
            "Voltage lost on the way",
            Ask::ConsumerDrop {
                item: id.to_owned(),
                state,
            },
        ));
    }
    html! { @if !asks.is_empty() { (panel::workings(asked, &asks)) } }
}

/// The voltage on the way to it, when it takes power.
pub fn way_to(view: &View, asked: &Asked, id: &str) -> Markup {
    let mut own = asked
        .assessment
        .consumers
        .iter()
        .filter(|gear| gear.item == *id);
    html! {
        @if let Some(gear) = own.find(|gear| matches!(gear.role, Role::Load | Role::Inverter)) {
            (super::way::way(view, asked, gear, None))
        }
    }
}
