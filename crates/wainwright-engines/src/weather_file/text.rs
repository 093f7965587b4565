//! Bytes to lines, lines to cells, cells to numbers. Not here: what the cells mean.

use std::borrow::Cow;

use super::fault::{Fault, quote};

/// Largest file [bytes].
pub const MOST_BYTES: usize = 32 << 20;

/// Most rows of a file: a leap year in steps of five minutes has 105,408.
pub const MOST_ROWS: usize = 110_000;

/// Most cells of a row that are looked at.
const MOST_CELLS: usize = 100;

/// Words that stand for a value nobody knows.
const NOTHING: &[&str] = &["", "-", "--", "na", "n/a", "nan", "null", "none"];

/// Text of a file: UTF-8 where it is, otherwise one letter per byte (Latin-1).
///
/// # Errors
/// A file that is too large, empty, or not a text.
pub(super) fn decode(bytes: &[u8]) -> Result<Cow<'_, str>, Fault> {
    if bytes.len() > MOST_BYTES {
        return Err(Fault::new(
            0,
            format!("{} bytes", bytes.len()),
            format!("at most {MOST_BYTES}"),
            "give one year in steps of five minutes or longer",
        ));
    }
    let bytes = bytes.strip_prefix(&[0xEF, 0xBB, 0xBF]).unwrap_or(bytes);
    if bytes.iter().all(u8::is_ascii_whitespace) {
        return Err(Fault::new(
            0,
            "an empty file",
            "an EPW, a TMY3 or a daily CSV file",
            "choose another file",
        ));
    }
    if bytes.contains(&0) {
        return Err(Fault::new(
            0,
            "bytes that are not text",
            "a plain text file",
            "unpack the file if it is packed, or save it as plain text (UTF-8)",
        ));
    }
    Ok(match std::str::from_utf8(bytes) {
        Ok(text) => Cow::Borrowed(text),
        Err(_) => Cow::Owned(bytes.iter().map(|byte| char::from(*byte)).collect()),
    })
}

/// Numbered lines that are not blank, whatever ends them.
pub(super) fn lines(text: &str) -> impl Iterator<Item = (usize, &str)> {
    let end = if text.contains('\n') { '\n' } else { '\r' };
    text.split(end)
        .enumerate()
        .map(|(at, line)| (at + 1, line.trim()))
        .filter(|(_, line)| !line.is_empty())
}

/// Cells between commas; a comma inside double quotes belongs to the cell.
pub(super) fn cells(line: &str) -> Vec<&str> {
    let mut quoted = false;
    line.split(move |letter| {
        quoted ^= letter == '"';
        letter == ',' && !quoted
    })
    .take(MOST_CELLS)
    .map(|cell| cell.trim().trim_matches('"').trim())
    .collect()
}

/// A number, nothing, or what stands there instead.
pub(super) fn number(cell: Option<&&str>) -> Result<Option<f64>, String> {
    let Some(cell) = cell else {
        return Ok(None);
    };
    if NOTHING.iter().any(|word| cell.eq_ignore_ascii_case(word)) {
        return Ok(None);
    }
    match cell.parse::<f64>() {
        Ok(value) if value.is_finite() => Ok(Some(value)),
        _ => Err(quote(cell)),
    }
}

/// A whole number from 0 to `most`, also written with a fraction of nought.
pub(super) fn whole(cell: Option<&&str>, most: u32) -> Result<u32, String> {
    match number(cell)? {
        Some(value) if value.fract().abs() < 1e-9 && (0.0..=f64::from(most)).contains(&value) => {
            Ok(value as u32)
        }
        Some(value) => Err(value.to_string()),
        None => Err("nothing".to_owned()),
    }
}

/// A column name without case and spaces, so that spellings compare.
pub(super) fn plain(name: &str) -> String {
    name.chars()
        .filter(|letter| !letter.is_whitespace())
        .flat_map(char::to_lowercase)
        .collect()
}
