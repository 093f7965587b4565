//! A level bar: how much of a limit is used.

use super::open_chart;
use crate::diagram::Tone;
use crate::geometry::{Point, Rect};
use crate::svg::Css;
use crate::svg::writer::Writer;
use crate::text::text_width;

const WIDTH: f64 = 320.0;
const HEIGHT: f64 = 46.0;
/// Share of the width at which the limit stands, so that an excess can be seen.
const LIMIT_AT: f64 = 0.75;

/// What a bar shows.
#[derive(Debug, Clone, PartialEq)]
pub struct Bar {
    /// What is measured, e.g. `Wire current`.
    pub label: String,
    /// The value, in any unit.
    pub value: f64,
    /// Its limit in the same unit, above 0.
    pub limit: f64,
    /// The value as people read it, e.g. `8.3 A`.
    pub value_text: String,
    /// The limit as people read it, e.g. `of 20 A`.
    pub limit_text: String,
    /// How it fares.
    pub tone: Tone,
}

/// Draws `bar`; a value far above the limit ends at the right edge with an arrow.
pub fn bar(bar: &Bar, css: Css) -> String {
    let mut out = Writer::default();
    let tone = bar.tone.words();
    let words = format!(
        "{}: {} {} {tone}",
        bar.label, bar.value_text, bar.limit_text
    );
    open_chart(&mut out, words.trim(), WIDTH, HEIGHT, css);
    let known = bar.value.is_finite() && bar.limit.is_finite() && bar.limit > 0.0;
    let share = if known {
        (bar.value / bar.limit).max(0.0)
    } else {
        0.0
    };
    let full = WIDTH - 2.0;
    let length = (share * LIMIT_AT).min(1.0) * full;
    out.label("fact", Point::new(1.0, 12.0), &bar.label);
    let numbers = format!("{} {}", bar.value_text, bar.limit_text);
    out.label("title end", Point::new(WIDTH - 1.0, 12.0), &numbers);
    out.rect("track", Rect::new(1.0, 20.0, full, 14.0), 3.0);
    out.open("g", &[("class", &bar.tone.class())]);
    out.rect("fill", Rect::new(1.0, 20.0, length, 14.0), 3.0);
    out.close();
    let limit = 1.0 + LIMIT_AT * full;
    out.line("limit", Point::new(limit, 16.0), Point::new(limit, 38.0));
    if share * LIMIT_AT > 1.0 {
        out.path("sym", &format!("M{:.0} 22l6 5l-6 5", WIDTH - 12.0));
    }
    let percent = match known {
        true => format!("{:.0} %", share * 100.0),
        false => "unknown".into(),
    };
    let text = (length + 6.0).min(limit - text_width(&percent, 11.0) - 6.0);
    let base = if length + 6.0 > text { 45.0 } else { 31.0 };
    out.label("value", Point::new(text.max(4.0), base), &percent);
    out.finish()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn length(value: f64, limit: f64) -> f64 {
        let text = bar(
            &Bar {
                label: "l".into(),
                value,
                limit,
                value_text: "v".into(),
                limit_text: "of l".into(),
                tone: Tone::Calm,
            },
            Css::OnPage,
        );
        let fill = text.split("class=\"fill\"").nth(1).unwrap();
        let width = fill.split("width=\"").nth(1).unwrap();
        width.split('"').next().unwrap().parse().unwrap()
    }

    #[test]
    fn fill_ends_at_the_limit_mark_when_the_limit_is_reached_and_never_leaves_the_bar() {
        assert!(
            (length(20.0, 20.0) - 238.5).abs() < 0.1,
            "three quarters of 318 px"
        );
        assert!((length(10.0, 20.0) - 119.3).abs() < 0.1);
        assert_eq!(length(1e9, 20.0), 318.0);
        assert_eq!(length(-5.0, 20.0), 0.0);
        assert_eq!(length(5.0, 0.0), 0.0, "without a limit nothing is claimed");
    }
}
