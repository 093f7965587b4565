//! What people type and what it means. Expected values are written in base units by hand.

use wainwright_units::{
    Airflow, Altitude, Angle, Area, Charge, CrossSection, Current, Duration, Energy, Force, Length,
    LineHeat, LineResistance, Mass, Power, Quantity, Ratio, Resistance, Speed, Stiffness,
    Temperature, TemperatureDifference, ThermalConductivity, ThermalResistivity, Torque, Typed,
    Voltage, Volume,
};

/// Inches in a metre, for expected values only.
const INCH: f64 = 0.0254;

#[track_caller]
fn reads<Q: Quantity>(cases: &[(&str, f64)]) {
    for (typed, base) in cases {
        match Q::parse(typed) {
            Ok(found) => {
                let difference = (found.base() - base).abs();
                assert!(
                    difference <= 1e-12 * base.abs(),
                    "{typed}: {} not {base}",
                    found.base()
                );
            }
            Err(error) => panic!("{typed}: {error}"),
        }
    }
}

#[test]
fn feet_and_inches() {
    reads::<Length>(&[
        ("7' 3-5/8\"", 87.625 * INCH),
        ("7'3 5/8\"", 87.625 * INCH),
        ("7'-3 5/8\"", 87.625 * INCH),
        ("7' 3⅝\"", 87.625 * INCH),
        ("7′ 3 ⅝″", 87.625 * INCH),
        ("7’ 3 5⁄8”", 87.625 * INCH),
        ("7'3''", 87.0 * INCH),
        ("7′3′′", 87.0 * INCH),
        ("7ft3in", 87.0 * INCH),
        ("6ft2in", 74.0 * INCH),
        ("12 ft 6 in", 150.0 * INCH),
        ("12 ft. 6 in.", 150.0 * INCH),
        ("12 ft, 6 in", 150.0 * INCH),
        ("12 feet 6 inches", 150.0 * INCH),
        ("1 foot 1 inch", 13.0 * INCH),
        ("-7' 3\"", -87.0 * INCH),
        ("−7′ 3″", -87.0 * INCH),
        ("7.5'", 90.0 * INCH),
        ("6'", 72.0 * INCH),
        ("1' 0-1/2\"", 12.5 * INCH),
    ]);
}

#[test]
fn inches_and_fractions() {
    reads::<Length>(&[
        ("5/8 in", 0.625 * INCH),
        ("5/8\"", 0.625 * INCH),
        ("3-1/2\"", 3.5 * INCH),
        ("3 1/2\"", 3.5 * INCH),
        ("3½\"", 3.5 * INCH),
        ("3-½ in", 3.5 * INCH),
        ("½ in", 0.5 * INCH),
        ("¼\"", 0.25 * INCH),
        ("-1/4\"", -0.25 * INCH),
        (".5 in", 0.5 * INCH),
        ("0.012 in", 0.012 * INCH),
        ("2 yd", 72.0 * INCH),
    ]);
}

#[test]
fn metric_lengths_and_commas() {
    reads::<Length>(&[
        ("1.2 m", 1.2),
        ("1,5 m", 1.5),
        ("1,25 m", 1.25),
        ("0,125 m", 0.125),
        ("12,3456 m", 12.3456),
        ("650 mm", 0.65),
        ("650mm", 0.65),
        ("650 MM", 0.65),
        ("1,200 mm", 1.2),
        ("1,200.5 mm", 1.2005),
        ("10,000 mm", 10.0),
        ("1,5 mm", 0.0015),
        ("65 cm", 0.65),
        ("1 m 20 cm", 1.2),
        ("1 m 20 cm 5 mm", 1.205),
        ("  1.2\u{a0}m  ", 1.2),
        ("1.2\tm", 1.2),
        ("+1.2 m", 1.2),
        ("- 1.2 m", -1.2),
        ("1.2e1 m", 12.0),
        ("12e-1 m", 1.2),
        ("2 metres", 2.0),
        ("2 meters", 2.0),
        ("0 m", 0.0),
    ]);
}

