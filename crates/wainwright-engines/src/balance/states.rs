//! Every fill state of tanks and cargo: the worst cases, found without listing all states, and the
//! list itself. Not here: what counts as too little or too much.

use wainwright_units::{Mass, Ratio};

use super::input::{Chassis, Load};
use super::statics::{Statics, statics};
use crate::refusal::{Refusal, above_zero, require};

/// Most states that [`every_state`] lists.
pub const MOST_STATES: usize = 4096;

/// Most steps to the worst share. Each step but the last strictly improves it; a handful is usual.
const MOST_STEPS: usize = 200;

/// Something that changes on the road: a tank (empty, full), cargo (start, end), an item carried in
/// one place or another. The states of different ones are independent.
#[derive(Debug, Clone, PartialEq)]
pub struct Varying {
    /// At least one; a mass of zero stands for "not there".
    pub states: Vec<Load>,
}

/// One choice of states and the loads it gives.
#[derive(Debug, Clone, PartialEq)]
pub struct Case {
    /// Index of the state chosen for each varying thing.
    pub choice: Vec<usize>,
    /// The loads.
    pub statics: Statics,
}

/// The worst cases over all states. Every one is also the worst of partly filled tanks, because
/// each load is linear in the fill and the share has no peak between.
#[derive(Debug, Clone, PartialEq)]
pub struct Extremes {
    /// Lowest tongue share.
    pub lowest_share: Case,
    /// Highest tongue share.
    pub highest_share: Case,
    /// Least tongue load.
    pub least_tongue: Case,
    /// Most tongue load.
    pub most_tongue: Case,
    /// Most axle load.
    pub most_axle: Case,
    /// Most mass.
    pub most_mass: Case,
    /// Most load on the left wheels.
    pub most_left: Case,
    /// Most load on the right wheels.
    pub most_right: Case,
}

/// The worst cases of a trailer over all states of what varies.
///
/// # Errors
/// As [`statics`]; a varying thing without any state; no fixed mass.
pub fn extremes(
    chassis: &Chassis,
    fixed: &[Load],
    varying: &[Varying],
) -> Result<Extremes, Refusal> {
    check(chassis, fixed, varying)?;
    let case = |choice: Vec<usize>| case(chassis, fixed, varying, choice);
    let most = |score: &dyn Fn(&Load) -> f64| case(best(varying, score));
    let left = |load: &Load| 0.5 * load.axle(chassis) + load.sideways(chassis);
    let right = |load: &Load| 0.5 * load.axle(chassis) - load.sideways(chassis);
    Ok(Extremes {
        lowest_share: case(worst_share(chassis, fixed, varying, -1.0)?)?,
        highest_share: case(worst_share(chassis, fixed, varying, 1.0)?)?,
        least_tongue: most(&|load| -load.tongue(chassis))?,
        most_tongue: most(&|load| load.tongue(chassis))?,
        most_axle: most(&|load| load.axle(chassis))?,
        most_mass: most(&Load::kilograms)?,
        most_left: most(&left)?,
        most_right: most(&right)?,
    })
}

/// Every choice of states, the last thing changing fastest.
///
/// # Errors
/// As [`extremes`]; more than [`MOST_STATES`] choices.
pub fn every_state(
    chassis: &Chassis,
    fixed: &[Load],
    varying: &[Varying],
) -> Result<Vec<Case>, Refusal> {
    check(chassis, fixed, varying)?;
    let count = varying
        .iter()
        .map(|thing| thing.states.len() as f64)
        .product::<f64>();
    require(
        "number of fill states",
        count,
        count <= MOST_STATES as f64,
        "at most 4096; let fewer things vary",
    )?;
    let mut cases = Vec::with_capacity(count as usize);
    let mut choice = vec![0; varying.len()];
    loop {
        cases.push(case(chassis, fixed, varying, choice.clone())?);
        if !advance(&mut choice, varying) {
            return Ok(cases);
        }
    }
}

/// The states that make a score largest, each thing by itself; the first one among equals.
pub(super) fn best(varying: &[Varying], score: &dyn Fn(&Load) -> f64) -> Vec<usize> {
    varying
        .iter()
        .map(|thing| {
            let mut found = (0, f64::NEG_INFINITY);
            for (index, load) in thing.states.iter().enumerate() {
                if score(load) > found.1 {
                    found = (index, score(load));
                }
            }
            found.0
        })
        .collect()
}

/// The loads that a choice puts on the trailer, what is fixed first.
pub(super) fn chosen(fixed: &[Load], varying: &[Varying], choice: &[usize]) -> Vec<Load> {
    let picked = varying
        .iter()
        .zip(choice)
        .filter_map(|(thing, index)| thing.states.get(*index).copied());
    fixed.iter().copied().chain(picked).collect()
}

pub(super) fn check(chassis: &Chassis, fixed: &[Load], varying: &[Varying]) -> Result<(), Refusal> {
    let standing = statics(chassis, fixed)?;
    above_zero("mass that is always there [kg]", standing.mass.kilograms())?;
    for (index, thing) in varying.iter().enumerate() {
        require(
            "number of states",
            thing.states.len() as f64,
            !thing.states.is_empty(),
            "at least one",
        )
        .and_then(|()| thing.states.iter().try_for_each(Load::check))
        .map_err(|refusal| refusal.at("varying item", index))?;
    }
    Ok(())
}

/// The choice with the highest (sign +1) or lowest (sign −1) share. At a trial share s the choice
/// that is best for T − s·W is exact; its own share is the next trial, until nothing is gained.
fn worst_share(
    chassis: &Chassis,
    fixed: &[Load],
    varying: &[Varying],
    sign: f64,
) -> Result<Vec<usize>, Refusal> {
    let mut choice = vec![0; varying.len()];
    let mut share = share_of(chassis, &chosen(fixed, varying, &choice));
    for _ in 0..MOST_STEPS {
        let trial = best(varying, &|load| {
            sign * (load.tongue(chassis) - share.fraction() * load.kilograms())
        });
        let found = share_of(chassis, &chosen(fixed, varying, &trial));
        if sign * (found.fraction() - share.fraction()) <= 0.0 {
            return Ok(choice);
        }
        (choice, share) = (trial, found);
    }
    Err(Refusal::new(
        "steps to the worst tongue share",
        MOST_STEPS as f64,
        "fewer",
    ))
}

fn share_of(chassis: &Chassis, loads: &[Load]) -> Ratio {
    let tongue: f64 = loads.iter().map(|load| load.tongue(chassis)).sum();
    let mass: Mass = loads.iter().map(|load| load.mass).sum();
    Ratio::from_fraction(tongue / mass.kilograms())
}

fn case(
    chassis: &Chassis,
    fixed: &[Load],
    varying: &[Varying],
    choice: Vec<usize>,
) -> Result<Case, Refusal> {
    let statics = statics(chassis, &chosen(fixed, varying, &choice))?;
    Ok(Case { choice, statics })
}

/// The next choice, as an odometer turns; false after the last.
fn advance(choice: &mut [usize], varying: &[Varying]) -> bool {
    for (index, thing) in choice.iter_mut().zip(varying).rev() {
        *index += 1;
        if *index < thing.states.len() {
            return true;
        }
        *index = 0;
    }
    false
}
