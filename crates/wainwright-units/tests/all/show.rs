//! How values are written. Expected texts are written by hand.

use wainwright_units::{
    Angle, Area, Charge, CrossSection, Current, Duration, Energy, Force, Length, LineHeat,
    LineResistance, Mass, Power, Quantity, Ratio, Resistance, Speed, Stiffness, System,
    Temperature, TemperatureDifference, ThermalConductivity, ThermalResistivity, Torque, Typed,
    Voltage, Volume,
};

#[track_caller]
fn same_in_both<Q: Quantity>(cases: &[(f64, &str)]) {
    for (base, text) in cases {
        assert_eq!(Q::from_base(*base).show(System::Us), *text);
        assert_eq!(Q::from_base(*base).show(System::Metric), *text);
    }
}

#[track_caller]
fn us_and_metric<Q: Quantity>(cases: &[(f64, &str, &str)]) {
    for (base, us, metric) in cases {
        assert_eq!(Q::from_base(*base).show(System::Us), *us);
        assert_eq!(Q::from_base(*base).show(System::Metric), *metric);
    }
}

#[test]
fn lengths() {
    us_and_metric::<Length>(&[
        (2.225_675, "7' 3-5/8\"", "2.226 m"),
        (0.65, "2' 1-9/16\"", "650 mm"),
        (0.0, "0\"", "0 m"),
        (0.3048, "1'", "305 mm"),
        (0.3175, "1' 0-1/2\"", "318 mm"),
        (0.0254, "1\"", "25.4 mm"),
        (0.015_875, "5/8\"", "15.9 mm"),
        (0.001_587_5, "1/16\"", "1.59 mm"),
        (0.000_508, "0.02 in", "0.508 mm"),
        (-2.225_675, "-7' 3-5/8\"", "-2.226 m"),
        // One 64th below a foot is rounded up to the foot, not to 12 inches.
        (0.3048 - 0.000_396_875, "1'", "304 mm"),
        (12.345_678, "40' 6-1/16\"", "12.346 m"),
    ]);
}

#[test]
fn values_with_two_systems() {
    us_and_metric::<Mass>(&[
        (31.751_465_9, "70 lb", "31.75 kg"),
        (0.1, "3.53 oz", "100 g"),
        (0.0, "0 lb", "0 kg"),
        (1234.567, "2722 lb", "1235 kg"),
    ]);
    us_and_metric::<Temperature>(&[
        (0.0, "32 °F", "0 °C"),
        (26.666_7, "80 °F", "26.7 °C"),
        (-0.01, "32 °F", "0 °C"),
        (105.0, "221 °F", "105 °C"),
        (-5.0, "23 °F", "-5 °C"),
    ]);
    us_and_metric::<Volume>(&[
        (151.416_471_36, "40 gal", "151.4 L"),
        (0.25, "8.45 fl oz", "250 mL"),
        (0.0, "0 gal", "0 L"),
    ]);
}

#[test]
fn electrical_values() {
    same_in_both::<Voltage>(&[
        (14.2, "14.2 V"),
        (12.834_5, "12.83 V"),
        (0.6456, "0.6456 V"),
        (0.05, "50 mV"),
        (0.000_004, "0.004 mV"),
        (0.0, "0 V"),
        (-0.0, "0 V"),
        (-0.3, "-0.3 V"),
        (230.0, "230 V"),
        (1e-12, "1.00e-9 mV"),
    ]);
    same_in_both::<Current>(&[
        (15.0, "15 A"),
        (156.24, "156 A"),
        (1234.4, "1234 A"),
        (20_000.0, "20 kA"),
        (0.02, "20 mA"),
        (8.333, "8.33 A"),
        (0.0, "0 A"),
    ]);
    same_in_both::<Resistance>(&[
        (0.0035, "3.5 mΩ"),
        (0.000_05, "50 µΩ"),
        (0.2, "0.2 Ω"),
        (4700.0, "4.7 kΩ"),
        (1_000_000.0, "1000 kΩ"),
        (0.0, "0 Ω"),
    ]);
    same_in_both::<Power>(&[
        (60.0, "60 W"),
        (2000.0, "2 kW"),
        (1234.0, "1.234 kW"),
        (0.05, "50 mW"),
        (0.0, "0 W"),
    ]);
    same_in_both::<Charge>(&[(100.0, "100 Ah"), (0.05, "50 mAh")]);
    same_in_both::<Energy>(&[(1280.0, "1280 Wh"), (12_800.0, "12.8 kWh")]);
    same_in_both::<LineResistance>(&[(0.003_345, "3.345 mΩ/m"), (2.0, "2 Ω/m")]);
    same_in_both::<CrossSection>(&[(16.0, "16 mm²"), (5.2612, "5.261 mm²"), (0.5, "0.5 mm²")]);
}

#[test]
fn other_values() {
    same_in_both::<Duration>(&[
        (0.15, "150 ms"),
        (20.0, "20 s"),
        (1200.0, "20 min"),
        (10_800.0, "3 h"),
        (259_200.0, "3 d"),
        (0.0, "0 s"),
    ]);
    same_in_both::<Ratio>(&[
        (0.8, "80 %"),
        (0.0312, "3.12 %"),
        (0.00001, "0.001 %"),
        (1.25, "125 %"),
    ]);
    same_in_both::<Angle>(&[(45.0, "45°"), (-12.5, "-12.5°")]);
    same_in_both::<Area>(&[(1.8, "1.8 m²"), (0.03, "300 cm²"), (2e-6, "2 mm²")]);
    same_in_both::<Force>(&[(350.0, "350 N"), (12_345.0, "12.35 kN"), (-20.0, "-20 N")]);
    same_in_both::<Torque>(&[(2.034, "2.03 N·m")]);
    same_in_both::<Stiffness>(&[(175_126.8, "175.1 N/mm"), (2000.0, "2 N/mm")]);
    same_in_both::<TemperatureDifference>(&[(10.0, "10 K"), (-3.456, "-3.46 K")]);
    same_in_both::<LineHeat>(&[(3.0, "3 W/m")]);
    same_in_both::<ThermalResistivity>(&[(3.5, "3.5 K·m/W")]);
    same_in_both::<ThermalConductivity>(&[(0.03, "0.03 W/(m·K)")]);
}

#[test]
fn a_speed_is_shown_as_on_the_road_signs() {
    let speed = Speed::from_metres_per_second(25.0);
    assert_eq!(speed.show(System::Metric), "90 km/h");
    assert_eq!(speed.show(System::Us), "55.9 mph");
    assert_eq!(Speed::from_miles_per_hour(65.0).show(System::Us), "65 mph");
}

#[test]
fn values_that_are_no_numbers() {
    assert_eq!(
        Voltage::from_volts(f64::NAN).show(System::Us),
        "not a number"
    );
    assert_eq!(
        Length::from_metres(f64::NAN).show(System::Us),
        "not a number"
    );
    assert_eq!(
        Voltage::from_volts(f64::INFINITY).show(System::Us),
        "infinite"
    );
    assert_eq!(
        Voltage::from_volts(f64::NEG_INFINITY).show(System::Us),
        "-infinite"
    );
    assert_eq!(
        Length::from_metres(3.048e300).show(System::Us),
        "1.000e301 ft"
    );
}

#[test]
fn a_computed_value_has_a_text_too() {
    let typed = Typed::shown(Length::from_millimetres(650.0), System::Metric);
    assert_eq!(typed.to_string(), "650 mm");
}
