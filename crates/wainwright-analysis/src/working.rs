//! Working: the formula behind a number, with the numbers in it and where
//! each came from. Not here: the computation itself.

use crate::known::Basis;

/// How one number came about.
#[derive(Debug, Clone, PartialEq)]
pub struct Working {
    /// The steps, the asked-for number last.
    pub steps: Vec<Step>,
}

/// One step of a working.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// Symbol of the result, for example `U_drop`.
    pub symbol: &'static str,
    /// The formula in symbols.
    pub formula: &'static str,
    /// The same with numbers and units.
    pub numbers: String,
    /// The result with its unit.
    pub result: String,
    /// Every input of the formula.
    pub inputs: Vec<Input>,
}

/// One input of a step.
#[derive(Debug, Clone, PartialEq)]
pub struct Input {
    /// Its symbol in the formula.
    pub symbol: &'static str,
    /// Its value with unit.
    pub value: String,
    /// Where it came from.
    pub basis: Basis,
}
