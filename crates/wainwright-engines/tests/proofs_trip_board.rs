//! Protection boards inside trips, against the table of trip voltages and against hours worked out
//! by hand.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod campers;
mod rows;

use campers::{ALL_OF_IT, camper, celsius, hour, lossless, share, start, watts};
use rows::open_points;
use wainwright_engines::battery::*;
use wainwright_engines::solar_power::Controller;
use wainwright_engines::trip::*;
use wainwright_units::*;

fn volts(value: f64) -> Voltage {
    Voltage::from_volts(value)
}

fn thresholds() -> Thresholds {
    Thresholds {
        over: volts(3.65),
        over_release: volts(3.6),
        under: volts(2.5),
        under_release: volts(2.9),
        hot: celsius(65.0),
        hot_release: celsius(50.0),
        cold: celsius(0.0),
        cold_release: celsius(4.0),
        delay: Duration::from_seconds(2.0),
    }
}

fn guarded(ahead: f64) -> Option<Guard> {
    Some(Guard {
        thresholds: thresholds(),
        ahead: share(ahead),
    })
}

/// 0.16 Ω·Ah at every charge and temperature.
const EVEN: ResistanceTable<'static> = ResistanceTable {
    celsius: &[20.0],
    rows: &[(0.5, &[0.16])],
    activation: 0.0,
};

/// Four measured cells of 100 Ah.
fn measured(points: &[(f64, f64)]) -> Pack<'_> {
    Pack {
        series: 4,
        capacity: Charge::from_ampere_hours(100.0),
        open: Curve::new(points),
        discharging: EVEN,
        charging: EVEN,
        ..lossless(1.0)
    }
}

/// A field with a current limit and a set point of its own.
fn limited(amperes: f64, set_point: f64) -> [Solar; 1] {
    [Solar {
        controller: Controller::Tracking {
            efficiency: Ratio::ONE,
            own: Power::ZERO,
            most: Current::from_amperes(amperes),
        },
        absorption: volts(set_point),
        ..ALL_OF_IT[0]
    }]
}

/// The board of a pack whose fullest cell is ahead opens at the pack voltage of the printed table
/// (4 cells, 3.65 V, two decimals): a set point 0.04 V above it trips, one below never does.
///
/// 0.02 V for the table's finer points, as where the table itself is checked. At a set point the
/// current fades, and with it the voltage that trips: so the lower one is 0.04 V below the voltage at
/// no current at all.
#[test]
fn uneven_cells_trip_at_the_printed_voltage() {
    let points = open_points("ocv");
    let loads = [];
    for (ahead, rate, printed) in [
        (0.002, 0.2, 14.44),
        (0.005, 0.2, 14.20),
        (0.01, 0.2, 13.90),
        (0.01, 0.05, 13.85),
        (0.01, 0.5, 14.01),
        (0.02, 0.05, 13.73),
        (0.05, 0.2, 13.78),
        (0.10, 0.5, 13.92),
    ] {
        let uneven = |rate| Uneven {
            series: 4,
            open: Curve::new(&points),
            resistance: 0.16,
            rate,
            trip: volts(3.65),
        };
        let trip_at = |rate| trip_voltage(uneven(rate), share(ahead)).unwrap().volts();
        assert!((trip_at(rate) - printed).abs() < 0.02);
        let run = |set_point: f64| {
            let fields = limited(100.0 * rate, set_point);
            let pack = measured(&points);
            let camper = Camper {
                // A current of `rate`, whatever the voltage.
                limits: Limits {
                    most_in: Current::from_amperes(100.0 * rate),
                    ..Limits::NONE
                },
                guard: guarded(ahead),
                solar: &fields,
                ..camper(pack, &loads)
            };
            let hours = vec![hour(12, 5000.0); 60];
            let plain = simulate_hours(&camper, start(0.3), &hours).unwrap();
            let fast = Prepared::new(&camper).unwrap();
            let same = fast.simulate(start(0.3), &hours).unwrap();
            assert_eq!(same.board_trips, plain.0.board_trips);
            plain
        };
        let (trip, all) = run(printed + 0.04);
        assert!(trip.board_trips > 0 && trip.load_dumps == trip.board_trips);
        let first = all.iter().find(|hour| hour.board_trip).unwrap();
        // Where it opened: the fullest cell is at 3.65 V, the others where the hour ended.
        let current = first.current.amperes();
        if first.charge >= Ratio::ONE {
            // It is beyond full, which the charge does not show.
            assert_eq!(ahead, 0.002);
            continue;
        }
        let others = Curve::new(&points).at(first.charge.fraction()) + 0.16 * current / 100.0;
        let pack = 3.65 + 3.0 * others;
        let expected = trip_at(current / 100.0);
        assert!(
            (pack - expected).abs() < 1e-6,
            "{ahead} {rate} {pack} {expected}"
        );
        assert!(!first.can_charge && first.can_discharge);
        let (trip, all) = run(trip_at(0.0) - 0.04);
        assert_eq!(trip.board_trips, 0, "{ahead} {rate}");
        // It is held at its set point instead.
        let last = all.last().unwrap();
        let fullest = Curve::new(&points).at_or_beyond(last.charge.fraction() + ahead);
        assert!(
            fullest < 3.65 && last.charge > share(0.9 - ahead),
            "{fullest}"
        );
    }
}

