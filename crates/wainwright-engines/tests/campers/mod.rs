//! Campers of the tests.
#![allow(dead_code, reason = "each test file uses a part")]

use wainwright_engines::battery::*;
use wainwright_engines::solar_power::Controller;
use wainwright_engines::trip::*;
use wainwright_units::*;

pub fn share(fraction: f64) -> Ratio {
    Ratio::from_fraction(fraction)
}

pub fn watts(value: f64) -> Power {
    Power::from_watts(value)
}

pub fn celsius(value: f64) -> Temperature {
    Temperature::from_celsius(value)
}

/// A controller that passes on this share of the panels' power, without limit.
pub fn solar(efficiency: f64, left: f64) -> Option<Solar> {
    Some(Solar {
        controller: Controller::Tracking {
            efficiency: share(efficiency),
            own: Power::ZERO,
            most: Current::from_amperes(f64::INFINITY),
        },
        left: share(left),
    })
}

/// A battery of 10 V without losses.
pub fn lossless(watt_hours: f64) -> Pack<'static> {
    const NOTHING: ResistanceTable<'static> = ResistanceTable {
        celsius: &[],
        rows: &[],
        activation: 0.0,
    };
    Pack {
        series: 1,
        capacity: Charge::from_ampere_hours(watt_hours / 10.0),
        open: Curve::new(&[(0.5, 10.0)]),
        hysteresis: Curve::NONE,
        discharging: NOTHING,
        charging: NOTHING,
        connections: Resistance::ZERO,
        coulombic: Ratio::ONE,
    }
}

/// A camper with this battery and these loads, no chargers and no water.
pub fn camper<'a>(pack: Pack<'a>, loads: &'a [Load]) -> Camper<'a> {
    Camper {
        pack,
        limits: Limits::NONE,
        charge_bands: &[],
        cell_lag: Duration::ZERO,
        reconnect: Ratio::ZERO,
        solar: solar(1.0, 1.0),
        alternator: None,
        shore: None,
        loads,
        water: Water::NONE,
    }
}

pub fn start(charge: f64) -> Start {
    Start {
        charge: share(charge),
        cell: celsius(20.0),
        fresh: Volume::ZERO,
        waste: Volume::ZERO,
    }
}

/// An hour with nothing but air of 20 °C and this panel power.
pub fn hour(hour_of_day: u32, panel_watts: f64) -> Hour {
    Hour {
        hour_of_day,
        air: celsius(20.0),
        panel: watts(panel_watts),
        light: 0.0,
        driving: false,
        shore: false,
        tap: false,
    }
}
