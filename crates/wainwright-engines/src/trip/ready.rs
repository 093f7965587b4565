//! What is known of an hour before its battery is asked: air, cells, loads, water.

use super::gear::{Gear, NO_REACH};
use super::hour::Hour;
use super::load::Demand;
use super::water::{Tanks, WaterHour};
use crate::battery::allowed_charge;
use crate::battery::cells::Cells;
use crate::solar_power::Reach;
use wainwright_units::{Temperature, Volume};

/// What runs ahead of the battery.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ahead {
    /// Temperature of the cells [°C].
    pub cell: f64,
    pub tanks: Tanks,
}

/// An hour without its battery.
#[derive(Debug, Clone, Copy)]
pub(super) struct Ready<W, const N: usize> {
    /// Temperature of the cells [°C].
    pub cell: f64,
    /// The same, looked up.
    pub warmth: W,
    /// Largest charging current at this temperature [A].
    pub by_cold: f64,
    /// What the sources can give.
    pub reaches: [Reach; N],
    /// Whether none of them can give anything.
    pub nothing_given: bool,
    pub demand: Demand,
    pub water: WaterHour,
    /// Tanks at the end.
    pub tanks: Tanks,
}

impl<W, const N: usize> Ready<W, N> {
    /// An hour of nothing, to be filled.
    pub(super) const fn nothing(warmth: W) -> Ready<W, N> {
        Ready {
            cell: 0.0,
            warmth,
            by_cold: 0.0,
            reaches: [NO_REACH; N],
            nothing_given: true,
            demand: Demand::NONE,
            water: WaterHour {
                missing: Volume::ZERO,
                spilled: Volume::ZERO,
            },
            tanks: Tanks {
                fresh: Volume::ZERO,
                waste: Volume::ZERO,
            },
        }
    }
}

impl Ahead {
    /// Fills in the next hour; answers with what is wrong with it.
    #[inline(always)]
    pub(super) fn next<C: Cells, const N: usize>(
        &mut self,
        gear: &Gear<'_, C>,
        hour: &Hour,
        ready: &mut Ready<C::Warmth, N>,
    ) -> Option<&'static str> {
        if let Some(found) = hour.nonsense::<N>() {
            return Some(found);
        }
        let air = hour.air.celsius();
        self.cell = air + (self.cell - air) * gear.difference_kept;
        ready.cell = self.cell;
        ready.warmth = gear.cells.warmth(self.cell);
        ready.by_cold = if gear.bands.is_empty() {
            f64::INFINITY
        } else {
            let cell = Temperature::from_celsius(self.cell);
            allowed_charge(gear.bands, gear.capacity, cell).amperes()
        };
        let no_sun = hour.panel.iter().take(N).all(|panel| panel.watts() <= 0.0);
        ready.nothing_given = no_sun && !hour.driving && !hour.shore;
        if !ready.nothing_given {
            ready.reaches = gear.reaches(hour);
        }
        ready.water = gear.water.hour(&mut self.tanks, hour.hour_of_day, hour.tap);
        ready.tanks = self.tanks;
        ready.demand = gear.demand(hour);
        if ready.demand.makes_sense() {
            return None;
        }
        Some("the power of a load is no number or below zero")
    }
}
