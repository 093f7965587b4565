//! Writes steps of a working: symbols, numbers, inputs.

use super::{Input, Step};
use crate::known::{Basis, Known};
use wainwright_units::{Quantity, System};

/// Raised digits end a symbol, though they count as letters or digits elsewhere.
const POWERS: &str = "²³⁴";

/// Steps as they are written down.
pub(crate) struct Notebook {
    pub(crate) steps: Vec<Step>,
    system: System,
}

impl Notebook {
    pub(crate) fn new(system: System) -> Self {
        Self {
            steps: Vec::new(),
            system,
        }
    }

    /// Writes a step whose numbers are the formula's right side with every
    /// input's symbol replaced by its value.
    pub(crate) fn step<Q: Quantity>(
        &mut self,
        symbol: &'static str,
        formula: &'static str,
        result: Q,
        inputs: Vec<Input>,
    ) {
        let result = self.shown(result);
        self.step_text(symbol, formula, result, inputs);
    }

    /// The same with the result already in words.
    pub(crate) fn step_text(
        &mut self,
        symbol: &'static str,
        formula: &'static str,
        result: String,
        inputs: Vec<Input>,
    ) {
        let right = formula
            .split_once('=')
            .map_or(formula, |(_, right)| right)
            .trim();
        let numbers = fill(right, &inputs);
        self.steps.push(Step {
            symbol,
            formula,
            numbers,
            result,
            inputs,
        });
    }

    /// An input that is known.
    pub(crate) fn known<Q: Quantity>(&self, symbol: &str, known: &Known<Q>) -> Input {
        self.input(symbol, known.value, known.basis.clone())
    }

    /// An input that another step or the solver gave.
    pub(crate) fn computed<Q: Quantity>(&self, symbol: &str, value: Q) -> Input {
        self.input(symbol, value, Basis::Computed)
    }

    /// A value as the formulas need it, metric, and as the person reads it
    /// where that is something else: `5.18 m (17')`.
    fn shown<Q: Quantity>(&self, value: Q) -> String {
        let metric = value.show(System::Metric);
        let own = value.show(self.system);
        if own == metric {
            metric
        } else {
            format!("{metric} ({own})")
        }
    }

    /// An input with its basis.
    pub(crate) fn input<Q: Quantity>(&self, symbol: &str, value: Q, basis: Basis) -> Input {
        Input {
            symbol: symbol.to_owned(),
            value: self.shown(value),
            basis,
        }
    }
}

/// Replaces symbols in a formula by values, longest symbols first so that
/// `R20` is not taken for `R`.
fn fill(formula: &str, inputs: &[Input]) -> String {
    let mut rest = formula;
    let mut filled = String::new();
    let mut before = ' ';
    while let Some(first) = rest.chars().next() {
        let starts_word = !before.is_alphanumeric() && before != '_';
        let found = inputs
            .iter()
            .filter(|input| starts_word && rest.starts_with(&input.symbol))
            .filter(|input| !continues(rest, input.symbol.len()))
            .max_by_key(|input| input.symbol.len());
        match found {
            Some(input) => {
                // Only the metric value: the formulas' constants are metric.
                let metric = input.value.split(" (").next();
                filled.push_str(metric.unwrap_or(&input.value));
                before = input.symbol.chars().next_back().unwrap_or(' ');
                rest = &rest[input.symbol.len()..];
            }
            None => {
                filled.push(first);
                before = first;
                rest = &rest[first.len_utf8()..];
            }
        }
    }
    filled
}

fn continues(text: &str, at: usize) -> bool {
    text[at..]
        .chars()
        .next()
        .is_some_and(|next| (next.is_alphanumeric() && !POWERS.contains(next)) || next == '_')
}

#[cfg(test)]
mod tests {
    use super::*;

    fn input(symbol: &str, value: &str) -> Input {
        Input {
            symbol: symbol.to_owned(),
            value: value.to_owned(),
            basis: Basis::Computed,
        }
    }

    #[test]
    fn longer_symbols_win_and_words_stay_whole() {
        let inputs = [input("R", "1 Ω"), input("R20", "2 Ω"), input("θ", "30 °C")];
        assert_eq!(
            fill("R20 · (234.5 + θ) + R + Rx", &inputs),
            "2 Ω · (234.5 + 30 °C) + 1 Ω + Rx"
        );
    }
}
