//! Property: what is shown can be typed again and differs from the value by at most half of the
//! step that is displayed, over the whole legal range of every quantity, in both systems.
//! The size of a displayed step is found here from the text, independently of the crate.

use proptest::prelude::*;
use proptest::test_runner::{Config, RngSeed, TestRunner};
use wainwright_units::{
    Angle, Area, Charge, CrossSection, Current, Duration, Energy, Force, Length, LineHeat,
    LineResistance, Mass, Power, Quantity, Ratio, Resistance, Speed, Stiffness, System,
    Temperature, TemperatureDifference, ThermalConductivity, ThermalResistivity, Torque, Voltage,
    Volume,
};

/// A symbol and how many base units one of it is.
type Sizes = &'static [(&'static str, f64)];

const CASES: u32 = 1500;

/// Half of the displayed step of a text [base units].
fn half_step(text: &str, sizes: Sizes) -> f64 {
    if text.contains(['\'', '"']) {
        return 0.0254 / 32.0;
    }
    let split = text
        .find(|c: char| !"0123456789.e-".contains(c))
        .expect("a unit");
    let (number, symbol) = text.split_at(split);
    let (digits, exponent) = number.split_once('e').unwrap_or((number, "0"));
    let decimals = digits
        .split_once('.')
        .map_or(0, |(_, decimals)| decimals.len());
    let size = sizes
        .iter()
        .find(|(known, _)| *known == symbol.trim())
        .expect(text)
        .1;
    let exponent: i32 = exponent.trim().parse().expect("an exponent");
    0.5 * size * 10_f64.powi(exponent - decimals as i32)
}

/// The check for one value; `relative` is the largest error of rounding to so many digits.
fn check<Q: Quantity>(base: f64, sizes: Sizes, relative: f64) -> Result<(), TestCaseError> {
    for system in [System::Us, System::Metric] {
        let text = Q::from_base(base).show(system);
        let again = match Q::parse(&text) {
            Ok(quantity) => quantity.base(),
            Err(error) => return Err(TestCaseError::fail(format!("{base} {text}: {error}"))),
        };
        let error = (again - base).abs();
        let rounding = 1e-12 * base.abs().max(1e-9);
        prop_assert!(
            error <= half_step(&text, sizes) + rounding,
            "{} {} {}",
            base,
            text,
            again
        );
        let fraction_of_an_inch = text.contains(['\'', '"']);
        let allowed = if fraction_of_an_inch {
            0.0254 / 32.0
        } else {
            relative * base.abs()
        };
        prop_assert!(error <= allowed + rounding, "{} {} {}", base, text, again);
        prop_assert!(
            (again == 0.0) == (base == 0.0) || relative.is_infinite(),
            "{} {}",
            base,
            text
        );
    }
    Ok(())
}

/// Values spread evenly over the range, and values spread evenly over magnitudes in it.
fn values<Q: Quantity>() -> impl Strategy<Value = f64> {
    let (low, high) = (Q::LEGAL.low, Q::LEGAL.high);
    let magnitudes =
        (-9.0..high.log10()).prop_map(move |power| 10_f64.powf(power).clamp(low, high));
    let negative = magnitudes
        .clone()
        .prop_map(move |value| (-value).clamp(low, high));
    prop_oneof![low..=high, magnitudes, negative, Just(low), Just(high)]
}

fn round_trip<Q: Quantity>(sizes: Sizes, relative: f64) {
    let config = Config {
        cases: CASES,
        failure_persistence: None,
        rng_seed: RngSeed::Fixed(7),
        ..Config::default()
    };
    TestRunner::new(config)
        .run(&values::<Q>(), |base| check::<Q>(base, sizes, relative))
        .unwrap_or_else(|error| panic!("{}: {error}", Q::NAME));
}

/// Largest relative error of rounding to three and to four significant digits.
const THREE: f64 = 0.5e-2;
const FOUR: f64 = 0.5e-3;

#[test]
fn electrical() {
    round_trip::<Voltage>(&[("V", 1.0), ("mV", 1e-3)], THREE);
    round_trip::<Current>(&[("kA", 1e3), ("A", 1.0), ("mA", 1e-3)], THREE);
    round_trip::<Resistance>(
        &[("kΩ", 1e3), ("Ω", 1.0), ("mΩ", 1e-3), ("µΩ", 1e-6)],
        THREE,
    );
    round_trip::<Power>(&[("kW", 1e3), ("W", 1.0), ("mW", 1e-3)], THREE);
    round_trip::<Charge>(&[("Ah", 1.0), ("mAh", 1e-3)], THREE);
    round_trip::<Energy>(&[("kWh", 1e3), ("Wh", 1.0)], FOUR);
    round_trip::<LineResistance>(&[("Ω/m", 1.0), ("mΩ/m", 1e-3)], FOUR);
    round_trip::<CrossSection>(&[("mm²", 1.0)], FOUR);
}

#[test]
fn space() {
    round_trip::<Length>(&[("m", 1.0), ("mm", 1e-3), ("in", 0.0254)], THREE);
    round_trip::<Area>(&[("m²", 1.0), ("cm²", 1e-4), ("mm²", 1e-6)], THREE);
    round_trip::<Volume>(
        &[
            ("L", 1.0),
            ("mL", 1e-3),
            ("gal", 3.785_411_784),
            ("fl oz", 0.029_573_529_562_5),
        ],
        THREE,
    );
    round_trip::<Angle>(&[("°", 1.0)], FOUR);
}

#[test]
fn matter_and_time() {
    let pound = 0.453_592_37;
    let sizes: Sizes = Box::leak(Box::new([
        ("kg", 1.0),
        ("g", 1e-3),
        ("lb", pound),
        ("oz", pound / 16.0),
    ]));
    round_trip::<Mass>(sizes, THREE);
    round_trip::<Force>(&[("kN", 1e3), ("N", 1.0)], FOUR);
    round_trip::<Torque>(&[("N·m", 1.0)], THREE);
    round_trip::<Stiffness>(&[("N/mm", 1e3)], FOUR);
    round_trip::<Speed>(&[("mph", 0.447_04), ("km/h", 1.0 / 3.6)], THREE);
    round_trip::<Duration>(
        &[
            ("d", 86_400.0),
            ("h", 3600.0),
            ("min", 60.0),
            ("s", 1.0),
            ("ms", 1e-3),
        ],
        THREE,
    );
    round_trip::<Ratio>(&[("%", 0.01)], THREE);
}

#[test]
fn thermal() {
    // A temperature is shown to a tenth of a degree, whatever its distance from zero.
    round_trip::<Temperature>(&[("°C", 1.0), ("°F", 5.0 / 9.0)], f64::INFINITY);
    round_trip::<TemperatureDifference>(&[("K", 1.0)], THREE);
    round_trip::<LineHeat>(&[("W/m", 1.0)], THREE);
    round_trip::<ThermalResistivity>(&[("K·m/W", 1.0)], THREE);
    round_trip::<ThermalConductivity>(&[("W/(m·K)", 1.0)], THREE);
}
