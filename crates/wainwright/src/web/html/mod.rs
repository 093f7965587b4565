//! Pieces that several pages are made of. Not here: whole pages.

pub mod bar;
pub mod finding;
pub mod fix;
pub mod loose;
pub mod shell;
pub mod sign;
pub mod within;
pub mod working;

use maud::{Markup, html};

/// A path segment or query value, safe inside an address.
pub fn encoded(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for byte in text.bytes() {
        if byte.is_ascii_alphanumeric() || matches!(byte, b'-' | b'_' | b'.' | b'~') {
            out.push(char::from(byte));
        } else {
            out.push_str(&format!("%{byte:02X}"));
        }
    }
    out
}

/// A text made into an `id` of the page.
pub fn slug(text: &str) -> String {
    let letter = |c: char| if c.is_ascii_alphanumeric() { c } else { '-' };
    text.chars().map(letter).collect()
}

/// "1 wire", "2 wires".
pub fn count(number: usize, one: &str, many: &str) -> String {
    format!("{number} {}", if number == 1 { one } else { many })
}

/// The hidden field that says which state of the project a form was drawn from.
pub fn revision(revision: u64) -> Markup {
    html! { input type="hidden" name="revision" value=(revision); }
}

/// The hidden field that says where to go afterwards.
pub fn back(here: &str) -> Markup {
    html! { input type="hidden" name="back" value=(here); }
}

/// What to mind before acting on a finding, where one acts.
pub fn care() -> Markup {
    html! {
        p.care {
            "Apply changes the project file, not the trailer. Before you touch a wire, disconnect every source: "
            "battery, shore power, solar, tow vehicle. A shorted battery burns; mains voltage kills."
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn addresses_hold_no_character_with_a_meaning() {
        assert_eq!(encoded("a b&c=d/é"), "a%20b%26c%3Dd%2F%C3%A9");
        assert_eq!(slug("voltage-drop:wire.a"), "voltage-drop-wire-a");
    }
}
