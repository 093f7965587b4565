//! Wires used by several tests. Sizes and diameters: NEC Chapter 9 Table 8, stranded. Walls: 0.76 mm
//! up to 10 AWG (boat cable, UL 1426, memory), 1.52 mm to 2 AWG, 2.03 mm above (usual for such cable).
#![allow(dead_code, clippy::expect_used, reason = "each test uses a part of it")]

use wainwright_engines::conductor;
use wainwright_engines::conductor_heat::Build;
use wainwright_units::*;

/// Name, metal [mm²], diameter over the strands [in], wall [mm].
pub const SIZES: [(&str, f64, f64, f64); 15] = [
    ("18", 0.823, 0.046, 0.76),
    ("16", 1.309, 0.058, 0.76),
    ("14", 2.081, 0.073, 0.76),
    ("12", 3.309, 0.092, 0.76),
    ("10", 5.261, 0.116, 0.76),
    ("8", 8.366, 0.146, 1.52),
    ("6", 13.30, 0.184, 1.52),
    ("4", 21.15, 0.232, 1.52),
    ("3", 26.67, 0.260, 1.52),
    ("2", 33.63, 0.292, 1.52),
    ("1", 42.41, 0.332, 2.03),
    ("1/0", 53.5, 0.372, 2.03),
    ("2/0", 67.4, 0.418, 2.03),
    ("3/0", 85.0, 0.470, 2.03),
    ("4/0", 107.2, 0.528, 2.03),
];

/// Wire of an AWG size in PVC (5 K·m/W), dull surface (0.9).
pub fn awg(name: &str) -> Build {
    let (_, metal, inches, wall) = *SIZES
        .iter()
        .find(|size| size.0 == name)
        .expect("size is listed");
    wire(metal, inches * 25.4, wall)
}

/// Wire of a metal area [mm²], diameter over the strands [mm] and wall [mm].
pub fn wire(metal: f64, diameter: f64, wall: f64) -> Build {
    let metal = CrossSection::from_square_millimetres(metal);
    Build {
        metal,
        conductor_diameter: Length::from_millimetres(diameter),
        outer_diameter: Length::from_millimetres(diameter + 2.0 * wall),
        insulation_resistivity: ThermalResistivity::from_kelvin_metres_per_watt(5.0),
        emissivity: Ratio::from_fraction(0.9),
        resistance_at_20: conductor::stranded_resistance(metal),
    }
}

pub fn celsius(value: f64) -> Temperature {
    Temperature::from_celsius(value)
}

pub fn amperes(value: f64) -> Current {
    Current::from_amperes(value)
}

pub fn seconds(value: f64) -> Duration {
    Duration::from_seconds(value)
}

/// Whether two numbers agree within a share of the second.
pub fn close(found: f64, expected: f64, share: f64) -> bool {
    (found - expected).abs() <= share * expected.abs()
}
