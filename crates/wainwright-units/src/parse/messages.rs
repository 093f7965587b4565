//! What a person is told when a text is not the quantity that is wanted.

use super::number::Number;
use super::text::Text;
use super::unit::Candidate;
use super::{Wanted, near};
use crate::definition::Unit;
use crate::error::QuantityError;

impl Wanted {
    /// `a length`, `an energy`.
    pub(super) fn with_article(&self) -> String {
        let article = if self.name.starts_with(['a', 'e']) {
            "an"
        } else {
            "a"
        };
        format!("{article} {}", self.name)
    }

    /// `a length, for example 650 mm`.
    pub(super) fn example(&self) -> String {
        format!(
            "{}, for example {}",
            self.with_article(),
            self.first_example()
        )
    }

    pub(super) fn first_example(&self) -> &'static str {
        self.examples.first().copied().unwrap_or_default()
    }

    pub(super) fn no_number(&self, text: &Text, start: usize) -> QuantityError {
        let error = text.error(start, text.word_end(start), self.example());
        match text.at(start) {
            '~' | '≈' | '<' | '>' | '=' | '±' | '≤' | '≥' => {
                error.with_hint("type the value alone, without a sign before it")
            }
            ',' => error.with_hint("type the zero before the decimal comma, as in 0,5"),
            _ => error,
        }
    }

    pub(super) fn unknown_unit(
        &self,
        text: &Text,
        start: usize,
        word: Option<&Candidate>,
    ) -> QuantityError {
        let Some(word) = word else {
            let error = text.error(start, text.word_end(start), self.units_expected());
            return error;
        };
        let error = text.error(start, word.end, self.units_expected());
        if let Some(other) = near::other_quantity(&word.spelling, self.name) {
            return error.with_hint(self.other_hint(other));
        }
        let known = self
            .definition
            .units
            .iter()
            .flat_map(|unit| unit.spellings.iter().copied());
        match near::nearest(&word.spelling, known) {
            Some(spelling) => error.with_hint(format!("did you mean `{spelling}`?")),
            None => error,
        }
    }

    pub(super) fn units_expected(&self) -> String {
        format!(
            "a unit of {}: {}",
            self.name,
            near::symbols(self.definition)
        )
    }

    pub(super) fn other_hint(&self, other: &str) -> String {
        format!("that is a unit of {other}, not of {}", self.name)
    }

    pub(super) fn missing_smaller_unit(
        &self,
        text: &Text,
        number: Number,
        unit: &Unit,
    ) -> QuantityError {
        let smaller = self.smaller(unit);
        let expected = format!("a unit after the number: {smaller}");
        let symbol = smaller.split(", ").next().unwrap_or("");
        let hint = format!("type `{} {symbol}`", text.typed(number.start, number.end));
        text.error(number.start, number.end, expected)
            .with_hint(hint)
    }

    /// Symbols of the units that may follow a unit, the largest first.
    pub(super) fn smaller(&self, unit: &Unit) -> String {
        let mut units: Vec<&Unit> = self
            .definition
            .units
            .iter()
            .filter(|other| other.group == unit.group && other.size() < unit.size())
            .collect();
        units.sort_by(|left, right| right.size().total_cmp(&left.size()));
        let symbols: Vec<&str> = units.into_iter().map(Unit::symbol).collect();
        symbols.join(", ")
    }

    pub(super) fn left_over(&self, text: &Text, start: usize) -> QuantityError {
        let error = text.error(
            start,
            text.word_end(start),
            format!("nothing after the {}", self.name),
        );
        let word = text.plain(start, text.word_end(start));
        if word.starts_with(['-', '±', '~', '…'])
            || word == "to"
            || word == "or"
            || word.starts_with("..")
        {
            return error.with_hint("a range is not understood: type one value");
        }
        error
    }
}
