//! What a coupled trailer does to the axles of the tow vehicle, with and without a
//! weight-distribution hitch. Not here: ratings (`ratings`).

use wainwright_units::{Length, Mass, Ratio, STANDARD_GRAVITY, Torque};

use crate::refusal::{Refusal, above_zero, finite, not_below_zero};

/// A tow vehicle as it stands before the trailer is coupled, people and cargo aboard.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TowVehicle {
    /// Front axle to rear axle [m], above zero.
    pub wheelbase: Length,
    /// Rear axle back to the ball [m], zero or above.
    pub overhang: Length,
    /// Front axle load \[kg\].
    pub front: Mass,
    /// Rear axle load \[kg\].
    pub rear: Mass,
    /// People, cargo and hitch aboard that count against its payload \[kg\].
    pub aboard: Mass,
}

/// The outfit once coupled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HitchUp {
    /// Front axle load \[kg\].
    pub front: Mass,
    /// Rear axle load \[kg\].
    pub rear: Mass,
    /// Change of the front axle load by coupling \[kg\], usually below zero.
    pub front_change: Mass,
    /// Change of the rear axle load by coupling \[kg\].
    pub rear_change: Mass,
    /// What distribution adds to the trailer's axles \[kg\].
    pub trailer_axle_change: Mass,
    /// Load that remains on the ball \[kg\].
    pub ball: Mass,
    /// Payload used: what is aboard and the ball load \[kg\].
    pub payload: Mass,
    /// Share of the front axle's loss that distribution gives back; zero when nothing was lost.
    pub restored: Ratio,
}

/// Axle loads with a trailer coupled. `distribution` is the torque the hitch bars put into the
/// frame at the ball [N·m]; zero without such a hitch.
///
/// # Errors
/// A length or load that cannot be, or loads that do not add up.
pub fn hitch_up(
    vehicle: &TowVehicle,
    tongue: Mass,
    coupling_to_axle: Length,
    distribution: Torque,
) -> Result<HitchUp, Refusal> {
    check(vehicle, tongue, coupling_to_axle)?;
    finite("distribution torque [N·m]", distribution.newton_metres())?;
    let (base, over) = (vehicle.wheelbase.metres(), vehicle.overhang.metres());
    let length = coupling_to_axle.metres();
    let torque = distribution.newton_metres() / STANDARD_GRAVITY;
    let lost = tongue.kilograms() * over / base;
    let given_back = torque * (length + over) / (base * length);
    let front_change = given_back - lost;
    let rear_change = tongue.kilograms() * (base + over) / base
        - torque * (base + over + length) / (base * length);
    let trailer_axle_change = torque / length;
    let kilograms = Mass::from_kilograms;
    let ball = tongue - kilograms(trailer_axle_change);
    let left_over = front_change + rear_change + trailer_axle_change - tongue.kilograms();
    crate::refusal::require(
        "load that no axle carries [kg]",
        left_over,
        left_over.abs() <= 1e-9 * (1.0 + tongue.kilograms().abs() + rear_change.abs()),
        "none",
    )?;
    Ok(HitchUp {
        front: vehicle.front + kilograms(front_change),
        rear: vehicle.rear + kilograms(rear_change),
        front_change: kilograms(front_change),
        rear_change: kilograms(rear_change),
        trailer_axle_change: kilograms(trailer_axle_change),
        ball,
        payload: vehicle.aboard + ball,
        restored: Ratio::from_fraction(if lost > 0.0 { given_back / lost } else { 0.0 }),
    })
}

/// Torque at the ball that gives back a share of what the front axle lost [N·m].
///
/// # Errors
/// A length or load that cannot be.
pub fn restoring_torque(
    vehicle: &TowVehicle,
    tongue: Mass,
    coupling_to_axle: Length,
    restored: Ratio,
) -> Result<Torque, Refusal> {
    check(vehicle, tongue, coupling_to_axle)?;
    finite("share to restore", restored.fraction())?;
    let (over, length) = (vehicle.overhang.metres(), coupling_to_axle.metres());
    let whole = tongue.kilograms() * over * length / (length + over);
    Ok(Torque::from_newton_metres(
        restored.fraction() * whole * STANDARD_GRAVITY,
    ))
}

fn check(vehicle: &TowVehicle, tongue: Mass, coupling_to_axle: Length) -> Result<(), Refusal> {
    above_zero("wheelbase [m]", vehicle.wheelbase.metres())?;
    not_below_zero("rear axle to ball [m]", vehicle.overhang.metres())?;
    above_zero("ball to trailer axle [m]", coupling_to_axle.metres())?;
    not_below_zero("front axle load [kg]", vehicle.front.kilograms())?;
    not_below_zero("rear axle load [kg]", vehicle.rear.kilograms())?;
    not_below_zero("load aboard [kg]", vehicle.aboard.kilograms())?;
    finite("tongue load [kg]", tongue.kilograms())
}
