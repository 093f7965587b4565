//! The allowed range of a setting as a small bar, with what is advised and what is set now. Not here: words.

use maud::{Markup, html};

/// Width of the drawing; its unit is arbitrary.
const WIDTH: f64 = 240.0;
const HEIGHT: f64 = 22.0;
/// Room beside the outermost mark.
const EDGE: f64 = 8.0;
/// What lies outside of the range is shown up to so many times its width.
const BESIDE: f64 = 0.25;

/// What the bar shows, all in one unit.
#[derive(Debug, Clone, Copy)]
pub struct Bar {
    /// Lower end of the range.
    pub low: f64,
    /// Upper end; below the lower one the range is empty.
    pub high: f64,
    /// What is advised.
    pub advised: Option<f64>,
    /// What is set now.
    pub now: Option<f64>,
    /// Whether what is set lies in the range.
    pub agrees: bool,
}

/// Where values stand on the bar.
struct Scale {
    from: f64,
    span: f64,
}

impl Scale {
    fn of(bar: &Bar) -> Self {
        let ends = [Some(bar.low), Some(bar.high), bar.advised, bar.now];
        let known = || {
            ends.iter()
                .flatten()
                .copied()
                .filter(|value| value.is_finite())
        };
        let (least, most) = (
            known().fold(f64::INFINITY, f64::min),
            known().fold(f64::NEG_INFINITY, f64::max),
        );
        let air = ((bar.high - bar.low).abs() * BESIDE)
            .max((most - least) * 0.05)
            .max(f64::MIN_POSITIVE);
        Self {
            from: least - air,
            span: most - least + 2.0 * air,
        }
    }

    fn x(&self, value: f64) -> f64 {
        let share = (value - self.from) / self.span;
        let share = if share.is_finite() {
            share.clamp(0.0, 1.0)
        } else {
            0.5
        };
        EDGE + share * (WIDTH - 2.0 * EDGE)
    }
}

/// Draws the bar, read aloud as `words`.
pub fn bar(bar: &Bar, words: &str) -> Markup {
    let scale = Scale::of(bar);
    let (low, high) = (scale.x(bar.low), scale.x(bar.high));
    let (left, right) = (low.min(high), low.max(high));
    let class = if bar.low > bar.high {
        "span empty"
    } else {
        "span"
    };
    let text = |x: f64| format!("{x:.1}");
    html! {
        svg.range-bar viewBox={ "0 0 " (WIDTH) " " (HEIGHT) } role="img" aria-label=(words) {
            rect.track x=(text(EDGE / 2.0)) y="8" width=(text(WIDTH - EDGE)) height="6" rx="3" {}
            rect class=(class) x=(text(left)) y="6" width=(text((right - left).max(2.0))) height="10" rx="2" {}
            @for end in [left, right] { rect.range-end x=(text(end - 1.0)) y="3" width="2" height="16" {} }
            @if let Some(advised) = bar.advised {
                @let x = scale.x(advised);
                path.advised d=(format!("M{x:.1} 4l7 7l-7 7l-7 -7z")) {}
            }
            @if let Some(now) = bar.now {
                circle.now.out[!bar.agrees] cx=(text(scale.x(now))) cy="11" r="5" {}
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn values_stand_in_their_order_and_on_the_bar() {
        let bar = Bar {
            low: 13.8,
            high: 14.1,
            advised: Some(13.9),
            now: Some(14.6),
            agrees: false,
        };
        let scale = Scale::of(&bar);
        let places = [13.8, 13.9, 14.1, 14.6].map(|value| scale.x(value));
        assert!(places.is_sorted_by(|a, b| a < b), "{places:?}");
        assert!(places[0] > 0.0 && places[3] < WIDTH);
    }

    #[test]
    fn a_range_without_width_is_no_trouble() {
        let bar = Bar {
            low: 0.0,
            high: 0.0,
            advised: Some(0.0),
            now: None,
            agrees: true,
        };
        assert!(Scale::of(&bar).x(0.0).is_finite());
    }
}
