//! Voltage along the way from the source to a load: one step per part passed.

use super::open_chart;
use crate::diagram::Tone;
use crate::geometry::{Point, Rect};
use crate::svg::Css;
use crate::svg::writer::{Writer, number};
use crate::text::{fit, text_width};
use std::fmt::Write as _;

const HEIGHT: f64 = 232.0;
const LEFT: f64 = 56.0;
const TOP: f64 = 24.0;
const FLOOR: f64 = 132.0;
/// Width of one step [px].
const STEP: f64 = 64.0;

/// The way from source to load.
#[derive(Debug, Clone, PartialEq)]
pub struct Profile {
    /// What it is, e.g. `Voltage from battery to fridge`.
    pub title: String,
    /// Voltage before the first step [V].
    pub start_volts: f64,
    /// The parts passed, in order.
    pub steps: Vec<Step>,
    /// Lowest voltage wanted at the end [V].
    pub limit_volts: Option<f64>,
}

/// One part passed on the way.
#[derive(Debug, Clone, PartialEq)]
pub struct Step {
    /// What is passed, e.g. `12 AWG · 6 ft`.
    pub label: String,
    /// Voltage behind it [V].
    pub volts: f64,
    /// How it fares.
    pub tone: Tone,
}

/// Draws the profile; the scale runs from just below the lowest to just above the highest value.
pub fn profile(profile: &Profile, css: Css) -> String {
    let width = LEFT + STEP * profile.steps.len().max(3) as f64 + 64.0;
    let mut out = Writer::default();
    open_chart(&mut out, &words(profile), width, HEIGHT, css);
    out.label(
        "title",
        Point::new(4.0, 14.0),
        &fit(&profile.title, 13.5, width - 8.0),
    );
    let scale = Scale::new(profile);
    axis(&mut out, &scale, width);
    let right = LEFT + STEP * profile.steps.len() as f64;
    if let Some(limit) = profile.limit_volts.filter(|volts| volts.is_finite()) {
        let y = scale.y(limit);
        out.line(
            "limit dashed",
            Point::new(LEFT, y),
            Point::new(right.max(LEFT + STEP), y),
        );
        let text = format!("limit {}", volts(limit));
        out.label("fact", Point::new(LEFT + 4.0, y - 4.0), &text);
    }
    let mut level = profile.start_volts;
    let mut curve = format!("M{} {}", number(LEFT), number(scale.y(level)));
    for (index, step) in profile.steps.iter().enumerate() {
        let x = LEFT + STEP * index as f64;
        let (from, to) = (scale.y(level), scale.y(step.volts));
        out.open("g", &[("class", &step.tone.class())]);
        let drop = Rect::new(x + STEP * 0.3, from.min(to), STEP * 0.4, (to - from).abs());
        out.rect("fill hatch", drop, 0.0);
        out.close();
        let _ = write!(
            curve,
            "H{}L{} {}H{}",
            number(x + STEP * 0.3),
            number(x + STEP * 0.7),
            number(to),
            number(x + STEP)
        );
        step_texts(&mut out, step, level, x + STEP / 2.0);
        level = step.volts;
    }
    out.path("curve", &curve);
    if level.is_finite() {
        let end = Point::new(right + 6.0, scale.y(level) + 4.0);
        out.label("value", end, &volts(level));
    }
    out.finish()
}

/// Name and drop below the axis; names lean so that they do not meet.
fn step_texts(out: &mut Writer, step: &Step, before: f64, x: f64) {
    let drop = before - step.volts;
    let drop = if drop.is_finite() {
        format!("{:.0} mV", drop * 1e3)
    } else {
        "unknown".into()
    };
    out.label("value middle", Point::new(x, FLOOR + 16.0), &drop);
    let turn = format!("rotate(-35 {} {})", number(x + 8.0), number(FLOOR + 32.0));
    let (x, y) = (number(x + 8.0), number(FLOOR + 32.0));
    let attributes = [
        ("class", "fact end"),
        ("x", x.as_str()),
        ("y", y.as_str()),
        ("transform", turn.as_str()),
    ];
    out.text("text", &attributes, &fit(&step.label, 11.0, 104.0));
}

