//! What a wire size and an insulation class bring with them.

use wainwright_engines::conductor::{resistance_at_20, stranded_resistance};
use wainwright_engines::conductor_heat::Build;
use wainwright_reference::conductor::{
    conductor_area, conductor_diameter, insulation_emissivity, published_resistance,
};
use wainwright_reference::insulation::{self as table, Material, wall_thickness};
use wainwright_reference::surroundings::{Foam, foam_conductivity as conductivity};
use wainwright_units::{
    CrossSection, Length, LineResistance, Ratio, Temperature, ThermalConductivity,
    ThermalResistivity, Voltage, WireSize,
};

/// Length that stands in where none is given \[m\].
pub(crate) const USUAL_WIRE_METRES: f64 = 3.0;
/// The class that bears least heat among those sold as single wires, standing
/// in for an unknown one (rubber cord bears less, but comes as cord).
pub(crate) const WEAKEST_INSULATION: &str = "h07v-k";
/// Emissivity of a dull insulated surface, where the table has none.
const DULL: f64 = 0.9;
/// Wall that stands in where the class has none for the size \[mm\].
const USUAL_WALL_MM: f64 = 0.8;

/// An insulation class.
pub(crate) struct Class {
    id: String,
    pub(crate) limit: Temperature,
    pub(crate) short_limit: Temperature,
    pub(crate) volts: Voltage,
    pub(crate) pvc: bool,
    resistivity: ThermalResistivity,
}

/// Wire of one size and class, as often as a project has it. The tables are
/// read once for each.
#[derive(Default)]
pub(crate) struct Shelf(Vec<Stock>);

/// What a size and a class bring with them.
pub(crate) struct Stock {
    key: (WireSize, bool, String),
    pub(crate) class: Class,
    pub(crate) build: Build,
}

impl Shelf {
    /// The wire of a size, tinned or not, with an insulation.
    pub(crate) fn take(&mut self, size: WireSize, tinned: bool, id: &str) -> &Stock {
        let same = |stock: &Stock| {
            let (own, coated, class) = &stock.key;
            *own == size && *coated == tinned && class == id
        };
        let place = self.0.iter().position(same).unwrap_or_else(|| {
            let class = insulation(id);
            self.0.push(Stock {
                key: (size, tinned, id.to_owned()),
                build: build(size, tinned, &class),
                class,
            });
            self.0.len() - 1
        });
        &self.0[place]
    }
}

/// Whether the reference has this class.
pub(crate) fn insulation_exists(id: &str) -> bool {
    table::insulation(id).is_some()
}

/// The class, or the weakest one for an unknown id.
pub(crate) fn insulation(id: &str) -> Class {
    match table::insulation(id).or_else(|| table::insulation(WEAKEST_INSULATION)) {
        Some(found) => Class {
            id: found.id.to_owned(),
            limit: found.continuous_limit.value,
            short_limit: found.short_limit.value,
            volts: found.voltage.value,
            pvc: found.material == Material::Pvc,
            resistivity: found.thermal_resistivity.value,
        },
        None => Class {
            id: id.to_owned(),
            limit: Temperature::from_celsius(60.0),
            short_limit: Temperature::from_celsius(160.0),
            volts: Voltage::from_volts(50.0),
            pvc: true,
            resistivity: ThermalResistivity::from_kelvin_metres_per_watt(6.0),
        },
    }
}

/// Metal cross-section of a size.
pub(crate) fn metal(size: WireSize) -> CrossSection {
    conductor_area(size).map_or_else(|| nominal(size), |found| found.value)
}

/// Everything the heat engine wants to know about a conductor.
pub(crate) fn build(size: WireSize, tinned: bool, class: &Class) -> Build {
    let metal = metal(size);
    let solid = 2.0 * (metal.square_millimetres() / std::f64::consts::PI).sqrt();
    let stranded = Length::from_millimetres(solid * STRANDED_OVER_SOLID);
    let conductor_diameter = conductor_diameter(size).map_or(stranded, |found| found.value);
    let wall = wall_thickness(&class.id, size);
    let wall = wall.map_or(Length::from_millimetres(USUAL_WALL_MM), |found| found.value);
    let dull = insulation_emissivity();
    Build {
        metal,
        conductor_diameter,
        outer_diameter: conductor_diameter + wall * 2.0,
        insulation_resistivity: class.resistivity,
        emissivity: Ratio::from_fraction(dull.map_or(DULL, |found| found.value)),
        resistance_at_20: at_20(size, tinned, metal),
    }
}

/// Diameter over the strands of a bunch over that of a solid rod of the same
/// metal area (derived from NEC Chapter 9 Table 8: 0.146 in at 8 AWG).
const STRANDED_OVER_SOLID: f64 = 1.13;

/// The published resistance, brought to 20 °C; else by resistivity and area.
fn at_20(size: WireSize, tinned: bool, metal: CrossSection) -> LineResistance {
    published_resistance(size, tinned)
        .and_then(|found| resistance_at_20(found.value.line, found.value.at))
        .unwrap_or_else(|| stranded_resistance(metal))
}

/// Conductivity of foam around a wire: the low end, which keeps most heat in.
pub(crate) fn foam_conductivity() -> ThermalConductivity {
    conductivity(Foam::Xps).map_or(
        ThermalConductivity::from_watts_per_kelvin_metre(0.03),
        |found| found.value.low,
    )
}

fn nominal(size: WireSize) -> CrossSection {
    match size {
        WireSize::Awg(gauge) | WireSize::Sae(gauge) => gauge.area(),
        WireSize::Metric(area) => area,
    }
}
