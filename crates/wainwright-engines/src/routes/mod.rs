//! The shortest way of each wire through the trunks of a trailer. Not here: where trunks should be,
//! how hot wires get together, what a wire costs.
//!
//! # Computes
//! For each wire the legs of its way in trunks and in the open, with points, lengths and corners; for
//! all wires together the stretches of the trunks and the wires that share them; the length to cut.
//!
//! # Equation
//! - Least of Σ(way inside trunks) + f·Σ(way in the open), f the open factor, at least 1.
//! - A way in the open runs along the axes: |Δx| + |Δy| + |Δz|. On a straight piece of trunk it is
//!   linear between the places where one coordinate agrees with that of the wire's end. The whole sum
//!   is therefore least at such a place, at a corner or at a join: only these are tried.
//! - Between joins: shortest ways between all pairs by Dijkstra's search, once for all wires.
//! - Cut length = bare + slack share · bare + drop loop + both terminations.
//!
//! # Assumptions and limits
//! - Two pieces of trunk join where they come nearest along the axes, when the gap there is within the
//!   tolerance. Pieces that run side by side join at both ends of that stretch. The gap counts as way
//!   inside the trunk that is entered.
//! - A free wire leaves its first trunk for the open only at its end: two trunks that do not join are
//!   not linked through the open. A forced wire crosses the open where its trunks come nearest, when
//!   they do not join.
//! - A trunk is as wide as needed and a wire turns on the spot. Nothing stands in the open.
//! - Of two ways that weigh the same, the one less in the open; then the one found first.
//! - Forced: the trunks in their order; one that is out of the way may be touched at one point only.
//!
//! # Valid range
//! Any finite coordinates; open factor 1 to 1000; at most 600 places where trunks join.
//!
//! # Example
//! ```
//! use wainwright_engines::routes::{Options, Trunk, Wire, routes};
//! use wainwright_units::{Length, frame::Point};
//! let at = Point::from_metres;
//! let trunks = [Trunk { path: vec![at(0.0, 1.0, 2.0), at(4.0, 1.0, 2.0)] }];
//! let wire = Wire { from: at(0.5, 1.0, 1.0), to: at(3.5, 1.0, 1.5), forced: vec![] };
//! let options = Options { join_within: Length::from_millimetres(60.0), open_factor: 2.0 };
//! let found = routes(&trunks, &[wire], &options).unwrap();
//! // Up 1 m, along 3 m, down 0.5 m; straight through the open it would weigh 2 · 3.5 m.
//! assert_eq!(found.ways[0].length.metres(), 4.5);
//! assert_eq!(found.ways[0].weighted.metres(), 6.0);
//! assert_eq!(found.ways[0].corners, 2);
//! ```
//!
//! # Sources
//! - Shortest ways in a graph: E. W. Dijkstra, "A note on two problems in connexion with graphs",
//!   Numerische Mathematik 1, 1959 (memory).
//! - That only agreeing places need to be tried: derived; checked against a fine grid.

mod bundles;
mod cut;
mod forced;
mod input;
mod legs;
mod line;
mod network;
mod search;

pub use bundles::{Fullest, Stretch};
pub use cut::{Allowance, Cut, cut_length};
pub use input::{Options, Trunk, Wire};
pub use legs::{Course, Leg, Way};

use crate::refusal::Refusal;
use wainwright_units::Length;

/// Lengths closer than this are the same [m].
const SAME: f64 = 1e-9;
/// Most places where trunks join; beyond it the drawing of the trunks is surely wrong.
const MOST_JOIN_PLACES: usize = 600;

/// The ways of all wires and who runs with whom.
#[derive(Debug, Clone, PartialEq)]
pub struct Routes {
    /// One for each wire, in their order.
    pub ways: Vec<Way>,
    /// Every stretch of every trunk that holds a wire, in order along the trunks.
    pub stretches: Vec<Stretch>,
}

/// The best way of each wire, and the stretches they share.
///
/// # Errors
/// A [`Refusal`] for a coordinate that is no number, options out of range, a forced trunk that is not
/// there or holds nothing, too many joins.
pub fn routes(trunks: &[Trunk], wires: &[Wire], options: &Options) -> Result<Routes, Refusal> {
    input::check(trunks, wires, options)?;
    let lines: Vec<line::Line> = trunks.iter().map(line::Line::new).collect();
    input::check_forced(&lines, wires)?;
    let network = network::Network::new(lines, options.join_within.metres())?;
    let mut room = search::Room::default();
    let ways: Result<Vec<Way>, Refusal> = (wires.iter().enumerate())
        .map(|(index, wire)| {
            let way = one_way(&network, wire, options.open_factor, &mut room);
            way.map_err(|refusal| refusal.at("wire", index))
        })
        .collect();
    let ways = ways?;
    let stretches = bundles::stretches(trunks.len(), &ways);
    Ok(Routes { ways, stretches })
}

impl Routes {
    /// For each trunk a wire runs in, the most conductors that run together with it over at least a
    /// length. `conductors` says how many loaded ones each wire brings; 1 for a wire beyond its end.
    #[must_use]
    pub fn fullest(&self, wire: usize, conductors: &[usize], at_least: Length) -> Vec<Fullest> {
        bundles::fullest(&self.stretches, wire, conductors, at_least)
    }
}

fn one_way(
    network: &network::Network,
    wire: &Wire,
    open_factor: f64,
    room: &mut search::Room,
) -> Result<Way, Refusal> {
    let ends = [input::metres(wire.from), input::metres(wire.to)];
    let (weight, inside) = match forced::forced(network, ends, &wire.forced, open_factor, room) {
        Some((weight, inside)) => (weight, Some(inside)),
        None => search::free(network, ends, open_factor, room),
    };
    legs::way(network, ends, weight, inside.as_ref(), open_factor)
}
