//! Checked module powers, daily sums, controllers and shade against `solar_power`.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod rows;

use rows::{Row, near, rows};
use wainwright_engines::solar_power::*;
use wainwright_engines::sun::*;
use wainwright_units::*;

const OPEN_RACK: Mounting = Mounting {
    still: 25.0,
    by_wind: 6.84,
};

fn module(dim_loss: f64) -> Module {
    Module {
        rated: Power::from_watts(400.0),
        per_kelvin: -0.0035,
        dim_loss,
    }
}

fn share(fraction: f64) -> Ratio {
    Ratio::from_fraction(fraction)
}

/// Cell temperature and power of 400 instants from the light printed in the row.
///
/// 1e-9 relative, and what the eight printed digits of light and temperature leave open.
#[test]
fn cell_temperature_and_power_of_400_instants() {
    let all = rows("pvlib_checks.csv");
    assert_eq!(all.len(), 400);
    for row in &all {
        let air = Temperature::from_celsius(row.number("t_air"));
        let cell = cell_temperature(air, row.number("poa_hd"), row.number("wind"), OPEN_RACK);
        near(
            row,
            "tcell_faiman",
            cell.celsius(),
            rounding(row, "poa_hd") / 25.0,
        );
        let light = row.number("e_eff");
        let printed = Temperature::from_celsius(row.number("tcell_faiman"));
        let open = 4.0 * rounding(row, "e_eff") + 1.4 * rounding(row, "tcell_faiman");
        let whole = module_power(module(0.0), light, printed);
        near(row, "pdc", whole.watts(), open);
        let dim = module_power(module(0.01), light, printed);
        near(row, "pdc_lowlight", dim.watts(), open);
    }
}

/// Half a unit of the eighth digit of a printed value.
fn rounding(row: &Row, column: &str) -> f64 {
    match row.number(column) {
        0.0 => 0.0,
        value => 0.5 * 10_f64.powf(value.abs().log10().floor() - 7.0),
    }
}

/// Clear days at eight places, level and tilted, month by month: sums of light and power.
///
/// 0.1 % for the whole chain by minutes, and half a unit of the last digit printed.
#[test]
fn daily_sums_of_clear_days() {
    let all = rows("pvlib_daily_checks.csv");
    assert_eq!(all.len(), 192);
    for row in &all {
        compare_day(row, Method::Exact, 0.0);
    }
}

/// The same with the fast position, where the sun rises above 2° at all: 0.1 %, and what its
/// largest error of 0.0049° does to light on flat ground at half the height of noon.
#[test]
fn daily_sums_with_the_fast_position() {
    let all = rows("pvlib_daily_checks.csv");
    let days = all.iter().filter(|row| row.number("max_za") > 2.0);
    let compared = days.map(|row| {
        let half_noon = row.number("max_za").to_radians() / 2.0;
        compare_day(row, Method::Fast, 0.0049_f64.to_radians() / half_noon.tan());
    });
    assert_eq!(compared.count(), 186);
}

fn compare_day(row: &Row, method: Method, more: f64) {
    let sums = clear_day(row, method);
    for (column, value) in ["ghi_kwh", "poa_kwh", "dc_wh_400w"].into_iter().zip(sums) {
        let expected = row.number(column);
        let digit = if column == "dc_wh_400w" { 5e-3 } else { 5e-6 };
        let allowed = (1e-3 + more) * expected + digit;
        assert!(
            (value - expected).abs() <= allowed,
            "{row} {column}: {value} instead of {expected}",
            row = row.name()
        );
    }
}

/// Light on flat ground [kWh/m²], on the panel [kWh/m²], and power [Wh] of a day by minutes.
fn clear_day(row: &Row, method: Method) -> [f64; 3] {
    let place = Place {
        latitude: Angle::from_degrees(row.number("lat")),
        longitude: Angle::from_degrees(row.number("lon")),
        altitude: Length::from_metres(row.number("alt_m")),
    };
    let around = Air::standard(place.altitude);
    let panel = Orientation {
        tilt: Angle::from_degrees(row.number("tilt")),
        azimuth: Angle::from_degrees(row.number("surf_az")),
    };
    let glass = Glass::MartinRuiz { coefficient: 0.16 };
    let mut sums = [0.0; 3];
    for minute in 0..1440 {
        let now = row.moment().after_hours(f64::from(minute) / 60.0);
        let day = now.day_of_year();
        let sun = position(now, place, around, method).unwrap();
        let sky = clear_sky(sun, day, place.altitude, row.number("linke"));
        let light = on_panel(sky, sun, day, panel, share(row.number("albedo")));
        let behind = through_glass(light, incidence(sun, panel), panel.tilt, glass);
        let air = Temperature::from_celsius(15.0);
        let cell = cell_temperature(air, light.total(), 1.0, OPEN_RACK);
        sums[0] += sky.global / 60e3;
        sums[1] += light.total() / 60e3;
        sums[2] += module_power(module(0.0), behind.total(), cell).watts() / 60.0;
    }
    sums
}

