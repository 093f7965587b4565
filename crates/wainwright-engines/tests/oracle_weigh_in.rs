//! `weigh_in` against slow methods: the fit is lowest and as curved as it says, uncertainties are
//! found again by shifting each reading, and exact weighings of a known trailer give it back.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod towing;

use proptest::prelude::*;
use towing::{kg, m};
use wainwright_engines::balance::{Chassis, Heights, Load, Suspension, at_attitude, statics};
use wainwright_engines::weigh_in::*;
use wainwright_units::frame::Point;
use wainwright_units::*;

const LENGTH: f64 = 3.1;

/// Items, then readings with errors of a share of their uncertainty.
fn weighings() -> impl Strategy<Value = Vec<Weighing>> {
    let item = (5.0..120.0, 0.5..5.0);
    let error = -2.0..2.0_f64;
    let state = (
        prop::collection::vec(item, 0..4),
        [error.clone(), error.clone(), error],
        [0.5..3.0, 2.0..8.0, 2.0..8.0_f64],
        prop::bool::ANY,
    );
    prop::collection::vec(state, 1..6).prop_map(|states| {
        states
            .into_iter()
            .map(|(items, errors, sigmas, whole)| weighing(&items, errors, sigmas, whole))
            .collect()
    })
}

/// A weighing of a shell of 430 kg at 2.62 m.
fn weighing(items: &[(f64, f64)], errors: [f64; 3], sigmas: [f64; 3], whole: bool) -> Weighing {
    let all = items.iter().copied().chain([(430.0, 2.62)]);
    let (mass, moment) = all.fold((0.0, 0.0), |sum, (mass, x)| {
        (sum.0 + mass, sum.1 + mass * x)
    });
    let axle = moment / LENGTH;
    let truth = [mass - axle, axle, mass];
    let reading = |i: usize| {
        Some(Measured {
            value: kg(truth[i] + errors[i] * sigmas[i]),
            sigma: kg(sigmas[i]),
        })
    };
    Weighing {
        added: items.iter().map(|(mass, x)| (kg(*mass), m(*x))).collect(),
        tongue: reading(0),
        axle: reading(1),
        whole: if whole { reading(2) } else { None },
    }
}

/// Sum of squares of a shell of a mass and a moment, from the readings as they are.
fn misfit(weighings: &[Weighing], mass: f64, moment: f64) -> f64 {
    let mut sum = 0.0;
    for state in weighings {
        let (mut all, mut about) = (mass, moment);
        for (item, place) in &state.added {
            all += item.kilograms();
            about += item.kilograms() * place.metres();
        }
        let predicted = [all - about / LENGTH, about / LENGTH, all];
        for (reading, predicted) in [state.tongue, state.axle, state.whole]
            .into_iter()
            .zip(predicted)
        {
            if let Some(reading) = reading {
                let off = (reading.value.kilograms() - predicted) / reading.sigma.kilograms();
                sum += off * off;
            }
        }
    }
    sum
}

/// Numbers that a function gives again with each input shifted by its uncertainty, both ways.
fn spread(inputs: &[(f64, f64)], result: &dyn Fn(&[f64]) -> f64) -> f64 {
    let values: Vec<f64> = inputs.iter().map(|pair| pair.0).collect();
    let mut sum = 0.0;
    for (index, (value, sigma)) in inputs.iter().enumerate() {
        let mut shifted = values.clone();
        let step = 1e-4 * sigma;
        shifted[index] = value + step;
        let up = result(&shifted);
        shifted[index] = value - step;
        let effect = (up - result(&shifted)) / 2e-4;
        sum += effect * effect;
    }
    sum.sqrt()
}

fn measured<Q>(pair: (f64, f64), from: fn(f64) -> Q) -> Measured<Q> {
    Measured {
        value: from(pair.0),
        sigma: from(pair.1),
    }
}

