//! Where an item or the axle may go so that the tongue share stays in a band in every fill state.
//! Not here: whether the floor there is free, or which band is wanted.

use wainwright_units::{Length, Mass, Ratio};

use super::input::{Chassis, Load};
use super::states::{Varying, best, check, chosen};
use super::statics::Statics;
use crate::refusal::{Refusal, finite, not_below_zero, require};

/// Tongue shares that are wanted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Band {
    /// Lowest share.
    pub low: Ratio,
    /// Highest share.
    pub high: Ratio,
}

/// A stretch of floor, backwards from the ball.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Interval {
    /// Its forward end \[m\].
    pub front: Length,
    /// Its rearward end \[m\], not ahead of the other.
    pub rear: Length,
}

/// The item that is to be placed.
#[derive(Debug, Clone, PartialEq)]
pub struct Movable {
    /// Every mass that it may have [kg]: one for a cupboard, empty and full for a tank.
    pub masses: Vec<Mass>,
    /// Where its centre can go at all.
    pub floor: Interval,
}

/// Where the item may go.
#[derive(Debug, Clone, PartialEq)]
pub struct Allowed {
    /// Places that keep the share in the band in every state, whether or not there is floor;
    /// `None` when no place does.
    pub anywhere: Option<Interval>,
    /// The part of it on the floor; `None` when there is none.
    pub on_floor: Option<Interval>,
    /// State of each varying thing in which the share is first too high.
    pub too_high_in: Vec<usize>,
    /// State of each varying thing in which the share is first too low.
    pub too_low_in: Vec<usize>,
    /// Tongue load lost for each metre that the item's largest mass moves back [kg/m].
    pub tongue_lost_per_metre: f64,
}

/// The interval along the floor for an item, in closed form over all states of everything else.
///
/// # Errors
/// As `extremes`; an empty list of masses; a band or floor whose ends are the wrong way round.
pub fn allowed_along_floor(
    chassis: &Chassis,
    fixed: &[Load],
    varying: &[Varying],
    item: &Movable,
    band: Band,
) -> Result<Allowed, Refusal> {
    check(chassis, fixed, varying)?;
    check_item(item, band)?;
    let (high, low) = (band.high.fraction(), band.low.fraction());
    let (too_high_in, excess) = largest(chassis, fixed, varying, high, 1.0);
    let (too_low_in, lacking) = largest(chassis, fixed, varying, low, -1.0);
    let length = chassis.coupling_to_axle.metres();
    let (mut front, mut rear) = (f64::NEG_INFINITY, f64::INFINITY);
    for mass in &item.masses {
        front = front.max(limit(length, high, excess, mass.kilograms()));
        rear = rear.min(limit(length, low, -lacking, mass.kilograms()));
    }
    let anywhere = interval(front, rear);
    let on_floor = interval(
        front.max(item.floor.front.metres()),
        rear.min(item.floor.rear.metres()),
    );
    let heaviest = item.masses.iter().fold(Mass::ZERO, |a, b| a.max(*b));
    Ok(Allowed {
        anywhere,
        on_floor,
        too_high_in,
        too_low_in,
        tongue_lost_per_metre: heaviest.kilograms() / length,
    })
}

/// Distance from the ball at which the axle gives a tongue share, everything else staying put \[m\].
///
/// # Errors
/// A share of one or more.
pub fn axle_for_share(laden: &Statics, share: Ratio) -> Result<Length, Refusal> {
    let rest = 1.0 - share.fraction();
    require("tongue share", share.fraction(), rest > 0.0, "below one")?;
    Ok(laden.centre.x / rest)
}

/// Furthest excess of tongue load over a share of all mass (sign +1), or lack of it (sign −1), over
/// all states \[kg\], with the state in which it happens.
fn largest(
    chassis: &Chassis,
    fixed: &[Load],
    varying: &[Varying],
    share: f64,
    sign: f64,
) -> (Vec<usize>, f64) {
    let score = |load: &Load| sign * (load.tongue(chassis) - share * load.kilograms());
    let choice = best(varying, &score);
    let total = chosen(fixed, varying, &choice).iter().map(score).sum();
    (choice, total)
}

/// Place at which the item brings the share exactly to its limit \[m\]. Without mass it changes
/// nothing: then every place will do, or none.
fn limit(length: f64, share: f64, excess: f64, mass: f64) -> f64 {
    if mass > 0.0 {
        length * (1.0 - share + excess / mass)
    } else if excess == 0.0 {
        f64::NAN
    } else {
        excess * f64::INFINITY
    }
}

/// `None` when the ends are the wrong way round or a side is out of reach altogether.
fn interval(front: f64, rear: f64) -> Option<Interval> {
    let possible = front <= rear && front < f64::INFINITY && rear > f64::NEG_INFINITY;
    possible.then(|| Interval {
        front: Length::from_metres(front),
        rear: Length::from_metres(rear),
    })
}

/// An item has a mass in each of its fills.
pub(super) fn check_masses(masses: &[Mass]) -> Result<(), Refusal> {
    require(
        "number of masses of the item",
        masses.len() as f64,
        !masses.is_empty(),
        "at least one",
    )?;
    for (index, mass) in masses.iter().enumerate() {
        not_below_zero("mass [kg]", mass.kilograms())
            .map_err(|refusal| refusal.at("mass of the item", index))?;
    }
    Ok(())
}

fn check_item(item: &Movable, band: Band) -> Result<(), Refusal> {
    check_masses(&item.masses)?;
    finite("lowest share", band.low.fraction())?;
    finite("highest share", band.high.fraction())?;
    require(
        "highest share",
        band.high.fraction(),
        band.low.fraction() <= band.high.fraction(),
        "not below the lowest",
    )?;
    require(
        "rear end of the floor [m]",
        item.floor.rear.metres(),
        item.floor.front.metres() <= item.floor.rear.metres(),
        "not ahead of its front end",
    )
}
