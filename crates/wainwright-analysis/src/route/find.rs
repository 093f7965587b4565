//! The routing engine behind one function: places of the box in, legs out.

use super::ends::AskedWire;
use super::trunks::Drawn;
use crate::frame::{BoxPlace, box_from_trailer, trailer_from_box};
use wainwright_engines::routes::{self, Course, Options, Trunk, Wire};
use wainwright_model::Spot;
use wainwright_units::Length;
use wainwright_units::frame::Point;

/// Trunks whose gap is not larger are one way: what a wire bridges from one
/// cable duct to the next without a support of its own (judgement).
const JOIN_WITHIN: Length = Length::from_millimetres(100.0);
/// How many metres inside trunks a wire goes to save one outside (judgement):
/// trunks are drawn because wires are wanted there.
const OPEN_FACTOR: f64 = 2.0;
/// Conductors that lie together for less than this do not warm each other as
/// a bundle does (NFPA 70 310.15(C)(1): 24 in; memory).
const BUNDLE_LENGTH: Length = Length::from_millimetres(600.0);
/// Routes know no place of the box on the road: the front left lower corner
/// is the origin.
const BOX: BoxPlace = BoxPlace {
    ball_to_front: Length::ZERO,
    inside_width: Length::ZERO,
    floor_height: Length::ZERO,
};

/// What the engine found.
pub(super) struct Found {
    /// Legs of each wire that was asked about.
    pub(super) ways: Vec<Vec<FoundLeg>>,
    /// Parts of trunks with the wires in them (indices into those asked), in
    /// order along each trunk.
    pub(super) shared: Vec<Shared>,
    /// For each wire: where in a trunk most run together for long enough.
    pub(super) fullest: Vec<Vec<routes::Fullest>>,
}

/// A leg of a way.
pub(super) struct FoundLeg {
    /// Index into the drawn trunks.
    pub(super) trunk: Option<usize>,
    pub(super) points: Vec<Spot>,
}

/// A part of a trunk.
pub(super) struct Shared {
    pub(super) trunk: usize,
    pub(super) from: Length,
    pub(super) to: Length,
    pub(super) wires: Vec<usize>,
}

/// Ways of all wires; `None` when the engine refuses the figures.
pub(super) fn routes(drawn: &[Drawn<'_>], asked: &[AskedWire]) -> Option<Found> {
    let trunks: Vec<Trunk> = drawn
        .iter()
        .map(|trunk| Trunk {
            path: trunk.path.iter().copied().map(point).collect(),
        })
        .collect();
    let wires: Vec<Wire> = asked
        .iter()
        .map(|wire| Wire {
            from: point(wire.from),
            to: point(wire.to),
            forced: wire.follow.clone(),
        })
        .collect();
    let options = Options {
        join_within: JOIN_WITHIN,
        open_factor: OPEN_FACTOR,
    };
    let found = routes::routes(&trunks, &wires, &options).ok()?;
    let fullest = (0..asked.len()).map(|wire| found.fullest(wire, &[], BUNDLE_LENGTH));
    let fullest = fullest.collect();
    let shared = found.stretches.into_iter().map(|stretch| Shared {
        trunk: stretch.trunk,
        from: stretch.from,
        to: stretch.to,
        wires: stretch.wires,
    });
    Some(Found {
        fullest,
        shared: shared.collect(),
        ways: found.ways.into_iter().map(legs).collect(),
    })
}

/// Length below which wires side by side are no bundle.
pub(super) const fn bundle_length() -> Length {
    BUNDLE_LENGTH
}

fn legs(way: routes::Way) -> Vec<FoundLeg> {
    let legs = way.legs.into_iter().map(|leg| FoundLeg {
        trunk: match leg.course {
            Course::Open => None,
            Course::Trunk { trunk, .. } => Some(trunk),
        },
        points: leg.points.into_iter().map(spot).collect(),
    });
    legs.collect()
}

fn point(spot: Spot) -> Point {
    trailer_from_box(&BOX, spot)
}

fn spot(point: Point) -> Spot {
    box_from_trailer(&BOX, point)
}
