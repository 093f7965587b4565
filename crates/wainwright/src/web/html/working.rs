//! The working behind a number: formula, the same with numbers, and where
//! each number came from. Not here: the working itself.

use crate::views::basis::BasisView;
use crate::views::working::{StepView, WorkingView};
use maud::{Markup, html};

/// All steps, the asked-for number last.
pub fn working(view: &WorkingView) -> Markup {
    html! {
        ol.working {
            @for step in &view.steps { (draw(step)) }
        }
    }
}

fn draw(step: &StepView) -> Markup {
    html! {
        li {
            p.formula { (step.formula) }
            @if step.numbers != step.result {
                p.formula.numbers { (step.symbol) " = " (step.numbers) }
            }
            p.formula.result { (step.symbol) " = " b { (step.result) } }
            @if !step.inputs.is_empty() {
                ul.inputs {
                    @for input in &step.inputs {
                        li {
                            span.formula { (input.symbol) " = " (input.value) }
                            " " span.basis.assumed[is_assumed(&input.basis)] { (input.basis.words()) }
                        }
                    }
                }
            }
        }
    }
}

fn is_assumed(basis: &BasisView) -> bool {
    matches!(basis, BasisView::Assumed { .. })
}
