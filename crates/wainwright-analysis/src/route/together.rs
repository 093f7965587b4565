//! How many loaded conductors lie side by side on each leg. Plus and minus of
//! a circuit both count: both are warm.

use super::ends::AskedWire;
use super::find::{Found, FoundLeg, bundle_length};
use super::space;
use super::trunks::Drawn;
use crate::result::Bundle;
use std::collections::BTreeMap;
use wainwright_model::Id;

/// Lengths closer than this are the same \[m\].
const SAME: f64 = 1e-9;

/// Corners of a leg to the millimetre, the same from either end.
type Corners = Vec<[i64; 3]>;

/// Which wires lie with which.
pub(super) struct Sharing<'a> {
    found: &'a Found,
    /// Per wire and leg: the wires that take the same leg off the trunks.
    beside: Vec<Vec<Vec<usize>>>,
}

impl<'a> Sharing<'a> {
    pub(super) fn new(asked: &[AskedWire], found: &'a Found) -> Self {
        let mut legs: BTreeMap<Corners, Vec<usize>> = BTreeMap::new();
        let counted = |wire: usize, place: usize| -> Option<Corners> {
            let way = found.ways.get(wire)?;
            let leg = way.get(place)?;
            let fans = asked.get(wire).is_some_and(|asked| {
                let ends = [place == 0, place + 1 == way.len()];
                let own: Vec<bool> = (0..2).filter(|e| ends[*e]).map(|e| asked.fans[e]).collect();
                !own.is_empty() && own.iter().all(|fans| *fans)
            });
            let long = length(leg) + SAME >= bundle_length().metres();
            (leg.trunk.is_none() && !fans && long).then(|| corners(leg))
        };
        let places = |wire: usize| 0..found.ways.get(wire).map_or(0, Vec::len);
        for wire in 0..found.ways.len() {
            for corners in places(wire).filter_map(|place| counted(wire, place)) {
                let wires = legs.entry(corners).or_default();
                if wires.last() != Some(&wire) {
                    wires.push(wire);
                }
            }
        }
        let beside = (0..found.ways.len()).map(|wire| {
            let own = places(wire).map(|place| {
                let wires = counted(wire, place).and_then(|corners| legs.get(&corners));
                wires.cloned().unwrap_or_default()
            });
            own.collect()
        });
        Self {
            found,
            beside: beside.collect(),
        }
    }

    /// Loaded conductors side by side on one leg of a wire, itself included.
    pub(super) fn loaded(&self, wire: usize, place: usize) -> u32 {
        let trunk = self.found.ways[wire].get(place).and_then(|leg| leg.trunk);
        let count = match trunk {
            Some(trunk) => {
                let fullest = self.found.fullest[wire].iter();
                let own = fullest.filter(|fullest| fullest.trunk == trunk);
                own.map(|fullest| fullest.conductors).max().unwrap_or(1)
            }
            None => self.beside[wire].get(place).map_or(1, Vec::len),
        };
        u32::try_from(count.max(1)).unwrap_or(u32::MAX)
    }

    /// The fullest bundle a wire is part of.
    pub(super) fn bundle(
        &self,
        wire: usize,
        drawn: &[Drawn<'_>],
        id: impl Fn(usize) -> Id,
    ) -> Bundle {
        let beside = self.beside[wire].iter();
        let beside = beside.max_by(|a, b| a.len().cmp(&b.len()));
        let beside = beside.cloned().unwrap_or_default();
        let fullest = self.found.fullest[wire].iter();
        let best = fullest.max_by(|a, b| a.conductors.cmp(&b.conductors));
        let (wires, trunk, count) = match best {
            Some(best) if best.conductors >= beside.len() => {
                let parts = self.found.shared.iter().filter(|part| {
                    let inside = part.from.metres() + SAME >= best.from.metres()
                        && part.to.metres() <= best.to.metres() + SAME;
                    part.trunk == best.trunk && inside && part.wires.contains(&wire)
                });
                let least = parts.min_by_key(|part| part.wires.len());
                let wires = least.map_or_else(Vec::new, |part| part.wires.clone());
                (wires, Some(best.trunk), best.conductors)
            }
            _ => (beside.clone(), None, beside.len()),
        };
        let others = wires.into_iter().filter(|other| *other != wire);
        Bundle {
            loaded: u32::try_from(count.max(1)).unwrap_or(u32::MAX),
            trunk: trunk.and_then(|trunk| Some(drawn.get(trunk)?.id.clone())),
            with: others.map(id).collect(),
        }
    }
}

fn corners(leg: &FoundLeg) -> Corners {
    let forwards: Corners = leg.points.iter().copied().map(space::millimetres).collect();
    let mut backwards = forwards.clone();
    backwards.reverse();
    forwards.min(backwards)
}

/// Length of a leg along its points \[m\].
fn length(leg: &FoundLeg) -> f64 {
    let steps = leg.points.windows(2).map(|pair| match pair {
        [from, to] => {
            let (from, to) = (space::coordinates(*from), space::coordinates(*to));
            (0..3)
                .map(|axis| (to[axis] - from[axis]).powi(2))
                .sum::<f64>()
                .sqrt()
        }
        _ => 0.0,
    });
    steps.sum()
}
