//! Symbols of our own, in the plain line style of general circuit-diagram
//! conventions (IEC 60617): strokes for a cell, a box with a line for a fuse,
//! a lever for a switch. Each is drawn around a centre.

use crate::diagram::BlockKind;
use crate::geometry::{Point, Rect};
use crate::svg::writer::Writer;

/// Symbol beside a text, about 28 px wide.
pub(crate) fn draw(out: &mut Writer, kind: BlockKind, at: Point) {
    match kind {
        BlockKind::Battery => battery(out, at),
        BlockKind::SolarModule => solar(out, at),
        BlockKind::Controller => converter(out, at, "~", false),
        BlockKind::Charger => converter(out, at, "~", true),
        BlockKind::Inverter => converter(out, at, "=", true),
        BlockKind::Supply => supply(out, at),
        BlockKind::Outlet => outlet(out, at),
        BlockKind::Load => out.rect("sym", boxed(at, 24.0, 11.0), 0.0),
        _ => in_wire(out, kind, at),
    }
}

/// Symbol in a wire that runs from 16 px left of `at` to 16 px right of it.
pub(crate) fn in_wire(out: &mut Writer, kind: BlockKind, at: Point) {
    let Point { x, y } = at;
    let lead = |out: &mut Writer, from: f64, to: f64| {
        out.line("sym", Point::new(x + from, y), Point::new(x + to, y));
    };
    match kind {
        BlockKind::Fuse => {
            out.rect("sym", boxed(at, 26.0, 11.0), 0.0);
            lead(out, -16.0, 16.0);
        }
        BlockKind::Breaker => {
            lead(out, -16.0, -10.0);
            lead(out, 10.0, 16.0);
            out.line("sym", Point::new(x - 10.0, y), Point::new(x + 8.0, y - 9.0));
            cross(out, Point::new(x + 10.0, y), 3.0);
        }
        BlockKind::Shunt => {
            lead(out, -16.0, -12.0);
            lead(out, 12.0, 16.0);
            out.rect("sym", boxed(at, 24.0, 9.0), 0.0);
            for side in [-6.0, 6.0] {
                out.line(
                    "sym",
                    Point::new(x + side, y - 4.5),
                    Point::new(x + side, y - 10.0),
                );
            }
        }
        _ => {
            lead(out, -16.0, -10.0);
            lead(out, 10.0, 16.0);
            out.circle("solid", Point::new(x - 10.0, y), 2.0);
            out.circle("solid", Point::new(x + 10.0, y), 2.0);
            out.line("sym", Point::new(x - 10.0, y), Point::new(x + 8.0, y - 9.0));
        }
    }
}

/// Fuse of one way, 24 px wide with its leads.
pub(crate) fn small_fuse(out: &mut Writer, at: Point) {
    out.rect("sym", boxed(at, 18.0, 8.0), 0.0);
    out.line(
        "sym",
        Point::new(at.x - 12.0, at.y),
        Point::new(at.x + 12.0, at.y),
    );
}

/// Switch of one way, 24 px wide with its leads.
pub(crate) fn small_switch(out: &mut Writer, at: Point) {
    let Point { x, y } = at;
    out.line("sym", Point::new(x - 12.0, y), Point::new(x - 8.0, y));
    out.line("sym", Point::new(x + 8.0, y), Point::new(x + 12.0, y));
    out.circle("solid", Point::new(x - 8.0, y), 1.8);
    out.circle("solid", Point::new(x + 8.0, y), 1.8);
    out.line("sym", Point::new(x - 8.0, y), Point::new(x + 6.0, y - 7.0));
}

/// Frame connection, hanging below `at`: a level stroke with slanting ones.
pub(crate) fn frame(out: &mut Writer, at: Point) {
    let Point { x, y } = at;
    out.line("sym", Point::new(x - 12.0, y), Point::new(x + 12.0, y));
    for step in [-12.0, 0.0, 12.0] {
        out.line(
            "sym",
            Point::new(x + step, y),
            Point::new(x + step - 4.0, y + 7.0),
        );
    }
}

fn boxed(at: Point, width: f64, height: f64) -> Rect {
    Rect::new(at.x - width / 2.0, at.y - height / 2.0, width, height)
}

