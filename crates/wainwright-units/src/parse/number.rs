//! Unsigned numbers as people type them: `12.8`, `1,5`, `1,200.5`, `5/8`, `3-5/8`, `3 5/8`,
//! `3½`, `1e-3`.
//!
//! Commas, in this order:
//! 1. A point is always a decimal point; a comma left of it must stand before groups of three
//!    digits (`1,200.5`). `1.200,5` is refused.
//! 2. Two or more commas must stand before groups of three digits (`1,200,000`).
//! 3. One comma that cannot be a thousands comma is a decimal comma (`1,5`, `0,125`, `1,25`).
//! 4. One comma before exactly three digits (`1,200`) is a thousands comma with units of which
//!    nobody types three decimals (mm, lb, W, Ah …: flag of the unit), and refused with others.

use super::text::{Text, vulgar_fraction};
use crate::error::QuantityError;

/// A number that was read.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Number {
    /// Value; the thousands reading when there are two.
    pub value: f64,
    /// The decimal reading, when a comma leaves both open.
    pub or_decimal: Option<f64>,
    /// Position of its first character.
    pub start: usize,
    /// Position after its last character.
    pub end: usize,
}

impl Number {
    fn unambiguous(value: f64, start: usize, end: usize) -> Self {
        Number {
            value,
            or_decimal: None,
            start,
            end,
        }
    }
}

/// Reads the number at `start`, where [`Text::is_number`] holds.
///
/// # Errors
/// Misplaced commas, fractions that are none, numbers beyond the range of a float.
pub(super) fn read(text: &Text, start: usize) -> Result<Number, QuantityError> {
    if let Some(value) = vulgar_fraction(text.at(start)) {
        return Ok(Number::unambiguous(value, start, start + 1));
    }
    let end = plain_end(text, start);
    let digits = text.plain(start, end);
    if digits.contains(['.', ',']) {
        return separated(text, start, end, &digits);
    }
    if let Some((part, part_end)) = fraction(text, start)? {
        return Ok(Number::unambiguous(part, start, part_end));
    }
    if let Some((part, part_end)) = fraction_after(text, start, end)? {
        let value = finite(text, start, end, &digits)? + part;
        return Ok(Number::unambiguous(value, start, part_end));
    }
    let end = exponent_end(text, end);
    let value = finite(text, start, end, &text.plain(start, end))?;
    Ok(Number::unambiguous(value, start, end))
}

/// End of digits with points and commas between them.
fn plain_end(text: &Text, start: usize) -> usize {
    let mut end = start;
    loop {
        let here = text.at(end);
        let separates = (here == '.' || here == ',') && text.at(end + 1).is_ascii_digit();
        if !here.is_ascii_digit() && !separates {
            return end;
        }
        end += 1;
    }
}

/// End of an exponent at `end`, or `end` when there is none.
fn exponent_end(text: &Text, end: usize) -> usize {
    if !matches!(text.at(end), 'e' | 'E') {
        return end;
    }
    let digits = if matches!(text.at(end + 1), '+' | '-') {
        end + 2
    } else {
        end + 1
    };
    if text.at(digits).is_ascii_digit() {
        text.skip(digits, |c| c.is_ascii_digit())
    } else {
        end
    }
}

/// A number with points or commas.
fn separated(text: &Text, start: usize, end: usize, digits: &str) -> Result<Number, QuantityError> {
    let number_end = exponent_end(text, end);
    let exponent = text.plain(end, number_end);
    let value_of = |digits: &str| finite(text, start, number_end, &format!("{digits}{exponent}"));
    let (value, or_decimal) = match reading(digits) {
        Reading::One(digits) => (value_of(&digits)?, None),
        Reading::Either { thousands, decimal } => {
            (value_of(&thousands)?, Some(value_of(&decimal)?))
        }
        Reading::Neither => {
            let expected = "a number such as 1200 or 1200.5";
            let hint = "use a point for decimals and leave the thousands separators out";
            return Err(text.error(start, end, expected).with_hint(hint));
        }
    };
    Ok(Number {
        value,
        or_decimal,
        start,
        end: number_end,
    })
}

