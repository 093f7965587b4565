//! When a protective device opens, against how long the wire stands it, on a
//! logarithmic axis of time.

use super::open_chart;
use crate::diagram::Tone;
use crate::geometry::{Point, Rect};
use crate::svg::Css;
use crate::svg::writer::Writer;
use crate::text::text_width;

const WIDTH: f64 = 420.0;
const HEIGHT: f64 = 104.0;
const LEFT: f64 = 12.0;
const RIGHT: f64 = 408.0;
/// Ends of the axis as powers of ten [s].
const DECADES: (i32, i32) = (-3, 4);

/// What a time band shows.
#[derive(Debug, Clone, PartialEq)]
pub struct TimeBand {
    /// What opens, e.g. `Fuse 15 A at 240 A`.
    pub device: String,
    /// Shortest opening time [s]; `None` if it may not open at all, even at its quickest.
    pub earliest_seconds: Option<f64>,
    /// Longest opening time [s]; `None` if it may never open.
    pub latest_seconds: Option<f64>,
    /// What stands it, e.g. `14 AWG to 160 °C`.
    pub conductor: String,
    /// How long it stands it [s]; `None` for ever.
    pub withstand_seconds: Option<f64>,
    /// How it fares.
    pub tone: Tone,
}

/// Draws the opening band above the withstand time, on one axis.
pub fn time_band(band: &TimeBand, css: Css) -> String {
    let mut out = Writer::default();
    open_chart(&mut out, &words(band), WIDTH, HEIGHT, css);
    out.label("value", Point::new(LEFT, 14.0), &opening_text(band));
    let (from, open_end) = (x(band.earliest_seconds), band.latest_seconds.is_none());
    out.open("g", &[("class", &band.tone.class())]);
    let to = x(band.latest_seconds).max(from + 3.0).min(RIGHT);
    let class = if open_end { "fill hatch" } else { "fill" };
    out.rect(
        class,
        Rect::new(from.min(to - 3.0), 20.0, to - from.min(to - 3.0), 12.0),
        2.0,
    );
    out.close();
    if open_end {
        out.path("sym", &format!("M{:.0} 21l5 5l-5 5", RIGHT - 6.0));
    }
    out.label("value", Point::new(LEFT, 48.0), &withstand_text(band));
    out.rect(
        "track",
        Rect::new(LEFT, 54.0, x(band.withstand_seconds) - LEFT, 12.0),
        2.0,
    );
    if band.withstand_seconds.is_some() {
        let limit = x(band.withstand_seconds);
        out.line("limit", Point::new(limit, 18.0), Point::new(limit, 72.0));
    }
    axis(&mut out);
    out.finish()
}

fn axis(out: &mut Writer) {
    out.line("axis", Point::new(LEFT, 78.0), Point::new(RIGHT, 78.0));
    for decade in DECADES.0..=DECADES.1 {
        let at = x(Some(10f64.powi(decade)));
        out.line("axis", Point::new(at, 75.0), Point::new(at, 81.0));
        let text = seconds(10f64.powi(decade));
        let half = text_width(&text, 11.0) / 2.0;
        let middle = at.max(half + 1.0).min(WIDTH - half - 1.0);
        out.label("fact middle", Point::new(middle, 96.0), &text);
    }
}

/// Place of a time on the axis; no time is its right end.
fn x(time: Option<f64>) -> f64 {
    let (low, high) = (f64::from(DECADES.0), f64::from(DECADES.1));
    let decade = match time {
        Some(seconds) if seconds > 0.0 => seconds.log10(),
        Some(_) => low,
        None => high,
    };
    LEFT + (decade.clamp(low, high) - low) / (high - low) * (RIGHT - LEFT)
}

fn opening_text(band: &TimeBand) -> String {
    let text = match (band.earliest_seconds, band.latest_seconds) {
        (Some(from), Some(to)) => format!("opens in {} to {}", seconds(from), seconds(to)),
        (None, Some(to)) => format!("opens within {}", seconds(to)),
        (Some(from), None) => format!("opens after {} or never", seconds(from)),
        (None, None) => "may never open".into(),
    };
    format!("{}: {text}", band.device)
}

fn withstand_text(band: &TimeBand) -> String {
    match band.withstand_seconds {
        Some(time) => format!("{}: {}", band.conductor, seconds(time)),
        None => format!("{}: without end", band.conductor),
    }
}

fn words(band: &TimeBand) -> String {
    [opening_text(band), withstand_text(band), band.tone.words()].join(". ")
}

/// A time in the unit people would use.
fn seconds(time: f64) -> String {
    let digits = |value: f64, unit: &str| match value {
        value if value >= 9.95 => format!("{value:.0} {unit}"),
        value => {
            let text = format!("{value:.1}");
            format!("{} {unit}", text.trim_end_matches(".0"))
        }
    };
    match time {
        time if !time.is_finite() => "unknown".into(),
        time if time < 0.9995 => digits(time * 1e3, "ms"),
        time if time < 119.95 => digits(time, "s"),
        time if time < 7195.0 => digits(time / 60.0, "min"),
        time => digits(time / 3600.0, "h"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn times_are_placed_by_decade_and_never_off_the_axis() {
        let step = x(Some(1.0)) - x(Some(0.1));
        assert!((x(Some(1000.0)) - x(Some(100.0)) - step).abs() < 1e-9);
        assert_eq!(x(Some(1e-9)), LEFT);
        assert_eq!(x(Some(0.0)), LEFT);
        assert_eq!(x(None), RIGHT);
        assert_eq!(x(Some(1e12)), RIGHT);
    }

    #[test]
    fn times_read_in_fitting_units() {
        assert_eq!(seconds(0.001), "1 ms");
        assert_eq!(seconds(0.25), "250 ms");
        assert_eq!(seconds(2.5), "2.5 s");
        assert_eq!(seconds(600.0), "10 min");
        assert_eq!(seconds(10_000.0), "2.8 h");
    }
}
