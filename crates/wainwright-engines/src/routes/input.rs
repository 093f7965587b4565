//! Trunks, wires and options as the caller gives them, and what is refused. Not here: any search.

use super::line::{Line, Metres};
use crate::refusal::{Refusal, finite, not_below_zero, require};
use wainwright_units::Length;
use wainwright_units::frame::Point;

/// A channel in which wires may run.
#[derive(Debug, Clone, PartialEq)]
pub struct Trunk {
    /// Corners of its centre line, one after the other. Fewer than two different points: nothing
    /// can run in it.
    pub path: Vec<Point>,
}

/// A wire that has to get from one place to another.
#[derive(Debug, Clone, PartialEq)]
pub struct Wire {
    /// One end.
    pub from: Point,
    /// The other end.
    pub to: Point,
    /// Trunks it must take, in this order; empty leaves the choice to the search.
    pub forced: Vec<usize>,
}

/// What the search may do and what it shuns.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Options {
    /// Two trunks join where the gap between them, along the axes, is at most this \[m\], 0 or more.
    pub join_within: Length,
    /// What a metre outside the trunks weighs against a metre inside, 1 to 1000. Above 1 a wire
    /// takes a longer way to be in the open less.
    pub open_factor: f64,
}

/// Refuses coordinates that are no numbers, and trunks that do not exist.
pub(super) fn check(trunks: &[Trunk], wires: &[Wire], options: &Options) -> Result<(), Refusal> {
    not_below_zero("join_within [m]", options.join_within.metres())?;
    let factor = options.open_factor;
    let legal = (1.0..=1000.0).contains(&factor);
    require("open_factor", factor, legal, "a number from 1 to 1000")?;
    for (index, trunk) in trunks.iter().enumerate() {
        for &point in &trunk.path {
            place(point).map_err(|refusal| refusal.at("trunk", index))?;
        }
    }
    for (index, wire) in wires.iter().enumerate() {
        for point in [wire.from, wire.to] {
            place(point).map_err(|refusal| refusal.at("wire", index))?;
        }
    }
    Ok(())
}

/// Refuses a wire that is forced into a trunk that is not there or holds nothing.
pub(super) fn check_forced(lines: &[Line], wires: &[Wire]) -> Result<(), Refusal> {
    for (index, wire) in wires.iter().enumerate() {
        for &trunk in &wire.forced {
            let usable = lines.get(trunk).is_some_and(|line| !line.is_empty());
            require(
                "forced trunk (counted from 0)",
                trunk as f64,
                usable,
                "a trunk of the list with at least two different points",
            )
            .map_err(|refusal| refusal.at("wire", index))?;
        }
    }
    Ok(())
}

/// The coordinates of a point [m].
pub(super) fn metres(point: Point) -> Metres {
    [point.x.metres(), point.y.metres(), point.z.metres()]
}

/// The point at some coordinates [m].
pub(super) fn point([x, y, z]: Metres) -> Point {
    Point::from_metres(x, y, z)
}

fn place(point: Point) -> Result<(), Refusal> {
    finite("x [m]", point.x.metres())?;
    finite("y [m]", point.y.metres())?;
    finite("z [m]", point.z.metres())
}
