//! What happens when plus meets minus at a wire's end or at a piece of gear:
//! what opens, when, and what the wires go through. Not here: the study.

use super::Asked;
use crate::views::fault::FaultEndView;
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::result::{FaultEnd, FaultResult, WireResult};

/// A short circuit at the end of the wire that is worse off.
pub fn of_wire(view: &View, asked: &Asked, wire: &WireResult) -> Markup {
    let ends = [wire.to_node, wire.from_node];
    let faults = asked
        .assessment
        .faults
        .iter()
        .filter(|fault| ends.contains(&fault.node));
    several(view, asked, faults.collect())
}

/// A short circuit at each live terminal.
pub fn of_item(view: &View, asked: &Asked, item: &str) -> Markup {
    let here = |node: usize| {
        let node = asked.assessment.nodes.get(node);
        node.is_some_and(|node| node.terminals.iter().any(|(id, _)| *id == *item))
    };
    let faults = asked
        .assessment
        .faults
        .iter()
        .filter(|fault| here(fault.node));
    several(view, asked, faults.collect())
}

fn several(view: &View, asked: &Asked, faults: Vec<&FaultResult>) -> Markup {
    html! {
        section.short {
            h3 { "If it shorts" }
            @if faults.is_empty() { p { "No source reaches it, so a short circuit carries nothing." } }
            @for (index, fault) in faults.into_iter().enumerate() {
                details id={ "short-" (fault.node) } open[index == 0] {
                    summary { "Plus meets minus at " (name(view, fault)) }
                    (end(view, asked, "Sources at their strongest", &fault.largest))
                    (end(view, asked, "Sources weak, wires hot", &fault.smallest))
                }
            }
        }
    }
}

fn name(view: &View, fault: &FaultResult) -> String {
    let item = crate::web::html::finding::label(view, "item", fault.at.0.as_str());
    format!("{item}, {}", fault.at.1)
}

fn end(view: &View, asked: &Asked, heading: &str, end: &FaultEnd) -> Markup {
    let verdict = FaultEndView::of(end, &asked.assessment).verdict;
    html! {
        div.fault-end {
            h4 { (heading) ": " (view.show(end.amps)) }
            p.{ "verdict-" (verdict) } { (verdict_words(view, end, verdict)) }
            @if !end.openings.is_empty() {
                ul.plain {
                    @for opening in &end.openings {
                        @if let Some(device) = asked.assessment.devices.get(opening.device) {
                            li {
                                (device.label) " carries " (view.show(opening.amps)) " and opens "
                                @match opening.latest {
                                    Some(latest) => { "in " (view.show(opening.earliest)) " to " (view.show(latest)) },
                                    None => { "after " (view.show(opening.earliest)) " or never" },
                                }
                                @if opening.beyond_interrupt { "; " strong { "more than it can interrupt" } }
                                "."
                            }
                        }
                    }
                }
            }
            (super::bands::bands(view, asked, end))
            @for stress in end.stresses.iter().take(3) {
                @if let Some(wire) = asked.assessment.wires.get(stress.wire) {
                    p.stress {
                        "Wire " (wire.label) " carries " (view.show(stress.amps)) " and comes to "
                        span.over[!stress.survives] { (view.show(stress.hottest)) }
                        ", bears " (view.show(wire.short_limit)) " for a moment: "
                        @if stress.survives { "survives." } @else { strong { "does not survive." } }
                    }
                }
            }
        }
    }
}

fn verdict_words(view: &View, end: &FaultEnd, verdict: &str) -> String {
    match (verdict, end.cleared, end.remaining) {
        ("not-cleared", _, Some(amps)) => {
            format!(
                "Nothing ends it for certain: {} may flow for ever.",
                view.show(amps)
            )
        }
        ("not-cleared", ..) => "Nothing ends it for certain.".into(),
        ("beyond-interrupt", ..) => {
            "A fuse or breaker would have to open more than it can; it may burst.".into()
        }
        ("damage", Some((_, latest)), _) => {
            format!(
                "Over within {}, too late for the insulation.",
                view.show(latest)
            )
        }
        (_, Some((earliest, latest)), _) => {
            format!("Over in {} to {}.", view.show(earliest), view.show(latest))
        }
        _ => String::new(),
    }
}