fn cross(out: &mut Writer, at: Point, arm: f64) {
    let Point { x, y } = at;
    out.line(
        "sym",
        Point::new(x - arm, y - arm),
        Point::new(x + arm, y + arm),
    );
    out.line(
        "sym",
        Point::new(x - arm, y + arm),
        Point::new(x + arm, y - arm),
    );
}

/// Two cells: long thin stroke for plus, short thick stroke for minus.
fn battery(out: &mut Writer, at: Point) {
    let Point { x, y } = at;
    out.line("sym", Point::new(x - 15.0, y), Point::new(x - 9.0, y));
    out.line("sym", Point::new(x + 9.0, y), Point::new(x + 15.0, y));
    for (place, half, class) in [
        (-9.0, 5.0, "sym heavy"),
        (-3.0, 10.0, "sym"),
        (3.0, 5.0, "sym heavy"),
        (9.0, 10.0, "sym"),
    ] {
        out.line(
            class,
            Point::new(x + place, y - half),
            Point::new(x + place, y + half),
        );
    }
}

/// A module seen from the front, with two arrows of light.
fn solar(out: &mut Writer, at: Point) {
    let Point { x, y } = at;
    out.rect("sym", Rect::new(x - 10.0, y - 6.0, 24.0, 16.0), 0.0);
    out.line(
        "sym",
        Point::new(x + 2.0, y - 6.0),
        Point::new(x + 2.0, y + 10.0),
    );
    out.line(
        "sym",
        Point::new(x - 10.0, y + 2.0),
        Point::new(x + 14.0, y + 2.0),
    );
    for shift in [0.0, 7.0] {
        let tip = Point::new(x - 7.0 + shift, y - 8.0);
        out.line("sym", Point::new(tip.x - 6.0, tip.y - 6.0), tip);
        out.line("sym", Point::new(tip.x - 3.5, tip.y), tip);
        out.line("sym", Point::new(tip.x, tip.y - 3.5), tip);
    }
}

/// A box with a slanting line: what comes in above it, what goes out below it.
fn converter(out: &mut Writer, at: Point, input: &str, alternating: bool) {
    let Point { x, y } = at;
    out.rect("sym", boxed(at, 28.0, 26.0), 0.0);
    out.line(
        "sym",
        Point::new(x - 14.0, y + 13.0),
        Point::new(x + 14.0, y - 13.0),
    );
    let (upper, lower) = (Point::new(x - 6.0, y - 6.0), Point::new(x + 6.0, y + 6.5));
    match (alternating, input) {
        (true, "=") => {
            direct(out, upper);
            wave(out, lower);
        }
        (true, _) => {
            wave(out, upper);
            direct(out, lower);
        }
        (false, _) => {
            direct(out, upper);
            direct(out, lower);
        }
    }
}

fn direct(out: &mut Writer, at: Point) {
    let Point { x, y } = at;
    out.line(
        "sym",
        Point::new(x - 4.0, y - 1.8),
        Point::new(x + 4.0, y - 1.8),
    );
    out.line(
        "sym",
        Point::new(x - 4.0, y + 1.8),
        Point::new(x + 4.0, y + 1.8),
    );
}

fn wave(out: &mut Writer, at: Point) {
    let data = format!("M{:.1} {:.1}q2.5 -5 5 0t5 0", at.x - 5.0, at.y);
    out.path("sym", &data);
}

fn supply(out: &mut Writer, at: Point) {
    out.circle("sym", at, 12.0);
    let Point { x, y } = at;
    out.line("sym", Point::new(x - 6.0, y), Point::new(x + 6.0, y));
    out.line("sym", Point::new(x + 2.0, y - 4.0), Point::new(x + 6.0, y));
    out.line("sym", Point::new(x + 2.0, y + 4.0), Point::new(x + 6.0, y));
}

/// A socket: half a circle open towards the plug.
fn outlet(out: &mut Writer, at: Point) {
    let Point { x, y } = at;
    out.path(
        "sym",
        &format!("M{:.1} {:.1}a9 9 0 0 1 0 18", x - 4.0, y - 9.0),
    );
    out.line("sym", Point::new(x + 5.0, y), Point::new(x + 13.0, y));
    out.line("sym", Point::new(x - 12.0, y), Point::new(x - 4.0, y));
}