/// What points and commas mean.
enum Reading {
    One(String),
    Either { thousands: String, decimal: String },
    Neither,
}

fn reading(digits: &str) -> Reading {
    let (whole, decimals) = digits.split_once('.').unwrap_or((digits, ""));
    let has_point = whole.len() < digits.len();
    let thousands = digits.replace(',', "");
    match (whole.matches(',').count(), in_threes(whole)) {
        _ if decimals.contains(['.', ',']) => Reading::Neither,
        (0, _) => Reading::One(thousands),
        (1, true) if !has_point => Reading::Either {
            thousands,
            decimal: digits.replace(',', "."),
        },
        (1, false) if !has_point => Reading::One(digits.replace(',', ".")),
        (_, true) => Reading::One(thousands),
        (_, false) => Reading::Neither,
    }
}

/// Whether commas stand before groups of three digits, after one to three that begin a number.
fn in_threes(whole: &str) -> bool {
    let mut groups = whole.split(',');
    let first = groups.next().unwrap_or("");
    (1..=3).contains(&first.len())
        && !first.starts_with('0')
        && whole.len() > first.len()
        && groups.all(|group| group.len() == 3)
}

/// A fraction after a whole number: `-5/8`, ` 5/8`, `⅝`, ` ⅝`, `-⅝`.
fn fraction_after(
    text: &Text,
    start: usize,
    end: usize,
) -> Result<Option<(f64, usize)>, QuantityError> {
    let hyphen = text.at(end) == '-';
    let part = if hyphen {
        end + 1
    } else {
        text.skip_blanks(end)
    };
    if let Some(value) = vulgar_fraction(text.at(part)) {
        return Ok(Some((value, part + 1)));
    }
    if !text.at(part).is_ascii_digit() || part == end {
        return Ok(None);
    }
    match fraction(text, part)? {
        Some((value, part_end)) if value < 1.0 => Ok(Some((value, part_end))),
        Some((_, part_end)) => {
            let hint = "after a whole number the fraction is below one, as in 3-5/8";
            Err(text
                .error(part, part_end, "a fraction below one")
                .with_hint(hint))
        }
        None if hyphen => {
            let hint = "a range is not understood: type one value";
            Err(text
                .error(end, text.word_end(end), "a unit, or a fraction as in 3-5/8")
                .with_hint(hint))
        }
        None => {
            let part_end = text.skip(part, |c| c.is_ascii_digit());
            let hint = format!(
                "leave no blank inside a number: `{}{}`",
                text.typed(start, end),
                text.typed(part, part_end)
            );
            Err(text
                .error(part, part_end, "a unit, or a fraction as in 3 5/8")
                .with_hint(hint))
        }
    }
}

/// A fraction of two whole numbers at `start`, if there is one.
fn fraction(text: &Text, start: usize) -> Result<Option<(f64, usize)>, QuantityError> {
    let slash = text.skip(start, |c| c.is_ascii_digit());
    if slash == start || text.at(slash) != '/' || !text.at(slash + 1).is_ascii_digit() {
        return Ok(None);
    }
    let end = text.skip(slash + 1, |c| c.is_ascii_digit());
    let above = finite(text, start, slash, &text.plain(start, slash))?;
    let below = finite(text, slash + 1, end, &text.plain(slash + 1, end))?;
    if below == 0.0 {
        let error = text.error(slash + 1, end, "a number above zero below the line");
        return Err(error.with_hint("1/0, 2/0, 3/0 and 4/0 are wire sizes: type `2/0 AWG`"));
    }
    Ok(Some((above / below, end)))
}

/// The value of plain digits, refused when it is beyond the range of a float.
fn finite(text: &Text, start: usize, end: usize, digits: &str) -> Result<f64, QuantityError> {
    match digits.parse::<f64>() {
        Ok(value) if value.is_finite() => Ok(value),
        _ => Err(text.error(start, end, "a number that is not so large")),
    }
}