#[test]
fn electrical_values() {
    reads::<Voltage>(&[
        ("14.2 V", 14.2),
        ("14.2V", 14.2),
        ("12 volts", 12.0),
        ("12 Volt", 12.0),
        ("12 VDC", 12.0),
        ("230 V AC", 230.0),
        ("50 mV", 0.05),
    ]);
    reads::<Current>(&[
        ("500 mA", 0.5),
        ("15 amps", 15.0),
        ("15a", 15.0),
        ("20 kA", 20_000.0),
        ("1,500 mA", 1.5),
    ]);
    reads::<Resistance>(&[
        ("3.5 mΩ", 0.0035),
        ("3.5 m\u{2126}", 0.0035),
        ("3.5 mohm", 0.0035),
        ("3.5 milliohms", 0.0035),
        ("10 ohm", 10.0),
        ("10 Ohms", 10.0),
        ("4.7 kΩ", 4700.0),
        ("250 µΩ", 0.00025),
        ("250 \u{3bc}Ω", 0.00025),
        ("250 uohm", 0.00025),
    ]);
    reads::<Power>(&[
        ("2 kW", 2000.0),
        ("60 W", 60.0),
        ("60 watts", 60.0),
        ("1,500 W", 1500.0),
        ("2 KW", 2000.0),
    ]);
    reads::<Charge>(&[
        ("100 Ah", 100.0),
        ("280Ah", 280.0),
        ("100 amp hours", 100.0),
        ("100 amp-hours", 100.0),
        ("2500 mAh", 2.5),
        ("100 AH", 100.0),
    ]);
    reads::<Energy>(&[
        ("1280 Wh", 1280.0),
        ("3.6 kWh", 3600.0),
        ("3.6 MJ", 1000.0),
        ("3600 J", 1.0),
        ("1 kilowatt hour", 1000.0),
    ]);
    reads::<LineResistance>(&[
        ("3.3 mΩ/m", 0.0033),
        ("1.91 Ω/km", 0.00191),
        ("3.048 ohm/kft", 0.01),
        ("3.048 ohms/1000 ft", 0.01),
        ("3.048 Ω/1000ft", 0.01),
    ]);
    reads::<CrossSection>(&[
        ("16 mm2", 16.0),
        ("16 mm²", 16.0),
        ("16mm^2", 16.0),
        ("2,5 mm²", 2.5),
        ("16 sq mm", 16.0),
        (
            "1 kcmil",
            0.25 * std::f64::consts::PI * 0.0254 * 0.0254 * 1000.0,
        ),
    ]);
}

#[test]
fn thermal_values() {
    reads::<Temperature>(&[
        ("80 °F", 48.0 / 1.8),
        ("80 F", 48.0 / 1.8),
        ("80° F", 48.0 / 1.8),
        ("80 º F", 48.0 / 1.8),
        ("80 ℉", 48.0 / 1.8),
        ("80 degrees Fahrenheit", 48.0 / 1.8),
        ("-5 °C", -5.0),
        ("−5°C", -5.0),
        ("105 C", 105.0),
        ("105 deg C", 105.0),
        ("0 °C", 0.0),
    ]);
    reads::<TemperatureDifference>(&[("10 K", 10.0), ("10 °C", 10.0), ("18 °F", 10.0)]);
    reads::<LineHeat>(&[("3 W/m", 3.0), ("0.3048 W/ft", 1.0)]);
    reads::<ThermalResistivity>(&[("3.5 K·m/W", 3.5), ("3.5 K m/W", 3.5), ("3.5 K*m/W", 3.5)]);
    reads::<ThermalConductivity>(&[
        ("0.03 W/(m·K)", 0.03),
        ("0.03 W/mK", 0.03),
        ("0.03 W/(m K)", 0.03),
    ]);
}

#[test]
fn other_values() {
    reads::<Mass>(&[
        ("70 lb", 31.751_465_9),
        ("70 lbs", 31.751_465_9),
        ("70 pounds", 31.751_465_9),
        ("1,200 lb", 544.310_844),
        ("5 lb 4 oz", 5.25 * 0.453_592_37),
        ("35 kg", 35.0),
        ("1.5 t", 1500.0),
    ]);
    reads::<Force>(&[("350 N", 350.0), ("2 kN", 2000.0)]);
    reads::<Torque>(&[
        ("2 N·m", 2.0),
        ("2 Nm", 2.0),
        ("2 N m", 2.0),
        ("2 N*m", 2.0),
    ]);
    reads::<Airflow>(&[
        ("85 m3/h", 85.0),
        ("100 cfm", 169.901_079_552),
        ("10 L/s", 36.0),
    ]);
    reads::<Altitude>(&[("5280 ft", 1609.344), ("-3 m", -3.0)]);
    reads::<Speed>(&[
        ("90 km/h", 25.0),
        ("90 kph", 25.0),
        ("90 KM/H", 25.0),
        ("65 mph", 29.0576),
        ("12.5 m/s", 12.5),
    ]);
    reads::<Stiffness>(&[
        ("150 N/mm", 150_000.0),
        ("150 kN/m", 150_000.0),
        ("2000 N/m", 2000.0),
        ("1 lbf/in", 175.126_835_246_476_37),
        ("1 lb/in", 175.126_835_246_476_37),
    ]);
    reads::<Volume>(&[
        ("40 gal", 151.416_471_36),
        ("120 L", 120.0),
        ("120 l", 120.0),
        ("120 litres", 120.0),
        ("500 mL", 0.5),
    ]);
    reads::<Area>(&[("1.8 m2", 1.8), ("300 cm²", 0.03), ("1 m^2", 1.0)]);
    reads::<Duration>(&[
        ("20 min", 1200.0),
        ("150 ms", 0.15),
        ("3 h", 10_800.0),
        ("2 h 30 min", 9000.0),
        ("2h30min", 9000.0),
        ("1/2 h", 1800.0),
        ("90 seconds", 90.0),
        ("2 days", 172_800.0),
    ]);
    reads::<Angle>(&[("45°", 45.0), ("45 deg", 45.0), ("-15 degrees", -15.0)]);
    reads::<Ratio>(&[
        ("3 %", 0.03),
        ("3%", 0.03),
        ("0.03", 0.03),
        ("0,03", 0.03),
        ("0,125", 0.125),
        ("1", 1.0),
        ("0", 0.0),
        ("80 percent", 0.8),
        ("125 %", 1.25),
        ("3/4", 0.75),
        ("½", 0.5),
    ]);
}

