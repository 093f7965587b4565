//! Where the centre of gravity is: sideways from the two sides, its height from a raised tongue.

use wainwright_units::{Angle, Length, Mass};

use super::measured::Measured;
use crate::refusal::{Refusal, above_zero, finite, require};

/// A trailer weighed level and with its tongue raised.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Raised {
    /// Ball to axle [m], above zero.
    pub coupling_to_axle: Length,
    /// Ground to wheel centre [m], above zero.
    pub wheel_radius: Length,
    /// Ground to the middle of the coupling when level \[m\].
    pub coupling_when_level: Length,
    /// All of the trailer [kg], above zero.
    pub mass: Measured<Mass>,
    /// Load on the ball when level \[kg\].
    pub level_tongue: Measured<Mass>,
    /// Load on the ball when raised \[kg\], plumb.
    pub raised_tongue: Measured<Mass>,
    /// Tilt, nose up: 3° to 30°.
    pub tilt: Measured<Angle>,
}

/// Distance of the centre of gravity to the left of the middle \[m\], from both sides' wheel loads,
/// the load on the ball and the track.
///
/// The ball stands on the middle line and passes no roll moment, so moments about that line are
/// W·ȳ = (left − right)·t/2 with the whole mass W = left + right + ball. Dividing by the wheel loads
/// alone, as is sometimes printed, gives where those two act together, which is W/(left + right)
/// times as far out.
///
/// # Errors
/// A length or load that cannot be, or no mass.
pub fn centre_sideways(
    left: Measured<Mass>,
    right: Measured<Mass>,
    tongue: Measured<Mass>,
    track: Length,
) -> Result<Measured<Length>, Refusal> {
    left.check("load of the left wheels [kg]")?;
    right.check("load of the right wheels [kg]")?;
    tongue.check("tongue load [kg]")?;
    above_zero("track [m]", track.metres())?;
    let mass = (left.value + right.value + tongue.value).kilograms();
    above_zero("mass of the trailer [kg]", mass)?;
    let half = 0.5 * track.metres();
    let place = half * (left.value - right.value).kilograms() / mass;
    Ok(Measured::from_effects(
        place,
        &[
            left.sigma.kilograms() * (half - place) / mass,
            right.sigma.kilograms() * (half + place) / mass,
            tongue.sigma.kilograms() * place / mass,
        ],
    ))
}

/// Height of the centre of gravity over the ground \[m\], level.
///
/// # Errors
/// A length or mass that cannot be, or a tilt outside 3° to 30°.
pub fn centre_height(raised: &Raised) -> Result<Measured<Length>, Refusal> {
    check(raised)?;
    let length = raised.coupling_to_axle.metres();
    let coupling = (raised.coupling_when_level - raised.wheel_radius).metres();
    let mass = raised.mass.value.kilograms();
    let (sin, cos) = raised.tilt.value.radians().sin_cos();
    let ahead = length * raised.level_tongue.value.kilograms() / mass;
    let share = raised.raised_tongue.value.kilograms() / mass;
    let arm = length * cos - coupling * sin;
    let above_wheel = (ahead * cos - share * arm) / sin;
    Ok(Measured::from_effects(
        raised.wheel_radius.metres() + above_wheel,
        &[
            raised.mass.sigma.kilograms() * above_wheel / mass,
            raised.level_tongue.sigma.kilograms() * length * cos / (mass * sin),
            raised.raised_tongue.sigma.kilograms() * arm / (mass * sin),
            raised.tilt.sigma.radians() * (ahead - share * length) / (sin * sin),
        ],
    ))
}

fn check(raised: &Raised) -> Result<(), Refusal> {
    above_zero("ball to axle [m]", raised.coupling_to_axle.metres())?;
    above_zero("wheel radius [m]", raised.wheel_radius.metres())?;
    finite(
        "height of the coupling [m]",
        raised.coupling_when_level.metres(),
    )?;
    raised.mass.check("mass of the trailer [kg]")?;
    above_zero("mass of the trailer [kg]", raised.mass.value.kilograms())?;
    raised.level_tongue.check("tongue load when level [kg]")?;
    raised.raised_tongue.check("tongue load when raised [kg]")?;
    raised.tilt.check("tilt [°]")?;
    let tilt = raised.tilt.value.degrees();
    require(
        "tilt [°]",
        tilt,
        (3.0..=30.0).contains(&tilt),
        "3° to 30° nose up",
    )
}
