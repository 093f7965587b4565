//! Usual values by battery chemistry, and the usual shape of a solar module.

use wainwright_reference::battery::{
    ChargeState, Chemistry, Spread, cell_emf, cell_resistance, cells_of_12_volts, charge_voltages,
    nominal_cell, pack_extra_resistance,
};
use wainwright_units::{Charge, Ratio, Resistance, Voltage};

/// What a chemistry brings with it, per cell.
pub(crate) struct ChemistryDefaults {
    chemistry: Chemistry,
    pub(crate) cells: u32,
    pub(crate) nominal: Voltage,
    pub(crate) full: Voltage,
    pub(crate) resting: Voltage,
    pub(crate) low: Voltage,
}

/// Ratios of a usual silicon module between its best point and its ends.
pub(crate) struct ModuleShape {
    pub(crate) best_share_of_open: Ratio,
    pub(crate) best_share_of_short: Ratio,
}

/// The usual values of a chemistry; an unknown word counts as lithium iron phosphate.
pub(crate) fn chemistry(id: &str) -> ChemistryDefaults {
    let chemistry = Chemistry::from_id(id).unwrap_or(Chemistry::Lfp);
    let emf =
        |state| cell_emf(chemistry, state).map_or(Voltage::from_volts(0.0), |found| found.value);
    ChemistryDefaults {
        chemistry,
        cells: cells_of_12_volts(chemistry).map_or(4, |found| found.value),
        nominal: nominal_cell(chemistry).map_or(emf(ChargeState::Resting), |found| found.value),
        full: emf(ChargeState::Full),
        resting: emf(ChargeState::Resting),
        low: emf(ChargeState::Low),
    }
}

impl ChemistryDefaults {
    /// Resistance of a whole pack of so many cells.
    pub(crate) fn pack_resistance(&self, cells: f64, capacity: Charge) -> Resistance {
        self.spread(Spread::Typical, cells, capacity)
    }

    /// How much more a cold, worn pack resists than a usual one.
    pub(crate) fn cold_over_typical(&self, cells: f64, capacity: Charge) -> f64 {
        self.spread(Spread::High, cells, capacity) / self.spread(Spread::Typical, cells, capacity)
    }

    fn spread(&self, spread: Spread, cells: f64, capacity: Charge) -> Resistance {
        let zero = Resistance::from_ohms(0.0);
        let cell = cell_resistance(self.chemistry, spread, capacity).map_or(zero, |f| f.value);
        let extra = pack_extra_resistance(self.chemistry, spread).map_or(zero, |f| f.value);
        super::at_least_contact(cell * cells + extra)
    }
}

/// Usual absorption voltage of a system with this resting voltage.
pub(crate) fn charge_voltage(system: Option<Voltage>) -> Voltage {
    let lfp = chemistry("lfp");
    let resting = system.unwrap_or(lfp.resting * f64::from(lfp.cells));
    let share = charge_voltages(Chemistry::Lfp).map_or(1.0, |found| {
        found.absorption.value / lfp.resting.max(Voltage::from_volts(0.1))
    });
    resting * share
}

/// Usual shape of a silicon module (judgement: fill factor of about 0.77).
pub(crate) fn module_shape() -> ModuleShape {
    ModuleShape {
        best_share_of_open: Ratio::from_fraction(0.83),
        best_share_of_short: Ratio::from_fraction(0.93),
    }
}