/// Rises at 1000 W/m² and 1 m/s for three mountings: 31, 43 and 67 K, whole kelvins printed.
#[test]
fn mountings_decide_the_heat() {
    let rise = |still, by_wind| {
        let air = Temperature::from_celsius(0.0);
        cell_temperature(air, 1000.0, 1.0, Mounting { still, by_wind }).celsius()
    };
    assert!((rise(25.0, 6.84) - 31.0).abs() < 0.5);
    assert!((rise(20.0, 3.0) - 43.0).abs() < 0.5);
    assert!((rise(15.0, 0.0) - 67.0).abs() < 0.5);
}

/// Partial shade: 36 cells in two substrings (0.5 V a cell), 60 cells in three.
///
/// Printed shares with one decimal; the voltage per cell is rounded, hence 0.1 points.
#[test]
fn shade_on_a_part_of_a_module() {
    let string = |substrings: u32, cells: f64, light: f64| {
        let volts = 0.5 * cells;
        series_share(Shade {
            substrings,
            shaded: 1,
            darkest: share(light),
            best_current: Current::from_amperes(10.0),
            best_power: Power::from_watts(10.0 * volts),
        })
        .percent()
    };
    for (light, expected) in [(0.0, 47.2), (0.3, 47.2), (0.5, 52.5), (0.7, 73.5)] {
        assert!((string(2, 36.0, light) - expected).abs() < 0.1, "{light}");
    }
    for (light, expected) in [(0.0, 65.0), (0.5, 65.0), (0.7, 73.5)] {
        assert!((string(3, 60.0, light) - expected).abs() < 0.1, "{light}");
    }
    // Two modules in series, one substring dark: 82.6 and 73.6 % of a full single-diode solution.
    assert!((string(6, 120.0, 0.0) - 82.6).abs() < 0.2);
    assert!((string(4, 72.0, 0.0) - 73.6).abs() < 0.2);
}

#[test]
fn shade_that_cannot_be_gives_no_power_and_no_panic() {
    let nothing = Shade {
        substrings: 0,
        shaded: 3,
        darkest: share(0.0),
        best_current: Current::ZERO,
        best_power: Power::ZERO,
    };
    assert_eq!(series_share(nothing), Ratio::ZERO);
    assert_eq!(parallel_share(share(0.0)), share(0.5));
    let mut blocks = ShadeBlocks::even(Ratio::ONE);
    blocks.0[4] = share(0.3);
    assert_eq!(blocks.at(8.0), share(0.3));
    assert_eq!(blocks.at(33.9), share(0.3));
    assert_eq!(blocks.at(10.0), Ratio::ONE);
    assert_eq!(blocks.at(-0.5), Ratio::ONE);
}

/// A tracker's limits: own draw first, then its efficiency, then its current times the voltage.
#[test]
fn tracker_keeps_its_limits() {
    let tracker = Controller::Tracking {
        efficiency: share(0.95),
        own: Power::from_watts(0.3),
        most: Current::from_amperes(20.0),
    };
    let battery = Voltage::from_volts(13.4);
    let out = |panel| charge_power(tracker, Power::from_watts(panel), 500.0, battery).watts();
    assert!((out(100.3) - 95.0).abs() < 1e-12);
    assert!((out(400.0) - 268.0).abs() < 1e-12);
    assert_eq!(out(0.2), 0.0);
}

/// A 36-cell module of 17.8 V and 5.6 A at its best (5.95 A shorted) on a 13.4 V battery.
///
/// A single-diode solution gives 80 % of the best power at 1000 W/m² and 25 °C; the rule leaves
/// out the slope of the curve, 1 point.
#[test]
fn switching_controller_loses_the_voltage_above_the_battery() {
    let plain = Controller::Switching {
        short_circuit: Current::from_amperes(5.95),
        most: Current::from_amperes(10.0),
    };
    let best = Power::from_watts(17.8 * 5.6);
    let out = charge_power(plain, best, 1000.0, Voltage::from_volts(13.4));
    assert!((out / best * 100.0 - 80.0).abs() < 1.0);
    // Never more than the panel makes, even at a high battery voltage.
    let capped = charge_power(
        plain,
        Power::from_watts(50.0),
        1000.0,
        Voltage::from_volts(14.4),
    );
    assert_eq!(capped, Power::from_watts(50.0));
}

/// −0.27 %/K over 45 K is 12.15 %.
#[test]
fn cold_panels_have_more_voltage() {
    let cold = cold_voltage(
        Voltage::from_volts(22.0),
        -0.0027,
        Temperature::from_celsius(-20.0),
    );
    assert!((cold.volts() - 22.0 * 1.1215).abs() < 1e-12);
}

#[test]
fn losses_multiply() {
    let losses = Losses {
        soiling: share(0.04),
        wiring: share(0.02),
        ..Losses::NONE
    };
    assert!((losses.left().fraction() - 0.96 * 0.98).abs() < 1e-15);
    assert_eq!(Losses::NONE.left(), Ratio::ONE);
}
