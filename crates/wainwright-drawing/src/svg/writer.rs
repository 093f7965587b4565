//! The only place that knows XML: elements, attributes and escaping.

use crate::geometry::Point;
use std::fmt::Write as _;

/// Builds one SVG text.
#[derive(Debug, Default)]
pub(crate) struct Writer {
    text: String,
    open: Vec<&'static str>,
}

impl Writer {
    /// Opens an element; close it with [`Writer::close`].
    pub fn open(&mut self, tag: &'static str, attributes: &[(&str, &str)]) {
        self.start(tag, attributes);
        self.text.push('>');
        self.open.push(tag);
    }

    /// Closes the element opened last.
    pub fn close(&mut self) {
        if let Some(tag) = self.open.pop() {
            let _ = write!(self.text, "</{tag}>");
            if tag == "g" {
                self.text.push('\n');
            }
        }
    }

    /// An element without content.
    pub fn leaf(&mut self, tag: &'static str, attributes: &[(&str, &str)]) {
        self.start(tag, attributes);
        self.text.push_str("/>");
    }

    /// An element with text content.
    pub fn text(&mut self, tag: &'static str, attributes: &[(&str, &str)], content: &str) {
        self.start(tag, attributes);
        let _ = write!(self.text, ">{}</{tag}>", escape(content));
    }

    /// A text at a place.
    pub fn label(&mut self, class: &str, at: Point, content: &str) {
        let (x, y) = (number(at.x), number(at.y));
        self.text("text", &[("class", class), ("x", &x), ("y", &y)], content);
    }

    /// A path.
    pub fn path(&mut self, class: &str, data: &str) {
        self.leaf("path", &[("class", class), ("d", data)]);
    }

    /// A straight line.
    pub fn line(&mut self, class: &str, from: Point, to: Point) {
        let data = format!(
            "M{} {}L{} {}",
            number(from.x),
            number(from.y),
            number(to.x),
            number(to.y)
        );
        self.path(class, &data);
    }

    /// A rectangle, with rounded corners if `round` [px] is not 0.
    pub fn rect(&mut self, class: &str, rect: crate::geometry::Rect, round: f64) {
        let numbers = [rect.x, rect.y, rect.width, rect.height, round].map(number);
        let [x, y, width, height, round] = numbers.each_ref().map(String::as_str);
        self.leaf(
            "rect",
            &[
                ("class", class),
                ("x", x),
                ("y", y),
                ("width", width),
                ("height", height),
                ("rx", round),
            ],
        );
    }

    /// A circle.
    pub fn circle(&mut self, class: &str, at: Point, radius: f64) {
        let (x, y, r) = (number(at.x), number(at.y), number(radius));
        self.leaf(
            "circle",
            &[("class", class), ("cx", &x), ("cy", &y), ("r", &r)],
        );
    }

    /// Style rules of our own; they hold no text from a person.
    pub fn style(&mut self, rules: &str) {
        self.text("style", &[], rules);
    }

    /// Elements that another writer has finished.
    pub fn finished(&mut self, elements: &str) {
        self.text.push_str(elements);
    }

    /// The finished text; open elements are closed.
    pub fn finish(mut self) -> String {
        while !self.open.is_empty() {
            self.close();
        }
        self.text
    }

    fn start(&mut self, tag: &str, attributes: &[(&str, &str)]) {
        let _ = write!(self.text, "<{tag}");
        for (name, value) in attributes {
            let _ = write!(self.text, " {name}=\"{}\"", escape(value));
        }
    }
}

/// Text made safe inside elements and attributes; characters XML forbids are left out.
pub(crate) fn escape(text: &str) -> String {
    let mut safe = String::with_capacity(text.len());
    for letter in text.chars() {
        match letter {
            '&' => safe.push_str("&amp;"),
            '<' => safe.push_str("&lt;"),
            '>' => safe.push_str("&gt;"),
            '"' => safe.push_str("&quot;"),
            '\'' => safe.push_str("&#39;"),
            '\t' | '\n' | '\r' => safe.push(' '),
            letter if (letter as u32) < 0x20 || matches!(letter, '\u{FFFE}' | '\u{FFFF}') => {}
            letter => safe.push(letter),
        }
    }
    safe
}

/// A coordinate with at most one decimal place; not-a-number becomes 0.
pub(crate) fn number(value: f64) -> String {
    if !value.is_finite() {
        return "0".into();
    }
    let tenths = (value * 10.0).round() / 10.0;
    if tenths == tenths.trunc() {
        format!("{}", tenths as i64)
    } else {
        format!("{tenths:.1}")
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn escapes_everything_that_could_leave_an_attribute() {
        assert_eq!(
            escape("<a b=\"c\">&'"),
            "&lt;a b=&quot;c&quot;&gt;&amp;&#39;"
        );
        assert_eq!(escape("a\u{0}b\u{1b}c\nd"), "abc d");
    }

    #[test]
    fn numbers_are_short_and_never_broken() {
        assert_eq!(number(12.0), "12");
        assert_eq!(number(-0.04), "0");
        assert_eq!(number(3.25), "3.3");
        assert_eq!(number(f64::NAN), "0");
    }
}
