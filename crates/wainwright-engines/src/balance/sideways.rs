//! Where an item may go from side to side, and in plan, so that the sides stay even enough and no
//! wheel carries too much in any fill state. Along the floor alone: `placement`.

use wainwright_units::{Length, Mass};

use super::input::{Chassis, Load};
use super::placement::{Band, Interval, Movable, allowed_along_floor, check_masses};
use super::states::{Varying, best, check, chosen};
use crate::refusal::{Refusal, finite, not_below_zero, require};

/// A stretch from side to side, left of the middle above zero.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SideInterval {
    /// Its right end \[m\].
    pub right: Length,
    /// Its left end \[m\], not right of the other.
    pub left: Length,
}

/// What the two sides have to keep.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SideLimits {
    /// Largest difference between the loads of the two sides \[kg\].
    pub most_difference: Option<Mass>,
    /// Most load of the wheels of one side together \[kg\]: a tyre's rating times the axles.
    pub most_one_side: Option<Mass>,
}

/// The item that is to be placed.
#[derive(Debug, Clone, PartialEq)]
pub struct SideItem {
    /// Every mass that it may have [kg]: one for a cupboard, empty and full for a tank.
    pub masses: Vec<Mass>,
    /// Where its centre may be along the trailer; both ends alike when that is settled.
    pub along: Interval,
    /// Where its centre can go from side to side at all.
    pub floor: SideInterval,
}

/// Where the item may go from side to side.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AllowedSideways {
    /// Places that keep the limits in every state wherever along the item is, whether or not there
    /// is floor; `None` when no place does. An end is infinite when nothing limits it.
    pub anywhere: Option<SideInterval>,
    /// The part of it on the floor; `None` when there is none.
    pub on_floor: Option<SideInterval>,
}

/// A rectangle of floor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Zone {
    /// Along the trailer.
    pub along: Interval,
    /// From side to side.
    pub across: SideInterval,
}

/// The interval from side to side for an item, in closed form over all states of everything else.
///
/// # Errors
/// As `extremes`; an empty list of masses; a stretch whose ends are the wrong way round.
pub fn allowed_sideways(
    chassis: &Chassis,
    fixed: &[Load],
    varying: &[Varying],
    item: &SideItem,
    limits: SideLimits,
) -> Result<AllowedSideways, Refusal> {
    check(chassis, fixed, varying)?;
    check_item(item, limits)?;
    let most = |score: &dyn Fn(&Load) -> f64| -> f64 {
        let choice = best(varying, score);
        chosen(fixed, varying, &choice).iter().map(score).sum()
    };
    let (length, track) = (chassis.coupling_to_axle.metres(), chassis.track.metres());
    // Furthest back presses most on the wheels.
    let rear = item.along.rear.metres().max(item.along.front.metres());
    let reach = [1.0, -1.0].map(|side: f64| {
        let apart = most(&|load| 2.0 * side * load.sideways(chassis));
        let wheels = most(&|load| 0.5 * load.axle(chassis) + side * load.sideways(chassis));
        let mut reach = f64::INFINITY;
        for mass in item.masses.iter().map(|mass| mass.kilograms()) {
            if let Some(limit) = limits.most_difference {
                let left = 0.5 * (limit.kilograms() - apart);
                reach = reach.min(arm(left, mass, track));
            }
            if let Some(limit) = limits.most_one_side {
                let left = limit.kilograms() - wheels - 0.5 * mass * rear / length;
                reach = reach.min(arm(left, mass, track));
            }
        }
        reach
    });
    let (left, right) = (reach[0], -reach[1]);
    Ok(AllowedSideways {
        anywhere: stretch(right, left),
        on_floor: stretch(
            right.max(item.floor.right.metres()),
            left.min(item.floor.left.metres()),
        ),
    })
}

/// A rectangle of floor in which an item may go anywhere: the tongue share stays in the band and the
/// sides keep their limits in every state. `None` when there is none.
///
/// # Errors
/// As `allowed_along_floor` and [`allowed_sideways`].
pub fn allowed_zone(
    chassis: &Chassis,
    fixed: &[Load],
    varying: &[Varying],
    item: &Movable,
    floor: SideInterval,
    band: Band,
    limits: SideLimits,
) -> Result<Option<Zone>, Refusal> {
    let Some(along) = allowed_along_floor(chassis, fixed, varying, item, band)?.on_floor else {
        return Ok(None);
    };
    let sideways = SideItem {
        masses: item.masses.clone(),
        along,
        floor,
    };
    let across = allowed_sideways(chassis, fixed, varying, &sideways, limits)?.on_floor;
    Ok(across.map(|across| Zone { along, across }))
}

/// Distance from the middle at which a mass takes up what is left \[m\]. Without mass any distance
/// will do, or none.
fn arm(left: f64, mass: f64, track: f64) -> f64 {
    if mass > 0.0 {
        left * track / mass
    } else if left >= 0.0 {
        f64::INFINITY
    } else {
        f64::NEG_INFINITY
    }
}

fn stretch(right: f64, left: f64) -> Option<SideInterval> {
    let possible = right <= left && right < f64::INFINITY && left > f64::NEG_INFINITY;
    possible.then(|| SideInterval {
        right: Length::from_metres(right),
        left: Length::from_metres(left),
    })
}

fn check_item(item: &SideItem, limits: SideLimits) -> Result<(), Refusal> {
    check_masses(&item.masses)?;
    for limit in [limits.most_difference, limits.most_one_side]
        .into_iter()
        .flatten()
    {
        not_below_zero("limit of the sides [kg]", limit.kilograms())?;
    }
    finite("front end of the floor [m]", item.along.front.metres())?;
    finite("rear end of the floor [m]", item.along.rear.metres())?;
    let wrong_way = item.floor.left < item.floor.right || item.along.rear < item.along.front;
    require(
        "left end of the floor [m]",
        item.floor.left.metres(),
        !wrong_way,
        "not right of its right end, nor its rear end ahead of its front end",
    )
}
