//! A pack of cells in series as measured tables: open voltage and resistance.

use super::curve::Curve;
use wainwright_units::{Charge, Energy, Ratio, Resistance, Temperature, Voltage};

/// Which way the current flows.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Direction {
    /// Into the battery.
    Charging,
    /// Out of the battery.
    Discharging,
}

/// Resistance of one cell times its capacity, as measured.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct ResistanceTable<'a> {
    /// Measured temperatures, rising [°C].
    pub celsius: &'a [f64],
    /// State of charge (0 to 1, rising) and the value at each temperature [Ω·Ah].
    pub rows: &'a [(f64, &'a [f64])],
    /// Steepness B outside the measured temperatures [K].
    pub activation: f64,
}

/// A battery of equal cells in series.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Pack<'a> {
    /// Cells in series.
    pub series: u32,
    /// Usable charge between empty and full [Ah].
    pub capacity: Charge,
    /// Open voltage of a cell [V] over the state of charge, 0 to 1.
    pub open: Curve<'a>,
    /// Gap between charged and discharged open voltage of a cell [V]; each way gets half.
    pub hysteresis: Curve<'a>,
    /// Resistance on discharge.
    pub discharging: ResistanceTable<'a>,
    /// Resistance on charge.
    pub charging: ResistanceTable<'a>,
    /// Resistance of terminals, links and protection board [Ω].
    pub connections: Resistance,
    /// Share of the charge put in that can be taken out.
    pub coulombic: Ratio,
}

impl Pack<'_> {
    /// Open voltage of the pack.
    #[must_use]
    pub fn open_voltage(&self, charge: Ratio, direction: Direction) -> Voltage {
        let cell = self.cell_voltage(charge.fraction(), direction);
        Voltage::from_volts(f64::from(self.series) * cell)
    }

    /// Open voltage of one cell [V]; above full it goes on as steeply as its curve ends.
    pub(crate) fn cell_voltage(&self, charge: f64, direction: Direction) -> f64 {
        let half_gap = self.hysteresis.at(charge) / 2.0;
        let beyond = self.open.at_or_beyond(charge.max(1.0)) - self.open.at_or_beyond(1.0);
        self.open.at(charge.min(1.0))
            + beyond
            + match direction {
                Direction::Charging => half_gap,
                Direction::Discharging => -half_gap,
            }
    }

    /// Resistance of the pack, connections included.
    #[must_use]
    pub fn resistance(
        &self,
        charge: Ratio,
        temperature: Temperature,
        direction: Direction,
    ) -> Resistance {
        let table = match direction {
            Direction::Charging => &self.charging,
            Direction::Discharging => &self.discharging,
        };
        let cell = table.at(charge.fraction(), temperature) / self.capacity.ampere_hours();
        Resistance::from_ohms(f64::from(self.series) * cell) + self.connections
    }

    /// Energy between two states of charge at the open voltage, without losses.
    #[must_use]
    pub fn energy_between(&self, from: Ratio, to: Ratio) -> Energy {
        let volts = f64::from(self.series) * self.open.area(from.fraction(), to.fraction());
        Voltage::from_volts(volts) * self.capacity
    }
}

impl ResistanceTable<'_> {
    /// Resistance times capacity [Ω·Ah] at a state of charge and a temperature; zero without rows.
    #[must_use]
    pub fn at(&self, charge: f64, temperature: Temperature) -> f64 {
        let after = self.rows.partition_point(|row| row.0 < charge);
        let before = after.checked_sub(1).and_then(|at| self.rows.get(at));
        match (before, self.rows.get(after)) {
            (Some(left), Some(right)) => {
                let low = self.in_row(left.1, temperature);
                let high = self.in_row(right.1, temperature);
                low + (high - low) * (charge - left.0) / (right.0 - left.0)
            }
            (Some(only), None) | (None, Some(only)) => self.in_row(only.1, temperature),
            (None, None) => 0.0,
        }
    }

    /// A row at a temperature: ln r is straight over 1/T, and of slope B outside.
    fn in_row(&self, row: &[f64], temperature: Temperature) -> f64 {
        let per_kelvin = |celsius: f64| 1.0 / (celsius + 273.15);
        let here = per_kelvin(temperature.celsius());
        let outside = |celsius: f64, value: f64| {
            value * (self.activation * (here - per_kelvin(celsius))).exp()
        };
        let mut points = self.celsius.iter().copied().zip(row.iter().copied());
        let Some(mut left) = points.next() else {
            return 0.0;
        };
        if temperature.celsius() <= left.0 {
            return outside(left.0, left.1);
        }
        for right in points {
            if temperature.celsius() <= right.0 {
                let share =
                    (here - per_kelvin(left.0)) / (per_kelvin(right.0) - per_kelvin(left.0));
                return left.1 * (right.1 / left.1).powf(share);
            }
            left = right;
        }
        outside(left.0, left.1)
    }
}
