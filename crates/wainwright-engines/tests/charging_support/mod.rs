//! A usual system of four lithium cells, and random ones. Not here: what is expected of them.
#![allow(
    clippy::expect_used,
    clippy::unwrap_used,
    dead_code,
    reason = "test code"
)]

use std::sync::OnceLock;
use wainwright_engines::battery::{Curve, Thresholds};
use wainwright_engines::charging::System;
use wainwright_engines::charging::*;
use wainwright_units::*;

pub fn volts(value: f64) -> Voltage {
    Voltage::from_volts(value)
}

pub fn amperes(value: f64) -> Current {
    Current::from_amperes(value)
}

pub fn ohms(value: f64) -> Resistance {
    Resistance::from_ohms(value)
}

pub fn share(value: f64) -> Ratio {
    Ratio::from_fraction(value)
}

pub fn celsius(value: f64) -> Temperature {
    Temperature::from_celsius(value)
}

/// The measured points of the cell: state of charge, open voltage.
pub fn points() -> &'static [(f64, f64)] {
    static POINTS: OnceLock<Vec<(f64, f64)>> = OnceLock::new();
    POINTS.get_or_init(|| {
        let text = include_str!("../data/lfp_reference_ocv.csv");
        let row = |line: &str| {
            let mut cells = line.split(',').map(|cell| cell.parse().unwrap());
            (cells.next().unwrap(), cells.next().unwrap())
        };
        text.lines().skip(1).map(row).collect()
    })
}

pub fn lithium() -> Profile {
    let window = |low, usual, high| Window {
        low: volts(low),
        usual: volts(usual),
        high: volts(high),
    };
    let hours = Duration::from_hours;
    Profile {
        absorption: window(3.375, 3.55, 3.65),
        full: Some(share(0.99)),
        float: window(3.34, 3.375, 3.4),
        tail: Window {
            low: share(0.02),
            usual: share(0.05),
            high: share(0.1),
        },
        absorption_time: Window {
            low: hours(0.1),
            usual: hours(0.5),
            high: hours(2.0),
        },
        acceptance: Duration::ZERO,
        compensation: 0.0,
        reference: celsius(25.0),
        equalise: None,
        lockout: Some(Window {
            low: celsius(0.0),
            usual: celsius(5.0),
            high: celsius(10.0),
        }),
        lowest: volts(2.5),
        disconnect: volts(2.95),
        reconnect: volts(3.275),
        reserve: share(0.1),
        back_by: share(0.8),
        rebound: volts(0.03),
    }
}

pub fn board() -> Board {
    Board {
        cells: Thresholds {
            over: volts(3.65),
            over_release: volts(3.5),
            under: volts(2.5),
            under_release: volts(2.9),
            hot: celsius(65.0),
            hot_release: celsius(50.0),
            cold: celsius(0.0),
            cold_release: celsius(4.0),
            delay: Duration::from_seconds(2.0),
        },
        pack_over: None,
        pack_over_release: None,
        pack_under: None,
        pack_under_release: None,
        balance_from: Some(volts(3.6)),
        bleed: amperes(0.05),
        most_in: Some(amperes(75.0)),
        most_out: Some(amperes(100.0)),
        stops_cold: true,
        goes_dead: true,
    }
}

pub fn solar() -> Charger {
    Charger {
        kind: ChargerKind::Solar,
        most: amperes(20.0),
        wire: ohms(0.010),
        senses: false,
        adjustable: true,
        sensor: true,
        lead_acid_profile: false,
        needs_battery: true,
        together: true,
        unloaded: None,
        settings: Some(Settings {
            absorption: volts(14.0),
            float: Some(volts(13.5)),
            absorption_time: Duration::from_hours(0.5),
            tail: Some(amperes(5.0)),
            compensation: 0.0,
            equalise: None,
            lockout: Some(celsius(5.0)),
            limit: amperes(20.0),
        }),
    }
}

/// 100 Ah of four cells, one solar controller, one relay.
pub fn usual(ahead: f64) -> System<'static> {
    System {
        battery: Battery {
            family: Family::Lithium,
            series: 4,
            capacity: Charge::from_ampere_hours(100.0),
            open: Curve::new(points()),
            charging: 0.16,
            discharging: 0.185,
            connections: Resistance::from_milliohms(2.5),
            most_in: amperes(50.0),
            ahead: share(ahead),
            coldest: celsius(-10.0),
        },
        board: Some(board()),
        profile: lithium(),
        margins: Margins {
            below_trip: volts(0.025),
            above_cut_off: volts(0.05),
            above_cold: 2.0,
        },
        chargers: vec![solar()],
        disconnects: vec![Disconnect {
            kind: DisconnectKind::Relay,
            most: amperes(20.0),
            wire: ohms(0.005),
            settings: Some(DisconnectSettings {
                off: volts(11.8),
                on: volts(13.1),
            }),
        }],
        loads: Loads {
            highest: volts(15.0),
            lowest: volts(11.0),
            standing: amperes(0.5),
        },
    }
}

