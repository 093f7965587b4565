//! The circuit battery with its board over ten thousand weeks, side by side with a C program.

use crate::campers::{camper, celsius, share, watts};
use crate::rows::{open_points, resistance_points};
use std::hint::black_box;
use std::path::Path;
use std::process::Command;
use std::time::Instant;
use wainwright_engines::battery::*;
use wainwright_engines::solar_power::Controller;
use wainwright_engines::trip::*;
use wainwright_engines::weather::Randomness;
use wainwright_units::*;

/// Different weeks of weather, taken in turn.
const WEEKS: usize = 100;

/// Trips in a run.
const TRIPS: usize = 10_000;

/// Charge in which both must agree.
const NEAR: f64 = 1e-6;

/// Numbers of the camper, in the order in which the C program reads them.
struct Numbers {
    bands: [(f64, f64); 3],
    fixed: [f64; 24],
}

const NUMBERS: Numbers = Numbers {
    bands: [(0.0, 0.1), (10.0, 0.5), (50.0, 0.0)],
    fixed: [
        5.0, 5.0, 5.0, 5.0, 5.0, 10.0, 15.0, 30.0, 25.0, 15.0, 10.0, 10.0, 15.0, 15.0, 15.0, 15.0,
        20.0, 30.0, 50.0, 65.0, 65.0, 55.0, 30.0, 10.0,
    ],
};

/// Runs both, compares every trip's charge, energy unserved and board trips, prints both times.
pub fn side_by_side(season: &Season<'_>) {
    let (open, gaps) = (open_points("ocv"), open_points("hyst"));
    let (rows_in, rows_out) = (resistance_points("RCh"), resistance_points("RDCh"));
    let put: Vec<(f64, &[f64])> = rows_in.iter().map(|row| (row.0, &row.1[..])).collect();
    let out: Vec<(f64, &[f64])> = rows_out.iter().map(|row| (row.0, &row.1[..])).collect();
    let table = |rows| ResistanceTable {
        celsius: &[10.0, 25.0, 40.0, 60.0],
        rows,
        activation: 1750.0,
    };
    let pack = Pack {
        series: 4,
        capacity: Charge::from_ampere_hours(200.0),
        open: Curve::new(&open),
        hysteresis: Curve::new(&gaps),
        discharging: table(&out),
        charging: table(&put),
        connections: Resistance::from_milliohms(4.0),
        coulombic: share(0.998),
    };
    let fields = [field()];
    let loads = loads();
    let bands = NUMBERS.bands.map(|(from, rate)| TemperatureRate {
        from: celsius(from),
        rate: share(rate),
    });
    let camper = Camper {
        limits: Limits {
            absorption: Voltage::from_volts(14.2),
            ..Limits::NONE
        },
        charge_bands: &bands,
        cell_lag: Duration::from_hours(6.0),
        reconnect: share(0.05),
        guard: Some(guard()),
        solar: &fields,
        alternator: Some(Charger {
            current: Current::from_amperes(20.0),
            ..Charger::of(watts(270.0), share(0.9))
        }),
        water: water(),
        fuel_tank: Volume::from_litres(10.0),
        ..camper(pack, &loads)
    };
    let mut happenings = [Happening::default(); 7 * 24];
    for hour in [9, 10, 81, 82] {
        happenings[hour].driving = true;
    }
    let schedule = Schedule {
        first_hour: 0,
        hours: &happenings,
    };
    let hours: Vec<Vec<Hour>> = (0..WEEKS as u64)
        .map(|week| season.hours(&schedule, &mut Randomness::new(5, week)))
        .collect();
    let begun = Instant::now();
    let fast = Prepared::new(&camper).unwrap();
    println!(
        "preparing the camper: {:.2} ms",
        begun.elapsed().as_secs_f64() * 1e3
    );
    let mut input = vec![open.len(), put.len(), WEEKS, happenings.len(), TRIPS]
        .into_iter()
        .map(|count| count as f64)
        .collect::<Vec<f64>>();
    input.extend(parameters(&camper));
    for (point, gap) in open.iter().zip(&gaps) {
        input.extend([point.0, point.1, gap.1]);
    }
    for (row_in, row_out) in rows_in.iter().zip(&rows_out) {
        input.push(row_in.0);
        input.extend(row_in.1.iter().chain(&row_out.1));
    }
    for hour in hours.iter().flatten() {
        let driving = f64::from(u8::from(hour.driving));
        input.extend([hour.air.celsius(), hour.panel[0].watts(), driving]);
    }
    let (theirs, their_time) = in_c(&input);
    let (ours, best) = here(&fast, &hours);
    compare(&ours, &theirs);
    println!("10,000 weeks of the circuit battery: {best:.2} ms; in C: {their_time:.2} ms");
}

/// Runs all trips five times; of each block of weeks the best time counts [ms], since other work on
/// the machine disturbs some of them.
fn here(fast: &Prepared<'_>, hours: &[Vec<Hour>]) -> (Vec<Trip>, f64) {
    let mut trips: Vec<Trip> = Vec::with_capacity(TRIPS);
    let mut blocks = [f64::INFINITY; TRIPS / WEEKS];
    for _ in 0..5 {
        trips.clear();
        for block in &mut blocks {
            let begun = Instant::now();
            for week in hours {
                trips.push(fast.simulate(begin(), black_box(week)).unwrap());
            }
            *block = block.min(begun.elapsed().as_secs_f64() * 1e3);
        }
    }
    (trips, blocks.iter().sum())
}

