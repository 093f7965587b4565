//! The typed text as characters, with the many spellings of one character made one.
//! One typed character stays one character, so that positions are columns.

use crate::error::QuantityError;

/// Longest text looked at \[characters\]; it keeps the work per text bounded.
pub(super) const LONGEST: usize = 200;

/// A typed text of at most [`LONGEST`] characters.
pub(super) struct Text {
    typed: Vec<char>,
    plain: Vec<char>,
}

impl Text {
    /// Splits the text; blanks at the end are left off.
    ///
    /// # Errors
    /// A text that is too long, or has nothing but blanks. `wanted` says what was expected.
    pub(super) fn new(text: &str, wanted: &str) -> Result<Self, QuantityError> {
        let mut typed: Vec<char> = text.chars().take(LONGEST + 1).collect();
        if typed.len() > LONGEST {
            let rest: String = text.chars().skip(LONGEST).take(LONGEST).collect();
            let expected = format!("{wanted} of at most {LONGEST} characters");
            return Err(QuantityError::new(LONGEST + 1, &rest, expected));
        }
        while typed.last().is_some_and(|last| plain(*last) == ' ') {
            typed.pop();
        }
        if typed.is_empty() {
            return Err(QuantityError::new(1, "", wanted));
        }
        let plain = typed.iter().copied().map(plain).collect();
        Ok(Text { typed, plain })
    }

    /// The character at a position, a blank beyond the end.
    pub(super) fn at(&self, position: usize) -> char {
        self.plain.get(position).copied().unwrap_or(' ')
    }

    /// Whether a position is beyond the last character.
    pub(super) fn is_end(&self, position: usize) -> bool {
        position >= self.plain.len()
    }

    /// The first position from `start` on that is not of the kind.
    pub(super) fn skip(&self, start: usize, kind: impl Fn(char) -> bool) -> usize {
        let mut position = start;
        while !self.is_end(position) && kind(self.at(position)) {
            position += 1;
        }
        position
    }

    /// The first position from `start` on that is not a blank.
    pub(super) fn skip_blanks(&self, start: usize) -> usize {
        self.skip(start, |c| c == ' ')
    }

    /// The first blank, or the end, from `start` on.
    pub(super) fn word_end(&self, start: usize) -> usize {
        self.skip(start, |c| c != ' ')
    }

    /// The characters of a stretch, made plain.
    pub(super) fn plain(&self, start: usize, end: usize) -> String {
        self.plain.iter().take(end).skip(start).collect()
    }

    /// The characters of a stretch, as typed.
    pub(super) fn typed(&self, start: usize, end: usize) -> String {
        self.typed.iter().take(end).skip(start).collect()
    }

    /// An error whose offending token is a stretch of the text.
    pub(super) fn error(
        &self,
        start: usize,
        end: usize,
        expected: impl Into<String>,
    ) -> QuantityError {
        QuantityError::new(start + 1, &self.typed(start, end), expected)
    }

    /// Whether a number can begin at a position (a sign is no part of it).
    pub(super) fn is_number(&self, position: usize) -> bool {
        let here = self.at(position);
        here.is_ascii_digit()
            || vulgar_fraction(here).is_some()
            || (here == '.' && self.at(position + 1).is_ascii_digit())
    }
}

/// The one spelling of a character that has many.
fn plain(typed: char) -> char {
    match typed {
        // Minus sign, hyphens and dashes.
        '\u{2212}' | '\u{2010}'..='\u{2015}' | '\u{fe63}' | '\u{ff0d}' => '-',
        // Prime, quotation marks and accents used as a foot mark.
        '\u{2032}' | '\u{2018}' | '\u{2019}' | '\u{02b9}' | '\u{00b4}' | '`' => '\'',
        // Double prime and quotation marks used as an inch mark.
        '\u{2033}' | '\u{201c}' | '\u{201d}' | '\u{201e}' | '\u{02ba}' => '"',
        // Micro sign and Greek mu.
        '\u{00b5}' | '\u{03bc}' => 'u',
        // Ohm sign, to Greek omega.
        '\u{2126}' => '\u{03a9}',
        // Ordinal sign and ring above, to the degree sign.
        '\u{00ba}' | '\u{02da}' => '\u{00b0}',
        // Fraction slash and division slash.
        '\u{2044}' | '\u{2215}' => '/',
        // Dot operator and bullets, to the middle dot.
        '\u{22c5}' | '\u{2219}' | '\u{2022}' => '\u{00b7}',
        // Marks without width.
        '\u{feff}' | '\u{200b}' => ' ',
        blank if blank.is_whitespace() => ' ',
        other => other,
    }
}

/// The value of a one-character fraction such as ⅝.
pub(super) fn vulgar_fraction(c: char) -> Option<f64> {
    Some(match c {
        '½' => 1.0 / 2.0,
        '⅓' => 1.0 / 3.0,
        '⅔' => 2.0 / 3.0,
        '¼' => 1.0 / 4.0,
        '¾' => 3.0 / 4.0,
        '⅕' => 1.0 / 5.0,
        '⅖' => 2.0 / 5.0,
        '⅗' => 3.0 / 5.0,
        '⅘' => 4.0 / 5.0,
        '⅙' => 1.0 / 6.0,
        '⅚' => 5.0 / 6.0,
        '⅐' => 1.0 / 7.0,
        '⅛' => 1.0 / 8.0,
        '⅜' => 3.0 / 8.0,
        '⅝' => 5.0 / 8.0,
        '⅞' => 7.0 / 8.0,
        '⅑' => 1.0 / 9.0,
        '⅒' => 1.0 / 10.0,
        _ => return None,
    })
}
