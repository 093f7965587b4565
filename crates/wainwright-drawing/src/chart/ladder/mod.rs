//! A voltage ladder: one upright scale with what must not be crossed on one side and what is set on the other; what is
//! set now and what is advised are two shapes with an arrow between them. Here: what a ladder is, and how the sheet is
//! shared out. Not here: which value is right, and words.

mod paint;
mod settle;

use super::plot::{LEAST_WIDTH, Mark, Plot, widest};
use crate::geometry::Rect;
use crate::picture::{Pen, Picture, Voice};
use paint::{labels, lane_x, rail, shapes};

/// From this width on labels stand on both sides [px].
const BOTH_SIDES: f64 = 620.0;
/// Least height of the scale [px].
const LEAST_HEIGHT: f64 = 300.0;
/// Width of the scale itself [px]: with its values beside it, and with its values in it.
const RAIL: (f64, f64) = (20.0, 58.0);
/// Width of a lane for one arrow [px].
const LANE: f64 = 11.0;
/// Room between marks and labels, for the leaders [px].
const GUTTER: f64 = 30.0;
/// Empty room above and below the labels [px].
const EDGE: f64 = 8.0;
/// Air below each label [px].
const AIR: f64 = 4.0;

/// A voltage ladder.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Ladder {
    /// Lowest and highest value of the scale.
    pub span: (f64, f64),
    /// Round values, with their texts.
    pub marks: Vec<Mark>,
    /// Stretches that must not be entered.
    pub zones: Vec<(f64, f64)>,
    /// What must not be crossed, and what the battery does by itself.
    pub limits: Vec<Limit>,
    /// What is set on devices.
    pub settings: Vec<Setting>,
}

/// Something that is where it is.
#[derive(Debug, Clone, PartialEq)]
pub struct Limit {
    /// Where.
    pub at: f64,
    /// What, with its value.
    pub text: String,
    /// Whether crossing it does harm; otherwise it is only worth knowing.
    pub hard: bool,
}

/// A setting: as it is, as it should be, or both.
#[derive(Debug, Clone, PartialEq)]
pub struct Setting {
    /// What is set now.
    pub now: Option<f64>,
    /// What is advised.
    pub advised: Option<f64>,
    /// Device, setting and both values.
    pub text: String,
    /// Whether what is set now agrees; then the two are one mark.
    pub agrees: bool,
}

impl Setting {
    /// The value its label belongs to.
    fn at(&self) -> Option<f64> {
        self.now.or(self.advised).filter(|at| at.is_finite())
    }

    /// Both ends of its arrow.
    fn ends(&self) -> Option<(f64, f64)> {
        let (now, advised) = (self.now?, self.advised?);
        (!self.agrees && now.is_finite() && advised.is_finite()).then_some((now, advised))
    }
}

/// A text beside the scale, in lines.
struct Label {
    at: f64,
    /// Where its leader begins.
    from: f64,
    lines: Vec<String>,
    limit: bool,
}

impl Label {
    fn high(&self) -> f64 {
        Voice::Note.height() * self.lines.len() as f64 + AIR
    }
}

/// Draws the ladder; at least 300 px wide, and as high as its labels need. Total: a ladder without anything is an empty
/// scale; values outside of the span stand at its end.
pub fn ladder(ladder: &Ladder, width: f64) -> Picture {
    let width = width.max(LEAST_WIDTH);
    let both = width >= BOTH_SIDES;
    let lanes = lanes(&ladder.settings);
    let most = lanes.iter().max().map_or(0.0, |most| *most as f64 + 1.0);
    let frame = Frame::new(width, widest(&ladder.marks) + 8.0, LANE * most, both);
    let limits = limit_labels(ladder, &frame);
    let settings = setting_labels(ladder, &frame, &lanes);
    let sides = if both {
        vec![limits, settings]
    } else {
        vec![limits.into_iter().chain(settings).collect()]
    };
    let need = |side: &Vec<Label>| side.iter().map(Label::high).sum::<f64>();
    let high = sides.iter().map(need).fold(LEAST_HEIGHT, f64::max);
    let field = Rect::new(frame.rail, EDGE, frame.wide, high);
    let plot = Plot::new(field, ladder.span.0, ladder.span.1);
    let mut pen = Pen::default();
    rail(&mut pen, ladder, &plot, both);
    for (number, side) in sides.into_iter().enumerate() {
        labels(&mut pen, side, &plot, &frame, both && number == 0);
    }
    shapes(&mut pen, ladder, &plot, &lanes, both);
    pen.picture(width, high + 2.0 * EDGE)
}

/// How the width is shared out [px].
struct Frame {
    /// Width of a column of labels.
    column: f64,
    /// Left edge of the scale.
    rail: f64,
    /// Width of the scale.
    wide: f64,
    /// Where labels on the right begin.
    right: f64,
    both: bool,
}

impl Frame {
    fn new(width: f64, values: f64, lanes: f64, both: bool) -> Self {
        let (wide, before) = if both {
            (RAIL.1, 0.0)
        } else {
            (RAIL.0, values)
        };
        let rest = width - wide - before - lanes;
        let column = if both {
            rest / 2.0 - GUTTER
        } else {
            rest - GUTTER
        };
        let rail = if both { column + GUTTER } else { before };
        Self {
            column,
            rail,
            wide,
            right: rail + wide + lanes + GUTTER,
            both,
        }
    }
}

