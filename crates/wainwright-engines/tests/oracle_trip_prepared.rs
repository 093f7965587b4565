//! A thousand random campers: the prepared form against the plain one, and energy in both.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod campers;
mod rows;

use campers::{camper, celsius, share, watts};
use rows::{open_points, resistance_points};
use wainwright_engines::battery::*;
use wainwright_engines::solar_power::Controller;
use wainwright_engines::trip::*;
use wainwright_engines::weather::Randomness;
use wainwright_units::*;

/// Random numbers by range, shares and coins.
struct Dice(Randomness);

impl Dice {
    fn from(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.0.uniform()
    }

    fn coin(&mut self, odds: f64) -> bool {
        self.0.uniform() < odds
    }

    /// The value, or infinity.
    fn or_none(&mut self, value: f64) -> f64 {
        if self.coin(0.5) { value } else { f64::INFINITY }
    }
}

/// Tables that a camper borrows.
struct Tables {
    open: Vec<(f64, f64)>,
    gaps: Vec<(f64, f64)>,
    celsius: Vec<f64>,
    put: Vec<(f64, Vec<f64>)>,
    out: Vec<(f64, Vec<f64>)>,
}

/// The measured cell, or a curve and tables of which nothing lies on a grid.
fn tables(dice: &mut Dice) -> Tables {
    if dice.coin(0.5) {
        let rows = |way| {
            let points = resistance_points(way).into_iter();
            points.map(|row| (row.0, row.1.to_vec())).collect()
        };
        return Tables {
            open: open_points("ocv"),
            gaps: open_points("hyst"),
            celsius: vec![10.0, 25.0, 40.0, 60.0],
            put: rows("RCh"),
            out: rows("RDCh"),
        };
    }
    let mut open = vec![(0.0, dice.from(2.2, 2.9))];
    for _ in 0..6 {
        let (x, y) = open[open.len() - 1];
        open.push((x + dice.from(0.02, 0.15), y + dice.from(0.01, 0.12)));
    }
    open.push((1.0, open[open.len() - 1].1 + dice.from(0.1, 0.3)));
    let mut celsius = vec![dice.from(-15.0, 5.0)];
    for _ in 0..2 {
        celsius.push(celsius[celsius.len() - 1] + dice.from(3.0, 20.0));
    }
    let mut rows = || {
        let mut charge = dice.from(0.0, 0.1);
        let mut all = Vec::new();
        for _ in 0..4 {
            let cold = dice.from(0.2, 0.5);
            all.push((charge, vec![cold, cold * 0.7, cold * 0.45]));
            charge += dice.from(0.05, 0.25);
        }
        all
    };
    Tables {
        open,
        put: rows(),
        out: rows(),
        celsius,
        gaps: vec![(0.1, 0.03), (0.6, 0.015), (0.97, 0.02)],
    }
}

fn field(dice: &mut Dice) -> Solar {
    let most = Current::from_amperes(dice.from(3.0, 40.0));
    let tracking = Controller::Tracking {
        efficiency: share(dice.from(0.9, 0.98)),
        own: watts(0.3),
        most,
    };
    let switching = Controller::Switching {
        short_circuit: Current::from_amperes(dice.from(3.0, 20.0)),
        most,
    };
    let set_point = dice.from(13.4, 14.8);
    Solar {
        controller: if dice.coin(0.7) { tracking } else { switching },
        left: share(dice.from(0.9, 1.0)),
        absorption: Voltage::from_volts(dice.or_none(set_point)),
        starts_alone: dice.coin(0.5),
    }
}

fn charger(dice: &mut Dice) -> Option<Charger> {
    let (current, set_point) = (dice.from(5.0, 50.0), dice.from(13.4, 14.8));
    let line = Line {
        source: Voltage::from_volts(dice.from(11.8, 14.5)),
        resistance: Resistance::from_milliohms(dice.from(50.0, 600.0)),
        least: Voltage::from_volts(dice.from(10.0, 12.0)),
    };
    let charger = Charger {
        output: watts(dice.from(50.0, 600.0)),
        current: Current::from_amperes(dice.or_none(current)),
        efficiency: share(dice.from(0.8, 0.95)),
        absorption: Voltage::from_volts(dice.or_none(set_point)),
        line: dice.coin(0.5).then_some(line),
    };
    dice.coin(0.6).then_some(charger)
}