/// A straight cell, 3.0 V empty and 3.5 V full, 100 Ah, one in series, 1 mΩ·100 Ah.
const STRAIGHT: &[(f64, f64)] = &[(0.0, 3.0), (1.0, 3.5)];

fn straight() -> Pack<'static> {
    const TABLE: ResistanceTable<'static> = ResistanceTable {
        celsius: &[20.0],
        rows: &[(0.5, &[0.1])],
        activation: 0.0,
    };
    Pack {
        capacity: Charge::from_ampere_hours(100.0),
        open: Curve::new(STRAIGHT),
        discharging: TABLE,
        charging: TABLE,
        ..lossless(1.0)
    }
}

/// Under-voltage: a load opens the board at 3.1 V under current; at rest the cell is below the
/// release, so it stays open until a charger pushes, and the loads live again.
///
/// By hand: 30 W from 0.3 of charge, u = 3.15 V, R = 1 mΩ: I = (3.15 − √(3.15² − 0.12)) / 0.002 =
/// 9.5527 A; the terminals reach 3.1 V where the open voltage is 3.10955 V, at a charge of 0.2191.
#[test]
fn under_voltage_opens_and_a_charger_closes() {
    let loads = [Load::steady(Law::Fixed(watts(30.0)))];
    let fields = limited(100.0, 4.0);
    let camper = Camper {
        guard: Some(Guard {
            thresholds: Thresholds {
                under: volts(3.1),
                under_release: volts(3.3),
                ..thresholds()
            },
            ahead: Ratio::ZERO,
        }),
        solar: &fields,
        ..camper(straight(), &loads)
    };
    let hours = [0.0, 0.0, 0.0, 100.0, 0.0].map(|panel| hour(12, panel));
    let (trip, all) = simulate_hours(&camper, start(0.3), &hours).unwrap();
    let by_hand = (3.15 - (3.15_f64.powi(2) - 0.12).sqrt()) / 0.002;
    assert!((all[0].current.amperes() + by_hand).abs() < 1e-9);
    let stop = (3.1 + 0.001 * by_hand - 3.0) / 0.5;
    assert!((all[0].charge.fraction() - stop).abs() < 1e-9);
    let served = (0.3 - stop) * 100.0 / by_hand;
    assert!((all[0].served().fraction() - served).abs() < 1e-9);
    assert!(!all[0].can_discharge && all[0].can_charge);
    for dead in &all[1..3] {
        assert!(!dead.can_discharge && dead.charge == all[0].charge);
        assert!((dead.unserved.watt_hours() - 30.0).abs() < 1e-12);
    }
    assert!(all[3].can_discharge && all[3].unserved == Energy::ZERO);
    assert!(all[3].charge > all[2].charge);
    assert_eq!(all[4].unserved.watt_hours(), 0.0);
    assert_eq!(trip.first_outage, Some(0));
}

/// Behind an open board a controller that must see a voltage does not start, whatever the sun; shore
/// power wakes it, and one that starts alone needs none.
#[test]
fn dead_terminals_keep_a_controller_asleep() {
    let loads = [Load::steady(Law::Fixed(watts(30.0)))];
    for (starts_alone, asleep) in [(false, 3), (true, 0)] {
        let fields = limited(100.0, 4.0).map(|field| Solar {
            starts_alone,
            ..field
        });
        let camper = Camper {
            guard: Some(Guard {
                thresholds: Thresholds {
                    under: volts(3.1),
                    under_release: volts(3.3),
                    ..thresholds()
                },
                ahead: Ratio::ZERO,
            }),
            solar: &fields,
            shore: Some(Charger::of(watts(40.0), Ratio::ONE)),
            ..camper(straight(), &loads)
        };
        let mut hours = [0.0, 100.0, 100.0, 100.0, 100.0, 100.0].map(|panel| hour(12, panel));
        hours[4].shore = true;
        let (trip, all) = simulate_hours(&camper, start(0.22), &hours).unwrap();
        assert_eq!(trip.asleep_hours, asleep);
        assert!(!all[0].can_discharge);
        for hour in &all[1..4] {
            assert_eq!(hour.asleep, !starts_alone);
            assert_eq!(hour.unserved == Energy::ZERO, starts_alone);
            let spilled = if starts_alone { 0.0 } else { 100.0 };
            assert!((hour.spilled.watt_hours() - spilled).abs() < 1e-9);
        }
        assert!(!all[4].asleep && all[4].can_discharge);
        assert_eq!(all[5].unserved, Energy::ZERO);
        let fast = Prepared::new(&camper).unwrap();
        let same = fast.simulate(start(0.22), &hours).unwrap();
        assert_eq!(same.asleep_hours, asleep);
    }
}

