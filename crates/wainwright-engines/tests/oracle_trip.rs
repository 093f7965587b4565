//! Trips of random campers against a plain bucket of energy, and against laws that must hold.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod campers;
mod rows;

use campers::{camper, celsius, hour, lossless, share, solar, start, watts};
use proptest::prelude::*;
use rows::open_points;
use wainwright_engines::battery::*;
use wainwright_engines::trip::*;
use wainwright_units::*;

fn steady(power: f64) -> [Load; 1] {
    [Load::steady(Law::Fixed(watts(power)))]
}

/// The same trip as a bucket: no voltage, no current, only watt-hours.
struct Bucket {
    lowest: f64,
    end: f64,
    unserved: f64,
    spilled: f64,
    outages: usize,
}

fn bucket(size: f64, start: f64, load: f64, reconnect: f64, panels: &[f64]) -> Bucket {
    let mut held = size * start;
    let mut off = false;
    let mut seen = Bucket {
        lowest: held,
        end: held,
        unserved: 0.0,
        spilled: 0.0,
        outages: 0,
    };
    for panel in panels {
        let mut missing = 0.0;
        if *panel >= load {
            let room = size - held;
            held += (panel - load).min(room);
            seen.spilled += (panel - load - room).max(0.0);
        } else if off {
            missing = load - panel;
        } else {
            missing = (load - panel - held).max(0.0);
            held = (held - (load - panel)).max(0.0);
        }
        off = (off || missing > 0.0) && held < reconnect * size;
        seen.unserved += missing;
        seen.outages += usize::from(missing > 1e-9);
        seen.lowest = seen.lowest.min(held);
    }
    seen.end = held;
    seen
}

proptest! {
    /// A lossless battery is a bucket: all sums agree to 1e-9 of the energy that went through.
    #[test]
    fn a_lossless_battery_is_a_bucket(
        size in 100.0..5000.0, full in 0.0..1.0, load in 1.0..200.0, reconnect in 0.01..0.5,
        panels in prop::collection::vec(prop_oneof![Just(0.0), 0.0..400.0], 1..200),
    ) {
        let loads = steady(load);
        let camper = Camper { reconnect: share(reconnect), ..camper(lossless(size), &loads) };
        let hours: Vec<Hour> = panels.iter().map(|panel| hour(0, *panel)).collect();
        let trip = simulate(&camper, start(full), &hours).unwrap();
        let plain = bucket(size, full, load, reconnect, &panels);
        let near = 1e-9 * (1.0 + size + load * panels.len() as f64);
        prop_assert!((trip.totals.unserved.watt_hours() - plain.unserved).abs() < near);
        prop_assert!((trip.totals.spilled.watt_hours() - plain.spilled).abs() < near);
        prop_assert!((trip.charge.fraction() * size - plain.end).abs() < near);
        prop_assert!((trip.lowest.fraction() * size - plain.lowest).abs() < near);
        prop_assert_eq!(trip.outage_hours, plain.outages);
    }

    /// Any camper in any weather keeps its energy to 1e-9, stays between empty and full, and never
    /// serves more than is wanted or spills more sun than there is.
    #[test]
    fn energy_is_conserved(
        capacity in 20.0..600.0, full in 0.0..1.0, load in 0.0..800.0,
        hours in prop::collection::vec((0.0..900.0, -25.0..45.0, any::<bool>(), any::<bool>()), 1..120),
        overcharge: bool, lag in 0.0..20.0,
    ) {
        let points = open_points("ocv");
        let gaps = open_points("hyst");
        let table = ResistanceTable { celsius: &[25.0], rows: &[(0.5, &[0.16])], activation: 1750.0 };
        let pack = Pack {
            series: 4,
            capacity: Charge::from_ampere_hours(capacity),
            open: Curve::new(&points),
            hysteresis: Curve::new(&gaps),
            discharging: table,
            charging: table,
            connections: Resistance::from_milliohms(4.0),
            coulombic: share(0.998),
        };
        let bands = [(0.0, 0.2), (10.0, 0.5)].map(|(from, rate)| TemperatureRate {
            from: celsius(from),
            rate: share(rate),
        });
        let loads = [
            Load::steady(Law::Fixed(watts(load))),
            Load::steady(Law::Heater {
                electric: watts(25.0),
                heat: watts(2000.0),
                watts_per_kelvin: 60.0,
                keeps: celsius(18.0),
                burns: Burn::Nothing,
            }),
        ];
        let when_full = if overcharge { WhenFull::Overcharge } else { WhenFull::Refuse };
        let charger = |output| Some(Charger::of(watts(output), share(0.9)));
        let fields = [solar(0.95, 0.97)];
        let camper = Camper {
            limits: Limits {
                most_out: Current::from_amperes(100.0),
                absorption: Voltage::from_volts(14.2),
                lowest: share(0.05),
                when_full,
                ..Limits::NONE
            },
            charge_bands: &bands,
            cell_lag: Duration::from_hours(lag),
            reconnect: share(0.1),
            solar: &fields,
            alternator: charger(250.0),
            shore: charger(400.0),
            ..camper(pack, &loads)
        };
        let hours: Vec<Hour> = hours
            .into_iter()
            .map(|(panel, air, driving, shore)| Hour {
                air: celsius(air), driving, shore, ..hour(0, panel)
            })
            .collect();
        let (trip, all) = simulate_hours(&camper, start(full), &hours).unwrap();
        prop_assert!(trip.residual.abs() <= 1e-9 * (1.0 + trip.totals.wanted.watt_hours()));
        for result in all {
            prop_assert!((-1e-9..=1.0 + 1e-9).contains(&result.charge.fraction()));
            prop_assert!(result.unserved <= result.wanted + Energy::from_watt_hours(1e-9));
            prop_assert!(result.spilled <= result.solar + Energy::from_watt_hours(1e-9));
            let frozen = result.cell < celsius(0.0);
            prop_assert!(!frozen || result.current <= Current::ZERO);
        }
    }
}