pub fn noise() -> MeterNoise {
    MeterNoise {
        pack: volts(0.03),
        cell: volts(0.01),
        current: amperes(0.5),
        kelvins: 2.0,
        wrong_event: share(0.1),
    }
}

/// A generator that gives the same numbers everywhere (splitmix64).
pub struct Random(pub u64);

impl Random {
    /// From 0 to 1.
    pub fn unit(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((z ^ (z >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    }

    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + self.unit() * (high - low)
    }

    pub fn chance(&mut self, of: f64) -> bool {
        self.unit() < of
    }

    /// About normal with mean 0 and deviation 1.
    pub fn normal(&mut self) -> f64 {
        (0..12).map(|_| self.unit()).sum::<f64>() - 6.0
    }
}

/// A system with devices, wires, boards and settings all over the place.
pub fn random(random: &mut Random) -> System<'static> {
    let uneven = [0.0, 0.002, 0.005, 0.01, 0.03];
    let mut system = usual(uneven[(random.unit() * 5.0) as usize]);
    let hours = [50.0, 100.0, 200.0, 400.0][(random.unit() * 4.0) as usize];
    let battery = &mut system.battery;
    battery.series = if random.chance(0.8) { 4 } else { 8 };
    let cells = f64::from(battery.series);
    battery.capacity = Charge::from_ampere_hours(hours);
    battery.most_in = amperes(hours * random.between(0.2, 0.6));
    battery.coldest = celsius(random.between(-15.0, 15.0));
    let mut board = board();
    board.cells.over = volts(random.between(3.6, 3.9));
    board.cells.under = volts(random.between(2.0, 2.8));
    board.pack_over = random
        .chance(0.3)
        .then(|| volts(cells * random.between(3.5, 3.8)));
    board.pack_under = random
        .chance(0.3)
        .then(|| volts(cells * random.between(2.3, 2.8)));
    board.balance_from = random.chance(0.8).then(|| volts(random.between(3.4, 3.62)));
    board.most_in = random
        .chance(0.5)
        .then(|| amperes(hours * random.between(0.2, 1.0)));
    board.goes_dead = random.chance(0.5);
    board.stops_cold = random.chance(0.5);
    system.board = random.chance(0.9).then_some(board);
    system.loads = Loads {
        highest: volts(cells * random.between(3.5, 4.0)),
        lowest: volts(cells * random.between(2.5, 2.95)),
        standing: amperes(random.between(0.0, 0.04) * hours),
    };
    let count = 1 + (random.unit() * 3.0) as usize;
    system.chargers = (0..count)
        .map(|_| random_charger(random, hours, cells))
        .collect();
    let count = 1 + (random.unit() * 2.0) as usize;
    let disconnect = |random: &mut Random| Disconnect {
        kind: if random.chance(0.5) {
            DisconnectKind::Relay
        } else {
            DisconnectKind::Inverter
        },
        most: amperes(hours * random.between(0.05, 0.8)),
        wire: ohms(random.between(0.0, 0.01)),
        settings: Some(DisconnectSettings {
            off: volts(cells * random.between(2.3, 3.3)),
            on: volts(cells * random.between(2.5, 3.5)),
        }),
    };
    system.disconnects = (0..count).map(|_| disconnect(random)).collect();
    system
}

fn random_charger(random: &mut Random, hours: f64, cells: f64) -> Charger {
    let most = hours * random.between(0.05, 0.7);
    Charger {
        most: amperes(most),
        wire: ohms(random.between(0.0, 0.03)),
        senses: random.chance(0.2),
        adjustable: random.chance(0.8),
        sensor: random.chance(0.5),
        lead_acid_profile: random.chance(0.3),
        needs_battery: random.chance(0.5),
        together: random.chance(0.7),
        unloaded: random
            .chance(0.4)
            .then(|| volts(cells * random.between(3.5, 6.0))),
        settings: Some(Settings {
            absorption: volts(cells * random.between(3.3, 3.8)),
            float: random
                .chance(0.8)
                .then(|| volts(cells * random.between(3.2, 3.5))),
            absorption_time: Duration::from_hours(random.between(0.0, 4.0)),
            tail: random
                .chance(0.8)
                .then(|| amperes(hours * random.between(0.0, 0.2))),
            compensation: if random.chance(0.5) {
                0.0
            } else {
                -0.003 * cells
            },
            equalise: random.chance(0.3).then(|| volts(cells * 3.9)),
            lockout: random
                .chance(0.5)
                .then(|| celsius(random.between(-5.0, 10.0))),
            limit: amperes(most * random.between(0.3, 1.0)),
        }),
        ..solar()
    }
}