/// Every spelling in the tables means its own unit, with and without a blank before it, and in
/// capitals or small letters where no leading m hangs on the case.
fn every_spelling<Q: Quantity>() {
    for unit in Q::DEFINITION.units {
        for spelling in unit.spellings {
            let one_is_legal = Q::LEGAL.contains(unit.to_base(1.0));
            let number = if one_is_legal { 1.0 } else { 100.0 };
            let mut texts = vec![
                format!("{number} {spelling}"),
                format!("{number}{spelling}"),
            ];
            if !unit.case_of_m {
                texts.push(format!("{number} {}", spelling.to_ascii_uppercase()));
                texts.push(format!("{number} {}", spelling.to_ascii_lowercase()));
            }
            for text in texts {
                let found = Q::parse(&text).unwrap_or_else(|error| panic!("{text}: {error}"));
                assert_eq!(found.base(), unit.to_base(number), "{}: {text}", Q::NAME);
            }
        }
    }
    for example in Q::EXAMPLES {
        assert!(Q::parse(example).is_ok(), "{}: {example}", Q::NAME);
    }
    for refused in Q::DEFINITION.refused {
        for spelling in refused.spellings {
            let error = Q::parse(&format!("1 {spelling}")).unwrap_err();
            assert_eq!(
                error.hint.as_deref(),
                Some(refused.hint),
                "{}: {spelling}",
                Q::NAME
            );
        }
    }
}

#[test]
fn every_spelling_of_every_quantity() {
    every_spelling::<Voltage>();
    every_spelling::<Current>();
    every_spelling::<Resistance>();
    every_spelling::<Power>();
    every_spelling::<Charge>();
    every_spelling::<Energy>();
    every_spelling::<LineResistance>();
    every_spelling::<CrossSection>();
    every_spelling::<Length>();
    every_spelling::<Area>();
    every_spelling::<Volume>();
    every_spelling::<Angle>();
    every_spelling::<Mass>();
    every_spelling::<Force>();
    every_spelling::<Torque>();
    every_spelling::<Stiffness>();
    every_spelling::<Speed>();
    every_spelling::<Airflow>();
    every_spelling::<Altitude>();
    every_spelling::<Duration>();
    every_spelling::<Ratio>();
    every_spelling::<Temperature>();
    every_spelling::<TemperatureDifference>();
    every_spelling::<LineHeat>();
    every_spelling::<ThermalResistivity>();
    every_spelling::<ThermalConductivity>();
}

#[test]
fn typed_text_is_kept_exactly() {
    for text in [
        "  7' 3-5/8\" ",
        "1,200 mm",
        "650mm",
        "½ in",
        "\u{2212}5\u{a0}m",
    ] {
        let typed = Typed::<Length>::parse(text).unwrap();
        assert_eq!(typed.text, text);
        assert_eq!(typed.to_string(), text);
        assert_eq!(typed.value, Length::parse(text).unwrap());
    }
    assert!(Typed::<Length>::parse("7").is_err());
    let size = Typed::<wainwright_units::WireSize>::parse(" AWG 10 ").unwrap();
    assert_eq!(size.to_string(), " AWG 10 ");
    assert_eq!(size.value.to_string(), "10 AWG");
}
