//! Which states are computed: every corner of the fills, or the extreme ones when there are too many. Not here: what
//! each means for ratings and vehicle (`outcome`).

use super::loads::{Aboard, at_level};
use crate::result::road::{Filling, Level, WorstStates};
use wainwright_engines::balance::{
    Case, Chassis, Load, Statics, Varying, every_state, extremes, statics,
};
use wainwright_engines::refusal::Refusal;
use wainwright_units::frame::{Point, Vector};
use wainwright_units::{Length, Mass};

/// Most corners of the fills that are all computed: six tanks or five and the cargo. With more, only the corners
/// that are worst in some way are; every load is linear in each fill, so that those are exact.
pub(super) const MOST_CORNERS: usize = 64;

/// The fill states.
pub(super) struct Corners {
    pub(super) cases: Vec<Case>,
    pub(super) every_corner: bool,
}

/// What is always aboard as one load, and each fill at both its levels.
pub(super) struct Masses {
    pub(super) fixed: Vec<Load>,
    pub(super) varying: Vec<Varying>,
}

/// The loads of a trailer on the road, those that never change put together.
pub(super) fn masses(shell: &Load, aboard: &Aboard) -> Masses {
    masses_without(shell, aboard, None)
}

/// The same without one item.
pub(super) fn masses_without(shell: &Load, aboard: &Aboard, left_out: Option<usize>) -> Masses {
    let mut fixed = vec![*shell];
    fixed.extend(aboard.layers.iter().map(|(_, load)| *load));
    let mut members: Vec<[Vec<Load>; 2]> = vec![Default::default(); aboard.fills.len()];
    for (index, (load, levels)) in aboard.loads.iter().zip(&aboard.levels).enumerate() {
        if load.parked_only || left_out == Some(index) {
            continue;
        }
        match load.fill.and_then(|fill| members.get_mut(fill)) {
            Some(pair) => {
                for (level, list) in pair.iter_mut().enumerate() {
                    list.push(at_level(load, levels, level));
                }
            }
            None => fixed.push(at_level(load, levels, 0)),
        }
    }
    let varying = members.iter().map(|pair| Varying {
        states: pair.iter().map(|loads| together(loads)).collect(),
    });
    Masses {
        varying: varying.collect(),
        fixed: vec![together(&fixed)],
    }
}

/// Many loads as one with the same mass, the same centre and the same yaw inertia about any upright axis, so that
/// what never changes is added up once and not for every state.
pub(super) fn together(loads: &[Load]) -> Load {
    if let [one] = loads {
        return *one;
    }
    let mass: f64 = loads.iter().map(|load| load.mass.kilograms()).sum();
    if mass <= 0.0 {
        return Load::point(Mass::ZERO, Point::ORIGIN);
    }
    let mean = |along: fn(&Load) -> f64| {
        let moments = loads.iter().map(|load| load.mass.kilograms() * along(load));
        moments.sum::<f64>() / mass
    };
    let (x, y) = (
        mean(|load| load.centre.x.metres()),
        mean(|load| load.centre.y.metres()),
    );
    let z = mean(|load| load.centre.z.metres());
    let inertias = loads.iter().map(|load| {
        let (ahead, aside) = (load.centre.x.metres() - x, load.centre.y.metres() - y);
        let (long, wide) = (load.extent.x.metres(), load.extent.y.metres());
        load.mass.kilograms() * (ahead * ahead + aside * aside + (long * long + wide * wide) / 12.0)
    });
    // An even rod has the inertia m·l²/12.
    let length = (12.0 * inertias.sum::<f64>() / mass).sqrt();
    Load {
        mass: Mass::from_kilograms(mass),
        centre: Point::from_metres(x, y, z),
        extent: Vector::new(Length::from_metres(length), Length::ZERO, Length::ZERO),
    }
}

/// The fill states of a trailer.
pub(super) fn corners(chassis: &Chassis, masses: &Masses) -> Result<Corners, Refusal> {
    let fills = masses.varying.len();
    let few = fills <= MOST_CORNERS.ilog2() as usize;
    if few {
        let cases = every_state(chassis, &masses.fixed, &masses.varying)?;
        return Ok(Corners {
            cases,
            every_corner: true,
        });
    }
    let found = extremes(chassis, &masses.fixed, &masses.varying)?;
    let mut cases = vec![
        found.lowest_share,
        found.highest_share,
        found.least_tongue,
        found.most_tongue,
        found.most_axle,
        found.most_mass,
        found.most_left,
        found.most_right,
    ];
    let choices = [vec![0; fills], vec![1; fills]];
    let sideways = [1.0, -1.0].map(|sign| leaning(&masses.varying, sign));
    for choice in choices.into_iter().chain(sideways) {
        let loads = chosen(masses, &choice);
        let statics = statics(chassis, &loads)?;
        cases.push(Case { choice, statics });
    }
    cases.sort_by(|one, other| one.choice.cmp(&other.choice));
    cases.dedup_by(|one, other| one.choice == other.choice);
    Ok(Corners {
        cases,
        every_corner: false,
    })
}

/// Names of the levels of a choice.
pub(super) fn levels(aboard: &Aboard, choice: &[usize]) -> Vec<Level> {
    let named = aboard.fills.iter().zip(choice);
    named
        .map(|(fill, level)| match (&fill.what, level) {
            (Filling::Tank(..), 0) => Level::Empty,
            (Filling::Tank(..), _) => Level::Full,
            (Filling::Cargo(_), 0) => Level::Start,
            (Filling::Cargo(_), _) => Level::End,
        })
        .collect()
}

/// The worst of the fill states; `offset` is the index of the first of them.
pub(super) fn worst(cases: &[Statics], offset: usize) -> Option<WorstStates> {
    let most = |score: fn(&Statics) -> f64| {
        let mut found: Option<(usize, f64)> = None;
        for (index, case) in cases.iter().enumerate() {
            let value = score(case);
            if found.is_none_or(|(_, best)| value > best) {
                found = Some((index + offset, value));
            }
        }
        found.map(|(index, _)| index)
    };
    Some(WorstStates {
        lowest_share: most(|s| -s.share.fraction())?,
        highest_share: most(|s| s.share.fraction())?,
        least_tongue: most(|s| -s.tongue.kilograms())?,
        most_tongue: most(|s| s.tongue.kilograms())?,
        most_axle: most(|s| s.axle.kilograms())?,
        most_mass: most(|s| s.mass.kilograms())?,
        most_left: most(|s| s.left.kilograms())?,
        most_right: most(|s| s.right.kilograms())?,
        most_difference: most(|s| (s.left - s.right).abs().kilograms())?,
        most_yaw_radius: most(|s| s.yaw_radius.metres())?,
        highest_centre: most(|s| s.centre.z.metres())?,
    })
}

/// The loads of a choice.
fn chosen(masses: &Masses, choice: &[usize]) -> Vec<Load> {
    let picked = masses.varying.iter().zip(choice);
    let picked = picked.filter_map(|(thing, level)| thing.states.get(*level).copied());
    masses.fixed.iter().copied().chain(picked).collect()
}

/// The choice that leans furthest to the left (sign +1) or right.
fn leaning(varying: &[Varying], sign: f64) -> Vec<usize> {
    let lean = |load: &Load| sign * load.mass.kilograms() * load.centre.y.metres();
    let pick = |thing: &Varying| match thing.states.as_slice() {
        [first, second] if lean(second) > lean(first) => 1,
        _ => 0,
    };
    varying.iter().map(pick).collect()
}