/// The lane of the arrow of each setting; settings without an arrow need none. Arrows in one lane never meet.
fn lanes(settings: &[Setting]) -> Vec<usize> {
    let mut taken: Vec<Vec<(f64, f64)>> = Vec::new();
    let lane = |setting: &Setting| {
        let at = setting.at()?;
        let (one, other) = setting.ends().unwrap_or((at, at));
        let (low, high) = (one.min(other), one.max(other));
        let free = |lane: &Vec<(f64, f64)>| {
            lane.iter()
                .all(|(from, to)| high < from - CLEAR || low > to + CLEAR)
        };
        let found = taken.iter().position(free).unwrap_or(taken.len());
        if found == taken.len() {
            taken.push(Vec::new());
        }
        if let Some(lane) = taken.get_mut(found) {
            lane.push((low, high));
        }
        Some(found)
    };
    let lanes: Vec<Option<usize>> = settings.iter().map(lane).collect();
    lanes.into_iter().map(Option::unwrap_or_default).collect()
}

/// Marks in one lane are at least so far apart, in the unit of the chart.
const CLEAR: f64 = 0.08;

fn limit_labels(ladder: &Ladder, frame: &Frame) -> Vec<Label> {
    let from = if frame.both {
        frame.rail - 2.0
    } else {
        frame.rail + frame.wide + 2.0
    };
    let label = |limit: &Limit| Label {
        at: limit.at,
        from,
        lines: Voice::Note.wrap(&limit.text, frame.column),
        limit: true,
    };
    let known = ladder.limits.iter().filter(|limit| limit.at.is_finite());
    known.map(label).collect()
}

fn setting_labels(ladder: &Ladder, frame: &Frame, lanes: &[usize]) -> Vec<Label> {
    let label = |(setting, lane): (&Setting, &usize)| {
        Some(Label {
            at: setting.at()?,
            from: lane_x(frame.rail + frame.wide, *lane) + 5.0,
            lines: Voice::Note.wrap(&setting.text, frame.column),
            limit: false,
        })
    };
    let pairs = ladder.settings.iter().zip(lanes);
    pairs.filter_map(label).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn crowded() -> Ladder {
        let limit = |at: f64, text: &str| Limit {
            at,
            text: text.into(),
            hard: true,
        };
        let setting = |now: Option<f64>, advised: f64, text: &str| Setting {
            now,
            advised: Some(advised),
            text: text.into(),
            agrees: now == Some(advised),
        };
        Ladder {
            span: (10.0, 15.0),
            marks: (10..=15)
                .map(|volts| Mark::new(f64::from(volts), format!("{volts} V")))
                .collect(),
            zones: vec![(14.6, 15.0), (10.0, 10.4)],
            limits: vec![
                limit(14.6, "The board stops charging: 14.6 V"),
                limit(14.2, "The same with one cell ahead: 14.2 V"),
                limit(13.8, "It charges again below 13.8 V"),
                limit(10.4, "The board cuts the loads off: 10.4 V"),
            ],
            settings: vec![
                setting(
                    Some(14.4),
                    14.0,
                    "Shore charger, absorption: 14.4 V, advised 14 V",
                ),
                setting(
                    Some(14.2),
                    14.0,
                    "Solar controller, absorption: 14.2 V, advised 14 V",
                ),
                setting(
                    Some(14.0),
                    14.0,
                    "DC-DC charger, absorption: 14 V, as advised",
                ),
                setting(None, 13.5, "Solar controller, float: advised 13.5 V"),
                setting(Some(10.5), 12.0, "Inverter, off: 10.5 V, advised 12 V"),
            ],
        }
    }

    #[test]
    fn labels_never_meet_and_stay_on_the_sheet() {
        for width in [300.0, 340.0, 500.0, 700.0, 1100.0] {
            let picture = ladder(&crowded(), width);
            for (number, one) in picture.texts.iter().enumerate() {
                assert!(
                    one.rect.x >= -0.01 && one.rect.right() <= width + 0.01,
                    "{width}: {one:?}"
                );
                assert!(one.rect.y >= 0.0 && one.rect.bottom() <= picture.height);
                for other in picture.texts.iter().skip(number + 1) {
                    assert!(
                        !one.rect.overlaps(&other.rect),
                        "{width}: {one:?} over {other:?}"
                    );
                }
            }
        }
    }

    #[test]
    fn leaders_of_one_side_never_cross() {
        let picture = ladder(&crowded(), 1100.0);
        assert_eq!(picture.leaders.len(), 9);
        let mut right: Vec<_> = picture
            .leaders
            .iter()
            .filter(|[from, to]| to.x > from.x)
            .collect();
        right.sort_by(|one, other| one[0].y.total_cmp(&other[0].y));
        assert!(right.windows(2).all(|pair| pair[0][1].y <= pair[1][1].y));
    }

    #[test]
    fn a_value_stands_at_its_height() {
        let picture = ladder(&crowded(), 1100.0);
        let [from, _] = picture.leaders[0];
        let (top, foot) = (EDGE, picture.height - EDGE);
        // The first label is that of the highest limit, 14.6 V on a scale from 10 V to 15 V.
        assert!((from.y - (foot - (foot - top) * 4.6 / 5.0)).abs() < 1e-9);
    }

    #[test]
    fn arrows_that_would_meet_have_lanes_of_their_own() {
        assert_eq!(lanes(&crowded().settings), vec![0, 1, 2, 0, 0]);
    }

    #[test]
    fn nothing_gives_an_empty_scale() {
        let picture = ladder(&Ladder::default(), 0.0);
        assert!(picture.texts.is_empty() && picture.height > 0.0);
    }
}
