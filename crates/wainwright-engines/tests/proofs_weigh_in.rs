//! Worked weighings against `weigh_in`. Marks: read (a printed case), computed (worked once outside
//! this program).
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod towing;

use towing::{kg, lb, m, near};
use wainwright_engines::weigh_in::*;
use wainwright_units::*;

fn measured<Q>(value: f64, sigma: f64, from: fn(f64) -> Q) -> Measured<Q> {
    Measured {
        value: from(value),
        sigma: from(sigma),
    }
}

fn mass(value: f64, sigma: f64) -> Measured<Mass> {
    measured(value, sigma, kg)
}

fn length(value: f64, sigma: f64) -> Measured<Length> {
    measured(value, sigma, m)
}

/// Usual beams (read): 1 ft and 2 ft multiply by 3, 1 ft and 3 ft by 4. With 0.305 ± 0.003 m, 0.610
/// ± 0.003 m and 38.5 ± 0.5 kg the load is 115.5 ± 1.7 kg (computed).
#[test]
fn beam_and_small_scale() {
    let feet = |count| Measured::exact(Length::from_feet(count));
    for (far, factor) in [(2.0, 3.0), (3.0, 4.0)] {
        let set_up = Beam {
            support_to_load: feet(1.0),
            load_to_scale: feet(far),
            reading: mass(40.0, 0.0),
            bare: kg(2.0),
        };
        near(
            beam(&set_up).unwrap().value.kilograms(),
            38.0 * factor,
            1e-9,
        );
    }
    let found = beam(&Beam {
        support_to_load: length(0.305, 0.003),
        load_to_scale: length(0.610, 0.003),
        reading: mass(38.5, 0.5),
        bare: Mass::ZERO,
    })
    .unwrap();
    near(found.value.kilograms(), 115.5, 0.05);
    near(found.sigma.kilograms(), 1.7, 0.05);
}

/// A jack 0.45 m behind the ball, L 2.9 m: factor 0.8448, 106.5 kg become 89.97 kg, 18 % too much at
/// the jack (computed).
#[test]
fn reading_at_the_jack() {
    let found = tongue_from_jack(mass(106.5, 1.0), length(0.45, 0.0), length(2.9, 0.0)).unwrap();
    near(found.value.kilograms(), 89.97, 0.005);
    near(found.sigma.kilograms(), 0.8448, 5e-5);
    let too_much = 106.5 / found.value.kilograms() - 1.0;
    near(too_much, 0.18, 0.005);
}

/// Three passes in pounds (computed): 2360, 2740, 1780 coupled; 2440, 2460 alone: T 200, W 1980,
/// 10.10 %, the front axle loses 80. Readings to 20 lb: 11.5 lb on T.
#[test]
fn three_passes() {
    let pass = |front, rear, trailer| AxleReadings {
        front: lb(front),
        rear: lb(rear),
        trailer: lb(trailer),
    };
    let passes = Passes {
        coupled: pass(2360.0, 2740.0, 1780.0),
        alone: pass(2440.0, 2460.0, 0.0),
        bars_tight: None,
        sigma: Measured::to_the_step(lb(0.0), lb(20.0)).sigma,
        coupling_to_axle: None,
    };
    let found = public_scale(&passes).unwrap();
    near(found.tongue.value.pounds(), 200.0, 1e-9);
    near(found.tongue.sigma.pounds(), 11.5, 0.05);
    near(found.tongue.sigma.kilograms(), 5.2, 0.05);
    near(found.trailer.value.pounds(), 1980.0, 1e-9);
    near(found.share.value.percent(), 10.10, 0.005);
    near(found.front_change.value.pounds(), -80.0, 1e-9);
    assert_eq!((found.restored, found.bar_torque), (None, None));
    // By hand: the bars put 40 lb back on the front axle and 30 lb on the trailer's, 13 ft behind
    // the ball.
    let tight = Passes {
        bars_tight: Some(pass(2400.0, 2670.0, 1810.0)),
        coupling_to_axle: Some(Length::from_feet(13.0)),
        ..passes
    };
    let found = public_scale(&tight).unwrap();
    near(found.restored.unwrap().fraction(), 0.5, 1e-12);
    near(found.moved_to_trailer.unwrap().value.pounds(), 30.0, 1e-9);
    let torque = Force::from_newtons(30.0 * 4.448_222) * Length::from_feet(13.0);
    near(found.bar_torque.unwrap() / torque, 1.0, 1e-6);
}

