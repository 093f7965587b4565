//! Checked states of moist air and printed handbook values against `moist_air`. Marks: read (printed
//! in a source), computed (worked once outside this program).
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod rows;

use rows::{Row, rows};
use wainwright_engines::moist_air::*;
use wainwright_units::*;

fn celsius(value: f64) -> Temperature {
    Temperature::from_celsius(value)
}

/// Half a unit of the last decimal in a column.
fn half_unit(row: &Row, column: &str) -> f64 {
    let decimals = row
        .text(column)
        .split_once('.')
        .map_or(0, |(_, after)| after.len());
    0.5 * 10_f64.powi(-i32::try_from(decimals).unwrap())
}

/// Agrees to half a unit of the last digit the table could have, and what else is open.
#[track_caller]
fn near(row: &Row, column: &str, found: f64, decimals: i32, open: f64) {
    let expected = row.number(column);
    // A table drops zeros at the end, so the number of decimals is that of the column.
    assert!(
        half_unit(row, column) >= 0.5 * 10_f64.powi(-decimals) * 0.999,
        "{column}"
    );
    let allowed = 0.500_1 * 10_f64.powi(-decimals) + open;
    assert!(
        (found - expected).abs() <= allowed,
        "{} {column}: {found} instead of {expected}, allowed {allowed:e}",
        row.name()
    );
}

/// 126 states (computed by another library), every column at its printed digits. Open besides: the
/// library stops its searches at 0.001 K, so a wet bulb is known to half of that and a dew point to
/// its last step, which Newton's method leaves below 0.0001 K.
#[test]
fn table_of_states() {
    let all = rows("psychro_checks.csv");
    assert_eq!(all.len(), 126);
    for row in &all {
        let air = celsius(row.number("T_C"));
        let humidity = Ratio::from_fraction(row.number("RH"));
        let found = state(air, humidity, row.number("p_Pa")).unwrap();
        // The pressure itself is printed to 0.01 Pa; volume and density are near one.
        let pressure_open = 0.006 / row.number("p_Pa");
        let ratio_open = 1.1 * found.humidity_ratio * pressure_open;
        near(row, "pws_Pa", found.saturation_pascals, 4, 0.0);
        near(row, "pw_Pa", found.vapour_pascals, 4, 0.0);
        near(row, "Tdp_C", found.dew_point.celsius(), 4, 1e-4);
        near(row, "Twb_C", found.wet_bulb.celsius(), 4, 5e-4);
        near(row, "W_kgkg", found.humidity_ratio, 8, ratio_open);
        near(
            row,
            "h_kJkg",
            found.kilojoules_per_kg,
            4,
            2600.0 * ratio_open,
        );
        near(row, "v_m3kg", found.m3_per_kg, 6, pressure_open);
        near(row, "rho_kgm3", found.kg_per_m3, 6, pressure_open);
        near(row, "abs_hum_gm3", found.grams_per_m3, 4, 0.0);
        let short = saturation_pressure(air, Formula::Standard).unwrap();
        near(row, "pws_iso13788_Pa", short, 3, 0.0);
        let dew = dew_point(short * humidity.fraction(), Formula::Standard).unwrap();
        near(row, "Tdp_iso13788_C", dew.celsius(), 4, 0.0);
    }
}

/// Handbook table values (read): saturation pressure within 0.03 %, as the handbook says of its
/// formulas; standard pressure to 2 Pa, as two forms of it differ.
#[test]
fn handbook_values() {
    for (at, pascals) in [
        (-5.0, 401.74),
        (5.0, 872.6),
        (25.0, 3169.7),
        (50.0, 12351.3),
    ] {
        let found = saturation_pressure(celsius(at), Formula::Handbook).unwrap();
        assert!((found / pascals - 1.0).abs() < 3e-4, "{at}: {found}");
    }
    for (metres, pascals) in [(500.0, 95_461.0), (1000.0, 89_875.0)] {
        let found = air_pressure(Length::from_metres(metres));
        assert!((found - pascals).abs() < 2.0, "{metres}: {found}");
    }
    let full = state(celsius(25.0), Ratio::ONE, 101_325.0).unwrap();
    // The handbook's table is of real air, up to 0.5 % from the ideal gas.
    assert!((full.humidity_ratio / 0.020_173 - 1.0).abs() < 5e-3);
    assert!((full.kilojoules_per_kg / 76.504 - 1.0).abs() < 5e-3);
}