fn guard(dice: &mut Dice) -> Option<Guard> {
    let volts = Voltage::from_volts;
    let guard = Guard {
        thresholds: Thresholds {
            over: volts(dice.from(3.5, 3.7)),
            over_release: volts(dice.from(3.35, 3.5)),
            under: volts(dice.from(2.4, 3.0)),
            under_release: volts(dice.from(3.0, 3.2)),
            hot: celsius(dice.from(35.0, 60.0)),
            hot_release: celsius(33.0),
            cold: celsius(dice.from(-5.0, 2.0)),
            cold_release: celsius(dice.from(2.0, 6.0)),
            delay: Duration::from_seconds(2.0),
        },
        ahead: share(if dice.coin(0.5) {
            dice.from(0.0, 0.05)
        } else {
            0.0
        }),
    };
    dice.coin(0.75).then_some(guard)
}

fn loads(dice: &mut Dice) -> Vec<Load> {
    let mut day = [Ratio::ZERO; 24];
    for share_of in &mut day {
        *share_of = share(dice.from(0.0, 1.0));
    }
    let burns = match dice.from(0.0, 3.0) as u32 {
        0 => Burn::Nothing,
        1 => Burn::PerHeat {
            litres_per_kwh: 0.12,
        },
        _ => Burn::PerHour {
            running: Volume::from_litres(0.24),
        },
    };
    vec![
        Load {
            law: Law::Fixed(watts(dice.from(0.0, 300.0))),
            day,
        },
        Load::steady(Law::Fridge(Fridge {
            watts_per_kelvin: dice.from(0.5, 1.5),
            inside: celsius(4.0),
            of_ideal: 0.30,
            colder: 12.0,
            warmer: 15.0,
            electronics: watts(1.0),
        })),
        Load::steady(Law::Heater {
            electric: watts(25.0),
            heat: watts(2000.0),
            watts_per_kelvin: dice.from(20.0, 80.0),
            keeps: celsius(16.0),
            burns,
        }),
        Load::steady(Law::Fixed(watts(dice.from(0.0, 20.0)))),
    ]
}

fn hours(dice: &mut Dice) -> Vec<Hour> {
    let mean = dice.from(-25.0, 45.0);
    let sunny = dice.from(0.0, 600.0);
    let first = dice.from(0.0, 24.0) as u32;
    let mut all = Vec::new();
    for at in 0..dice.from(24.0, 200.0) as u32 {
        let air = celsius(mean + dice.from(-8.0, 8.0));
        let mut hour = Hour::dark((first + at) % 24, air);
        let day = (7..18).contains(&hour.hour_of_day);
        for (panel, light) in hour.panel.iter_mut().zip(&mut hour.light) {
            if day {
                *light = dice.from(0.0, 1000.0);
                *panel = watts(sunny * *light / 1000.0);
            }
        }
        hour.driving = dice.coin(0.08);
        hour.shore = dice.coin(0.05);
        hour.tap = dice.coin(0.02);
        all.push(hour);
    }
    all
}

/// What happened in all trips together: every kind of hour must have been among them.
#[derive(Default)]
struct Seen {
    board: usize,
    dumps: usize,
    dead: usize,
    asleep: usize,
    blocked: usize,
    outages: usize,
    cold: usize,
    spilled: usize,
}

/// The prepared form is the plain one: charge, voltages and energies of every hour to 1e-9 of what
/// is there, counts to the last one. The plain form takes its tables as they are and halves
/// intervals where the other solves, which leaves 2⁻⁶⁴ of a charge. Both keep energy to 1e-9 in
/// every run, or they would answer with an error.
#[test]
fn prepared_is_plain() {
    let mut seen = Seen::default();
    for number in 0..1000 {
        one_camper(number, &mut seen);
    }
    for (what, count) in [
        ("board trips", seen.board),
        ("load dumps", seen.dumps),
        ("dead terminals", seen.dead),
        ("asleep", seen.asleep),
        ("blocked", seen.blocked),
        ("outages", seen.outages),
        ("heaters without fuel", seen.cold),
        ("spilled", seen.spilled),
    ] {
        println!("{what}: {count}");
        assert!(count > 100, "{what}: {count}");
    }
}

