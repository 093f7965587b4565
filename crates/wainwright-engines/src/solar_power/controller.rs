//! What a charge controller passes on to the battery, and what it must withstand.

use wainwright_units::{Current, Power, Ratio, Temperature, Voltage};

/// A solar charge controller.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Controller {
    /// Finds the panel's best voltage and converts it.
    Tracking {
        /// Share of the panel's power that reaches the battery.
        efficiency: Ratio,
        /// Power the controller keeps for itself while the sun shines [W].
        own: Power,
        /// Largest current into the battery [A].
        most: Current,
    },
    /// Joins panel and battery directly, so that the panel works at the battery's voltage.
    Switching {
        /// Current of the panel when shorted, in 1000 W/m² [A].
        short_circuit: Current,
        /// Largest current into the battery [A].
        most: Current,
    },
}

/// What a source can give to a battery, whatever the battery's voltage.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Reach {
    /// Most power [W].
    pub power: Power,
    /// Most current [A].
    pub current: Current,
}

impl Reach {
    /// Power at a battery voltage: the power, or less where the current is the limit; never below
    /// zero.
    #[must_use]
    #[inline(always)]
    pub fn at(self, battery: Voltage) -> Power {
        let by_current = (battery * self.current).watts();
        let most = self.power.watts();
        let watts = if by_current < most { by_current } else { most };
        left_over(Power::from_watts(watts))
    }
}

/// The power, or zero when it is below.
#[inline(always)]
fn left_over(power: Power) -> Power {
    Power::from_watts(if power.watts() > 0.0 {
        power.watts()
    } else {
        0.0
    })
}

/// What a controller can give, from the panel's best power and the light behind its glass [W/m²].
pub fn reach(controller: Controller, panel: Power, effective: f64) -> Reach {
    match controller {
        Controller::Tracking {
            efficiency,
            own,
            most,
        } => Reach {
            power: left_over(panel - own) * efficiency,
            current: most,
        },
        Controller::Switching {
            short_circuit,
            most,
        } => Reach {
            power: panel,
            current: (short_circuit * (effective.max(0.0) / 1000.0)).min(most),
        },
    }
}

/// Power that reaches the battery, from the panel's best power, the light behind its glass [W/m²]
/// and the voltage at the battery.
///
/// Never more than the panel makes, and never below zero.
pub fn charge_power(
    controller: Controller,
    panel: Power,
    effective: f64,
    battery: Voltage,
) -> Power {
    reach(controller, panel, effective).at(battery)
}

/// Open voltage of a panel on a cold morning, which the controller must withstand.
///
/// `per_kelvin` is the change with cell temperature [1/K], negative for silicon.
pub fn cold_voltage(open: Voltage, per_kelvin: f64, coldest: Temperature) -> Voltage {
    open * (1.0 + per_kelvin * (coldest.celsius() - 25.0))
}
