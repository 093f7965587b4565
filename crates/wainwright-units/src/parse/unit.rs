//! Unit words after a number, and which unit they spell.
//!
//! Between the parts of a unit a blank, `·`, `*`, `-` or nothing means the same (`N·m`, `N m`,
//! `in-lb`); `.` and `^` do not matter (`ft.`, `mm^2`), superscripts are digits, Ω is `ohm`.
//! Capitals do not matter either, but for a leading m or M where one means milli and the other
//! mega.

use super::text::{Text, vulgar_fraction};
use crate::definition::{Definition, Unit};

/// Most words one unit is spelled with, as in `deg Fahrenheit` or `btu per hour`.
const MOST_WORDS: usize = 3;

/// A stretch of text that may spell a unit.
pub(super) struct Candidate {
    /// Plain characters.
    pub spelling: String,
    /// Position after its last character.
    pub end: usize,
    /// Whether it has more than one word.
    pub many_words: bool,
}

/// The stretches from `start` on that may spell a unit, the longest first; none where no
/// word begins.
pub(super) fn candidates(text: &Text, start: usize) -> Vec<Candidate> {
    let mut found = Vec::new();
    let mut word = start;
    while found.len() < MOST_WORDS {
        let end = word_end(text, word);
        if end == word {
            break;
        }
        let many_words = !found.is_empty();
        found.push(Candidate {
            spelling: text.plain(start, end),
            end,
            many_words,
        });
        word = text.skip_blanks(end);
    }
    found.reverse();
    found
}

/// End of one word of a unit: a foot or inch mark, or characters up to a blank or a number.
fn word_end(text: &Text, start: usize) -> usize {
    match (text.at(start), text.at(start + 1)) {
        ('\'', '\'') => return start + 2,
        ('\'' | '"', _) => return start + 1,
        _ => {}
    }
    let mut end = start;
    while !text.is_end(end) && belongs(text, start, end) {
        end += 1;
    }
    end
}

fn belongs(text: &Text, start: usize, position: usize) -> bool {
    let before = if position == start {
        ' '
    } else {
        text.at(position - 1)
    };
    match text.at(position) {
        ' ' | '\'' | '"' | ',' | ';' | '+' => false,
        '-' => position > start && !text.is_number(position + 1),
        digit if digit.is_ascii_digit() => match before {
            '/' | '^' => true,
            ' ' => false,
            _ if before.is_ascii_digit() => in_divisor(text, start, position),
            _ => matches!(digit, '2' | '3') && ends_power(text, position + 1),
        },
        other => vulgar_fraction(other).is_none(),
    }
}

/// Whether a digit belongs to a number after a slash, as in `ohm/1000ft`.
fn in_divisor(text: &Text, start: usize, position: usize) -> bool {
    let mut first = position;
    while first > start && text.at(first - 1).is_ascii_digit() {
        first -= 1;
    }
    first > start && text.at(first - 1) == '/'
}

/// Whether a 2 or 3 before this position is a power, as in `mm2`, and not a number, as in
/// `5ft3in`.
fn ends_power(text: &Text, position: usize) -> bool {
    text.is_end(position) || matches!(text.at(position), ' ' | '/' | ')' | '·' | '*')
}

/// What a spelling is to a quantity.
pub(super) enum Lookup {
    /// One of its units.
    Unit(&'static Unit),
    /// Refused with advice.
    Refused(&'static str),
    /// A unit but for the capital or small m.
    WrongPrefix(&'static Unit),
    /// Nothing known.
    Unknown,
}

/// Finds the unit that a spelling means.
pub(super) fn look_up(spelling: &str, definition: &'static Definition) -> Lookup {
    for fold in [false, true] {
        for unit in definition.units {
            let known = unit
                .spellings
                .iter()
                .find(|known| same(spelling, known, fold));
            if let Some(known) = known {
                if fold && unit.case_of_m && first(spelling) != first(known) {
                    return Lookup::WrongPrefix(unit);
                }
                return Lookup::Unit(unit);
            }
        }
        for refused in definition.refused {
            if refused
                .spellings
                .iter()
                .any(|known| same(spelling, known, fold))
            {
                return Lookup::Refused(refused.hint);
            }
        }
    }
    Lookup::Unknown
}

/// Whether a typed spelling is a known one.
///
/// Where the known spelling has a separator the typed one may have another, several or none;
/// elsewhere it may have none, because `5 m m` is not 5 mm.
pub(super) fn same(typed: &str, known: &str, fold_case: bool) -> bool {
    let mut typed = essence(typed).peekable();
    for wanted in essence(known) {
        if wanted == SEPARATOR {
            while typed.next_if_eq(&SEPARATOR).is_some() {}
            continue;
        }
        let matches =
            |found: &char| *found == wanted || (fold_case && found.eq_ignore_ascii_case(&wanted));
        if typed.next_if(matches).is_none() {
            return false;
        }
    }
    typed.next().is_none()
}

/// Stands for a blank, a hyphen or a multiplication sign inside a unit.
const SEPARATOR: char = ' ';

/// The characters of a spelling that matter, without separators.
pub(super) fn letters(spelling: &str) -> impl Iterator<Item = char> {
    essence(spelling).filter(|c| *c != SEPARATOR)
}

/// The characters of a spelling that matter.
fn essence(spelling: &str) -> impl Iterator<Item = char> {
    let inches = spelling == "''";
    spelling.chars().enumerate().flat_map(move |(place, c)| {
        let text = match c {
            ' ' | '·' | '*' | '-' => return Essence::One(SEPARATOR),
            '.' | '^' => "",
            'Ω' => "ohm",
            '²' => "2",
            '³' => "3",
            '℃' => "°C",
            '℉' => "°F",
            '\u{b5}' | '\u{3bc}' => "u",
            '\'' if inches && place == 0 => "\"",
            '\'' if inches => "",
            _ => return Essence::One(c),
        };
        Essence::Text(text.chars())
    })
}

/// The characters that stand for one character.
enum Essence {
    One(char),
    Text(std::str::Chars<'static>),
    Done,
}

impl Iterator for Essence {
    type Item = char;
    fn next(&mut self) -> Option<char> {
        match self {
            Essence::One(c) => {
                let c = *c;
                *self = Essence::Done;
                Some(c)
            }
            Essence::Text(text) => text.next(),
            Essence::Done => None,
        }
    }
}

fn first(spelling: &str) -> Option<char> {
    letters(spelling).next()
}
