//! Tongue load with a beam and a small scale, or from a reading at the jack.

use wainwright_units::{Length, Mass};

use super::measured::Measured;
use crate::refusal::{Refusal, above_zero, finite, require};

/// A beam on a support at one end and a scale at the other, loaded between them.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Beam {
    /// Support to load [m], above zero.
    pub support_to_load: Measured<Length>,
    /// Load to scale [m], above zero.
    pub load_to_scale: Measured<Length>,
    /// What the scale shows \[kg\].
    pub reading: Measured<Mass>,
    /// What it shows with the bare beam \[kg\].
    pub bare: Mass,
}

/// Load on the beam \[kg\].
///
/// # Errors
/// A length that is not above zero, or a reading that is not finite.
pub fn beam(beam: &Beam) -> Result<Measured<Mass>, Refusal> {
    let (near, far) = (beam.support_to_load, beam.load_to_scale);
    near.check("support to load [m]")?;
    far.check("load to scale [m]")?;
    beam.reading.check("reading [kg]")?;
    finite("reading with the bare beam [kg]", beam.bare.kilograms())?;
    above_zero("support to load [m]", near.value.metres())?;
    above_zero("load to scale [m]", far.value.metres())?;
    let (a, b) = (near.value.metres(), far.value.metres());
    let net = (beam.reading.value - beam.bare).kilograms();
    Ok(Measured::from_effects(
        net * (a + b) / a,
        &[
            beam.reading.sigma.kilograms() * (a + b) / a,
            near.sigma.metres() * net * b / (a * a),
            far.sigma.metres() * net / a,
        ],
    ))
}

/// Load on the ball from a load measured at the jack \[kg\]: the jack stands nearer to the axle and
/// so carries more.
///
/// # Errors
/// A length that cannot be, or a jack behind the axle.
pub fn tongue_from_jack(
    at_jack: Measured<Mass>,
    ball_to_jack: Measured<Length>,
    ball_to_axle: Measured<Length>,
) -> Result<Measured<Mass>, Refusal> {
    at_jack.check("load at the jack [kg]")?;
    ball_to_jack.check("ball to jack [m]")?;
    ball_to_axle.check("ball to axle [m]")?;
    let (jack, axle) = (ball_to_jack.value.metres(), ball_to_axle.value.metres());
    above_zero("ball to axle [m]", axle)?;
    require("ball to jack [m]", jack, jack < axle, "ahead of the axle")?;
    let load = at_jack.value.kilograms();
    Ok(Measured::from_effects(
        load * (axle - jack) / axle,
        &[
            at_jack.sigma.kilograms() * (axle - jack) / axle,
            ball_to_jack.sigma.metres() * load / axle,
            ball_to_axle.sigma.metres() * load * jack / (axle * axle),
        ],
    ))
}
