//! Published resistances, adiabatic factors and fusing currents against `conductor`.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod wires;

use wainwright_engines::conductor::*;
use wainwright_units::*;
use wires::{amperes, celsius, close};

fn area(square_millimetres: f64) -> CrossSection {
    CrossSection::from_square_millimetres(square_millimetres)
}

/// R20 [Ω/m] of a stranded AWG size by the formula.
fn formula(circular_mils: f64) -> LineResistance {
    stranded_resistance(CrossSection::from_circular_mils(circular_mils))
}

/// NEC Chapter 9 Table 8, stranded uncoated copper: circular mils, Ω per 1000 ft at 75 °C.
/// 0.6 %: the table prints three digits and its strands are not all laid alike.
#[test]
#[allow(clippy::approx_constant, reason = "3.14 is a printed resistance")]
fn nec_table_8_stranded_uncoated() {
    let table = [
        (1620.0, 7.95),
        (2580.0, 4.99),
        (4110.0, 3.14),
        (6530.0, 1.98),
        (10380.0, 1.24),
        (16510.0, 0.778),
        (26240.0, 0.491),
        (41740.0, 0.308),
        (66360.0, 0.194),
        (83690.0, 0.154),
        (105600.0, 0.122),
        (133100.0, 0.0967),
        (167800.0, 0.0766),
        (211600.0, 0.0608),
    ];
    for (circular_mils, printed) in table {
        let at_75 = resistance_at(formula(circular_mils), celsius(75.0));
        let found = at_75.ohms_per_thousand_feet();
        assert!(
            close(found, printed, 0.006),
            "{circular_mils}: {found} against {printed}"
        );
    }
}

/// NEC Chapter 9 Table 8 note: R2 = R1 (1 + 0.00323 (T2 − 75)); both rules give R20/R75 = 0.8223.
#[test]
fn rule_of_table_8_note() {
    let one = LineResistance::from_ohms_per_metre(1.0);
    let at_75 = resistance_at(one, celsius(75.0)).ohms_per_metre();
    assert!((1.0 / at_75 - 0.8223).abs() < 0.00005);
    assert!((1.0 / at_75 - (1.0 + 0.00323 * (20.0 - 75.0))).abs() < 0.0002);
    let back = resistance_at_20(LineResistance::from_ohms_per_metre(at_75), celsius(75.0));
    assert!(close(
        back.expect("above zero resistance").ohms_per_metre(),
        1.0,
        1e-12
    ));
    assert!(resistance_at_20(one, celsius(-234.5)).is_none());
}

/// IEC 60228 Table 3, class 5, plain copper: nominal area [mm²], largest resistance at 20 °C [Ω/km].
/// The nominal area is a name for that resistance, not a measured area: wire made just within the
/// standard has 8 to 14 % more resistance than copper of the nominal area, and never less.
#[test]
fn iec_60228_class_5() {
    let table = [
        (0.5, 39.0),
        (0.75, 26.0),
        (1.0, 19.5),
        (1.5, 13.3),
        (2.5, 7.98),
        (4.0, 4.95),
        (6.0, 3.30),
        (10.0, 1.91),
        (16.0, 1.21),
        (25.0, 0.780),
        (35.0, 0.554),
        (50.0, 0.386),
        (70.0, 0.272),
        (95.0, 0.206),
        (120.0, 0.161),
        (150.0, 0.129),
    ];
    for (nominal, largest) in table {
        let share = stranded_resistance(area(nominal)).milliohms_per_metre() / largest;
        assert!((0.87..0.93).contains(&share), "{nominal}: {share}");
    }
}

/// 16 AWG, 3 m out and 3 m back, 8 A: 0.646 V at 20 °C and 0.786 V at 75 °C (by hand from Table 8).
/// 0.5 %: the hand value starts from a rounded resistance.
#[test]
fn drop_over_16_awg() {
    let drop = |temperature| {
        let ohms = resistance_at(formula(2580.0), celsius(temperature)).ohms_per_metre();
        2.0 * 3.0 * ohms * 8.0
    };
    assert!(close(drop(20.0), 0.646, 0.005), "{}", drop(20.0));
    assert!(close(drop(75.0), 0.786, 0.005), "{}", drop(75.0));
}

/// Run length [ft] × Ω/ft × A as worked in an aviation circular on wire selection; its Ω/ft are the
/// largest permitted for tinned aircraft wire at 20 °C (6, 4, 12 and 14 gauge). 0.1 %: the result has
/// three digits (the third is printed as 3.60, exactly 3.555). Copper of the full AWG area is better
/// than the largest permitted resistance.
#[test]
fn run_length_examples() {
    let cases = [
        (26240.0, 107.0, 0.44, 20.0, 0.942),
        (41740.0, 90.0, 0.28, 20.0, 0.504),
        (6530.0, 88.0, 2.02, 20.0, 3.555),
        (4110.0, 100.0, 3.06, 20.0, 6.12),
    ];
    for (circular_mils, feet, printed_ohms, amps, volts) in cases {
        let drop = |line: LineResistance| {
            let at_20 = resistance_at(line, celsius(20.0));
            (at_20 * Length::from_feet(feet) * amperes(amps)).volts()
        };
        let printed = drop(LineResistance::from_ohms_per_thousand_feet(printed_ohms));
        assert!(close(printed, volts, 0.001), "{printed} against {volts}");
        assert!(drop(formula(circular_mils)) < volts);
    }
}