/// The nine-item trailer of `proofs_balance` on two side scales (computed): 348.93 and 341.81 kg,
/// tongue 84.26 kg, track 1.60 m. By the items the moment is 5.70 kg·m of 775 kg, 0.0074 m to the
/// left; the wheel loads are rounded to 0.005 kg each, which is 1e-5 m.
#[test]
fn sideways() {
    let found = centre_sideways(
        mass(348.93, 0.5),
        mass(341.81, 0.5),
        mass(84.26, 0.5),
        m(1.6),
    )
    .unwrap();
    near(found.value.metres(), 5.70 / 775.0, 1.05e-5);
    // By the wheel loads alone it would be 775/690.74 as far out, which the items contradict.
    near(
        found.value.metres() * 775.0 / 690.74,
        0.8 * (348.93 - 341.81) / 690.74,
        1e-9,
    );
    // 0.5 kg on each side moves half the track by 1/775 each.
    near(
        found.sigma.metres(),
        0.8 * 0.5 / 775.0 * 2.0_f64.sqrt(),
        1e-5,
    );
}

/// The tilted trailer of `proofs_balance` (computed): at 10° a tongue load of 53.73 kg gives 0.670
/// m over the wheel centre; 18 mm for each kilogram of error. 0.5 mm: half a printed digit.
#[test]
fn height_by_tilting() {
    let raised = Raised {
        coupling_to_axle: m(2.9),
        wheel_radius: m(0.30),
        coupling_when_level: m(0.42),
        mass: mass(900.0, 0.0),
        level_tongue: mass(90.0, 0.0),
        raised_tongue: mass(53.73, 1.0),
        tilt: measured(10.0, 0.0, Angle::from_degrees),
    };
    let found = centre_height(&raised).unwrap();
    near(found.value.metres() - 0.30, 0.670, 5e-4);
    near(found.sigma.millimetres(), 18.0, 0.5);
    let flat = Raised {
        tilt: measured(0.0, 0.0, Angle::from_degrees),
        ..raised
    };
    assert!(centre_height(&flat).is_err());
}

fn three_states() -> Vec<Weighing> {
    let items = [(76.0, 2.60), (35.0, 1.95), (55.0, 4.05)];
    [(0, 41.9, 389.5), (1, 48.8, 457.0), (3, 37.6, 559.0)]
        .into_iter()
        .map(|(count, tongue, axle)| Weighing {
            added: items
                .iter()
                .take(count)
                .map(|(mass, place)| (kg(*mass), m(*place)))
                .collect(),
            tongue: Some(mass(tongue, 1.5)),
            axle: Some(mass(axle, 5.0)),
            whole: None,
        })
        .collect()
}

/// Shell from three weighings (computed; the truth behind the readings is 430 kg at 2.62 m): 430.60
/// ± 3.01 kg, moment 1129.92 ± 8.37 kg·m, correlation 0.958, 2.6241 ± 0.0056 m, χ² 0.790 with 4
/// degrees of freedom.
#[test]
fn shell_by_least_squares() {
    let found = shell(m(2.9), &three_states()).unwrap();
    near(found.mass.value.kilograms(), 430.60, 0.005);
    near(found.mass.sigma.kilograms(), 3.01, 0.005);
    near(found.moment_kg_m.0, 1129.92, 0.005);
    near(found.moment_kg_m.1, 8.37, 0.005);
    near(found.correlation, 0.958, 5e-4);
    near(found.centre.value.metres(), 2.6241, 5e-5);
    near(found.centre.sigma.metres(), 0.0056, 5e-5);
    near(found.chi_squared, 0.790, 5e-4);
    assert_eq!(found.degrees_of_freedom, 4);
    assert_eq!(found.contradiction(3.0, 3.0), None);
}

/// A battery that is really 1 m further back than written down shows as a contradiction in the
/// weighing that has it.
#[test]
fn misplaced_item() {
    let mut states = three_states();
    if let Some(battery) = states[2].added.get_mut(1) {
        battery.1 = m(0.95);
    }
    let found = shell(m(2.9), &states).unwrap();
    let against = found.contradiction(3.0, 3.0).unwrap();
    assert!(against.chi_squared_per_freedom.unwrap() > 3.0);
    assert_eq!(against.worst.weighing, 2);
    assert_eq!(against.worst.scale, Scale::Tongue);
}

