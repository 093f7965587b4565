//! Zones in which something may stand, and single places with their travel.

use super::data::{Mark, MarkKind, Zone};
use super::labels::{Choices, Label, Lines, List, place};
use super::stage::Stage;
use super::things::open;
use crate::board::{Board, Owner, grown};
use crate::geometry::{Point, Rect};
use crate::picture::Pen;
use crate::svg::Ids;
use crate::svg::writer::number;
use std::fmt::Write as _;

/// Between the lines of a hatching [px].
const HATCH: f64 = 9.0;
/// Radius of the sign of a centre of gravity [px].
const CENTRE: f64 = 8.0;
/// Where the name of a zone is broken to be narrow [px].
const NARROW: f64 = 60.0;
/// Lines of a hatching, at most.
const MOST_LINES: usize = 2000;

/// A zone on the sheet.
#[derive(Debug)]
pub(super) struct PlacedZone<'a> {
    pub zone: &'a Zone,
    parts: Vec<Rect>,
    pub label: Option<Label>,
}

/// A single place on the sheet.
#[derive(Debug)]
pub(super) struct PlacedMark<'a> {
    pub mark: &'a Mark,
    at: Point,
    pub label: Option<Label>,
}

/// Places zones; their texts come later.
pub(super) fn zones<'a>(stage: &'a Stage) -> Vec<PlacedZone<'a>> {
    let place = |zone: &'a Zone| PlacedZone {
        zone,
        parts: zone
            .spaces
            .iter()
            .map(|space| stage.frame.rect(space))
            .collect(),
        label: None,
    };
    stage.scene.zones.iter().map(place).collect()
}

/// Places marks and keeps texts off them.
pub(super) fn marks<'a>(stage: &'a Stage, board: &mut Board) -> Vec<PlacedMark<'a>> {
    let place = |mark: &'a Mark| {
        let at = stage.frame.point(mark.at);
        board.text(around(at, radius(mark.kind)));
        let travel: Vec<Point> = mark
            .travel
            .iter()
            .map(|spot| stage.frame.point(*spot))
            .collect();
        for pair in travel.windows(2) {
            if let &[a, b] = pair {
                board.line(a, b);
            }
        }
        PlacedMark {
            mark,
            at,
            label: None,
        }
    };
    stage.scene.points.iter().map(place).collect()
}

/// Finds places for the names of marks, then of zones.
pub(super) fn label(
    zones: &mut [PlacedZone],
    marks: &mut [PlacedMark],
    board: &mut Board,
    list: &mut List,
) {
    for placed in marks {
        let mut choices = Choices::default();
        let body = around(placed.at, radius(placed.mark.kind));
        choices.outside(&Lines::new(&placed.mark.label, ""), body, 0.0);
        choices.number(body);
        placed.label = place(board, list, Owner::Over, &placed.mark.label, choices);
    }
    for placed in zones {
        let mut choices = Choices::default();
        let lines = Lines::new(&placed.zone.label, "");
        for part in &placed.parts {
            choices.inside(&lines, *part, 0.0);
            choices.inside(&Lines::wrapped(&placed.zone.label, "", NARROW), *part, 1.0);
        }
        for part in &placed.parts {
            choices.outside(&lines, *part, 0.0);
            choices.number(*part);
        }
        placed.label = place(board, list, Owner::Below, &placed.zone.label, choices);
    }
}

fn around(at: Point, radius: f64) -> Rect {
    grown(Rect::new(at.x, at.y, 0.0, 0.0), radius)
}

fn radius(kind: MarkKind) -> f64 {
    match kind {
        MarkKind::Centre => CENTRE,
        MarkKind::Anchor => 5.0,
        MarkKind::Dot => 3.5,
    }
}

/// Draws one zone. It lies below the things.
pub(super) fn draw_zone(pen: &mut Pen, placed: &PlacedZone, ids: &mut Ids) {
    let zone = placed.zone;
    let id = ids.next("zone", &zone.id);
    let class = format!("zone {}", zone.tone.class());
    open(pen, &id, &class, &zone.id, "zone", &zone.words, None);
    for part in &placed.parts {
        pen.out.rect("area", *part, 0.0);
        pen.out.path("hatching", &hatching(*part));
    }
    pen.out.close();
}

/// Slanting lines within a rectangle.
fn hatching(rect: Rect) -> String {
    let mut data = String::new();
    let (width, height) = (rect.width, rect.height);
    let last = ((width + height) / HATCH) as usize;
    for line in 1..=last.min(MOST_LINES) {
        // On each line x + y is the same, counted from the upper left corner.
        let sum = line as f64 * HATCH;
        let (low, high) = ((sum - height).max(0.0), sum.min(width));
        if high > low {
            let points = [
                rect.x + low,
                rect.y + sum - low,
                rect.x + high,
                rect.y + sum - high,
            ];
            let [a, b, c, d] = points.map(number);
            let _ = write!(data, "M{a} {b}L{c} {d}");
        }
    }
    data
}

/// Draws one single place with its travel, over everything else.
pub(super) fn draw_mark(pen: &mut Pen, placed: &PlacedMark, stage: &Stage, ids: &mut Ids) {
    let mark = placed.mark;
    let id = ids.next("point", &mark.id);
    let class = format!("point {}", mark.tone.class());
    open(pen, &id, &class, &mark.id, "point", &mark.words, None);
    if let Some(spread) = &mark.spread {
        let metres = |axis: super::measure::Axis| match axis {
            super::measure::Axis::Along => spread.along_m,
            super::measure::Axis::Across => spread.across_m,
            super::measure::Axis::Up => spread.up_m,
        };
        let scale = stage.frame.units_per_m;
        let half = |axis| (metres(axis).abs() * scale).min(stage.width);
        let (x, y) = (number(placed.at.x), number(placed.at.y));
        let (rx, ry) = (
            number(half(stage.frame.right.axis)),
            number(half(stage.frame.down.axis)),
        );
        let attributes = [
            ("class", "spread"),
            ("cx", &x),
            ("cy", &y),
            ("rx", &rx),
            ("ry", &ry),
        ];
        pen.out.leaf("ellipse", &attributes);
    }
    let travel: Vec<Point> = mark
        .travel
        .iter()
        .map(|spot| stage.frame.point(*spot))
        .collect();
    for pair in travel.windows(2) {
        if let &[a, b] = pair {
            pen.out.line("travel", a, b);
        }
    }
    for stop in &travel {
        pen.out.circle("stop", *stop, 2.2);
    }
    sign(pen, mark.kind, placed.at);
    if let Some(label) = &placed.label {
        label.write(pen);
    }
    pen.out.close();
}

fn sign(pen: &mut Pen, kind: MarkKind, at: Point) {
    let radius = radius(kind);
    match kind {
        MarkKind::Dot => pen.out.circle("spot", at, radius),
        MarkKind::Anchor => pen.out.circle("ring", at, radius),
        MarkKind::Centre => {
            pen.out.circle("ring", at, radius);
            let (x, y, r) = (number(at.x), number(at.y), number(radius));
            let quarters = format!(
                "M{x} {y}V{}A{r} {r} 0 0 1 {} {y}ZM{x} {y}V{}A{r} {r} 0 0 1 {} {y}Z",
                number(at.y - radius),
                number(at.x + radius),
                number(at.y + radius),
                number(at.x - radius)
            );
            pen.out.path("quarters", &quarters);
        }
    }
}
