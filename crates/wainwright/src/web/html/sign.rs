//! Signal words with their shapes. The words and their order are those of
//! ANSI Z535.4; colour is never the only difference, each word has its own
//! shape. Not here: which finding deserves which word.

use maud::{Markup, html};
use wainwright_rules::Severity;

/// The word in its colour, with its shape.
pub fn sign(severity: Severity) -> Markup {
    html! {
        span class={ "sign " (class(severity)) } {
            (shape(severity))
            span { (severity.word().to_uppercase()) }
        }
    }
}

/// The word with a number, for counts.
pub fn counted(severity: Severity, number: usize) -> Markup {
    let word = severity.word();
    html! {
        a class={ "tally " (class(severity)) @if number == 0 { " none" } }
            href={ "/#" (class(severity)) } data-count=(class(severity)) {
            (shape(severity))
            b { (number) }
            " " span { (word) @if number != 1 { "s" } }
        }
    }
}

/// The word in small letters, for classes and addresses.
pub fn class(severity: Severity) -> &'static str {
    crate::views::finding::severity(severity)
}

/// Eight corners, three, four, none.
pub fn shape(severity: Severity) -> Markup {
    let (outline, mark) = match severity {
        Severity::Danger => ("M7 1h6l5 5v7l-5 5H7l-5-5V6z", "M10 5v6M10 14v.5"),
        Severity::Warning => ("M10 1.5 19 18H1z", "M10 7.5v5M10 15v.5"),
        Severity::Caution => ("M10 .8 19.2 10 10 19.2.8 10z", "M10 5.5v5.5M10 13.5v.5"),
        Severity::Notice => (
            "M10 1.5a8.5 8.5 0 1 1 0 17a8.5 8.5 0 1 1 0-17z",
            "M10 9v5.5M10 5.5v.5",
        ),
    };
    html! {
        svg.shape viewBox="0 0 20 20" width="20" height="20" aria-hidden="true" focusable="false" {
            path.outline d=(outline) {}
            path.mark d=(mark) {}
        }
    }
}