fn compare(ours: &[Trip], theirs: &[f64]) {
    let mut worst = 0.0_f64;
    let (mut board, mut outages) = (0, 0);
    for (at, trip) in ours.iter().enumerate() {
        let [unserved, trips, hours] = [0, 1, 2].map(|of| theirs[TRIPS + 3 * at + of]);
        worst = worst.max((trip.charge.fraction() - theirs[at]).abs());
        let off = (trip.totals.unserved.watt_hours() - unserved).abs();
        assert!(off < 1e-3, "trip {at}: {off} Wh unserved apart");
        assert_eq!(
            (trip.board_trips, trip.outage_hours),
            (trips as usize, hours as usize)
        );
        board += trip.board_trips;
        outages += trip.outage_hours;
    }
    assert!(worst < NEAR, "the charges are {worst} apart");
    println!("charges agree to {worst:.1e}; {board} board trips, {outages} hours unserved in both");
}

fn field() -> Solar {
    Solar {
        controller: Controller::Tracking {
            efficiency: share(0.95),
            own: watts(0.3),
            most: Current::from_amperes(30.0),
        },
        left: share(0.97),
        absorption: Voltage::from_volts(f64::INFINITY),
        starts_alone: true,
    }
}

fn guard() -> Guard {
    let volts = Voltage::from_volts;
    Guard {
        thresholds: Thresholds {
            over: volts(3.65),
            over_release: volts(3.6),
            under: volts(2.5),
            under_release: volts(2.8),
            hot: celsius(65.0),
            hot_release: celsius(50.0),
            cold: celsius(0.0),
            cold_release: celsius(4.0),
            delay: Duration::from_seconds(2.0),
        },
        ahead: share(0.005),
    }
}

fn loads() -> [Load; 3] {
    [
        Load {
            law: Law::Fixed(watts(100.0)),
            day: NUMBERS.fixed.map(|watts| share(watts / 100.0)),
        },
        Load::steady(Law::Fridge(Fridge {
            watts_per_kelvin: 0.7,
            inside: celsius(4.0),
            of_ideal: 0.30,
            colder: 12.0,
            warmer: 15.0,
            electronics: watts(1.0),
        })),
        Load::steady(Law::Heater {
            electric: watts(20.0),
            heat: watts(2000.0),
            watts_per_kelvin: 50.0,
            keeps: celsius(15.0),
            burns: Burn::PerHour {
                running: Volume::from_litres(0.24),
            },
        }),
    ]
}

fn water() -> Water {
    let litres = Volume::from_litres;
    Water {
        fresh_tank: litres(80.0),
        waste_tank: litres(60.0),
        day: [litres(0.6); 24],
        to_waste: 0.9,
    }
}

fn begin() -> Start {
    Start {
        charge: share(0.9),
        cell: celsius(10.0),
        fresh: Volume::from_litres(80.0),
        waste: Volume::ZERO,
        fuel: Volume::from_litres(10.0),
    }
}

/// The camper in the order of the C program.
fn parameters(camper: &Camper<'_>) -> [f64; 72] {
    let limits = guard().thresholds;
    let mut all = [0.0; 72];
    let kept = (-1.0 / camper.cell_lag.hours()).exp();
    let head = [
        4.0,
        camper.pack.capacity.ampere_hours(),
        0.998,
        0.004,
        1750.0,
        14.2,
        0.0,
        0.05,
        kept,
        limits.over.volts(),
        limits.over_release.volts(),
        limits.under.volts(),
        limits.under_release.volts(),
        limits.hot.celsius(),
        limits.hot_release.celsius(),
        limits.cold.celsius(),
        limits.cold_release.celsius(),
        0.005,
    ];
    let sources = [0.95, 0.3, 30.0, 0.97, 270.0, 20.0, 0.9, 10.0];
    let loads = [
        0.7, 4.0, 0.30, 12.0, 15.0, 1.0, 20.0, 2000.0, 50.0, 15.0, 0.24, 10.0,
    ];
    let tanks = [80.0, 60.0, 0.6, 0.9];
    let bands = NUMBERS.bands.map(|(from, rate)| [from, rate]);
    let each = head
        .iter()
        .chain(&sources)
        .chain(&loads)
        .chain(&tanks)
        .chain(bands.as_flattened())
        .chain(&NUMBERS.fixed);
    for (place, value) in all.iter_mut().zip(each) {
        *place = *value;
    }
    all
}

/// Compiles and runs the C program: its numbers and its best time [ms].
fn in_c(input: &[f64]) -> (Vec<f64>, f64) {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR"));
    let [source, program, given, answer] =
        ["trip.c", "trip_in_c", "trip.in", "trip.out"].map(|name| folder.join(name));
    std::fs::write(&source, include_str!("trip.c")).unwrap();
    let compiled = Command::new("cc")
        .args(["-O3", "-o"])
        .args([&program, &source])
        .arg("-lm")
        .status();
    assert!(
        compiled.is_ok_and(|status| status.success()),
        "the comparison needs a C compiler called cc; install one and run again"
    );
    let bytes: Vec<u8> = input
        .iter()
        .flat_map(|number| number.to_le_bytes())
        .collect();
    std::fs::write(&given, bytes).unwrap();
    let run = Command::new(&program).args([&given, &answer]).output();
    let run = run.unwrap();
    assert!(run.status.success(), "the C program stopped: {run:?}");
    let time = String::from_utf8(run.stdout).unwrap();
    let numbers = std::fs::read(&answer).unwrap();
    let numbers = numbers
        .chunks_exact(8)
        .map(|bytes| f64::from_le_bytes(bytes.try_into().unwrap()));
    (numbers.collect(), time.trim().parse().unwrap())
}