proptest! {
    /// No other shell fits better, and the sum of squares rises around it just as the uncertainties
    /// say.
    #[test]
    fn lowest_and_as_curved(weighings in weighings(), d in -5.0..5.0_f64, e in -20.0..20.0_f64) {
        let found = shell(m(LENGTH), &weighings).unwrap();
        let (mass, moment) = (found.mass.value.kilograms(), found.moment_kg_m.0);
        let lowest = misfit(&weighings, mass, moment);
        prop_assert!((lowest - found.chi_squared).abs() < 1e-7 * (1.0 + lowest));
        let rise = misfit(&weighings, mass + d, moment + e) - lowest;
        let (u, w) = (d / found.mass.sigma.kilograms(), e / found.moment_kg_m.1);
        let rho = found.correlation;
        let expected = (u * u - 2.0 * rho * u * w + w * w) / (1.0 - rho * rho);
        prop_assert!((rise - expected).abs() < 1e-6 * (1.0 + expected), "{rise} {expected}");
        // Centre: its own uncertainty by shifting mass and moment along their correlation.
        let (s, t) = (found.mass.sigma.kilograms(), found.moment_kg_m.1);
        let independent = [(0.0, 1.0), (0.0, 1.0)];
        let centre = spread(&independent, &|z| {
            (moment + t * (rho * z[0] + (1.0 - rho * rho).max(0.0).sqrt() * z[1])) / (mass + s * z[0])
        });
        prop_assert!((centre / found.centre.sigma.metres() - 1.0).abs() < 1e-5);
    }

    /// Exact readings of a known trailer give its shell back.
    #[test]
    fn exact_readings(items in prop::collection::vec((5.0..120.0, 0.5..5.0), 0..4)) {
        let states = [weighing(&items, [0.0; 3], [1.0; 3], true)];
        let found = shell(m(LENGTH), &states).unwrap();
        prop_assert!((found.mass.value.kilograms() - 430.0).abs() < 1e-8);
        prop_assert!((found.centre.value.metres() - 2.62).abs() < 1e-9);
        prop_assert!(found.contradiction(1e-9, 1e-6).is_none());
    }

    /// Beam, jack and side scales: uncertainty by shifting every input.
    #[test]
    fn uncertainty_by_shifting(
        a in 0.2..0.5_f64, b in 0.4..1.2_f64, reading in 20.0..60.0_f64, part in 0.001..0.02_f64,
    ) {
        let inputs = [(a, a * part), (b, b * part), (reading, reading * part)];
        let found = beam(&Beam {
            support_to_load: measured(inputs[0], m),
            load_to_scale: measured(inputs[1], m),
            reading: measured(inputs[2], kg),
            bare: kg(1.5),
        })
        .unwrap();
        let expected = spread(&inputs, &|x| (x[2] - 1.5) * (x[0] + x[1]) / x[0]);
        prop_assert!((found.sigma.kilograms() / expected - 1.0).abs() < 1e-5);

        let inputs = [(reading, 0.5), (a, 0.003), (2.0 + b, 0.01)];
        let (load, jack, axle) =
            (measured(inputs[0], kg), measured(inputs[1], m), measured(inputs[2], m));
        let found = tongue_from_jack(load, jack, axle).unwrap();
        let expected = spread(&inputs, &|x| x[0] * (x[2] - x[1]) / x[2]);
        prop_assert!((found.sigma.kilograms() / expected - 1.0).abs() < 1e-5);

        let inputs = [(300.0 + reading, 2.0), (340.0, 3.0), (70.0, 1.0)];
        let found = centre_sideways(
            measured(inputs[0], kg), measured(inputs[1], kg), measured(inputs[2], kg), m(1.0 + a),
        )
        .unwrap();
        let expected = spread(&inputs, &|x| 0.5 * (1.0 + a) * (x[0] - x[1]) / (x[0] + x[1] + x[2]));
        prop_assert!((found.sigma.metres() / expected - 1.0).abs() < 1e-5);
    }

    /// Three passes: uncertainty by shifting every plate reading.
    #[test]
    fn passes_by_shifting(tongue in 20.0..200.0_f64, axle in 300.0..2000.0_f64, sigma in 1.0..15.0_f64) {
        let readings = [1000.0, 900.0 + tongue, axle, 1030.0, 870.0];
        let inputs = readings.map(|reading| (reading, sigma));
        let pass = |front, rear, trailer| AxleReadings {
            front: kg(front), rear: kg(rear), trailer: kg(trailer),
        };
        let found = public_scale(&Passes {
            coupled: pass(readings[0], readings[1], readings[2]),
            alone: pass(readings[3], readings[4], 0.0),
            bars_tight: None,
            sigma: kg(sigma),
            coupling_to_axle: None,
        })
        .unwrap();
        let on_ball = |x: &[f64]| x[0] + x[1] - x[3] - x[4];
        for (sigma, expected) in [
            (found.tongue.sigma.kilograms(), spread(&inputs, &on_ball)),
            (found.trailer.sigma.kilograms(), spread(&inputs, &|x| x[2] + on_ball(x))),
            (found.front_change.sigma.kilograms(), spread(&inputs, &|x| x[0] - x[3])),
            (found.share.sigma.fraction(), spread(&inputs, &|x| on_ball(x) / (x[2] + on_ball(x)))),
        ] {
            prop_assert!((sigma / expected - 1.0).abs() < 1e-5, "{sigma} {expected}");
        }
    }

    /// The balance engine tilts a trailer; the height is found again, with the uncertainty that
    /// shifting gives.
    #[test]
    fn height_from_the_balance_engine(
        x in 2.0..3.0_f64, y in -0.3..0.3_f64, z in 0.4..1.4_f64, degrees in 5.0..15.0_f64,
    ) {
        let chassis = Chassis {
            coupling_to_axle: m(LENGTH), track: m(1.7), suspension: Suspension::Single,
        };
        let level = statics(&chassis, &[Load::point(kg(850.0), Point::from_metres(x, y, z))]).unwrap();
        let heights = Heights { wheel_radius: m(0.31), coupling_when_level: m(0.45) };
        let tilted = at_attitude(&chassis, &level, &heights, Angle::from_degrees(degrees)).unwrap();
        let inputs = [
            (850.0, 4.0),
            (level.tongue.kilograms(), 0.7),
            (tilted.tongue.kilograms(), 0.8),
            (degrees, 0.2),
        ];
        let height = |mass, level, tilted, tilt| centre_height(&Raised {
            coupling_to_axle: m(LENGTH),
            wheel_radius: m(0.31),
            coupling_when_level: m(0.45),
            mass: measured(mass, kg),
            level_tongue: measured(level, kg),
            raised_tongue: measured(tilted, kg),
            tilt: measured(tilt, Angle::from_degrees),
        }).unwrap();
        let found = height(inputs[0], inputs[1], inputs[2], inputs[3]);
        prop_assert!((found.value.metres() - z).abs() < 1e-9);
        let expected = spread(&inputs, &|v| {
            height((v[0], 0.0), (v[1], 0.0), (v[2], 0.0), (v[3], 0.0)).value.metres()
        });
        prop_assert!((found.sigma.metres() / expected - 1.0).abs() < 1e-4);
        let sides = centre_sideways(
            Measured::exact(level.left),
            Measured::exact(level.right),
            Measured::exact(level.tongue),
            m(1.7),
        ).unwrap();
        prop_assert!((sides.value.metres() - y).abs() < 1e-9);
    }

    /// The tail against the density added up by Simpson's rule in the root of the variable, the
    /// whole area by the same rule: no gamma function in it.
    #[test]
    fn tail_by_adding_up(freedom in 2_usize..120, at in 0.01..2.5_f64) {
        let (half, chi_squared) = (0.5 * freedom as f64, at * freedom as f64);
        let peak = half - 0.5;
        let density = |u: f64| {
            if u > 0.0 { ((2.0 * half - 1.0) * u.ln() - u * u - peak * (peak.ln() - 1.0)).exp() } else { 0.0 }
        };
        let area = |from: f64, to: f64| {
            let (steps, wide) = (4000, (to - from) / 4000.0);
            let sum: f64 = (0..=steps)
                .map(|k| {
                    let weight = if k == 0 || k == steps { 1.0 } else if k % 2 == 1 { 4.0 } else { 2.0 };
                    weight * density(from + f64::from(k) * wide)
                })
                .sum();
            sum * wide / 3.0
        };
        let end = half.sqrt() + 8.0;
        let middle = (0.5 * chi_squared).sqrt().min(end);
        let expected = area(middle, end) / (area(0.0, middle) + area(middle, end));
        let found = chi_squared_tail(chi_squared, freedom).unwrap().fraction();
        // 1e-8: Simpson's rule near the origin with two degrees of freedom.
        prop_assert!((found - expected).abs() < 1e-8, "{found} {expected}");
    }
}