/// ABYC E-11 sizing: cmil = 10.75 I L / E with L out and back [ft]. 10 A, 21 ft, 3 % of 12 V gives
/// 6271 cmil. K = 10.75 is our copper at 24 °C (0.3 %: K has four digits).
#[test]
fn circular_mil_rule() {
    let at_24 = resistance_at(formula(1.0), celsius(24.0)).ohms_per_thousand_feet() / 1000.0;
    assert!(close(at_24, 10.75, 0.003), "{at_24}");
    let wanted = 10.75 * 10.0 * 21.0 / (0.03 * 12.0);
    assert!((wanted - 6271.0_f64).abs() < 1.0);
    // 12 AWG has 6530 cmil and is enough, 12 SAE has 5833 and is not.
    let drop = |circular_mils: f64| {
        let ohms = resistance_at(formula(circular_mils), celsius(24.0)).ohms_per_thousand_feet();
        ohms / 1000.0 * 21.0 * 10.0
    };
    assert!(drop(6530.0) <= 0.36 && drop(5833.0) > 0.36);
}

/// IEC 60364-5-54 Annex A and -4-43: start [°C], end [°C], k. ±0.3 %: k is printed in whole numbers
/// (0.3 % of 100 is the rounding).
#[test]
fn adiabatic_factors() {
    let table = [
        (70.0, 160.0, 115.0),
        (70.0, 140.0, 103.0),
        (90.0, 160.0, 100.0),
        (60.0, 200.0, 141.0),
        (90.0, 250.0, 143.0),
        (30.0, 160.0, 143.0),
        (30.0, 250.0, 176.0),
    ];
    for (start, end, printed) in table {
        let found = adiabatic_k(celsius(start), celsius(end));
        assert!(
            close(found, printed, 0.003),
            "{start} to {end}: {found} against {printed}"
        );
    }
    assert_eq!(adiabatic_k(celsius(160.0), celsius(160.0)), 0.0);
}

/// K from the heat capacity and resistivity of copper: √(Qc (β + 20) / ρ20) = 225.7; IEC prints 226.
#[test]
fn adiabatic_constant_from_copper() {
    let derived = (3.45e-3 * (ZERO_RESISTANCE + 20.0) / (RESISTIVITY_20 * 1e-3)).sqrt();
    assert!((derived - 225.7).abs() < 0.05);
    assert!(close(derived, COPPER_ADIABATIC, 0.002));
}

/// ICEA P-32-382: (I/A)² t = 0.0297 log10((T2 + 234)/(T1 + 234)), A in cmil. It lies 0.8 % below IEC.
#[test]
fn icea_lies_just_below() {
    for (start, end, printed) in [(75.0, 150.0, 104.5), (90.0, 250.0, 142.0)] {
        let per_cmil: f64 = 0.0297 * ((end + 234.0_f64) / (start + 234.0)).log10();
        let icea = per_cmil.sqrt() / CrossSection::from_circular_mils(1.0).square_millimetres();
        assert!(close(icea, printed, 0.001), "{icea}");
        let ours = adiabatic_k(celsius(start), celsius(end));
        assert!(
            (icea / ours - (1.0 - 0.008)).abs() < 0.002,
            "{icea} against {ours}"
        );
    }
}

/// Times to the limit without loss, by hand from k²S²/I²: mm², start, end, A, s. 2 %: printed with
/// two digits.
#[test]
fn times_to_the_limit() {
    let table = [
        (2.081, 70.0, 160.0, 1000.0, 0.057),
        (1.309, 70.0, 160.0, 1000.0, 0.023),
        (0.823, 70.0, 160.0, 1000.0, 0.009),
        (13.30, 70.0, 160.0, 2640.0, 0.34),
        (67.4, 90.0, 250.0, 6600.0, 2.1),
    ];
    for (metal, start, end, amps, printed) in table {
        let (start, end, amps) = (celsius(start), celsius(end), amperes(amps));
        let found = adiabatic_time(area(metal), start, end, amps);
        assert!(
            (found.seconds() - printed).abs() < 0.02 * printed + 0.0005,
            "{found:?} {printed}"
        );
        let energy = amps.amperes().powi(2) * found.seconds();
        let back = adiabatic_temperature(area(metal), start, energy);
        assert!((back.celsius() - end.celsius()).abs() < 1e-6);
    }
}

/// Withstood energies k²S² by hand, PVC (115) and cross-linked (143): mm², A²s. 2 %: two digits.
#[test]
fn withstood_energies() {
    let table = [
        (0.823, 8.9e3, 1.38e4),
        (2.081, 5.74e4, 8.87e4),
        (5.261, 3.66e5, 5.66e5),
        (13.30, 2.34e6, 3.61e6),
        (67.4, 6.0e7, 9.3e7),
    ];
    for (metal, thermoplastic, crosslinked) in table {
        let first = withstand_energy(area(metal), celsius(70.0), celsius(160.0));
        let second = withstand_energy(area(metal), celsius(90.0), celsius(250.0));
        assert!(close(first, thermoplastic, 0.02), "{metal}: {first}");
        assert!(close(second, crosslinked, 0.02), "{metal}: {second}");
    }
}

/// Onderdonk at 30 °C: 16 AWG melts in 0.1 s at 1187 A and in 1 s at 375 A. 0.5 %: ampere rounding
/// and the rounded area.
#[test]
fn fusing_of_16_awg() {
    for (amps, printed) in [(1187.0, 0.1), (375.0, 1.0)] {
        let found = fusing_time(area(1.309), celsius(30.0), amperes(amps)).seconds();
        assert!(close(found, printed, 0.005), "{amps}: {found}");
    }
}
