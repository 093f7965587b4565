//! Three passes over a public scale with a plate for each axle group.

use wainwright_units::{Length, Mass, Ratio, STANDARD_GRAVITY, Torque};

use super::measured::Measured;
use crate::refusal::{Refusal, above_zero, finite, not_below_zero};

/// What the plates show for one pass.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct AxleReadings {
    /// Front axle of the tow vehicle \[kg\].
    pub front: Mass,
    /// Rear axle of the tow vehicle \[kg\].
    pub rear: Mass,
    /// Axles of the trailer \[kg\]; not used for the vehicle alone.
    pub trailer: Mass,
}

/// The passes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Passes {
    /// Coupled, weight-distribution bars slack or not fitted.
    pub coupled: AxleReadings,
    /// The tow vehicle alone.
    pub alone: AxleReadings,
    /// Coupled with the bars tight, when fitted and weighed.
    pub bars_tight: Option<AxleReadings>,
    /// Standard uncertainty of every plate reading \[kg\].
    pub sigma: Mass,
    /// Ball to trailer axle [m], above zero; needed for the torque of the bars only.
    pub coupling_to_axle: Option<Length>,
}

/// What the passes say.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PublicScale {
    /// Load on the ball \[kg\].
    pub tongue: Measured<Mass>,
    /// All of the trailer \[kg\].
    pub trailer: Measured<Mass>,
    /// Tongue load as a share of it.
    pub share: Measured<Ratio>,
    /// Change of the front axle load by coupling \[kg\].
    pub front_change: Measured<Mass>,
    /// Share of the front axle's loss that the bars give back; `None` without that pass, or when
    /// nothing was lost.
    pub restored: Option<Ratio>,
    /// Load that the bars move to the trailer's axles \[kg\].
    pub moved_to_trailer: Option<Measured<Mass>>,
    /// Torque of the bars at the ball [N·m].
    pub bar_torque: Option<Torque>,
}

/// Loads from three passes.
///
/// # Errors
/// A reading that cannot be, or a trailer without mass.
pub fn public_scale(passes: &Passes) -> Result<PublicScale, Refusal> {
    check(passes)?;
    let sigma = passes.sigma.kilograms();
    let (coupled, alone) = (passes.coupled, passes.alone);
    let tongue = (coupled.front + coupled.rear - alone.front - alone.rear).kilograms();
    let axle = coupled.trailer.kilograms();
    let trailer = axle + tongue;
    above_zero("mass of the trailer [kg]", trailer)?;
    let squared = trailer * trailer;
    let moved = |tight: AxleReadings| (tight.trailer - coupled.trailer).kilograms();
    Ok(PublicScale {
        tongue: Measured::from_effects(tongue, &[sigma; 4]),
        trailer: Measured::from_effects(trailer, &[sigma; 5]),
        share: Measured::from_effects(
            tongue / trailer,
            &[2.0 * sigma * axle / squared, sigma * tongue / squared],
        ),
        front_change: Measured::from_effects(
            (coupled.front - alone.front).kilograms(),
            &[sigma; 2],
        ),
        restored: passes.bars_tight.and_then(|tight| {
            let lost = alone.front - coupled.front;
            let given_back = tight.front - coupled.front;
            (lost.kilograms() > 0.0).then(|| Ratio::from_fraction(given_back / lost))
        }),
        moved_to_trailer: passes
            .bars_tight
            .map(|tight| Measured::from_effects(moved(tight), &[sigma; 2])),
        bar_torque: passes
            .bars_tight
            .zip(passes.coupling_to_axle)
            .map(|(tight, length)| {
                Torque::from_newton_metres(moved(tight) * length.metres() * STANDARD_GRAVITY)
            }),
    })
}

fn check(passes: &Passes) -> Result<(), Refusal> {
    not_below_zero("uncertainty of a reading [kg]", passes.sigma.kilograms())?;
    if let Some(length) = passes.coupling_to_axle {
        above_zero("ball to axle [m]", length.metres())?;
    }
    let all = [Some(passes.coupled), Some(passes.alone), passes.bars_tight];
    for (index, pass) in all.into_iter().enumerate() {
        let Some(pass) = pass else { continue };
        for reading in [pass.front, pass.rear, pass.trailer] {
            finite("plate reading [kg]", reading.kilograms())
                .map_err(|refusal| refusal.at("pass", index))?;
        }
    }
    Ok(())
}