fn one_camper(number: u64, seen: &mut Seen) {
    let mut dice = Dice(Randomness::new(77, number));
    let dice = &mut dice;
    let tables = tables(dice);
    let rows = |rows: &[(f64, Vec<f64>)]| -> Vec<(f64, Vec<f64>)> { rows.to_vec() };
    let (put, out) = (rows(&tables.put), rows(&tables.out));
    let put: Vec<(f64, &[f64])> = put.iter().map(|row| (row.0, &row.1[..])).collect();
    let out: Vec<(f64, &[f64])> = out.iter().map(|row| (row.0, &row.1[..])).collect();
    let table = |rows| ResistanceTable {
        celsius: &tables.celsius,
        rows,
        activation: 1750.0,
    };
    let pack = Pack {
        series: 4,
        capacity: Charge::from_ampere_hours(dice.from(20.0, 400.0)),
        open: Curve::new(&tables.open),
        hysteresis: Curve::new(&tables.gaps),
        discharging: table(&out),
        charging: table(&put),
        connections: Resistance::from_milliohms(dice.from(0.0, 6.0)),
        coulombic: share(dice.from(0.9, 1.0)),
    };
    let fields: Vec<Solar> = (0..dice.from(0.0, 5.0) as u32)
        .map(|_| field(dice))
        .collect();
    let loads = loads(dice);
    let bands = [(0.0, 0.1), (10.0, 0.5), (50.0, 0.0)].map(|(from, rate)| TemperatureRate {
        from: celsius(from),
        rate: share(rate),
    });
    let (most_out, cap) = (dice.from(20.0, 200.0), dice.from(13.6, 14.8));
    let lead_acid = dice.coin(0.2);
    let camper = Camper {
        limits: Limits {
            most_in: Current::from_amperes(dice.from(10.0, 100.0)),
            most_out: Current::from_amperes(dice.or_none(most_out)),
            absorption: Voltage::from_volts(dice.or_none(cap)),
            acceptance: Duration::from_hours(if lead_acid { 1.5 } else { 0.0 }),
            lowest: share(if dice.coin(0.5) { 0.1 } else { 0.0 }),
            when_full: if lead_acid {
                WhenFull::Overcharge
            } else {
                WhenFull::Refuse
            },
        },
        charge_bands: if dice.coin(0.5) { &bands } else { &[] },
        cell_lag: Duration::from_hours(dice.from(-1.0, 12.0).max(0.0)),
        reconnect: share(dice.from(0.0, 0.2)),
        guard: guard(dice),
        solar: &fields,
        alternator: charger(dice),
        shore: charger(dice),
        fuel_tank: Volume::from_litres(10.0),
        ..camper(pack, &loads)
    };
    let begin = Start {
        charge: share(dice.from(0.0, 1.0)),
        cell: celsius(dice.from(-10.0, 30.0)),
        fresh: Volume::ZERO,
        waste: Volume::ZERO,
        fuel: Volume::from_litres(dice.from(0.0, 12.0)),
    };
    let hours = hours(dice);
    let (plain, all) = simulate_hours(&camper, begin, &hours).unwrap();
    let fast = Prepared::new(&camper).unwrap();
    let capacity = pack.capacity.ampere_hours();
    let mut shares = Shares::new(&camper);
    let same = fast
        .visit(begin, &hours, |at, hour| {
            near_hour(hour, &all[at], capacity, (number, at));
            shares.add(&camper, &hours[at], hour);
            seen.dead += usize::from(!hour.can_discharge);
        })
        .unwrap();
    assert_eq!(
        same,
        fast.simulate(begin, &hours).unwrap(),
        "seen and unseen"
    );
    near_trip(&same, &plain, number);
    conserved(&same, &shares, number);
    seen.board += plain.board_trips;
    seen.dumps += plain.load_dumps;
    seen.asleep += plain.asleep_hours;
    seen.blocked += plain.blocked_hours;
    seen.outages += plain.outage_hours;
    seen.cold += usize::from(plain.first_cold.is_some());
    seen.spilled += usize::from(plain.totals.spilled.watt_hours() > 1.0);
}

