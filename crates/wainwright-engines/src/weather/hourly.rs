//! Clearness of the hours of a day whose clearness is known.

use super::random::Randomness;

/// Clearest hour that can be (read).
const CLEAREST: f64 = 0.85;

/// How the hours of a day of one clearness are spread.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HourLaw {
    day: f64,
}

impl HourLaw {
    /// For a day's clearness, 0 to 1.
    #[must_use]
    pub fn of_day(clearness: f64) -> HourLaw {
        HourLaw {
            day: clearness.clamp(0.0, 1.0),
        }
    }

    /// How much an hour keeps of the hour before.
    #[must_use]
    pub fn memory(self) -> f64 {
        0.38 + 0.06 * (7.4 * self.day - 2.5).cos()
    }

    /// Mean clearness at a sine of the sun's height, which is above 0.
    #[must_use]
    pub fn mean(self, sine: f64) -> f64 {
        let k = self.day;
        let level = -0.19 + 1.12 * k + 0.24 * (-8.0 * k).exp();
        let height = 0.32 - 1.6 * (k - 0.5).powi(2);
        let bend = 0.19 + 2.27 * k * k - 2.51 * k.powi(3);
        level + height * (-bend / sine).exp()
    }

    /// Deviation of clearness at a sine of the sun's height.
    #[must_use]
    pub fn deviation(self, sine: f64) -> f64 {
        let k = self.day;
        let high_sun = 0.14 * (-20.0 * (k - 0.35).powi(2)).exp();
        let growth = 3.0 * (k - 0.45).powi(2) + 16.0 * k.powi(5);
        high_sun * (growth * (1.0 - sine)).exp()
    }
}

/// Clearness of each hour without the play of clouds; it adds up to the day's clearness.
///
/// `sines` holds the sine of the sun's height in each hour, `above` the light above the air on
/// flat ground in each hour. Zero at night.
pub fn smooth_hours(day: f64, sines: &[f64], above: &[f64]) -> Vec<f64> {
    let law = HourLaw::of_day(day);
    let raw = sines.iter().map(|sine| smooth(law, *sine)).collect();
    scaled_to_day(raw, day, above)
}

/// Clearness of each hour with the play of clouds; it adds up to the day's clearness.
pub fn hourly_clearness(
    day: f64,
    sines: &[f64],
    above: &[f64],
    random: &mut Randomness,
) -> Vec<f64> {
    let law = HourLaw::of_day(day);
    let keep = law.memory();
    let fresh = (1.0 - keep * keep).sqrt();
    let mut swing = 0.0;
    let step = |sine: &f64| {
        swing = keep * swing + fresh * random.normal();
        if *sine <= 0.0 {
            return 0.0;
        }
        (law.mean(*sine) + law.deviation(*sine) * swing).clamp(0.0, CLEAREST)
    };
    let raw = sines.iter().map(step).collect();
    scaled_to_day(raw, day, above)
}

fn smooth(law: HourLaw, sine: f64) -> f64 {
    if sine <= 0.0 {
        return 0.0;
    }
    law.mean(sine).clamp(0.0, CLEAREST)
}

/// Scales the hours so that light on the ground over light above the air is the day's clearness.
fn scaled_to_day(mut hours: Vec<f64>, day: f64, above: &[f64]) -> Vec<f64> {
    let ground: f64 = hours.iter().zip(above).map(|(kt, e0)| kt * e0).sum();
    if ground <= 0.0 {
        // So dull that the law gives nothing: an even grey.
        for (kt, e0) in hours.iter_mut().zip(above) {
            *kt = if *e0 > 0.0 { day } else { 0.0 };
        }
        return hours;
    }
    let all: f64 = above.iter().sum();
    let factor = day * all / ground;
    for kt in &mut hours {
        *kt *= factor;
    }
    hours
}
