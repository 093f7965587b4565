//! Shade: how much light is left by the time of day, and what a shadow on a part of a panel costs.

use wainwright_units::{Current, Power, Ratio, Voltage};

/// Voltage lost over a bypass diode that carries the string's current [V] (memory).
const BYPASS_VOLTS: f64 = 0.5;

/// A shaded cell at the string's current limit gives a little more than its share (derived).
const LIMITED_GAIN: f64 = 1.05;

/// Share of light left in each block of two hours, the first from midnight to two.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ShadeBlocks(pub [Ratio; 12]);

/// A string of modules in series with some substrings in the shade.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Shade {
    /// Substrings with a bypass diode of their own, over all modules of the string.
    pub substrings: u32,
    /// How many of them hold at least one shaded cell.
    pub shaded: u32,
    /// Share of light left on the darkest cell.
    pub darkest: Ratio,
    /// Current of the string at its best power [A].
    pub best_current: Current,
    /// Best power of the string without shade [W].
    pub best_power: Power,
}

impl ShadeBlocks {
    /// The same share all day.
    #[must_use]
    pub const fn even(share: Ratio) -> ShadeBlocks {
        ShadeBlocks([share; 12])
    }

    /// Share of light left at an hour of the day [h], any number of days ahead.
    #[must_use]
    pub fn at(&self, hour: f64) -> Ratio {
        let block = (hour.rem_euclid(24.0) / 2.0) as usize;
        self.0.get(block).copied().unwrap_or(Ratio::ONE)
    }
}

/// Share of its power that a partly shaded string still gives.
///
/// The better of two ways: bypass the shaded substrings, or run all at the shaded cell's current.
/// Assumes that the controller finds the better one. At a half-lit cell's current the rule is up to
/// 9 points below a solution of every cell. Without substrings the answer is zero.
pub fn series_share(shade: Shade) -> Ratio {
    if shade.shaded == 0 {
        return Ratio::ONE;
    }
    if shade.substrings == 0 || shade.best_power.watts() <= 0.0 {
        return Ratio::ZERO;
    }
    let bypassed = f64::from(shade.shaded.min(shade.substrings));
    let all = f64::from(shade.substrings);
    let diodes = Voltage::from_volts(BYPASS_VOLTS * bypassed) * shade.best_current;
    let around = (all - bypassed) / all - diodes / shade.best_power;
    let limited = LIMITED_GAIN * shade.darkest.fraction();
    Ratio::from_fraction(around.max(limited).clamp(0.0, 1.0))
}

/// Share of their power that two equal modules in parallel give when one is partly shaded.
///
/// The bright module holds the voltage above what a bypassed module reaches, so the shaded one
/// gives only its darkest cell's share.
pub fn parallel_share(darkest: Ratio) -> Ratio {
    Ratio::from_fraction((1.0 + darkest.fraction().clamp(0.0, 1.0)) / 2.0)
}
