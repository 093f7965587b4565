//! One wire in one state. Not here: what a short circuit does to it
//! (`short`).

use super::Asked;
use super::panel;
use crate::views::basis::BasisView;
use crate::views::state::state_label;
use crate::web::html::bar::{bar, share_bar};
use crate::web::html::count;
use crate::web::schematic::run_words;
use crate::web::view::{View, marked};
use maud::{Markup, html};
use wainwright_analysis::Ask;
use wainwright_analysis::result::{Guard, WireInState, WireResult};
use wainwright_model::Kind;

/// What it is and what it carries.
pub fn numbers(view: &View, asked: &Asked, wire: &WireResult) -> Markup {
    let there = asked.state.and_then(|state| wire.states.get(state));
    html! {
        p {
            (marked(&wire.size.value.to_string(), &BasisView::of(&wire.size.basis)))
            ", " (marked(&view.show(wire.length.value), &BasisView::of(&wire.length.basis)))
            ", insulation " (marked(&wire.insulation.value, &BasisView::of(&wire.insulation.basis)))
            ", " (run_words(wire.run.value))
            @if wire.bundle.value > 1 { " of " (wire.bundle.value) }
            @if wire.supplied { ", came with the gear" }
            "."
        }
        p {
            "From " (panel::link(view, "item", wire.from.0.as_str())) " (" (wire.from.1) ") to "
            (panel::link(view, "item", wire.to.0.as_str())) " (" (wire.to.1) ")."
        }
        @match there {
            Some(there) => (here(view, asked, wire, there)),
            None => p { "No state could be solved, so it carries nothing yet." },
        }
        (everywhere(view, asked, wire))
    }
}

fn here(view: &View, asked: &Asked, wire: &WireResult, there: &WireInState) -> Markup {
    let amps = there.amps.abs();
    let share = amps.amperes() / wire.ampacity.in_force.amperes();
    let (air, hot, limit) = (wire.air.value, there.temperature, wire.limit);
    html! {
        section {
            h3 { "Now: " (asked.state_words()) }
            dl.numbers {
                div {
                    dt { "Current" }
                    dd {
                        b { (view.show(amps)) } " of " (view.show(wire.ampacity.in_force)) " for ever"
                        (share_bar(share, &format!("{:.0} % of what it bears for ever", share * 100.0)))
                    }
                }
                div {
                    dt { "Metal" }
                    dd {
                        b { (view.show(hot)) } " of " (view.show(limit))
                        (bar(hot.celsius(), air.celsius(), limit.celsius(), &format!("{} of {}", view.show(hot), view.show(limit))))
                        span.basis { "air around it " (marked(&view.show(air), &BasisView::of(&wire.air.basis))) }
                    }
                }
                div { dt { "Voltage lost" } dd { b { (view.show(there.drop.abs())) } } }
                div { dt { "Heat" } dd { (view.show(there.power)) } }
                div { dt { "Resistance" } dd { (view.show(there.resistance)) ", of that joints " (view.show(wire.joints)) } }
            }
        }
    }
}

fn everywhere(view: &View, asked: &Asked, wire: &WireResult) -> Markup {
    html! {
        details #all-states {
            summary { "In every situation" }
            table.narrow {
                caption.unseen { "Current, metal temperature and voltage lost in every situation" }
                thead { tr { th scope="col" { "Situation" } th.number scope="col" { "Current" } th.number scope="col" { "Metal" } th.number scope="col" { "Lost" } } }
                tbody {
                    @for (index, (state, there)) in asked.assessment.states.iter().zip(&wire.states).enumerate() {
                        tr {
                            th scope="row" {
                                (state_label(state))
                                @if wire.worst == Some(index) { " " span.standin { "hottest" } }
                            }
                            td.number { (view.show(there.amps.abs())) }
                            td.number { (view.show(there.temperature)) }
                            td.number { (view.show(there.drop.abs())) }
                        }
                    }
                }
            }
        }
    }
}

/// What protects it against each source. A source that limits its own
/// current needs less, so it stands behind the others.
pub fn guards(view: &View, asked: &Asked, wire: &WireResult) -> Markup {
    let (limited, strong): (Vec<_>, Vec<_>) = wire
        .guards
        .iter()
        .partition(|guard| limits_itself(view, guard));
    html! {
        section {
            h3 { "What protects it" }
            @if wire.guards.is_empty() {
                p { "No source feeds it towards this side, so nothing has to." }
            }
            @if !strong.is_empty() {
                ul.plain { @for guard in strong { (draw(view, asked, wire, guard)) } }
            } @else if !limited.is_empty() {
                p { "Only sources that limit their own current feed it." }
            }
            @if !limited.is_empty() {
                details #limited-sources {
                    summary { (count(limited.len(), "source", "sources")) " that limit their own current" }
                    ul.plain { @for guard in limited { (draw(view, asked, wire, guard)) } }
                }
            }
        }
    }
}

/// Whether the source gives only so much by its own making; batteries and
/// tow vehicles give whatever a short circuit draws.
pub fn limits_itself(view: &View, guard: &Guard) -> bool {
    let source = view.study().project.items.get(guard.source.as_str());
    let kind = source.map(|item| item.spec.kind());
    !matches!(kind, Some(Kind::Battery | Kind::VehicleSupply))
}

fn draw(view: &View, asked: &Asked, wire: &WireResult, guard: &Guard) -> Markup {
    let device = guard
        .device
        .and_then(|index| asked.assessment.devices.get(index));
    html! {
        li.guard {
            "Against " (panel::link(view, "item", guard.source.as_str())) ": "
            @match device {
                Some(device) => {
                    (panel::link_as(view, "item", device.item.as_str(), &format!("{}, {}", device.label, view.show(device.rating.value))))
                    @if let Some(overload) = &guard.overload {
                        ". At a slow overload the metal comes to "
                        @let hot = overload.slow_region.celsius() > wire.limit.celsius();
                        span.over[hot] { (view.show(overload.slow_region)) }
                        ", bears " (view.show(wire.limit)) "."
                    }
                },
                None => {
                    @match guard.self_limited {
                        Some(amps) if limits_itself(view, guard) => { "no fuse; the source gives no more than " b { (view.show(amps)) } },
                        Some(amps) => { "the fuses of the gear behind it let through no more than " b { (view.show(amps)) } },
                        None => { b { "no fuse" } },
                    }
                    @if let Some(length) = guard.bare_length { ", " (view.show(length)) " of wire without one" }
                    "."
                },
            }
        }
    }
}

/// Workings of its numbers.
pub fn workings(asked: &Asked, wire: &WireResult) -> Markup {
    let id = wire.id.to_string();
    let state = asked.state.unwrap_or(0);
    panel::workings(
        asked,
        &[
            (
                "Voltage lost",
                Ask::WireDrop {
                    wire: id.clone(),
                    state,
                },
            ),
            (
                "Metal temperature",
                Ask::WireTemperature {
                    wire: id.clone(),
                    state,
                },
            ),
            ("What it bears for ever", Ask::WireAmpacity { wire: id }),
        ],
    )
}
