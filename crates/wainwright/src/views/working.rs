//! The working behind a number, as plain data.

use super::basis::BasisView;
use serde::Serialize;
use wainwright_analysis::working::{Input, Step, Working};

/// How one number came about.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct WorkingView {
    /// Steps, the asked-for number last.
    pub steps: Vec<StepView>,
}

/// One step.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct StepView {
    /// Symbol of the result.
    pub symbol: String,
    /// The formula in symbols.
    pub formula: String,
    /// The same with numbers.
    pub numbers: String,
    /// The result with unit.
    pub result: String,
    /// What went in.
    pub inputs: Vec<InputView>,
}

/// One input of a step.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct InputView {
    /// Symbol.
    pub symbol: String,
    /// Value with unit.
    pub value: String,
    /// Where it came from.
    pub basis: BasisView,
}

impl WorkingView {
    /// The same as plain data.
    pub fn of(working: &Working) -> Self {
        Self {
            steps: working.steps.iter().map(StepView::of).collect(),
        }
    }
}

impl StepView {
    fn of(step: &Step) -> Self {
        Self {
            symbol: step.symbol.to_string(),
            formula: step.formula.to_string(),
            numbers: step.numbers.clone(),
            result: step.result.clone(),
            inputs: step.inputs.iter().map(InputView::of).collect(),
        }
    }
}

impl InputView {
    fn of(input: &Input) -> Self {
        Self {
            symbol: input.symbol.clone(),
            value: input.value.clone(),
            basis: BasisView::of(&input.basis),
        }
    }
}
