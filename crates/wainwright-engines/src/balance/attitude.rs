//! A trailer towed nose up or nose down: tongue and axle loads change with the tilt.
//! Not here: which ball height is wanted.

use wainwright_units::{Angle, Length, Mass, STANDARD_GRAVITY};

use super::input::{Chassis, Suspension};
use super::statics::Statics;
use crate::refusal::{Refusal, above_zero, finite, require};

/// Tilt beyond which the equations are not used [°].
const STEEPEST: f64 = 30.0;

/// Heights that decide how tilt moves weight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Heights {
    /// Ground to wheel centre [m], above zero.
    pub wheel_radius: Length,
    /// Ground to the middle of the coupling when the trailer is level \[m\].
    pub coupling_when_level: Length,
}

/// Loads at a tilt.
#[derive(Debug, Clone, PartialEq)]
pub struct Attitude {
    /// Load on the ball \[kg\].
    pub tongue: Mass,
    /// Load of the axle group \[kg\].
    pub axle: Mass,
    /// Load of each axle from the front \[kg\]. Below zero means that it would lift: then the
    /// loads no longer hold.
    pub axles: Vec<Mass>,
    /// Change of the tongue load for one more degree nose up \[kg\].
    pub tongue_per_degree: Mass,
}

/// Loads when the trailer stands nose up by an angle (nose down below zero).
///
/// # Errors
/// A height or angle that cannot be, or a tilt beyond 30°.
pub fn at_attitude(
    chassis: &Chassis,
    level: &Statics,
    heights: &Heights,
    nose_up: Angle,
) -> Result<Attitude, Refusal> {
    check(chassis, heights)?;
    let tilt = nose_up.degrees();
    require(
        "tilt [°]",
        tilt,
        tilt.abs() <= STEEPEST,
        "within 30° of level",
    )?;
    let (sin, cos) = nose_up.radians().sin_cos();
    let length = chassis.coupling_to_axle.metres();
    let ahead = length - level.centre.x.metres();
    let above = (level.centre.z - heights.wheel_radius).metres();
    let coupling = (heights.coupling_when_level - heights.wheel_radius).metres();
    let weight = level.mass.kilograms();
    let (moment, moment_slope) = (ahead * cos - above * sin, -ahead * sin - above * cos);
    let (arm, arm_slope) = (
        length * cos - coupling * sin,
        -length * sin - coupling * cos,
    );
    let (shift, shift_slope) = between_axles(chassis);
    let shift_tongue = shift_slope / (2.0 * length) * shift;
    let tongue = weight * moment / arm + shift_tongue * nose_up.radians();
    let slope = weight * (moment_slope * arm - moment * arm_slope) / (arm * arm) + shift_tongue;
    let axle = weight - tongue;
    let difference = -shift * nose_up.radians();
    Ok(Attitude {
        tongue: Mass::from_kilograms(tongue),
        axle: Mass::from_kilograms(axle),
        axles: axle_loads(chassis, axle, difference),
        tongue_per_degree: Mass::from_kilograms(slope * Angle::from_degrees(1.0).radians()),
    })
}

/// Tilt that a coupling height gives, the trailer turning about its wheel centres.
///
/// # Errors
/// A height that cannot be, or one that the coupling cannot reach.
pub fn nose_up_at(
    chassis: &Chassis,
    heights: &Heights,
    coupling_height: Length,
) -> Result<Angle, Refusal> {
    check(chassis, heights)?;
    let length = chassis.coupling_to_axle.metres();
    let coupling = (heights.coupling_when_level - heights.wheel_radius).metres();
    let sine = (coupling_height - heights.wheel_radius).metres() / length.hypot(coupling);
    require(
        "coupling height [m]",
        coupling_height.metres(),
        sine.abs() < 1.0,
        "one that the coupling can reach",
    )?;
    Ok(Angle::from_radians(sine.asin() - coupling.atan2(length)))
}

/// Load by which the rear of two independent axles gains on the front one for each radian nose up
/// [kg/rad], and the spacing \[m\]; zero for axles that share their load.
fn between_axles(chassis: &Chassis) -> (f64, f64) {
    match chassis.suspension {
        Suspension::Single | Suspension::Equalised { .. } => (0.0, 0.0),
        Suspension::Independent {
            spacing,
            newtons_per_metre,
        } => (
            newtons_per_metre * spacing.metres() / STANDARD_GRAVITY,
            spacing.metres(),
        ),
    }
}

/// Each axle's load from their sum and the front one's lead \[kg\].
fn axle_loads(chassis: &Chassis, axle: f64, difference: f64) -> Vec<Mass> {
    match chassis.axle_count() {
        1 => vec![Mass::from_kilograms(axle)],
        _ => [0.5 * (axle + difference), 0.5 * (axle - difference)]
            .map(Mass::from_kilograms)
            .to_vec(),
    }
}

fn check(chassis: &Chassis, heights: &Heights) -> Result<(), Refusal> {
    chassis.check()?;
    above_zero("wheel radius [m]", heights.wheel_radius.metres())?;
    finite(
        "height of the coupling [m]",
        heights.coupling_when_level.metres(),
    )
}