fn near_hour(fast: &HourResult, plain: &HourResult, capacity: f64, place: (u64, usize)) {
    let near = |one: f64, two: f64, what: &str| {
        let allowed = 1e-9 * (1.0 + one.abs() + two.abs());
        assert!((one - two).abs() <= allowed, "{place:?} {what} {one} {two}");
    };
    let wh = Energy::watt_hours;
    near(fast.charge.fraction(), plain.charge.fraction(), "charge");
    near(fast.open.volts(), plain.open.volts(), "open");
    near(
        fast.resistance.ohms(),
        plain.resistance.ohms(),
        "resistance",
    );
    near(
        fast.current.amperes() / capacity,
        plain.current.amperes() / capacity,
        "rate",
    );
    near(wh(fast.unserved), wh(plain.unserved), "unserved");
    near(wh(fast.spilled), wh(plain.spilled), "spilled");
    near(wh(fast.stored), wh(plain.stored), "stored");
    near(wh(fast.lost), wh(plain.lost), "lost");
    near(fast.fuel.litres(), plain.fuel.litres(), "fuel");
    for (one, two) in fast.fields.iter().zip(plain.fields) {
        near(wh(*one), wh(two), "field");
    }
    let flags = |hour: &HourResult| {
        (
            hour.can_charge,
            hour.can_discharge,
            hour.board_trip,
            hour.load_dump,
            hour.asleep,
            hour.blocked,
            hour.cut_off,
        )
    };
    assert_eq!(flags(fast), flags(plain), "{place:?}");
    assert!((0.0..=1.0 + 1e-9).contains(&fast.charge.fraction().max(0.0)));
}

fn near_trip(fast: &Trip, plain: &Trip, number: u64) {
    let through = 1.0 + (plain.totals.wanted + plain.totals.solar).watt_hours();
    for (one, two) in [
        (fast.totals.wanted, plain.totals.wanted),
        (fast.totals.spilled, plain.totals.spilled),
        (fast.totals.stored, plain.totals.stored),
        (fast.totals.alternator_input, plain.totals.alternator_input),
        (fast.totals.shore_input, plain.totals.shore_input),
    ] {
        assert!(
            (one - two).watt_hours().abs() <= 1e-9 * through,
            "{number} {one:?} {two:?}"
        );
    }
    let counts = |trip: &Trip| {
        (
            trip.board_trips,
            trip.load_dumps,
            trip.asleep_hours,
            trip.blocked_hours,
            trip.outage_hours,
            trip.first_outage,
            trip.first_cold,
        )
    };
    assert_eq!(counts(fast), counts(plain), "{number}");
}

/// What was given was taken, counted source by source and load by load.
fn conserved(trip: &Trip, shares: &Shares, number: u64) {
    let totals = &trip.totals;
    let through = 1.0 + (totals.wanted + totals.solar).watt_hours() + 1000.0 * trip.cycles;
    let given = shares.fields.iter().copied().sum::<Energy>() + shares.alternator + shares.shore;
    let taken =
        shares.loads.iter().copied().sum::<Energy>() + shares.battery_losses + shares.stored;
    assert!(
        (given - taken).watt_hours().abs() <= 1e-9 * through,
        "{number}"
    );
    let sun = shares.fields.iter().copied().sum::<Energy>() + shares.spilled;
    assert!((totals.solar - sun).watt_hours().abs() <= 1e-9 * through);
    let of_chargers = totals.alternator_input + totals.shore_input;
    let given_by = shares.alternator + shares.shore + shares.charger_losses;
    assert!((of_chargers - given_by).watt_hours().abs() <= 1e-9 * through);
    let served = totals.wanted - totals.unserved;
    let each = shares.loads.iter().copied().sum::<Energy>();
    assert!((served - each).watt_hours().abs() <= 1e-9 * through);
}
