//! Odds over many seeded trips, and what a change does to them.

use super::error::TripError;
use crate::weather::Randomness;
use wainwright_units::Ratio;

/// Most trips in one question.
const MOST_TRIPS: usize = 1_000_000;

/// Quantile of the normal distribution for 95 % between both ends.
const Z95: f64 = 1.959_963_984_540_054;

/// How often trips run out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Odds {
    /// Trips that were simulated.
    pub trips: usize,
    /// Trips that ran out.
    pub ran_out: usize,
    /// Share of them.
    pub share: Ratio,
    /// Lower end of the 95 % confidence interval.
    pub low: Ratio,
    /// Its upper end.
    pub high: Ratio,
}

/// Two designs on the same trips.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Compared {
    /// Odds of the first design.
    pub first: Odds,
    /// Odds of the second design.
    pub second: Odds,
    /// Trips that only the first design survives.
    pub only_first: usize,
    /// Trips that only the second design survives.
    pub only_second: usize,
    /// Failures avoided by the second design, as a share of all trips.
    pub gain: f64,
    /// Half of the 95 % confidence interval of the gain.
    pub gain_margin: f64,
}

/// Runs seeded trips and counts those that run out.
///
/// `ran_out` gets the random numbers of one trip and answers whether it ran out. Trip number n of
/// a seed always gets the same numbers.
///
/// # Errors
/// Whatever a trip reports, and [`TripError::TooMany`] beyond a million trips.
pub fn odds(
    trips: usize,
    seed: u64,
    mut ran_out: impl FnMut(&mut Randomness) -> Result<bool, TripError>,
) -> Result<Odds, TripError> {
    let mut failed = 0;
    for number in 0..counted(trips)? {
        failed += usize::from(ran_out(&mut Randomness::new(seed, number))?);
    }
    Ok(interval(failed, trips))
}

/// Runs two designs on the same trips: the difference is far surer than that of two questions.
///
/// `ran_out` gets the random numbers of one trip and answers for both designs.
///
/// # Errors
/// As [`odds`].
pub fn compare(
    trips: usize,
    seed: u64,
    mut ran_out: impl FnMut(&mut Randomness) -> Result<(bool, bool), TripError>,
) -> Result<Compared, TripError> {
    let (mut first, mut second, mut only_first, mut only_second) = (0, 0, 0, 0);
    for number in 0..counted(trips)? {
        let (one, two) = ran_out(&mut Randomness::new(seed, number))?;
        first += usize::from(one);
        second += usize::from(two);
        only_first += usize::from(!one && two);
        only_second += usize::from(one && !two);
    }
    let count = trips.max(1) as f64;
    let gain = (only_second as f64 - only_first as f64) / count;
    let square = (only_second + only_first) as f64 / count;
    Ok(Compared {
        first: interval(first, trips),
        second: interval(second, trips),
        only_first,
        only_second,
        gain,
        gain_margin: Z95 * ((square - gain * gain).max(0.0) / count).sqrt(),
    })
}

/// Share and 95 % interval (Wilson) of so many failures; from 0 to 1 without any trip.
pub fn interval(failures: usize, trips: usize) -> Odds {
    let end = |low: f64, high: f64, share: f64| Odds {
        trips,
        ran_out: failures,
        share: Ratio::from_fraction(share),
        low: Ratio::from_fraction(low.max(0.0)),
        high: Ratio::from_fraction(high.min(1.0)),
    };
    if trips == 0 {
        return end(0.0, 1.0, 0.0);
    }
    let count = trips as f64;
    let share = failures as f64 / count;
    let over = 1.0 + Z95 * Z95 / count;
    let middle = (share + Z95 * Z95 / (2.0 * count)) / over;
    let spread = share * (1.0 - share) / count + Z95 * Z95 / (4.0 * count * count);
    let half = Z95 * spread.sqrt() / over;
    end(middle - half, middle + half, share)
}

/// Trips needed to know a share near `share` to within `half_width`, at 95 %.
pub fn trips_for(share: Ratio, half_width: Ratio) -> f64 {
    let p = share.fraction();
    Z95 * Z95 * p * (1.0 - p) / half_width.fraction().powi(2)
}

/// The values below which 10, 50 and 90 of a hundred lie; `None` without values.
pub fn spread(mut values: Vec<f64>) -> Option<[f64; 3]> {
    values.sort_by(f64::total_cmp);
    let last = values.len().checked_sub(1)?;
    let at = |share: f64| values.get((share * last as f64).round() as usize).copied();
    Some([at(0.1)?, at(0.5)?, at(0.9)?])
}

/// The numbers of the trips.
fn counted(trips: usize) -> Result<u64, TripError> {
    if trips > MOST_TRIPS {
        return Err(TripError::TooMany {
            asked: trips,
            most: MOST_TRIPS,
        });
    }
    Ok(trips as u64)
}
