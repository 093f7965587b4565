//! What the heat engine is told about a wire and where it lies, and how it refuses nonsense.
//! No equation is here.

use std::fmt;
use wainwright_units::{
    CrossSection, Current, Length, LineResistance, Ratio, ThermalConductivity, ThermalResistivity,
};

/// One insulated conductor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Build {
    /// Metal of the conductor [mm²], above zero.
    pub metal: CrossSection,
    /// Diameter over the strands [m], above zero.
    pub conductor_diameter: Length,
    /// Diameter over the insulation [m], not below the conductor's.
    pub outer_diameter: Length,
    /// Thermal resistivity of the insulation [K·m/W], zero or above.
    pub insulation_resistivity: ThermalResistivity,
    /// Emissivity of the outside surface, 0 to 1.
    pub emissivity: Ratio,
    /// Resistance of the conductor at 20 °C [Ω/m], above zero.
    pub resistance_at_20: LineResistance,
}

/// Where the wire lies.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Surroundings {
    /// Alone in still air.
    Open,
    /// In a bundle in still air. Counts below one are taken as one.
    Bundle {
        /// Wires that carry current, this one included.
        loaded: usize,
        /// All wires, idle ones included.
        total: usize,
    },
    /// Midway inside a slab of foam whose two faces are at ambient.
    Foam {
        /// Half the thickness of the slab [m], above zero.
        cover: Length,
        /// Conductivity of the foam [W/(m·K)], above zero.
        conductivity: ThermalConductivity,
        /// Wires that carry current side by side, this one included.
        loaded: usize,
    },
}

/// Why there is no temperature or current to give.
#[derive(Debug, Clone, PartialEq)]
pub enum HeatError {
    /// An input is outside what it can physically be.
    Malformed {
        /// Name of the field.
        field: &'static str,
        /// What was given, in the field's unit.
        found: f64,
        /// What was expected.
        expected: &'static str,
    },
    /// The current heats the conductor to the melting point of copper before heat out equals heat in.
    Melts {
        /// That current.
        current: Current,
    },
    /// The search stopped at its cap.
    NotConverged {
        /// Heat out minus heat in where it stopped [W/m].
        residual_watts: f64,
    },
}

impl HeatError {
    pub(super) fn malformed(field: &'static str, found: f64, expected: &'static str) -> Self {
        Self::Malformed {
            field,
            found,
            expected,
        }
    }
}

impl fmt::Display for HeatError {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Malformed {
                field,
                found,
                expected,
            } => write!(
                out,
                "wire heat: {field} is {found}, expected {expected}; correct the wire's description"
            ),
            Self::Melts { current } => write!(
                out,
                "wire heat: {:.1} A melts the conductor before it settles; use a thicker wire or a \
                 smaller fuse",
                current.amperes()
            ),
            Self::NotConverged { residual_watts } => write!(
                out,
                "wire heat: no balance found, {residual_watts:.3e} W/m left over, expected none; \
                 check the wire's diameters and resistance"
            ),
        }
    }
}

impl std::error::Error for HeatError {}

impl Build {
    /// Refuses what would make the equations meaningless.
    pub(super) fn check(&self) -> Result<(), HeatError> {
        let inner = self.conductor_diameter.metres();
        let outer = self.outer_diameter.metres();
        let emissivity = self.emissivity.fraction();
        above_zero("metal cross-section [mm²]", self.metal.square_millimetres())?;
        above_zero("conductor diameter [m]", inner)?;
        above_zero(
            "resistance at 20 °C [Ω/m]",
            self.resistance_at_20.ohms_per_metre(),
        )?;
        if !(outer.is_finite() && outer >= inner) {
            return Err(HeatError::malformed(
                "outer diameter [m]",
                outer,
                "not below the conductor diameter",
            ));
        }
        let resistivity = self.insulation_resistivity.kelvin_metres_per_watt();
        if !(resistivity.is_finite() && resistivity >= 0.0) {
            return Err(HeatError::malformed(
                "insulation resistivity [K·m/W]",
                resistivity,
                "zero or above",
            ));
        }
        if !(0.0..=1.0).contains(&emissivity) {
            return Err(HeatError::malformed("emissivity", emissivity, "0 to 1"));
        }
        Ok(())
    }
}

impl Surroundings {
    /// Loaded wires and all wires, at least one each, never more loaded than all.
    pub(super) fn count(&self) -> (usize, usize) {
        match *self {
            Self::Open => (1, 1),
            Self::Bundle { loaded, total } => (loaded.max(1), total.max(loaded).max(1)),
            Self::Foam { loaded, .. } => (loaded.max(1), loaded.max(1)),
        }
    }

    pub(super) fn check(&self) -> Result<(), HeatError> {
        if let Self::Foam {
            cover,
            conductivity,
            ..
        } = self
        {
            above_zero("foam cover [m]", cover.metres())?;
            above_zero(
                "foam conductivity [W/(m·K)]",
                conductivity.watts_per_kelvin_metre(),
            )?;
        }
        Ok(())
    }
}

fn above_zero(field: &'static str, value: f64) -> Result<(), HeatError> {
    if value.is_finite() && value > 0.0 {
        Ok(())
    } else {
        Err(HeatError::malformed(field, value, "above zero"))
    }
}