/// Frost opens the charging path until 4 °C, loads go on; heat opens both until 50 °C.
#[test]
fn frost_and_heat() {
    let loads = [Load::steady(Law::Fixed(watts(30.0)))];
    let camper = Camper {
        guard: guarded(0.0),
        ..camper(straight(), &loads)
    };
    let air = [5.0, -0.5, 3.0, 4.5, 66.0, 51.0, 49.0];
    let hours = air.map(|air| Hour {
        air: celsius(air),
        ..hour(12, 60.0)
    });
    let dark = air.map(|air| Hour {
        air: celsius(air),
        ..hour(0, 0.0)
    });
    let (trip, all) = simulate_hours(&camper, start(0.5), &hours).unwrap();
    let charged: Vec<bool> = all
        .iter()
        .map(|hour| hour.current > Current::ZERO)
        .collect();
    assert_eq!(charged, [true, false, false, true, false, false, true]);
    assert_eq!(trip.blocked_hours, 4);
    assert_eq!(trip.outage_hours, 0, "the sun feeds the loads");
    let (trip, all) = simulate_hours(&camper, start(0.5), &dark).unwrap();
    let fed: Vec<bool> = all
        .iter()
        .map(|hour| hour.unserved == Energy::ZERO)
        .collect();
    assert_eq!(fed, [true, true, true, true, false, false, true]);
    assert_eq!((trip.blocked_hours, trip.outage_hours), (0, 2));
}

/// An open charging path closes when current flows out, and the dumped load is counted once.
#[test]
fn over_voltage_ends_with_the_night() {
    let loads = [Load::steady(Law::Fixed(watts(30.0)))];
    let camper = Camper {
        guard: Some(Guard {
            thresholds: Thresholds {
                over: volts(3.4),
                over_release: volts(3.2),
                ..thresholds()
            },
            ahead: Ratio::ZERO,
        }),
        ..camper(straight(), &loads)
    };
    let hours = [130.0, 130.0, 130.0, 0.0, 130.0].map(|panel| hour(12, panel));
    let (trip, all) = simulate_hours(&camper, start(0.7), &hours).unwrap();
    assert!(all[0].board_trip && all[0].load_dump && !all[0].can_charge);
    // The loads live on the sun alone, the rest is spilled.
    for open in &all[1..3] {
        assert!(!open.can_charge && !open.board_trip && open.unserved == Energy::ZERO);
        assert!((open.spilled.watt_hours() - 100.0).abs() < 1e-9);
    }
    assert!(all[3].can_charge && all[3].current < Current::ZERO);
    assert!(all[4].board_trip);
    assert_eq!((trip.board_trips, trip.load_dumps), (2, 2));
    // By hand: 100 W at u = 3.35 V, the terminals reach 3.4 V where u = 3.4 − I R.
    let amperes = (-3.35 + (3.35_f64.powi(2) + 0.4).sqrt()) / 0.002;
    let stop = (3.4 - 0.001 * amperes - 3.0) / 0.5;
    assert!((all[0].charge.fraction() - stop).abs() < 1e-9);
}

/// At the end of the hour the terminals stand at the set point, not above: u(s') + I R = Vs.
///
/// By hand: s' = s + I / 100, so I = (Vs − u(s)) / (0.5 / 100 + R).
#[test]
fn the_set_point_holds_to_the_end_of_the_hour() {
    let fields = limited(1000.0, 3.45);
    let camper = Camper {
        solar: &fields,
        ..camper(straight(), &[])
    };
    let (_, all) = simulate_hours(&camper, start(0.7), &[hour(12, 500.0); 3]).unwrap();
    let mut charge = 0.7;
    for hour in all {
        let amperes = (3.45 - 3.0 - 0.5 * charge) / (0.005 + 0.001);
        charge += amperes / 100.0;
        assert!((hour.current.amperes() - amperes).abs() < 1e-9);
        assert!((hour.charge.fraction() - charge).abs() < 1e-12);
    }
}
