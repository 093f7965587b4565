//! Forces on an item, and holding against demand.

use wainwright_units::{Force, Length, Mass, Ratio};

use crate::refusal::{Refusal, above_zero, not_below_zero};

/// Accelerations to hold against, in units of free fall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Profile {
    /// Towards the front, as in braking.
    pub forward: f64,
    /// Towards the rear.
    pub rearward: f64,
    /// To either side.
    pub sideways: f64,
    /// Upwards, beyond the item's own weight being lifted.
    pub upward: f64,
}

/// Forces on an item.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Forces {
    /// Towards the front \[N\].
    pub forward: Force,
    /// Towards the rear \[N\].
    pub rearward: Force,
    /// To either side \[N\].
    pub sideways: Force,
    /// Upwards \[N\].
    pub upward: Force,
    /// The largest of them \[N\].
    pub largest: Force,
}

/// What fixings hold against what is asked.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spare {
    /// All fixings together \[N\].
    pub held: Force,
    /// Held minus asked \[N\]; below zero when they do not hold.
    pub left: Force,
    /// Asked over held.
    pub used: Ratio,
}

/// Forces on an item of a mass.
///
/// # Errors
/// A mass that is not above zero, or an acceleration below zero.
pub fn forces(mass: Mass, profile: &Profile) -> Result<Forces, Refusal> {
    above_zero("mass [kg]", mass.kilograms())?;
    let of = |field, share| {
        not_below_zero(field, share)?;
        Ok(mass.weight() * share)
    };
    let forward = of("forward acceleration [g]", profile.forward)?;
    let rearward = of("rearward acceleration [g]", profile.rearward)?;
    let sideways = of("sideways acceleration [g]", profile.sideways)?;
    let upward = of("upward acceleration [g]", profile.upward)?;
    Ok(Forces {
        forward,
        rearward,
        sideways,
        upward,
        largest: forward.max(rearward).max(sideways).max(upward),
    })
}

/// Force to pull at an item to test its fixing \[N\]: a multiple of its weight, up to a cap.
///
/// # Errors
/// A value that is not above zero.
pub fn pull_test(mass: Mass, multiple: f64, cap: Force) -> Result<Force, Refusal> {
    above_zero("mass [kg]", mass.kilograms())?;
    above_zero("multiple of the weight", multiple)?;
    above_zero("largest pull [N]", cap.newtons())?;
    Ok((mass.weight() * multiple).min(cap))
}

/// Acceleration along the base at which a loose item tips over its edge, in units of free fall.
/// `down` is what presses it to the floor, 1 at rest. The centre of gravity is taken in the middle
/// of the base.
///
/// # Errors
/// A value that is not above zero.
pub fn tipping_acceleration(
    base: Length,
    centre_height: Length,
    down: f64,
) -> Result<f64, Refusal> {
    above_zero("base [m]", base.metres())?;
    above_zero(
        "height of the centre of gravity [m]",
        centre_height.metres(),
    )?;
    above_zero("downward acceleration [g]", down)?;
    Ok(0.5 * (base / centre_height) * down)
}

/// How much several equal fixings leave of what is asked.
///
/// # Errors
/// No fixing, or a force that is not above zero.
pub fn spare(asked: Force, each: Force, count: usize) -> Result<Spare, Refusal> {
    above_zero("force asked [N]", asked.newtons())?;
    above_zero("force each fixing holds [N]", each.newtons())?;
    above_zero("number of fixings", count as f64)?;
    let held = each * count as f64;
    Ok(Spare {
        held,
        left: held - asked,
        used: Ratio::from_fraction(asked / held),
    })
}
