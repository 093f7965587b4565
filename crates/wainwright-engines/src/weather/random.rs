//! Seeded random numbers: the same seed and stream give the same numbers on every machine.

use std::f64::consts::TAU;

/// Step of the counter, 2⁶⁴ over the golden ratio, made odd.
const STEP: u64 = 0x9E37_79B9_7F4A_7C15;

/// A stream of random numbers (SplitMix64: a counter and a mixing function).
///
/// Good for simulations, not for secrets.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Randomness {
    counter: u64,
}

impl Randomness {
    /// The stream of one trip: streams of the same seed do not run in step.
    #[must_use]
    pub const fn new(seed: u64, stream: u64) -> Randomness {
        Randomness {
            counter: mix(seed ^ mix(stream.wrapping_add(STEP))),
        }
    }

    /// The stream whose counter starts at this very number, as published sequences do.
    #[must_use]
    pub const fn from_counter(counter: u64) -> Randomness {
        Randomness { counter }
    }

    /// The next 64 random bits.
    pub const fn bits(&mut self) -> u64 {
        self.counter = self.counter.wrapping_add(STEP);
        mix(self.counter)
    }

    /// The next number from 0 up to and without 1, in steps of 2⁻⁵³.
    pub fn uniform(&mut self) -> f64 {
        (self.bits() >> 11) as f64 / 9_007_199_254_740_992.0
    }

    /// The next number of the normal distribution with mean 0 and deviation 1 (Box–Muller).
    pub fn normal(&mut self) -> f64 {
        let radius = (-2.0 * (1.0 - self.uniform()).ln()).sqrt();
        radius * (TAU * self.uniform()).cos()
    }
}

const fn mix(mut bits: u64) -> u64 {
    bits = (bits ^ (bits >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    bits = (bits ^ (bits >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    bits ^ (bits >> 31)
}
