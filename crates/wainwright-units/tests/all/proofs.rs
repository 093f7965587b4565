//! Proofs: published conversions and the American wire gauge.

use wainwright_units::{
    Area, Awg, CrossSection, Force, Length, Mass, Quantity, Speed, Stiffness, Temperature, Torque,
    Volume,
};

/// Asserts agreement within half of the last digit that is published.
#[track_caller]
fn agrees(found: f64, published: f64, last_digit: f64) {
    let difference = (found - published).abs();
    assert!(
        difference <= last_digit / 2.0,
        "{found} is not {published} within {last_digit}/2"
    );
}

/// NIST Special Publication 811 (2008), appendix B.8: factors to seven digits, bold ones exact.
#[test]
fn conversion_factors_of_nist_sp_811() {
    let base = |length: &str| Length::parse(length).unwrap().metres();
    assert_eq!(base("1 in"), 0.0254);
    assert_eq!(base("1 ft"), 0.3048);
    assert_eq!(base("1 yd"), 0.9144);
    assert_eq!(Mass::parse("1 lb").unwrap().kilograms(), 0.453_592_37);
    agrees(Mass::parse("1 oz").unwrap().kilograms(), 2.834_952e-2, 1e-8);
    agrees(Volume::parse("1 gal").unwrap().litres(), 3.785_412, 1e-6);
    agrees(Volume::parse("1 qt").unwrap().litres(), 0.946_352_9, 1e-7);
    agrees(
        Volume::parse("1 fl oz").unwrap().litres(),
        2.957_353e-2,
        1e-8,
    );
    agrees(Volume::parse("1 cu ft").unwrap().litres(), 28.316_85, 1e-5);
    assert_eq!(
        Area::parse("1 sq ft").unwrap().square_metres(),
        0.092_903_04
    );
    assert_eq!(Area::parse("1 sq in").unwrap().square_metres(), 6.4516e-4);
    agrees(Force::parse("1 lbf").unwrap().newtons(), 4.448_222, 1e-6);
    assert_eq!(Force::parse("1 kgf").unwrap().newtons(), 9.806_65);
    agrees(
        Stiffness::parse("1 lbf/in").unwrap().newtons_per_metre(),
        175.126_8,
        1e-4,
    );
    assert_eq!(Speed::parse("1 mph").unwrap().metres_per_second(), 0.447_04);
    agrees(
        Speed::parse("1 km/h").unwrap().metres_per_second(),
        0.277_777_8,
        1e-7,
    );
    agrees(
        Torque::parse("1 in-lb").unwrap().newton_metres(),
        0.112_984_8,
        1e-7,
    );
    agrees(
        Torque::parse("1 ft-lb").unwrap().newton_metres(),
        1.355_818,
        1e-6,
    );
    agrees(
        CrossSection::parse("1000 cmil")
            .unwrap()
            .square_millimetres(),
        0.506_707_5,
        1e-7,
    );
}

/// The fixed points of the Fahrenheit scale, and where it crosses the Celsius scale.
#[test]
fn fahrenheit_fixed_points() {
    for (typed, celsius) in [
        ("32 °F", 0.0),
        ("212 °F", 100.0),
        ("-40 °F", -40.0),
        ("14 °F", -10.0),
    ] {
        assert_eq!(
            Temperature::parse(typed).unwrap().celsius(),
            celsius,
            "{typed}"
        );
        assert_eq!(
            Temperature::from_celsius(celsius).show(wainwright_units::System::Us),
            typed,
            "{celsius}"
        );
    }
}

fn gauge(number: i8) -> Awg {
    Awg::new(number).unwrap()
}

/// ASTM B258: the two diameters that define the gauge. 1e-12 allows for rounding of a power.
#[test]
fn gauge_ends_of_astm_b258() {
    agrees(gauge(36).diameter().inches(), 0.0050, 1e-12);
    agrees(gauge(-3).diameter().inches(), 0.4600, 1e-12);
}