/// Handbook example (read): 40 °C with a wet bulb of 20 °C has W 0.0065, dew point 7 °C, RH 0.14,
/// h 56.7 kJ/kg, v 0.896 m³/kg; read off a chart, so to a unit of the last digit.
#[test]
fn handbook_example() {
    let (mut low, mut high) = (0.05, 0.5);
    for _ in 0..60 {
        let middle = 0.5 * (low + high);
        let found = state(celsius(40.0), Ratio::from_fraction(middle), 101_325.0).unwrap();
        if found.wet_bulb.celsius() < 20.0 {
            low = middle
        } else {
            high = middle
        }
    }
    let found = state(celsius(40.0), Ratio::from_fraction(low), 101_325.0).unwrap();
    assert!((low - 0.14).abs() < 0.01);
    assert!((found.humidity_ratio - 0.0065).abs() < 1e-4);
    assert!((found.dew_point.celsius() - 7.0).abs() < 1.0);
    assert!((found.kilojoules_per_kg - 56.7).abs() < 0.3);
    assert!((found.m3_per_kg - 0.896).abs() < 1e-3);
}

/// Dew points in the short form (computed): 9.27, 10.13, 12.00 °C; 8.972 g/m³ at 15 °C and 70 %.
#[test]
fn dew_points() {
    for (at, humidity, printed) in [(20.0, 0.5, 9.27), (18.0, 0.6, 10.13), (20.0, 0.6, 12.00)] {
        let vapour = vapour_pressure(
            celsius(at),
            Ratio::from_fraction(humidity),
            Formula::Standard,
        )
        .unwrap();
        let found = dew_point(vapour, Formula::Standard).unwrap().celsius();
        assert!((found - printed).abs() < 0.005, "{found}");
    }
    let vapour =
        vapour_pressure(celsius(15.0), Ratio::from_fraction(0.7), Formula::Standard).unwrap();
    let grams = grams_per_m3(vapour, celsius(15.0)).unwrap();
    assert!((grams - 8.972).abs() < 5e-4, "{grams}");
}

/// Densities of dry air at 20 °C (computed): 1.204, 1.005, 0.887 kg/m³ at 0, 1500, 2500 m.
#[test]
fn air_at_altitude() {
    for (metres, printed) in [(0.0, 1.204), (1500.0, 1.005), (2500.0, 0.887)] {
        let pascals = air_pressure(Length::from_metres(metres));
        let found = dry_air(pascals, celsius(20.0)).unwrap().kg_per_m3;
        assert!((found - printed).abs() < 6e-4, "{found}");
    }
}

/// The two branches of both forms meet, dew point and saturation undo each other, and what cannot be
/// is refused.
#[test]
fn forms_are_whole() {
    for formula in [Formula::Handbook, Formula::Standard] {
        let mut before = 0.0;
        for step in -580..=900 {
            let at = f64::from(step) / 10.0;
            let full = saturation_pressure(celsius(at), formula).unwrap();
            assert!(full > before, "{at}");
            before = full;
            let back = dew_point(full, formula).unwrap().celsius();
            // The branches of the handbook form leave a gap of a few thousandths of a kelvin at 0 °C.
            let open = if at.abs() < 0.05 { 5e-3 } else { 1e-7 };
            assert!((back - at).abs() < open, "{at} {back}");
        }
    }
    assert!(state(celsius(20.0), Ratio::ZERO, 101_325.0).is_err());
    assert!(state(celsius(120.0), Ratio::from_fraction(0.1), 101_325.0).is_err());
    assert!(state(celsius(f64::NAN), Ratio::ONE, 101_325.0).is_err());
    assert!(dew_point(-1.0, Formula::Standard).is_err());
}
