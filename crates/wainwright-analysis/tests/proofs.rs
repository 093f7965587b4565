//! Proofs: published cases through the whole chain from text to result.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test that cannot go on has failed"
)]

use wainwright_analysis::quick::{self, JointVerdict, WireQuestion};
use wainwright_analysis::result::Run;
use wainwright_units::{
    Current, Length, Quantity, Resistance, System, Temperature, Voltage, WireSize,
};

fn question(size: &str, metres: f64, amperes: f64) -> WireQuestion {
    WireQuestion {
        size: WireSize::parse(size).unwrap(),
        insulation: "boat-105".to_owned(),
        length: Length::from_metres(metres),
        both_ways: true,
        current: Current::from_amperes(amperes),
        run: Run::Open,
        bundle: 1,
        air: Some(Temperature::from_celsius(30.0)),
        system: Voltage::from_volts(12.8),
        tinned: false,
    }
}

/// Cable of an inverter: 216.5 A (2000 W / (0.88 · 10.5 V)), 3 m loop, 30 °C
/// still air, 105 °C cable. Worked by hand with NEC Chapter 9 Table 8 and the
/// Churchill–Chu heat balance: 2/0 56 °C 0.194 V, 1/0 65 °C 0.252 V, 2 AWG
/// 95 °C 0.441 V, 4/0 45 °C 0.117 V. Tolerance: 5 % of the rise over the air,
/// because those figures do not state the wall thickness (half a millimetre of
/// wall moves the rise by about 4 %), and 1.2 % of the voltage for the same reason.
#[test]
fn inverter_cables_at_217_amperes() {
    for (size, celsius, volts) in [
        ("2/0 AWG", 56.0, 0.194),
        ("1/0 AWG", 65.0, 0.252),
        ("2 AWG", 95.0, 0.441),
        ("4/0 AWG", 45.0, 0.117),
    ] {
        let found = quick::wire(&question(size, 1.5, 216.5), System::Metric).unwrap();
        let hot = found.temperature.celsius();
        let rise = (hot - 30.0) / (celsius - 30.0);
        assert!(
            (rise - 1.0).abs() < 0.05,
            "{size}: {hot} °C against {celsius}"
        );
        let drop = found.drop.volts();
        assert!(
            (drop / volts - 1.0).abs() < 0.012,
            "{size}: {drop} V against {volts}"
        );
    }
}

/// Voltage drop of 16 AWG from NEC Chapter 9 Table 8, out and back.
#[test]
fn sixteen_gauge_three_metres_eight_amperes() {
    // NEC Chapter 9 Table 8, 16 AWG: 4.99 ohm/kft at 75 °C, so 13.46 mohm/m at 20 °C; 2 · 3 m · 8 A
    // gives 0.646 V at 20 °C and 0.786 V at 75 °C. The metal settles in between.
    let found = quick::wire(&question("16 AWG", 3.0, 8.0), System::Metric).unwrap();
    let hot = found.temperature.celsius();
    let expected = 0.646 + (0.786 - 0.646) * (hot - 20.0) / 55.0;
    assert!(
        (found.drop.volts() - expected).abs() < 0.001,
        "{} V at {hot} °C",
        found.drop.volts()
    );
}

/// 50 mΩ at 10 A is 0.5 V and 5 W: more than any joint should make.
#[test]
fn a_bad_joint_is_a_heater() {
    let found = quick::joint(
        Resistance::parse("50 mohm").unwrap(),
        Current::from_amperes(10.0),
        System::Us,
    );
    assert!((found.drop.volts() - 0.5).abs() < 1e-12);
    assert!((found.heat.watts() - 5.0).abs() < 1e-12);
    assert_eq!(found.verdict, JointVerdict::Hot);
}

/// 33 CFR 183.425 Table 5: 10 AWG, 105 °C column, 60 A at 30 °C in open air.
#[test]
fn the_table_ampacity_is_the_published_one() {
    let found = quick::wire(&question("10 AWG", 1.0, 10.0), System::Us).unwrap();
    let table = found.ampacity.table.unwrap();
    assert_eq!(table.base, Current::from_amperes(60.0));
    assert_eq!(table.current, Current::from_amperes(60.0));
    assert!(found.largest_fuse.unwrap() <= Current::from_amperes(60.0));
}
