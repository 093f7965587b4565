//! How air lifts the sun into sight. Not here: how it dims the light (`air`, `sky`).

use super::position::{Air, SunError, bad_place};
use solar_positioning::RefractionCorrection;

/// Lift of a sun 45° high, about [°]: 1.02 minutes of arc (read).
const LIFT_DEGREES: f64 = 1.02 / 60.0;

/// Pressure [hPa] and absolute temperature [K] of the printed lift (read).
const PRINTED_HECTOPASCALS: f64 = 1010.0;
const PRINTED_KELVINS: f64 = 283.0;

/// Ice point as the equation rounds it [K] (read).
const ICE_POINT: f64 = 273.0;

/// Bend of the equation near the horizon, 10.3 square degrees and 5.11° (read).
const SQUARE_NEAR_HORIZON: f64 = 10.3_f64.to_radians().to_radians();
const NEAR_HORIZON: f64 = 5.11_f64.to_radians();

/// Lowest height that is lifted: the sun's radius and 0.5667° of air below the horizon (read).
const LOWEST_LIFTED: f64 = -(0.266_67_f64 + 0.566_7).to_radians();

/// Air as a lens, prepared for many heights of the sun.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Lens {
    strength_radians: f64,
}

impl Lens {
    /// Prepares the air of a place.
    pub(super) fn new(air: Air) -> Result<Lens, SunError> {
        let hectopascals = air.pascals / 100.0;
        let celsius = air.temperature.celsius();
        // Only for its limits of what air can be. The lift of its fast method is 1.3 % more, and none
        // below the horizon: one equation serves both methods here.
        RefractionCorrection::new(hectopascals, celsius).map_err(bad_place)?;
        let dense = hectopascals / PRINTED_HECTOPASCALS * PRINTED_KELVINS / (ICE_POINT + celsius);
        Ok(Lens {
            strength_radians: (dense * LIFT_DEGREES).to_radians(),
        })
    }

    /// How much higher the sun appears [rad] than it stands, `elevation` [rad].
    pub(super) fn lift(self, elevation: f64) -> f64 {
        if elevation < LOWEST_LIFTED {
            return 0.0;
        }
        let phase = elevation + SQUARE_NEAR_HORIZON / (elevation + NEAR_HORIZON);
        self.strength_radians / phase.tan()
    }
}
