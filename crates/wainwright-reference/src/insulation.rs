//! Insulation classes: material, temperatures, voltage, wall thickness.
//!
//! Not here: wire temperature (engines) and what follows from a hot insulation (rules).

use wainwright_units::{
    Awg, CrossSection, Length, Temperature, ThermalResistivity, Voltage, WireSize,
};

use crate::id::ids;
use crate::mark::Sourced;
use crate::store::{Topic, find, rows};
use crate::table::Row;

ids! {
    /// What the insulation is made of.
    Material {
        /// Polyvinyl chloride: must not touch foam board, its plasticiser migrates.
        Pvc = "pvc",
        /// Cross-linked polyethylene.
        Xlpe = "xlpe",
        /// Rubber of heavy flexible cable.
        Rubber = "rubber",
        /// Silicone rubber.
        Silicone = "silicone",
    }
}

/// Everything published about one class of insulated wire.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Insulation {
    /// Id typed in the project file, such as `gxl`.
    pub id: &'static str,
    /// Trade name spelled out.
    pub name: &'static str,
    /// Insulation material.
    pub material: Material,
    /// Conductor temperature it bears for life.
    pub continuous_limit: Sourced<Temperature>,
    /// Conductor temperature it bears at the end of a short circuit of up to 5 s.
    pub short_limit: Sourced<Temperature>,
    /// Rated voltage between conductors.
    pub voltage: Sourced<Voltage>,
    /// Thermal resistivity of the wall.
    pub thermal_resistivity: Sourced<ThermalResistivity>,
    /// Whether it may lie against polystyrene or polyurethane foam.
    pub touches_foam_ok: Sourced<bool>,
}

/// The insulation class with this id; none for an unknown id.
pub fn insulation(id: &str) -> Option<Insulation> {
    let name_row = find(Topic::InsulationNames, "insulation", id)?;
    let id = name_row.text("insulation")?;
    let material = Material::from_id(property(id, "material")?.text("text")?)?;
    Some(Insulation {
        id,
        name: name_row.text("name")?,
        material,
        continuous_limit: property(id, "continuous-limit")?
            .quantity("value", Temperature::from_celsius)?,
        short_limit: of_material(material, "short-final", Temperature::from_celsius)?,
        voltage: property(id, "voltage")?.quantity("value", Voltage::from_volts)?,
        thermal_resistivity: of_material(
            material,
            "thermal-resistivity",
            ThermalResistivity::from_kelvin_metres_per_watt,
        )?,
        touches_foam_ok: of_material(material, "touches-foam", |value| value != 0.0)?,
    })
}

/// Every insulation id, in a fixed order.
pub fn insulation_ids() -> Vec<&'static str> {
    rows(Topic::InsulationNames)
        .filter_map(|row| row.text("insulation"))
        .collect()
}

/// Nominal thickness of the wall (for rubber cable core insulation and sheath together).
///
/// None for an unknown id or a size thicker than the table.
pub fn wall_thickness(id: &str, size: WireSize) -> Option<Sourced<Length>> {
    let wanted = nominal_area(size).square_millimetres();
    rows(Topic::InsulationWalls)
        .filter(|row| row.text("insulation") == Some(id))
        .find(|row| row.number("up_to_mm2").is_some_and(|most| wanted <= most))?
        .quantity("wall_mm", Length::from_millimetres)
}

/// The area that a size is named for: an SAE size counts as the AWG size of the same number.
pub(crate) fn nominal_area(size: WireSize) -> CrossSection {
    match size {
        WireSize::Awg(gauge) | WireSize::Sae(gauge) => Awg::area(gauge),
        WireSize::Metric(area) => area,
    }
}

fn property(id: &str, property: &str) -> Option<Row> {
    rows(Topic::InsulationClasses)
        .find(|row| row.text("insulation") == Some(id) && row.text("property") == Some(property))
}

fn of_material<T>(
    material: Material,
    property: &str,
    make: impl FnOnce(f64) -> T,
) -> Option<Sourced<T>> {
    rows(Topic::InsulationMaterials)
        .find(|row| {
            row.text("material") == Some(material.id()) && row.text("property") == Some(property)
        })?
        .quantity("value", make)
}
