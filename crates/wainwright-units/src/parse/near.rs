//! Advice for a unit that is not known: it may belong to another quantity or be mistyped.

use super::unit::{letters, same};
use crate::catalogue::CATALOGUE;
use crate::definition::Definition;

/// Words that say which kind of gauge a wire size is.
pub(super) const GAUGE_WORDS: &[&str] = &["AWG", "SAE"];

/// The quantity that a spelling is a unit of, when it is not `name` itself.
pub(super) fn other_quantity(spelling: &str, name: &str) -> Option<&'static str> {
    if GAUGE_WORDS.iter().any(|word| same(spelling, word, true)) {
        return Some("wire size");
    }
    CATALOGUE
        .iter()
        .filter(|(other, _)| *other != name)
        .find(|(_, definition)| {
            let mut spellings = definition.units.iter().flat_map(|unit| unit.spellings);
            spellings.any(|known| same(spelling, known, true))
        })
        .map(|(other, _)| *other)
}

/// The known spelling that a mistyped one is nearest to, when it is near enough.
pub(super) fn nearest(
    spelling: &str,
    known: impl Iterator<Item = &'static str>,
) -> Option<&'static str> {
    let wrong: Vec<char> = lower(spelling);
    let allowed = match wrong.len() {
        0 | 1 => return None,
        2..=4 => 1,
        _ => 2,
    };
    let mut best: Option<(usize, &'static str)> = None;
    for candidate in known.filter(|candidate| letters(candidate).count() >= 2) {
        let distance = distance(&wrong, &lower(candidate));
        if distance <= allowed && best.is_none_or(|(least, _)| distance < least) {
            best = Some((distance, candidate));
        }
    }
    best.map(|(_, candidate)| candidate)
}

/// The symbols of a quantity's units, for a message.
pub(super) fn symbols(definition: &Definition) -> String {
    let symbols: Vec<&str> = definition.units.iter().map(|unit| unit.symbol()).collect();
    symbols.join(", ")
}

fn lower(spelling: &str) -> Vec<char> {
    letters(spelling).map(|c| c.to_ascii_lowercase()).collect()
}

/// Number of inserted, left out or exchanged characters; swapped neighbours count once.
fn distance(left: &[char], right: &[char]) -> usize {
    let mut before_last: Vec<usize> = Vec::new();
    let mut last: Vec<usize> = (0..=right.len()).collect();
    for (row, a) in left.iter().enumerate() {
        let mut current = vec![row + 1];
        for (column, b) in right.iter().enumerate() {
            let get =
                |line: &[usize], place: usize| line.get(place).copied().unwrap_or(usize::MAX / 2);
            let mut least = (get(&last, column) + usize::from(a != b))
                .min(get(&last, column + 1) + 1)
                .min(get(&current, column) + 1);
            let swapped = row > 0
                && column > 0
                && left.get(row - 1) == Some(b)
                && right.get(column - 1) == Some(a);
            if swapped {
                least = least.min(get(&before_last, column - 1) + 1);
            }
            current.push(least);
        }
        before_last = std::mem::replace(&mut last, current);
    }
    last.last().copied().unwrap_or(0)
}