/// Sun first, then the engine, then the shore; each charger's input is its output over its share.
#[test]
fn sources_are_used_in_order() {
    let loads = steady(500.0);
    let charger = |output| Some(Charger::of(watts(output), share(0.8)));
    let camper = Camper {
        alternator: charger(250.0),
        shore: charger(400.0),
        ..camper(lossless(1000.0), &loads)
    };
    let now = Hour {
        driving: true,
        shore: true,
        ..hour(12, 100.0)
    };
    let trip = simulate(&camper, start(1.0), &[now]).unwrap();
    let near = |energy: Energy, expected: f64| {
        assert!((energy.watt_hours() - expected).abs() < 1e-9, "{energy:?}");
    };
    near(trip.totals.alternator, 250.0);
    near(trip.totals.alternator_input, 312.5);
    near(trip.totals.shore, 150.0);
    near(trip.totals.shore_input, 187.5);
    near(trip.totals.spilled, 0.0);
    assert_eq!(trip.charge, Ratio::ONE);
}

/// Two days of 5 L an hour from 60 L, a tap on the second morning, 90 % to a tank of 40 L.
#[test]
fn water_runs_out_and_comes_back() {
    let litres = Volume::from_litres;
    let loads = steady(0.0);
    let camper = Camper {
        water: Water {
            fresh_tank: litres(60.0),
            waste_tank: litres(40.0),
            day: [litres(5.0); 24],
            to_waste: 0.9,
        },
        ..camper(lossless(1000.0), &loads)
    };
    let begin = Start {
        fresh: litres(60.0),
        ..start(1.0)
    };
    let hours: Vec<Hour> = (0..48)
        .map(|at| Hour {
            tap: at == 24,
            ..hour(at % 24, 0.0)
        })
        .collect();
    let (trip, all) = simulate_hours(&camper, begin, &hours).unwrap();
    assert_eq!(trip.first_dry, Some(12));
    // Twelve hours of each day are dry.
    assert!((trip.totals.water_missing.litres() - 120.0).abs() < 1e-9);
    // 54 L of waste meet 40 L of tank, twice.
    assert!((trip.totals.waste_spilled.litres() - 28.0).abs() < 1e-9);
    assert!((all[24].fresh.litres() - 55.0).abs() < 1e-9);
    assert!((all[24].waste.litres() - 4.5).abs() < 1e-9);
}

#[test]
fn nonsense_is_named_with_its_hour() {
    let loads = steady(10.0);
    let camper = camper(lossless(100.0), &loads);
    let hours = [hour(0, 1.0), hour(1, f64::NAN)];
    let error = simulate(&camper, start(1.0), &hours).unwrap_err();
    assert!(matches!(error, TripError::Input { hour: 1, .. }));
    let nothing = Camper {
        pack: lossless(0.0),
        ..camper
    };
    let sunny = [hour(0, 1.0)];
    for (wrong, begin) in [(nothing, 1.0), (camper, 1.2), (camper, f64::NAN)] {
        let error = simulate(&wrong, start(begin), &sunny).unwrap_err();
        assert!(matches!(error, TripError::Input { hour: 0, .. }), "{error}");
    }
    let loads = steady(f64::NAN);
    let wrong = Camper {
        loads: &loads,
        ..camper
    };
    assert!(matches!(
        simulate(&wrong, start(1.0), &sunny),
        Err(TripError::Input { hour: 0, .. })
    ));
    assert!(matches!(
        odds(2_000_000, 1, |_| Ok(true)),
        Err(TripError::TooMany { .. })
    ));
}