fn axis(out: &mut Writer, scale: &Scale, width: f64) {
    out.line("axis", Point::new(LEFT, TOP), Point::new(LEFT, FLOOR));
    out.line(
        "axis",
        Point::new(LEFT, FLOOR),
        Point::new(width - 60.0, FLOOR),
    );
    for volts in scale.ticks() {
        let y = scale.y(volts);
        out.line("axis", Point::new(LEFT - 4.0, y), Point::new(LEFT, y));
        let text = format!("{volts:.1} V");
        let x = LEFT - 7.0 - text_width(&text, 11.0).min(LEFT - 9.0);
        out.label("fact", Point::new(x, y + 4.0), &text);
    }
}

/// From volts to heights.
struct Scale {
    low: f64,
    high: f64,
}

impl Scale {
    fn new(profile: &Profile) -> Self {
        let all = profile
            .steps
            .iter()
            .map(|step| step.volts)
            .chain([profile.start_volts]);
        let all = all
            .chain(profile.limit_volts)
            .filter(|volts| volts.is_finite());
        let (low, high) = all.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), v| {
            (low.min(v), high.max(v))
        });
        let span = (high - low).max(0.2);
        match low.is_finite() {
            true => Self {
                low: low - 0.1 * span,
                high: low + 1.1 * span,
            },
            false => Self {
                low: 0.0,
                high: 1.0,
            },
        }
    }

    fn y(&self, volts: f64) -> f64 {
        let volts = if volts.is_finite() { volts } else { self.low };
        FLOOR - (volts - self.low) / (self.high - self.low) * (FLOOR - TOP)
    }

    /// Round values, two to seven of them.
    fn ticks(&self) -> Vec<f64> {
        let span = self.high - self.low;
        let rough = 10f64.powf((span / 3.0).log10().floor());
        let fits = |factor: &&f64| span / (rough * **factor) <= 6.0;
        let step = rough
            * [1.0, 2.0, 5.0, 10.0]
                .iter()
                .find(fits)
                .copied()
                .unwrap_or(10.0);
        let step = step.max(0.1);
        let first = (self.low / step).ceil() as i64;
        let last = (self.high / step).floor() as i64;
        (first..=last.min(first + 12))
            .map(|tick| tick as f64 * step)
            .collect()
    }
}

fn words(profile: &Profile) -> String {
    let mut words = format!(
        "{}: {} at the start",
        profile.title,
        volts(profile.start_volts)
    );
    for step in &profile.steps {
        let _ = write!(words, ", {} behind {}", volts(step.volts), step.label);
    }
    if let Some(limit) = profile.limit_volts {
        let _ = write!(words, "; limit {}", volts(limit));
    }
    words
}

fn volts(value: f64) -> String {
    match value.is_finite() {
        true => format!("{value:.2} V"),
        false => "unknown".into(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sample(start: f64, end: f64) -> Profile {
        Profile {
            title: "t".into(),
            start_volts: start,
            steps: vec![Step {
                label: "wire".into(),
                volts: end,
                tone: Tone::Calm,
            }],
            limit_volts: None,
        }
    }

    #[test]
    fn higher_volts_are_drawn_higher_and_inside() {
        let scale = Scale::new(&sample(12.8, 12.1));
        assert!(scale.y(12.8) < scale.y(12.1));
        assert!(scale.y(12.8) >= TOP && scale.y(12.1) <= FLOOR);
    }

    #[test]
    fn ticks_are_few_and_inside_for_any_span() {
        for (start, end) in [
            (12.8, 12.1),
            (12.8, 12.79),
            (52.0, 0.0),
            (f64::NAN, 1.0),
            (400.0, 5.0),
        ] {
            let scale = Scale::new(&sample(start, end));
            let ticks = scale.ticks();
            assert!((1..=13).contains(&ticks.len()), "{start} {end}: {ticks:?}");
            assert!(
                ticks
                    .iter()
                    .all(|v| *v >= scale.low - 1e-9 && *v <= scale.high + 1e-9)
            );
        }
    }
}
