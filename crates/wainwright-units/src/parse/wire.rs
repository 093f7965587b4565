//! Wire sizes as people type them: `10 AWG`, `AWG 10`, `2/0 AWG`, `10 SAE`, `16 mm2`.

use super::near::{GAUGE_WORDS, nearest, other_quantity};
use super::text::{Text, vulgar_fraction};
use super::unit::{self, Lookup, same};
use crate::electrical::CrossSection;
use crate::error::QuantityError;
use crate::quantity::Quantity;
use crate::wire_size::{Awg, WireSize};

const WANTED: &str = "a wire size, for example 10 AWG";
const GAUGES: &str = "a gauge from 36 to 1 or 1/0 to 4/0";
const KINDS: &str = "AWG, SAE or mm² after the number";

/// Spellings of a gauge that do not say which gauge.
const VAGUE: &[&str] = &["ga", "gauge", "gage", "g", "#"];
const VAGUE_HINT: &str = "say which gauge, `AWG` or `SAE`: SAE wire has about a tenth less copper";

/// The wire size that was typed.
///
/// # Errors
/// A text that is no wire size, a gauge that does not exist, a number without its kind.
pub(crate) fn wire_size(typed: &str) -> Result<WireSize, QuantityError> {
    let text = Text::new(typed, WANTED)?;
    let start = text.skip_blanks(0);
    if !is_numeric(text.at(start)) {
        return kind_first(&text, start);
    }
    let number_end = numeric_end(&text, start);
    let word_start = text.skip_blanks(number_end);
    if text.is_end(word_start) {
        let number = text.typed(start, number_end);
        let hint = format!(
            "type `{number} AWG`, `{number} SAE` or `{number} mm2`, whichever is printed on the wire"
        );
        return Err(text.error(start, number_end, KINDS).with_hint(hint));
    }
    let word_end = text.skip(word_start, |c| !is_numeric(c) && c != ' ');
    let word = text.plain(word_start, word_end);
    match kind(&word) {
        Some(kind) => {
            nothing_after(&text, word_end)?;
            gauge(&text, start, number_end).map(kind)
        }
        None if is_area(&text, word_start) => CrossSection::parse(typed).map(WireSize::Metric),
        None => Err(unknown_kind(&text, word_start, &word)),
    }
}

/// A size whose kind is typed before its number.
fn kind_first(text: &Text, start: usize) -> Result<WireSize, QuantityError> {
    let word_end = text.skip(start, |c| !is_numeric(c) && c != ' ');
    let word = text.plain(start, word_end);
    let Some(kind) = kind(&word) else {
        let error = text.error(start, text.word_end(start), WANTED);
        let vague = VAGUE.iter().any(|vague| same(&word, vague, true));
        return Err(match nearest(&word, GAUGE_WORDS.iter().copied()) {
            _ if vague => error.with_hint(VAGUE_HINT),
            Some(known) => error.with_hint(format!("did you mean `{known}`?")),
            None => error,
        });
    };
    let number = text.skip_blanks(word_end);
    let end = numeric_end(text, number);
    let size = gauge(text, number, end)?;
    nothing_after(text, end)?;
    Ok(kind(size))
}

/// Which size a word makes of a gauge.
fn kind(word: &str) -> Option<fn(Awg) -> WireSize> {
    if same(word, "AWG", true) {
        Some(WireSize::Awg)
    } else if same(word, "SAE", true) {
        Some(WireSize::Sae)
    } else {
        None
    }
}

/// The gauge in a stretch of text.
fn gauge(text: &Text, start: usize, end: usize) -> Result<Awg, QuantityError> {
    let digits = text.plain(start, end);
    if let Some(gauge) = Awg::from_digits(&digits) {
        return Ok(gauge);
    }
    let end = if end == start {
        text.word_end(start)
    } else {
        end
    };
    let error = text.error(start, end, GAUGES);
    Err(match digits.split_once('/') {
        Some((size, conductors)) if conductors != "0" && Awg::from_digits(size).is_some() => error
            .with_hint(format!(
                "{digits} names a cable of several wires: type the size alone, `{size} AWG`"
            )),
        Some((_, "0")) => {
            error.with_hint("type sizes above 4/0 as a metal area, for example `250 kcmil`")
        }
        _ => error,
    })
}

fn nothing_after(text: &Text, end: usize) -> Result<(), QuantityError> {
    let next = text.skip_blanks(end);
    if text.is_end(next) {
        return Ok(());
    }
    Err(text.error(next, text.word_end(next), "nothing after the wire size"))
}

fn unknown_kind(text: &Text, start: usize, word: &str) -> QuantityError {
    let error = text.error(start, text.word_end(start), KINDS);
    if VAGUE.iter().any(|vague| same(word, vague, true)) {
        return error.with_hint(VAGUE_HINT);
    }
    if let Some(other) = other_quantity(word, "wire size") {
        return error.with_hint(format!("that is a unit of {other}, not a wire size"));
    }
    let areas = CrossSection::DEFINITION
        .units
        .iter()
        .flat_map(|unit| unit.spellings.iter().copied());
    match nearest(word, GAUGE_WORDS.iter().copied().chain(areas)) {
        Some(known) => error.with_hint(format!("did you mean `{known}`?")),
        None => error,
    }
}

/// Whether a cross-section, or something it gives advice on, follows.
fn is_area(text: &Text, start: usize) -> bool {
    unit::candidates(text, start).iter().any(|candidate| {
        !matches!(
            unit::look_up(&candidate.spelling, CrossSection::DEFINITION),
            Lookup::Unknown
        )
    })
}

fn is_numeric(c: char) -> bool {
    c.is_ascii_digit() || matches!(c, '.' | ',' | '/' | '-' | '+') || vulgar_fraction(c).is_some()
}

/// End of a number, which may have blanks before a fraction.
fn numeric_end(text: &Text, start: usize) -> usize {
    let mut end = text.skip(start, is_numeric);
    loop {
        let next = text.skip_blanks(end);
        let next_end = text.skip(next, is_numeric);
        if next_end == next {
            return end;
        }
        end = next_end;
    }
}
