//! What lies around a wire: foam and default air temperatures.
//!
//! Not here: heat flow (engines).

use wainwright_units::{Temperature, ThermalConductivity};

use crate::id::ids;
use crate::mark::Sourced;
use crate::store::{Topic, find};

ids! {
    /// Foam board or sprayed foam.
    Foam {
        /// Polyisocyanurate.
        Pir = "pir",
        /// Polyurethane.
        Pur = "pur",
        /// Expanded polystyrene.
        Eps = "eps",
        /// Extruded polystyrene.
        Xps = "xps",
    }
}

ids! {
    /// Where the air is.
    Air {
        /// Hottest air in the living space in summer.
        Summer = "summer-air",
        /// Hottest roof or wall cavity under a sunlit skin.
        Cavity = "cavity",
        /// The ambient of the ampacity tables.
        Table = "table-ambient",
    }
}

/// Range of the thermal conductivity of a foam; `low` makes a buried wire hotter.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Conductivity {
    /// Lowest usual value.
    pub low: ThermalConductivity,
    /// Highest usual value.
    pub high: ThermalConductivity,
}

/// Range of the thermal conductivity of a foam.
pub fn foam_conductivity(foam: Foam) -> Option<Sourced<Conductivity>> {
    let row = find(Topic::SurroundingsFoam, "foam", foam.id())?;
    let value = |column| {
        Some(ThermalConductivity::from_watts_per_kelvin_metre(
            row.number(column)?,
        ))
    };
    Some(row.sourced(Conductivity {
        low: value("low")?,
        high: value("high")?,
    }))
}

/// Default air temperature.
pub fn air_temperature(air: Air) -> Option<Sourced<Temperature>> {
    find(Topic::SurroundingsTemperatures, "place_id", air.id())?
        .quantity("celsius", Temperature::from_celsius)
}
