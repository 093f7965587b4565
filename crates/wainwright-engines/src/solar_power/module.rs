//! Module temperature, power, and lasting losses.

use wainwright_units::{Power, Ratio, Temperature, TemperatureDifference};

/// Reference light of a module's rating [W/m²] and its reference cell temperature [°C].
const RATED_LIGHT: f64 = 1000.0;
const RATED_CELSIUS: f64 = 25.0;

/// Light below which dim-light losses follow the steep curve [W/m²] (read).
const DIM_LIGHT: f64 = 200.0;

/// How well air cools a module.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Mounting {
    /// Heat given off in still air [W/(m²·K)], above 0.
    pub still: f64,
    /// More of it per wind speed [W/(m²·K) per m/s].
    pub by_wind: f64,
}

/// A module as rated.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Module {
    /// Power at 1000 W/m² and 25 °C [W].
    pub rated: Power,
    /// Change of power with cell temperature [1/K], negative for silicon.
    pub per_kelvin: f64,
    /// Share of the rating lost at 200 W/m²; 0 leaves the correction out.
    pub dim_loss: f64,
}

/// Losses that multiply, each a share of what is left.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Losses {
    /// Dirt.
    pub soiling: Ratio,
    /// Wire between panel and controller.
    pub wiring: Ratio,
    /// Modules that are not alike.
    pub mismatch: Ratio,
    /// Age.
    pub ageing: Ratio,
}

/// Temperature of the cells in light `on_panel` [W/m²] and wind [m/s].
///
/// Cooling that is not above zero gives the air temperature: nothing is known about the rise.
pub fn cell_temperature(
    air: Temperature,
    on_panel: f64,
    wind: f64,
    mounting: Mounting,
) -> Temperature {
    let cooling = mounting.still + mounting.by_wind * wind.max(0.0);
    if cooling <= 0.0 {
        return air;
    }
    air + TemperatureDifference::from_kelvins(on_panel / cooling)
}

/// Power of a module in light behind its glass `effective` [W/m²]; never below zero.
pub fn module_power(module: Module, effective: f64, cell: Temperature) -> Power {
    let heat = 1.0 + module.per_kelvin * (cell.celsius() - RATED_CELSIUS);
    let share = effective / RATED_LIGHT * heat - module.dim_loss * dim_factor(effective);
    module.rated * share.max(0.0)
}

impl Losses {
    /// No losses.
    pub const NONE: Losses = Losses {
        soiling: Ratio::ZERO,
        wiring: Ratio::ZERO,
        mismatch: Ratio::ZERO,
        ageing: Ratio::ZERO,
    };

    /// Share that is left after all of them, 0 to 1.
    #[must_use]
    pub fn left(self) -> Ratio {
        let each = [self.soiling, self.wiring, self.mismatch, self.ageing];
        let product = each
            .iter()
            .map(|loss| (1.0 - loss.fraction()).clamp(0.0, 1.0))
            .product();
        Ratio::from_fraction(product)
    }
}

/// Shape of the loss in dim light: 1 at 200 W/m², 0 in darkness and in full light.
fn dim_factor(effective: f64) -> f64 {
    if effective <= DIM_LIGHT {
        1.0 - (1.0 - effective / DIM_LIGHT).powi(4)
    } else {
        (RATED_LIGHT - effective) / (RATED_LIGHT - DIM_LIGHT)
    }
}