/// ASTM B258: neighbours have the 39th root of 92 as their ratio of diameters.
#[test]
fn gauge_ratio_of_astm_b258() {
    let sizes: Vec<Awg> = Awg::all().collect();
    assert_eq!(sizes.len(), 40);
    for pair in sizes.windows(2) {
        let ratio = pair[1].diameter() / pair[0].diameter();
        agrees(ratio.powi(39), 92.0, 1e-9);
    }
}

/// Handbook rules: six gauges double the diameter, ten gauges give ten times the area, three
/// gauges double it. The exact ratios are 92^(6/39) = 2.0050, 92^(20/39) = 10.164 and
/// 92^(6/39) = 2.0050, so the rules hold within 0.26 %, 1.7 % and 0.26 %.
#[test]
fn gauge_rules_of_thumb() {
    for number in -3..=26 {
        let thick = gauge(number);
        let six = thick.diameter() / gauge(number + 6).diameter();
        let three = thick.area() / gauge(number + 3).area();
        let ten = thick.area() / gauge(number + 10).area();
        assert!(
            (six / 2.0 - 1.0).abs() < 0.0026,
            "six gauges from {thick}: {six}"
        );
        assert!(
            (three / 2.0 - 1.0).abs() < 0.0026,
            "three gauges from {thick}: {three}"
        );
        assert!(
            (ten / 10.0 - 1.0).abs() < 0.017,
            "ten gauges from {thick}: {ten}"
        );
    }
}

/// Circular mils as printed in NEC (NFPA 70) chapter 9 table 8. The print follows ASTM B258,
/// which rounds the diameter to a tenth of a mil before squaring it, and then to four digits.
/// So the print is met exactly when the same is done, and the unrounded area stays within what
/// half a tenth of a mil of diameter and half of the last printed digit can make.
#[test]
fn gauge_areas_of_nec_chapter_9_table_8() {
    let published = [
        (18, 1620.0, 10.0),
        (16, 2580.0, 10.0),
        (14, 4110.0, 10.0),
        (12, 6530.0, 10.0),
        (10, 10_380.0, 10.0),
        (8, 16_510.0, 10.0),
        (6, 26_240.0, 10.0),
        (4, 41_740.0, 10.0),
        (2, 66_360.0, 10.0),
        (1, 83_690.0, 10.0),
        (0, 105_600.0, 100.0),
        (-1, 133_100.0, 100.0),
        (-2, 167_800.0, 100.0),
        (-3, 211_600.0, 100.0),
    ];
    for (number, printed, last_digit) in published {
        let size = gauge(number);
        let mils = size.diameter().inches() * 1000.0;
        let rounded_mils = (mils * 10.0).round() / 10.0;
        let as_printed = (rounded_mils * rounded_mils / last_digit).round() * last_digit;
        assert_eq!(as_printed, printed, "{size}");
        agrees(
            size.area().circular_mils(),
            printed,
            2.0 * (0.1 * mils) + last_digit,
        );
    }
}

/// The same areas in square millimetres, as handbooks print them from ASTM B258: half of the
/// last printed digit.
#[test]
fn gauge_areas_in_square_millimetres() {
    let published = [
        (18, 0.823, 1e-3),
        (16, 1.309, 1e-3),
        (14, 2.081, 1e-3),
        (12, 3.309, 1e-3),
        (10, 5.261, 1e-3),
        (8, 8.366, 1e-3),
        (6, 13.30, 1e-2),
        (4, 21.15, 1e-2),
        (2, 33.63, 1e-2),
        (1, 42.41, 1e-2),
        (0, 53.5, 0.1),
        (-1, 67.4, 0.1),
        (-2, 85.0, 0.1),
        (-3, 107.2, 0.1),
    ];
    for (number, square_millimetres, last_digit) in published {
        agrees(
            gauge(number).area().square_millimetres(),
            square_millimetres,
            last_digit,
        );
    }
}
