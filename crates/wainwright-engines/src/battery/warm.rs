//! Resistance by small slots of temperature: in each, the logarithm of each row is straight over
//! 1/T, as in the pack's own tables, so that one short series replaces powers.

use super::pack::{Direction, Pack, ResistanceTable};
use wainwright_units::Temperature;

/// Coldest and warmest slots [°C]; outside, the last slot goes on, which is slower but as exact.
const COLDEST: f64 = -50.0;
const WARMEST: f64 = 100.0;

/// Change of the logarithm of a resistance over a slot.
const SLOT_CHANGE: f64 = 0.05;

/// Most slots between two measured temperatures.
const MOST_SLOTS: f64 = 400.0;

/// A row in a slot: value at the slot's middle [Ω], and slope of its logarithm over 1/T [K].
type Entry = (f64, f64);

/// A temperature in its slot.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Warm {
    /// First entry of the slot.
    first: usize,
    /// 1/T less that of the slot's middle [1/K].
    off: f64,
    /// Whether that is more than half a slot, beyond the coldest and warmest.
    outside: bool,
}

/// Slots between two measured temperatures.
#[derive(Debug, Clone, Copy)]
struct Stretch {
    /// 1/T at its warm end [1/K], the lower one.
    warm: f64,
    /// 1/T at its cold end.
    cold: f64,
    /// Slots in it, those before it, and their width.
    slots: u32,
    before: usize,
    width: f64,
    per_width: f64,
}

/// Resistance of the cells of a pack, without connections.
#[derive(Debug, Clone)]
pub(crate) struct WarmTables {
    rows: usize,
    stretches: Vec<Stretch>,
    charging: Vec<Entry>,
    discharging: Vec<Entry>,
}

impl WarmTables {
    /// Prepares both tables at these states of charge; the last row is doubled, so that each has a
    /// next.
    pub(crate) fn new(pack: &Pack<'_>, rows: &[f64]) -> WarmTables {
        let mut rows = rows.to_vec();
        rows.push(rows.last().copied().unwrap_or(0.0));
        if rows.len() == 1 {
            rows.push(0.0);
        }
        let factor = f64::from(pack.series) / pack.capacity.ampere_hours();
        let both = [&pack.charging, &pack.discharging];
        let mut stretches: Vec<Stretch> = Vec::new();
        for (warm, cold) in ends(pack) {
            let before = stretches
                .last()
                .map_or(0, |last| last.before + last.slots as usize);
            let change = both
                .iter()
                .flat_map(|table| rows.iter().map(|row| slope(table, *row, warm, cold)))
                .fold(0.0, |most: f64, slope| most.max(slope.abs()))
                * (cold - warm);
            let slots = (change / SLOT_CHANGE).ceil().clamp(1.0, MOST_SLOTS) as u32;
            stretches.push(Stretch {
                warm,
                cold,
                slots,
                before,
                width: (cold - warm) / f64::from(slots),
                per_width: f64::from(slots) / (cold - warm),
            });
        }
        let entries = |table: &ResistanceTable<'_>| {
            let slots = stretches.iter().flat_map(|stretch| stretch.each());
            slots
                .flat_map(|(middle, stretch)| {
                    let entry = |row: &f64| {
                        let value = factor * table.at(*row, temperature(middle));
                        (value, slope(table, *row, stretch.warm, stretch.cold))
                    };
                    rows.iter().map(entry).collect::<Vec<Entry>>()
                })
                .collect()
        };
        WarmTables {
            charging: entries(&pack.charging),
            discharging: entries(&pack.discharging),
            rows: rows.len(),
            stretches,
        }
    }

    /// Looks up a temperature [°C].
    #[inline(always)]
    pub(crate) fn at(&self, celsius: f64) -> Warm {
        let here = per_kelvin(celsius);
        let mut found = None;
        // From cold to warm: the first stretch whose warm end is not warmer than this.
        for stretch in &self.stretches {
            found = Some(stretch);
            if here >= stretch.warm {
                break;
            }
        }
        let Some(stretch) = found else {
            return Warm {
                first: 0,
                off: 0.0,
                outside: false,
            };
        };
        let slot = (here - stretch.warm) * stretch.per_width;
        let slot = (slot as u32).min(stretch.slots - 1);
        let off = here - (stretch.warm + (f64::from(slot) + 0.5) * stretch.width);
        Warm {
            first: (stretch.before + slot as usize) * self.rows,
            off,
            outside: off.abs() > 0.6 * stretch.width,
        }
    }

    /// Resistance [Ω] between a row and the next.
    #[inline(always)]
    pub(crate) fn ohms(&self, warm: Warm, direction: Direction, row: usize, share: f64) -> f64 {
        let table = match direction {
            Direction::Charging => &self.charging,
            Direction::Discharging => &self.discharging,
        };
        let Some([left, right]) = table.get(warm.first + row..warm.first + row + 2) else {
            return 0.0;
        };
        let (low, high) = (left.1 * warm.off, right.1 * warm.off);
        let (low, high) = if warm.outside {
            (left.0 * low.exp(), right.0 * high.exp())
        } else {
            (left.0 * growth(low), right.0 * growth(high))
        };
        low + (high - low) * share
    }
}

impl Stretch {
    /// 1/T in the middle of each slot.
    fn each(self) -> impl Iterator<Item = (f64, Stretch)> {
        let middle = move |slot| self.warm + (f64::from(slot) + 0.5) * self.width;
        (0..self.slots).map(move |slot| (middle(slot), self))
    }
}

/// The exponential of a change up to that of half a slot, by its series; the first term left out
/// is below 1e-12.
#[inline(always)]
fn growth(change: f64) -> f64 {
    let square = change * change;
    1.0 + change
        + square * (0.5 + change * (1.0 / 6.0) + square * (1.0 / 24.0 + change * (1.0 / 120.0)))
}

/// Both ends of each stretch as 1/T, warm first, from the coldest stretch on.
fn ends(pack: &Pack<'_>) -> Vec<(f64, f64)> {
    let measured = pack.charging.celsius.iter().chain(pack.discharging.celsius);
    let mut all: Vec<f64> = measured
        .copied()
        .filter(|celsius| *celsius > COLDEST && *celsius < WARMEST)
        .chain([COLDEST, WARMEST])
        .collect();
    all.sort_by(f64::total_cmp);
    all.dedup();
    let pair = |ends: &[f64]| Some((per_kelvin(*ends.last()?), per_kelvin(*ends.first()?)));
    all.windows(2).filter_map(pair).collect()
}

/// Slope of the logarithm of a row over 1/T [K]; zero where the row is zero.
fn slope(table: &ResistanceTable<'_>, row: f64, warm: f64, cold: f64) -> f64 {
    let at = |inverse| table.at(row, temperature(inverse)).ln();
    let slope = (at(cold) - at(warm)) / (cold - warm);
    if slope.is_finite() { slope } else { 0.0 }
}

fn per_kelvin(celsius: f64) -> f64 {
    1.0 / (celsius + 273.15)
}

fn temperature(inverse: f64) -> Temperature {
    Temperature::from_celsius(1.0 / inverse - 273.15)
}
