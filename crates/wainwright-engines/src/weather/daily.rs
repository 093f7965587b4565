//! Clearness of days: a Markov chain of ten states, its months, and years that differ.

use super::random::Randomness;

/// How often a month is drawn again before the nearest draw is taken.
const MOST_DRAWS: u32 = 20;

/// How near a drawn month must be to the wanted mean, as a share of it (read).
const NEAR_ENOUGH: f64 = 0.04;

/// Bounds of a month's clearness after the year's factor (derived from the chains' own range).
const CLEARNESS_BOUNDS: (f64, f64) = (0.05, 0.8);

/// Transition probabilities for months up to a mean clearness.
#[derive(Debug, Clone, PartialEq)]
pub struct Chain {
    /// Months of a mean clearness up to this use this chain.
    pub up_to: f64,
    /// Lower edge of the first of ten equal states.
    pub lowest: f64,
    /// Upper edge of the last state.
    pub highest: f64,
    /// Share of each next state, by the present state.
    pub rows: [[f64; 10]; 10],
}

/// A month to draw.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MonthWanted<'a> {
    /// Wanted mean clearness, weighted by the light above the air.
    pub mean: f64,
    /// Light above the air on each of the days, in any unit; its length is the month's.
    pub above: &'a [f64],
}

impl Chain {
    /// Clearness of the day after one of clearness `present`, by a uniform number from 0 to 1.
    #[must_use]
    pub fn next(&self, present: f64, uniform: f64) -> f64 {
        let width = (self.highest - self.lowest) / 10.0;
        let state = ((present - self.lowest) / width).floor().clamp(0.0, 9.0) as usize;
        let Some(row) = self.rows.get(state) else {
            return present;
        };
        // Printed rows are rounded: they count as shares of their own sum.
        let whole: f64 = row.iter().sum();
        let mut passed = 0.0;
        let mut edge = self.lowest;
        let mut last = present;
        for share in row.iter().map(|share| share / whole) {
            if share > 0.0 {
                let within = ((uniform - passed) / share).min(1.0);
                last = edge + width * within;
                if uniform < passed + share {
                    return last;
                }
            }
            passed += share;
            edge += width;
        }
        // The last bits of a sum may fall short of one: the last possible state takes the rest.
        last
    }

    /// Share of days in each state in the long run, for checks.
    #[must_use]
    pub fn stationary(&self) -> [f64; 10] {
        let mut shares = [0.1; 10];
        for _ in 0..1000 {
            let mut next = [0.0; 10];
            for (share, row) in shares.iter().zip(&self.rows) {
                let sum: f64 = row.iter().sum();
                for (target, part) in next.iter_mut().zip(row) {
                    *target += share * part / sum.max(f64::MIN_POSITIVE);
                }
            }
            shares = next;
        }
        shares
    }
}

/// The chain for a month's mean clearness; the last one for anything above, `None` without chains.
pub fn chain_for(chains: &[Chain], mean: f64) -> Option<&Chain> {
    chains
        .iter()
        .find(|chain| mean <= chain.up_to)
        .or(chains.last())
}

/// Clearness of each day of a month.
///
/// Empty when there are no days or no chains. The first day follows a day of the mean clearness.
pub fn month(chains: &[Chain], wanted: MonthWanted<'_>, random: &mut Randomness) -> Vec<f64> {
    let Some(chain) = chain_for(chains, wanted.mean) else {
        return Vec::new();
    };
    let mut nearest = Vec::new();
    let mut nearest_off = f64::INFINITY;
    for _ in 0..MOST_DRAWS {
        let days = draw(chain, wanted, random);
        let off = (weighted_mean(&days, wanted.above) / wanted.mean - 1.0).abs();
        if off < nearest_off || nearest.is_empty() {
            nearest = days;
            nearest_off = off;
        }
        if nearest_off <= NEAR_ENOUGH {
            break;
        }
    }
    nearest
}

/// The mean clearness of a month in one particular year: spread is a share, 0.05 sunny, 0.12 dull.
pub fn month_clearness_in_year(mean: f64, spread: f64, random: &mut Randomness) -> f64 {
    let (low, high) = CLEARNESS_BOUNDS;
    (mean * (1.0 + spread * random.normal())).clamp(low, high)
}

fn draw(chain: &Chain, wanted: MonthWanted<'_>, random: &mut Randomness) -> Vec<f64> {
    let mut present = wanted.mean;
    let step = |_: &f64| {
        present = chain.next(present, random.uniform());
        present
    };
    wanted.above.iter().map(step).collect()
}

fn weighted_mean(days: &[f64], above: &[f64]) -> f64 {
    let light: f64 = days.iter().zip(above).map(|(day, h0)| day * h0).sum();
    let whole: f64 = above.iter().sum();
    if whole > 0.0 { light / whole } else { f64::NAN }
}