/// Upper tail of the chi-squared distribution against printed tables of critical values: a textbook
/// table with five decimals (read), and the NIST/SEMATECH e-Handbook table of lower critical values
/// with three (read). 2e-5: half a printed digit of the value times the density there, 0.0005 by at
/// most 0.04 where three decimals are printed, 0.00005 by at most 0.5 elsewhere.
#[test]
fn chance_by_printed_tables() {
    let rows: [(usize, &[(f64, f64)]); 8] = [
        (
            1,
            &[
                (0.45494, 0.5),
                (2.70554, 0.10),
                (3.84146, 0.05),
                (6.63490, 0.01),
                (7.87944, 0.005),
            ],
        ),
        (
            2,
            &[
                (0.21072, 0.9),
                (1.38629, 0.5),
                (5.99146, 0.05),
                (10.5963, 0.005),
            ],
        ),
        (
            4,
            &[
                (0.71072, 0.95),
                (3.35669, 0.5),
                (9.48773, 0.05),
                (13.27670, 0.01),
                (14.86026, 0.005),
            ],
        ),
        (7, &[(6.34581, 0.5), (14.06714, 0.05), (18.47531, 0.01)]),
        (
            10,
            &[
                (3.94030, 0.95),
                (9.34182, 0.5),
                (18.30704, 0.05),
                (23.20925, 0.01),
                (25.18818, 0.005),
            ],
        ),
        (15, &[(4.60092, 0.995), (14.33886, 0.5)]),
        (
            50,
            &[
                (37.689, 0.90),
                (34.764, 0.95),
                (29.707, 0.99),
                (24.674, 0.999),
            ],
        ),
        (
            100,
            &[
                (82.358, 0.90),
                (77.929, 0.95),
                (74.222, 0.975),
                (70.065, 0.99),
            ],
        ),
    ];
    for (freedom, values) in rows {
        for (value, chance) in values {
            let found = chi_squared_tail(*value, freedom).unwrap().fraction();
            near(found, *chance, 2e-5);
        }
    }
    assert_eq!(chi_squared_tail(0.0, 3).unwrap().fraction(), 1.0);
    assert!(chi_squared_tail(1.0, 0).is_err());
    assert!(chi_squared_tail(-1.0, 3).is_err());
    assert!(chi_squared_tail(f64::NAN, 3).is_err());
}

/// With two degrees of freedom the tail is e^(−χ²/2), with four (1 + χ²/2) times that (closed form).
/// The three weighings above (χ² 0.790, 4 degrees, computed) are as good as chance: (1 + 0.395)
/// e^−0.395 = 0.940.
#[test]
fn chance_in_closed_form() {
    for x in [1e-6, 0.3, 2.0, 7.9, 30.0, 200.0, 1400.0] {
        let half = 0.5 * x;
        let two = chi_squared_tail(x, 2).unwrap().fraction();
        let four = chi_squared_tail(x, 4).unwrap().fraction();
        near(two / (-half).exp(), 1.0, 1e-12);
        near(four / ((1.0 + half) * (-half).exp()), 1.0, 1e-12);
    }
    let found = shell(m(2.9), &three_states()).unwrap();
    near(found.chance().unwrap().fraction(), 0.940, 5e-4);
    let two_readings = shell(m(2.9), &three_states()[..1]).unwrap();
    assert_eq!(two_readings.chance(), None);
}

/// Too few kinds of readings are refused in words; one tongue and one axle reading are just enough.
#[test]
fn just_enough_readings() {
    let mut state = three_states().remove(0);
    let found = shell(m(2.9), std::slice::from_ref(&state)).unwrap();
    near(found.mass.value.kilograms(), 41.9 + 389.5, 1e-9);
    assert_eq!(found.degrees_of_freedom, 0);
    state.axle = None;
    let refusal = shell(m(2.9), std::slice::from_ref(&state)).unwrap_err();
    assert!(
        refusal.to_string().contains("kinds of readings"),
        "{refusal}"
    );
    state.whole = Some(mass(431.4, 5.0));
    let found = shell(m(2.9), std::slice::from_ref(&state)).unwrap();
    near(found.mass.value.kilograms(), 431.4, 1e-9);
    assert!(shell(m(2.9), &[]).is_err());
    state.tongue = Some(mass(41.9, 0.0));
    assert!(shell(m(2.9), &[state]).is_err());
}
