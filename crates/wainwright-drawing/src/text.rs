//! How wide a text will be, without a font at hand.
//!
//! The table is deliberately wide: a generic sans font differs between
//! computers, and a box that is a little too large is better than a text that
//! runs over its neighbour. Judgement, checked by looking.

/// Estimated width of `text` at `size` [px] in a generic sans font, on the wide side [px].
pub fn text_width(text: &str, size: f64) -> f64 {
    text.chars().map(em_width).sum::<f64>() * size
}

/// `text`, shortened with an ellipsis until it is at most `width` [px] wide at `size` [px].
pub fn fit(text: &str, size: f64, width: f64) -> String {
    if text_width(text, size) <= width {
        return text.to_owned();
    }
    let room = width - em_width('…') * size;
    let mut used = 0.0;
    let mut short = String::new();
    for letter in text.chars() {
        used += em_width(letter) * size;
        if used > room {
            break;
        }
        short.push(letter);
    }
    format!("{}…", short.trim_end())
}

/// Width of one letter in parts of the letter height.
fn em_width(letter: char) -> f64 {
    match letter {
        'i' | 'j' | 'l' | '\'' | '|' | '!' | '.' | ',' | ':' | ';' | '·' | ' ' => 0.33,
        'f' | 't' | 'r' | 'I' | '(' | ')' | '[' | ']' | '/' | '\\' | '-' => 0.42,
        'm' | 'w' | 'M' | 'W' | '%' | '@' | '…' | '—' => 1.0,
        '+' | '=' | '<' | '>' | '~' | '×' | '≈' | '±' => 0.84,
        '0'..='9' => 0.64,
        'A'..='Z' => 0.74,
        'a'..='z' | '"' | '²' | '°' | '–' | '_' | '*' | '?' | '#' | '$' => 0.62,
        letter if letter.is_control() => 0.0,
        letter if (letter as u32) < 0x2E80 => 0.8,
        _ => 1.05,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn longer_text_is_wider_and_size_scales() {
        assert!(text_width("10 AWG", 11.0) < text_width("10 AWG · 12 ft", 11.0));
        assert!((text_width("abc", 22.0) - 2.0 * text_width("abc", 11.0)).abs() < 1e-9);
        assert_eq!(text_width("", 11.0), 0.0);
    }

    #[test]
    fn fitted_text_fits_and_short_text_is_untouched() {
        assert_eq!(fit("pump", 11.0, 200.0), "pump");
        let short = fit("a very long name of a very small lamp", 11.0, 80.0);
        assert!(short.ends_with('…'));
        assert!(text_width(&short, 11.0) <= 80.0);
    }

    #[test]
    fn letters_outside_latin_are_taken_as_wide() {
        assert!(text_width("電", 10.0) >= 10.0);
    }
}
