//! What one reading may be, and which numbers stand for a missing one. Not here: where it stands.

use super::fault::quote;
use super::text;

/// What a reading is and what it may be.
#[derive(Debug, Clone, Copy)]
pub(super) struct Kind {
    /// What it is called in a fault.
    name: &'static str,
    /// Its unit.
    unit: &'static str,
    /// Smallest and largest value that can be.
    bounds: (f64, f64),
    /// Numbers at and below the first, or at and above the second, stand for a missing value.
    missing: (f64, f64),
    /// Values down to this below the smallest are taken as the smallest: sensors drift at night.
    drift: f64,
}

/// Light of one row [Wh/m² or W/m²].
pub(super) const LIGHT: Kind = Kind {
    name: "light",
    unit: "W/m²",
    bounds: (0.0, 1600.0),
    missing: (-99.0, 9999.0),
    drift: 20.0,
};

/// Air temperature [°C].
pub(super) const AIR: Kind = Kind {
    name: "temperature",
    unit: "°C",
    bounds: (-90.0, 60.0),
    missing: (-99.0, 99.9),
    drift: 0.0,
};

/// Wind [m/s].
pub(super) const WIND: Kind = Kind {
    name: "wind",
    unit: "m/s",
    bounds: (0.0, 100.0),
    missing: (-9.0, 999.0),
    drift: 0.0,
};

/// Light of a day [kWh/m²].
pub(super) const DAY_LIGHT: Kind = Kind {
    name: "light of a day",
    unit: "kWh/m²",
    bounds: (0.0, 13.0),
    missing: (-9.0, 999.0),
    drift: 0.0,
};

impl Kind {
    /// The value in a cell, nothing, or what was found and expected.
    pub(super) fn read(&self, cell: Option<&&str>) -> Result<Option<f64>, (String, String)> {
        let expected = || {
            let (low, high) = self.bounds;
            format!("{} from {low} to {high} {}", self.name, self.unit)
        };
        let Some(value) = text::number(cell).map_err(|found| (found, expected()))? else {
            return Ok(None);
        };
        let (low, high) = self.bounds;
        if value <= self.missing.0 || value >= self.missing.1 {
            Ok(None)
        } else if value < low - self.drift || value > high {
            Err((quote(&value.to_string()), expected()))
        } else {
            Ok(Some(value.max(low)))
        }
    }
}
