//! A checked week hour by hour, fridges, and confidence intervals against `trip`.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod campers;
mod rows;

use campers::{camper, celsius, hour, lossless, share, solar, start, watts};
use rows::{Row, open_points, rows};
use wainwright_engines::battery::*;
use wainwright_engines::solar_power::*;
use wainwright_engines::sun::*;
use wainwright_engines::trip::*;
use wainwright_units::*;

/// Light and power of one hour of the week: 39.74° N, 1829 m, turbidity 2.6, a level panel of
/// 400 W in wind of 1 m/s.
fn week_hour(row: &Row) -> [(&'static str, f64); 8] {
    let place = Place {
        latitude: Angle::from_degrees(39.74),
        longitude: Angle::from_degrees(-105.18),
        altitude: Length::from_metres(1829.0),
    };
    let level = Orientation {
        tilt: Angle::ZERO,
        azimuth: Angle::from_degrees(180.0),
    };
    let around = Air::standard(place.altitude);
    let day = row.moment().day_of_year();
    let sun = position(row.moment(), place, around, Method::Exact).unwrap();
    let clear = clear_sky(sun, day, place.altitude, 2.6).global;
    let sky = split(clear * row.number("k_day"), sun.zenith, day);
    let light = on_panel(sky, sun, day, level, share(0.2));
    let glass = Glass::MartinRuiz { coefficient: 0.16 };
    let behind = through_glass(light, incidence(sun, level), level.tilt, glass).total();
    let rack = Mounting {
        still: 25.0,
        by_wind: 6.84,
    };
    let module = Module {
        rated: watts(400.0),
        per_kelvin: -0.0035,
        dim_loss: 0.0,
    };
    let cell = cell_temperature(celsius(row.number("t_air")), light.total(), 1.0, rack);
    [
        ("app_zenith", sun.apparent.degrees()),
        ("ghi", sky.global),
        ("dni", sky.beam),
        ("dhi", sky.diffuse),
        ("poa", light.total()),
        ("e_eff", behind),
        ("t_cell", cell.celsius()),
        ("p_dc", module_power(module, behind, cell).watts()),
    ]
}

/// Light and power of all 168 hours: the sun to 1e-5°, the rest to 3e-6 of the value, which is what
/// 1e-5° does to light from a sun 5° high, and half a unit of seven digits.
#[test]
fn light_and_power_of_a_week() {
    let all = rows("trip_checks.csv");
    assert_eq!(all.len(), 168);
    for row in &all {
        for (column, value) in week_hour(row) {
            let expected = row.number(column);
            let off = (value - expected).abs();
            let allowed = match column {
                "app_zenith" => 1e-5 + 5e-5,
                _ => 3.5e-6 * expected.abs() + 1e-9,
            };
            assert!(
                off <= allowed,
                "{} {column}: {value} {expected}",
                row.name()
            );
        }
    }
}

/// The battery through the same week: 200 Ah, 4 cells of the measured curve, 0.14 Ω·Ah at 25 °C
/// with B = 1800 K, cells as warm as the air, controller 95 %, wire 97 %, charging beyond full.
///
/// Seven digits printed. 1e-4 A of current and 1e-6 of charge: light is known to 3.5e-6 of some
/// 17 A, and the charge of 200 Ah keeps the sum of such differences. Only the hour in which the battery runs empty is counted
/// otherwise: there the checked program takes the heat of the whole hour, not of the part in which
/// current flows, and this difference is checked to the digit.
#[test]
fn battery_through_a_week() {
    let all = rows("trip_checks.csv");
    let points = open_points("ocv");
    let table = ResistanceTable {
        celsius: &[25.0],
        rows: &[(0.5, &[0.14])],
        activation: 1800.0,
    };
    let pack = Pack {
        series: 4,
        capacity: Charge::from_ampere_hours(200.0),
        open: Curve::new(&points),
        discharging: table,
        charging: table,
        coulombic: share(0.998),
        ..lossless(0.0)
    };
    let mut day = [Ratio::ZERO; 24];
    for row in &all[..24] {
        day[clock(row)] = share(row.number("load_W") / 100.0);
    }
    let loads = [Load {
        law: Law::Fixed(watts(100.0)),
        day,
    }];
    let fields = [solar(0.95, 0.97)];
    let camper = Camper {
        limits: Limits {
            when_full: WhenFull::Overcharge,
            ..Limits::NONE
        },
        reconnect: share(0.05),
        solar: &fields,
        ..camper(pack, &loads)
    };
    let hours: Vec<Hour> = all
        .iter()
        .map(|row| Hour {
            air: celsius(row.number("t_air")),
            ..hour(clock(row) as u32, week_hour(row)[7].1)
        })
        .collect();
    let (trip, results) = simulate_hours(&camper, start(0.6), &hours).unwrap();
    let mut emptied = 0;
    for (row, result) in all.iter().zip(&results) {
        let near = |column: &str, value: f64, allowed: f64| {
            let off = (value - row.number(column)).abs();
            assert!(off <= allowed, "{} {column} {value}", row.name());
        };
        near("ocv", result.open.volts(), 5e-5);
        near("R_ohm", result.resistance.ohms(), 1e-8);
        near("soc_end", result.charge.fraction(), 1e-6);
        near("spilled_Wh", result.spilled.watt_hours(), 1e-9);
        assert_eq!(result.cut_off, row.number("latch") == 1.0, "{}", row.name());
        let cut_before = row.number("i_bat") == 0.0;
        if !cut_before {
            near("i_bat", result.current.amperes(), 1e-4);
        }
        let mut unserved = result.unserved.watt_hours();
        let partly = unserved > 0.0 && !cut_before;
        if partly {
            let flowed = 1.0 - unserved / row.number("load_W");
            unserved +=
                result.current.amperes().powi(2) * result.resistance.ohms() * (1.0 - flowed);
            emptied += 1;
        }
        near("unserved_Wh", unserved, 5e-4);
    }
    assert_eq!(emptied, 1);
    assert!(trip.residual.abs() < 1e-9);
    assert_eq!(trip.first_outage, Some(117));
    assert_eq!(trip.outage_hours, 10);
}

/// Hour of the day at the place, seven hours behind universal time.
fn clock(row: &Row) -> usize {
    let utc: usize = row.text("utc_mid")[11..13].parse().unwrap();
    (utc + 24 - 7) % 24
}

/// A fridge's day at 10 to 40 °C for three boxes, whole watt-hours printed.
#[test]
fn fridges_by_the_air() {
    let printed = [
        (0.7, [42, 88, 145, 213, 291, 380, 479]),
        (1.0, [60, 126, 208, 304, 416, 542, 684]),
        (1.4, [84, 177, 291, 426, 582, 759, 958]),
    ];
    for (leak, days) in printed {
        let fridge = Fridge {
            watts_per_kelvin: leak,
            inside: celsius(4.0),
            of_ideal: 0.30,
            colder: 12.0,
            warmer: 15.0,
            electronics: Power::ZERO,
        };
        for (air, expected) in (10..=40).step_by(5).zip(days) {
            let day = 24.0 * fridge.power(celsius(f64::from(air))).watts();
            assert!(
                (day - f64::from(expected)).abs() <= 1.0,
                "{leak} {air} {day}"
            );
        }
        assert_eq!(fridge.power(celsius(2.0)), Power::ZERO);
    }
}

/// A heater of 2 kW and 20 W in a camper of 50 W/K: 30 K need 1.5 kW, three quarters of the hour.
#[test]
fn heaters_run_for_their_share() {
    let heater = Law::Heater {
        electric: watts(20.0),
        heat: watts(2000.0),
        watts_per_kelvin: 50.0,
        keeps: celsius(18.0),
        burns: Burn::Nothing,
    };
    assert!((heater.power(celsius(-12.0)).watts() - 15.0).abs() < 1e-12);
    assert_eq!(heater.power(celsius(-40.0)), watts(20.0));
    assert_eq!(heater.power(celsius(25.0)), Power::ZERO);
}

/// Wilson intervals in percent, 50 of 1000 printed with two decimals; 5 of 1000 and 0 of
/// 300 (z² / (n + z²)) by hand.
#[test]
fn intervals_are_wilsons() {
    for (failures, trips, low, high) in [
        (50, 1000, 3.81, 6.53),
        (5, 1000, 0.214, 1.165),
        (0, 300, 0.0, 1.264),
    ] {
        let odds = interval(failures, trips);
        assert!((odds.low.percent() - low).abs() < 0.006, "{odds:?}");
        assert!((odds.high.percent() - high).abs() < 0.006, "{odds:?}");
    }
    assert_eq!(interval(0, 0).high, Ratio::ONE);
}

/// Trips for one percentage point at 95 %, whole trips printed.
#[test]
fn trips_for_a_percentage_point() {
    for (p, expected) in [
        (0.5, 9604.0),
        (0.3, 8068.0),
        (0.2, 6147.0),
        (0.1, 3458.0),
        (0.05, 1825.0),
        (0.02, 753.0),
        (0.01, 381.0),
    ] {
        assert!((trips_for(share(p), share(0.01)) - expected).abs() <= 1.0);
    }
    assert!((trips_for(share(0.5), share(0.02)) - 2401.0).abs() <= 1.0);
}
