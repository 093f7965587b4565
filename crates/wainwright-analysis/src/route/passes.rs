//! Where a route goes through a wall of the box or through the lining.

use super::space::{Space, axis, coordinates, spot};
use crate::result::{Leg, Pass, Run, Stretch, Through, TrunkRoute};
use wainwright_model::Side;

/// A point this far outside a wall still counts as on it \[m\].
const SAME: f64 = 1e-3;
const SIDES: [Side; 6] = [
    Side::Front,
    Side::Rear,
    Side::Left,
    Side::Right,
    Side::Floor,
    Side::Roof,
];

/// Every place where a route goes through something, in order.
pub(super) fn passes(legs: &[Leg], trunks: &[TrunkRoute], space: &Space) -> Vec<Pass> {
    let mut passes = Vec::new();
    for (place, leg) in legs.iter().enumerate() {
        let hidden = hidden(leg, trunks);
        let walls: Vec<Pass> = leg
            .stretches
            .iter()
            .flat_map(|stretch| through_walls(stretch, space))
            .collect();
        let before = place.checked_sub(1).and_then(|before| legs.get(before));
        let after = legs.get(place + 1);
        if hidden && before.is_some_and(|before| opens(before, trunks, space)) {
            passes.extend(lining(leg, leg.stretches.first().map(|s| s.from)));
        }
        passes.extend(walls);
        if hidden && after.is_some_and(|after| opens(after, trunks, space)) {
            passes.extend(lining(leg, leg.stretches.last().map(|s| s.to)));
        }
    }
    passes
}

/// Whether a leg lies behind the lining.
fn hidden(leg: &Leg, trunks: &[TrunkRoute]) -> bool {
    let id = leg.trunk.as_ref();
    let trunk = id.and_then(|id| trunks.iter().find(|trunk| trunk.id == *id));
    trunk.is_some_and(|trunk| matches!(trunk.run.value, Run::Foam | Run::Cavity))
}

/// Whether a leg beside a hidden one is in front of the lining, and does not
/// go through the whole wall there anyway.
fn opens(leg: &Leg, trunks: &[TrunkRoute], space: &Space) -> bool {
    let through = |stretch: &Stretch| !through_walls(stretch, space).is_empty();
    !hidden(leg, trunks) && !leg.stretches.iter().any(through)
}

fn lining(leg: &Leg, at: Option<wainwright_model::Spot>) -> Option<Pass> {
    Some(Pass {
        through: Through::Lining(leg.trunk.clone()?),
        at: at?,
    })
}

/// Walls whose outside a stretch goes through.
fn through_walls(stretch: &Stretch, space: &Space) -> Vec<Pass> {
    let (from, to) = (coordinates(stretch.from), coordinates(stretch.to));
    let pass = |side: &Side| {
        let (across, far) = axis(*side);
        let plane = if far {
            space.inside(across)? + space.wall
        } else {
            -space.wall
        };
        let outside = |value: f64| match far {
            true => value > plane + SAME,
            false => value < plane - SAME,
        };
        let (one, other) = (from[across], to[across]);
        if outside(one) == outside(other) {
            return None;
        }
        let share = (plane - one) / (other - one);
        let at = [0, 1, 2].map(|i| from[i] + share * (to[i] - from[i]));
        let inside = (0..3).filter(|i| *i != across).all(|i| {
            let high = space.inside(i).unwrap_or(f64::INFINITY) + space.wall;
            at[i] >= -space.wall - SAME && at[i] <= high + SAME
        });
        inside.then(|| Pass {
            through: Through::Wall(*side),
            at: spot(at),
        })
    };
    SIDES.iter().filter_map(pass).collect()
}
