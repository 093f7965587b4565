//! Whether the light of a record follows the sun of its place, or is some hours out of step.

use super::record::{HourReading, Site};
use crate::weather::LightAbove;

/// Furthest shift that is tried [h]: a record in universal time is found out too.
const FURTHEST: i32 = 12;

/// Least hours with light for an answer.
const LEAST_HOURS: usize = 24;

/// How the light of a record agrees with light above the air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Alignment {
    /// Hours by which the record is late (above 0) or early (below 0).
    pub best: i32,
    /// Correlation with the sun if the record is taken to be 1 h early, in step, 1 h late.
    pub correlations: [f64; 3],
    /// Correlation at the best shift.
    pub best_correlation: f64,
}

/// Finds the shift at which light and sun agree best.
///
/// `None` without a place or with less than a day of light. Hours are taken as they follow each
/// other; gaps cost a little of the correlation.
pub(super) fn align(hours: &[HourReading], site: &Site) -> Option<Alignment> {
    let (place, zone) = (site.place()?, site.zone_or_nearest()?);
    let mut above = Vec::with_capacity(hours.len());
    let mut light: Option<(u32, u32, LightAbove)> = None;
    for hour in hours {
        let known = light.filter(|known| (known.0, known.1) == (hour.month, hour.day));
        let of_day = match known {
            Some(known) => known.2,
            None => LightAbove::new(place, zone, hour.month, hour.day).ok()?,
        };
        light = Some((hour.month, hour.day, of_day));
        above.push(of_day.hour(hour.hour));
    }
    let lit = hours
        .iter()
        .filter(|hour| hour.global.is_some_and(|light| light > 0.0));
    if lit.count() < LEAST_HOURS {
        return None;
    }
    let at = |late: i32| correlation(hours, &above, late).unwrap_or(-1.0);
    // Nought first: a shift must be better, not as good.
    let mut best = (0, at(0));
    for distance in 1..=FURTHEST {
        for late in [distance, -distance] {
            let found = at(late);
            if found > best.1 + 1e-9 {
                best = (late, found);
            }
        }
    }
    Some(Alignment {
        best: best.0,
        correlations: [at(-1), at(0), at(1)],
        best_correlation: best.1,
    })
}

/// Correlation of the record, taken to be so many hours late, with light above the air.
fn correlation(hours: &[HourReading], above: &[f64], late: i32) -> Option<f64> {
    let (skip_light, skip_above) = if late >= 0 {
        (late.unsigned_abs() as usize, 0)
    } else {
        (0, late.unsigned_abs() as usize)
    };
    let lights = hours.iter().skip(skip_light).map(|hour| hour.global);
    let pairs = lights
        .zip(above.iter().skip(skip_above))
        .filter_map(|(light, above)| Some((light?, *above)));
    let (mut n, mut x, mut y, mut xx, mut yy, mut xy) = (0.0, 0.0, 0.0, 0.0, 0.0, 0.0);
    for (light, above) in pairs {
        n += 1.0;
        x += light;
        y += above;
        xx += light * light;
        yy += above * above;
        xy += light * above;
    }
    let spread = (n * xx - x * x) * (n * yy - y * y);
    (spread > 0.0).then(|| (n * xy - x * y) / spread.sqrt())
}
