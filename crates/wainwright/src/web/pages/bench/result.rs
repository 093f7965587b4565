//! What comes of a wire or a joint that was tried. Not here: the questions.

use crate::views::basis::SourceView;
use crate::views::working::WorkingView;
use crate::web::html::bar::{bar, share_bar};
use crate::web::html::working::working;
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::quick::{JointVerdict, QuickJoint, QuickProblem, QuickWire, WireQuestion};

/// Why nothing could be computed.
pub fn problem_words(problem: &QuickProblem) -> String {
    match problem {
        QuickProblem::UnknownInsulation(known) => {
            format!(
                "This insulation is not in the tables; there are: {}.",
                known.join(", ")
            )
        }
        QuickProblem::Melts => "At this current the wire would melt.".into(),
        QuickProblem::Senseless(why) => format!("This cannot be computed: {why}."),
    }
}

/// Drop, temperature and largest fuse of a wire.
pub fn wire_result(view: &View, question: &WireQuestion, found: &QuickWire) -> Markup {
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

/// Drop and heat of a joint.
pub fn joint_result(view: &View, found: &QuickJoint) -> Markup {
    let (class, words) = match found.verdict {
        JointVerdict::Cool => ("good", "cool enough for a small terminal."),
        JointVerdict::Warm => (
            "watch",
            "too hot for a small terminal, bearable for a large lug.",
        ),
        JointVerdict::Hot => (
            "bad",
            "too hot for any joint. Clean it, tighten it, or make it anew.",
        ),
    };
    let heat = view.show(found.heat);
    html! {
        p.answer.(class) { strong { "A joint that turns " (heat) " into heat: " (words) } }
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
