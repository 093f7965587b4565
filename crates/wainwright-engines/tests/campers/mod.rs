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
pub fn solar(efficiency: f64, left: f64) -> Solar {
    Solar {
        controller: Controller::Tracking {
            efficiency: share(efficiency),
            own: Power::ZERO,
            most: Current::from_amperes(f64::INFINITY),
        },
        left: share(left),
        absorption: Voltage::from_volts(f64::INFINITY),
        starts_alone: true,
    }
}

/// One field that passes everything on.
pub const ALL_OF_IT: &[Solar] = &[Solar {
    controller: Controller::Tracking {
        efficiency: Ratio::ONE,
        own: Power::ZERO,
        most: Current::from_amperes(f64::INFINITY),
    },
    left: Ratio::ONE,
    absorption: Voltage::from_volts(f64::INFINITY),
    starts_alone: true,
}];

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
        guard: None,
        solar: ALL_OF_IT,
        alternator: None,
        shore: None,
        loads,
        water: Water::NONE,
        fuel_tank: Volume::ZERO,
    }
}

pub fn start(charge: f64) -> Start {
    Start {
        charge: share(charge),
        cell: celsius(20.0),
        fresh: Volume::ZERO,
        waste: Volume::ZERO,
        fuel: Volume::ZERO,
    }
}

/// An hour with nothing but air of 20 °C and this panel power.
pub fn hour(hour_of_day: u32, panel_watts: f64) -> Hour {
    let mut hour = Hour::dark(hour_of_day, celsius(20.0));
    hour.panel[0] = watts(panel_watts);
    hour
}
