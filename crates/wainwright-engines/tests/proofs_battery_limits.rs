//! Charging limits, protection, run time and age against published or stated cases.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

use wainwright_engines::battery::*;
use wainwright_units::*;

fn share(fraction: f64) -> Ratio {
    Ratio::from_fraction(fraction)
}

fn celsius(value: f64) -> Temperature {
    Temperature::from_celsius(value)
}

fn volts(value: f64) -> Voltage {
    Voltage::from_volts(value)
}

fn amperes(value: f64) -> Current {
    Current::from_amperes(value)
}

fn hours(value: f64) -> Duration {
    Duration::from_hours(value)
}

/// Peukert: 100 Ah in 20 h at 10 A with k = 1.2 last 8.706 h; at 20 A 87.06 Ah (1.1), 65.98 (1.3).
#[test]
fn lead_acid_run_time() {
    let rated = Charge::from_ampere_hours(100.0);
    let time = peukert_time(rated, hours(20.0), 1.2, amperes(10.0));
    assert!((time.hours() - 8.706).abs() < 5e-4);
    for (exponent, expected) in [(1.1, 87.06), (1.3, 65.98)] {
        let charge = peukert_capacity(rated, hours(20.0), exponent, amperes(20.0));
        assert!((charge.ampere_hours() - expected).abs() < 5e-3);
    }
}

/// A year at 25 °C and half charge costs 4.2 %; 200 cycles of 60 % at 0.2 per hour cost 1.69 %.
#[test]
fn ageing_by_time_and_use() {
    let standing = CalendarAgeing {
        per_root_second: 1.2571e-5,
        activation: 17_126.0,
        by_charge: 2.8575,
        constant: 0.60225,
    };
    let year = hours(8766.0);
    let lost = standing.loss(share(0.5), celsius(25.0), year).percent();
    assert!((lost - 4.2).abs() < 0.06, "{lost}");
    let used = CycleAgeing {
        by_rate: 0.0630,
        constant: 0.0971,
        by_depth: 4.0253,
        depth_constant: 1.0923,
    };
    assert!((used.loss(0.2, share(0.6), 200.0).percent() - 1.69).abs() < 5e-3);
}

#[test]
fn charging_by_temperature() {
    let bands = [(0.0, 0.1), (10.0, 0.5), (50.0, 0.0)].map(|(from, rate)| TemperatureRate {
        from: celsius(from),
        rate: share(rate),
    });
    let allowed =
        |cell| allowed_charge(&bands, Charge::from_ampere_hours(200.0), celsius(cell)).amperes();
    assert_eq!(allowed(-0.1), 0.0);
    assert!((allowed(0.0) - 20.0).abs() < 1e-12);
    assert!((allowed(25.0) - 100.0).abs() < 1e-12);
    assert_eq!(allowed(50.0), 0.0);
    // One time constant covers 1 − 1/e of the way.
    let after = cell_temperature_after(celsius(20.0), celsius(0.0), hours(4.0), hours(4.0));
    assert!((after.celsius() - 20.0 / std::f64::consts::E).abs() < 1e-12);
}

#[test]
fn protection_opens_waits_and_closes() {
    let limits = Thresholds {
        over: volts(3.65),
        over_release: volts(3.5),
        under: volts(2.5),
        under_release: volts(2.9),
        hot: celsius(65.0),
        hot_release: celsius(50.0),
        cold: celsius(0.0),
        cold_release: celsius(4.0),
        delay: Duration::from_seconds(2.0),
    };
    let read = |cell: f64, temperature: f64, current: f64| Readings {
        highest: volts(cell),
        lowest: volts(cell),
        temperature: celsius(temperature),
        current: amperes(current),
        since: Duration::from_seconds(1.0),
    };
    let run = |readings: &[Readings]| {
        let next = |board: Protection, reading: &Readings| board.after(*reading, &limits);
        readings.iter().fold(Protection::CLOSED, next)
    };
    let full = read(3.66, 20.0, 5.0);
    assert!(run(&[full]).can_charge(), "one second is not yet two");
    assert!(!run(&[full, full]).can_charge());
    assert!(run(&[full, full]).can_discharge());
    assert!(!run(&[full, full, read(3.55, 20.0, 0.0)]).can_charge());
    assert!(run(&[full, full, read(3.45, 20.0, 0.0)]).can_charge());
    assert!(run(&[full, full, read(3.55, 20.0, -1.0)]).can_charge());
    let empty = read(2.4, 20.0, -5.0);
    assert!(!run(&[empty, empty]).can_discharge());
    assert!(!run(&[empty, empty, read(2.8, 20.0, 0.0)]).can_discharge());
    assert!(run(&[empty, empty, read(2.8, 20.0, 3.0)]).can_discharge());
    let frost = read(3.3, -1.0, 0.0);
    assert!(!run(&[frost]).can_charge() && run(&[frost]).can_discharge());
    assert!(!run(&[frost, read(3.3, 3.0, 0.0)]).can_charge());
    assert!(run(&[frost, read(3.3, 4.0, 0.0)]).can_charge());
    let hot = read(3.3, 66.0, 0.0);
    assert!(!run(&[hot, read(3.3, 55.0, 0.0)]).can_discharge());
}
