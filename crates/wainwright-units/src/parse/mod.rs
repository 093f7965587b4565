//! Reading what people type: a sign, numbers with units, and nothing else.
//! Not here: numbers (`number`), unit spellings (`unit`), advice (`messages`,
//! `near`), wire sizes (`wire`).
//!
//! The work per text is bounded: texts above 200 characters are refused unread.

mod messages;
mod near;
mod number;
mod text;
mod unit;
mod wire;

use crate::definition::{Definition, Legal, Unit};
use crate::error::QuantityError;
use number::Number;
use text::Text;
use unit::{Candidate, Lookup};

pub(crate) use wire::wire_size;

/// The quantity that is wanted.
#[derive(Clone, Copy)]
struct Wanted {
    name: &'static str,
    legal: Legal,
    examples: &'static [&'static str],
    definition: &'static Definition,
}

/// One number with its unit, and where it ends.
struct Term {
    number: Number,
    unit: &'static Unit,
    end: usize,
}

/// Base value of a typed quantity, inside its legal range.
///
/// # Errors
/// A text that is not understood, lacks its unit, or leaves the legal range.
pub(crate) fn base_value(
    text: &str,
    name: &'static str,
    legal: Legal,
    examples: &'static [&'static str],
    definition: &'static Definition,
) -> Result<f64, QuantityError> {
    let wanted = Wanted {
        name,
        legal,
        examples,
        definition,
    };
    let text = Text::new(text, &wanted.example())?;
    let start = text.skip_blanks(0);
    let (sign, number_start) = signed(&text, start);
    if !text.is_number(number_start) {
        return Err(wanted.no_number(&text, start));
    }
    let number = number::read(&text, number_start)?;
    let unit_start = text.skip_blanks(number.end);
    if text.is_end(unit_start) {
        return wanted.bare(&text, start, sign, number);
    }
    let first = wanted.term(&text, number, unit_start)?;
    let base = wanted.with_smaller_terms(&text, &first, sign)?;
    wanted.in_range(&text, start, base, first.unit)
}

/// A sign and where the number after it starts.
fn signed(text: &Text, start: usize) -> (f64, usize) {
    match text.at(start) {
        '-' => (-1.0, text.skip_blanks(start + 1)),
        '+' => (1.0, text.skip_blanks(start + 1)),
        _ => (1.0, start),
    }
}

impl Wanted {
    /// A number without a unit: right for a ratio up to one, wrong for all else.
    fn bare(
        &self,
        text: &Text,
        start: usize,
        sign: f64,
        number: Number,
    ) -> Result<f64, QuantityError> {
        let symbols = near::symbols(self.definition);
        let typed = text.typed(start, number.end);
        let Some(most) = self.definition.bare_up_to else {
            let expected = format!("a unit after the number: {symbols}");
            let hint = format!("for example {}", self.first_example());
            return Err(text.error(start, number.end, expected).with_hint(hint));
        };
        let value = sign * number.value;
        if number.or_decimal.is_some() || !(self.legal.low..=most).contains(&value) {
            let low = self.legal.low;
            let expected = format!("a fraction from {low} to {most}, or a number with {symbols}");
            let hint = format!("if {typed} is meant in {symbols}, type `{typed} {symbols}`");
            return Err(text.error(start, number.end, expected).with_hint(hint));
        }
        Ok(value)
    }

    /// A number and the unit after it.
    fn term(&self, text: &Text, number: Number, unit_start: usize) -> Result<Term, QuantityError> {
        let candidates = unit::candidates(text, unit_start);
        for candidate in &candidates {
            let Candidate {
                spelling,
                end,
                many_words,
            } = candidate;
            let wrong = || text.error(unit_start, *end, self.units_expected());
            match unit::look_up(spelling, self.definition) {
                Lookup::Unit(unit) => {
                    self.check_comma(text, number, unit)?;
                    return Ok(Term {
                        number,
                        unit,
                        end: *end,
                    });
                }
                Lookup::Refused(hint) => return Err(wrong().with_hint(hint)),
                Lookup::WrongPrefix(unit) => {
                    let hint = format!("m means milli and M means mega: type `{}`", unit.symbol());
                    return Err(wrong().with_hint(hint));
                }
                Lookup::Unknown if *many_words => {
                    if let Some(other) = near::other_quantity(spelling, self.name) {
                        return Err(wrong().with_hint(self.other_hint(other)));
                    }
                }
                Lookup::Unknown => {}
            }
        }
        Err(self.unknown_unit(text, unit_start, candidates.last()))
    }

    /// Refuses a comma that may be a decimal comma or a thousands comma.
    fn check_comma(&self, text: &Text, number: Number, unit: &Unit) -> Result<(), QuantityError> {
        let Some(decimal) = number.or_decimal.filter(|_| !unit.comma_thousands) else {
            return Ok(());
        };
        let symbol = unit.symbol();
        let hint = format!("type `{} {symbol}` or `{decimal} {symbol}`", number.value);
        let expected = "a number whose comma can only mean one thing";
        Err(text
            .error(number.start, number.end, expected)
            .with_hint(hint))
    }

    /// Adds the smaller units that follow, as inches follow feet, up to the end of the text.
    fn with_smaller_terms(
        &self,
        text: &Text,
        first: &Term,
        sign: f64,
    ) -> Result<f64, QuantityError> {
        let first_base = first.unit.to_base(sign * first.number.value);
        let mut base = first_base;
        let (mut unit, mut end) = (first.unit, first.end);
        loop {
            let next = text.skip_blanks(end);
            if text.is_end(next) {
                return Ok(base);
            }
            let Some(start) = joined(text, end).filter(|_| unit.group != 0) else {
                return Err(self.left_over(text, next));
            };
            let number = number::read(text, start)?;
            let unit_start = text.skip_blanks(number.end);
            if text.is_end(unit_start) {
                return Err(self.missing_smaller_unit(text, number, unit));
            }
            let term = self.term(text, number, unit_start)?;
            if term.unit.group != unit.group || term.unit.size() >= unit.size() {
                let expected = format!(
                    "a smaller unit after {}: {}",
                    unit.symbol(),
                    self.smaller(unit)
                );
                return Err(text.error(unit_start, term.end, expected));
            }
            base += term.unit.to_base(sign * number.value);
            (unit, end) = (term.unit, term.end);
        }
    }

    /// The base value, if it is legal; else the range in the unit that was typed.
    fn in_range(
        &self,
        text: &Text,
        start: usize,
        base: f64,
        unit: &Unit,
    ) -> Result<f64, QuantityError> {
        if self.legal.contains(base) {
            return Ok(base);
        }
        let symbol = unit.symbol();
        let low = crate::show::limit(unit.number_of(self.legal.low), false);
        let high = crate::show::limit(unit.number_of(self.legal.high), true);
        let range = format!(
            "{} from {low} {symbol} to {high} {symbol}",
            self.with_article()
        );
        Err(text.error(start, text.skip(start, |_| true), range))
    }
}

/// Start of a number that continues a value: after blanks, a comma and blanks, or a hyphen.
fn joined(text: &Text, end: usize) -> Option<usize> {
    let start = match text.at(end) {
        '-' => end + 1,
        ',' => text.skip_blanks(end + 1),
        _ => text.skip_blanks(end),
    };
    text.is_number(start).then_some(start)
}
