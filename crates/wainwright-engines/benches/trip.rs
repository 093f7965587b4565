//! Time of ten thousand weeks and of a year of sun, best of five, one thread; and the same weeks in
//! a plain C program, compiled on the spot, whose answers must agree.
//!
//! Run with `cargo bench -p wainwright-engines --bench trip`.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "a failed assumption ends the measurement"
)]

#[path = "../tests/campers/mod.rs"]
mod campers;
#[path = "../tests/rows/mod.rs"]
mod rows;
mod trip_in_c;

use campers::{camper, celsius, lossless, share, solar, start, watts};
use rows::{chains, open_points};
use std::hint::black_box;
use std::time::Instant;
use wainwright_engines::battery::*;
use wainwright_engines::solar_power::*;
use wainwright_engines::sun::*;
use wainwright_engines::trip::*;
use wainwright_engines::weather::*;
use wainwright_units::*;

fn main() {
    let place = Place {
        latitude: Angle::from_degrees(39.74),
        longitude: Angle::from_degrees(-105.18),
        altitude: Length::from_metres(1829.0),
    };
    let midnight = Moment::from_utc(2026, 1, 1, 7.0).unwrap();
    let panels = Panels {
        orientation: Orientation {
            tilt: Angle::from_degrees(10.0),
            azimuth: Angle::from_degrees(180.0),
        },
        module: Module {
            rated: watts(400.0),
            per_kelvin: -0.0035,
            dim_loss: 0.0,
        },
        mounting: Mounting {
            still: 25.0,
            by_wind: 6.84,
        },
        glass: Glass::MartinRuiz { coefficient: 0.16 },
        ground: share(0.2),
        shade: ShadeBlocks::even(Ratio::ONE),
        partial: ShadeBlocks::even(Ratio::ONE),
    };
    measure("clear year by hours: sun, sky, panel, cells", || {
        clear_year(place, midnight, &panels, 60)
    });
    measure("clear year by minutes", || {
        clear_year(place, midnight, &panels, 1)
    });
    let path = SunPath::new(place, midnight, 7).unwrap();
    let chains = chains();
    let climate = Climate {
        chains: &chains,
        clearness: 0.55,
        spread: 0.08,
        mean: celsius(0.0),
        anomaly: DailyAnomaly {
            memory: 0.66,
            deviation: TemperatureDifference::from_kelvins(4.0),
        },
        swing: estimated_swing(0.55),
        wind: 1.0,
    };
    let season = Season::new(&path, climate, &[panels]);
    let week = [Happening::default(); 7 * 24];
    let schedule = Schedule {
        first_hour: 0,
        hours: &week,
    };
    let mut hours = Vec::new();
    measure("10,000 weeks of weather and panel power", || {
        let mut count = 0.0;
        for trip in 0..10_000 {
            season.fill(&schedule, &mut Randomness::new(1, trip), &mut hours);
            count += hours.len() as f64;
        }
        count
    });
    let points = open_points("ocv");
    let table = ResistanceTable {
        celsius: &[25.0],
        rows: &[(0.5, &[0.14])],
        activation: 1750.0,
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
    let loads = [Load::steady(Law::Fixed(watts(50.0)))];
    let fields = [solar(0.95, 0.97)];
    let simple = Camper {
        solar: &fields,
        reconnect: share(0.05),
        ..camper(pack, &loads)
    };
    let one = season.hours(&schedule, &mut Randomness::new(1, 1));
    let fast = Prepared::new(&simple).unwrap();
    measure("10,000 weeks of a simple battery", || {
        let residual = |_| {
            let trip = fast.simulate(start(1.0), black_box(&one)).unwrap();
            trip.residual
        };
        (0..10_000).map(residual).sum()
    });
    measure("10,000 weeks, weather and simple battery: odds", || {
        let ran_out = |random: &mut Randomness| {
            season.fill(&schedule, random, &mut hours);
            let trip = fast.simulate(start(1.0), &hours)?;
            Ok(trip.first_outage.is_some())
        };
        odds(10_000, 1, ran_out).unwrap().share.percent()
    });
    trip_in_c::side_by_side(&season);
}

/// Energy of a clear year [kWh] in steps of so many minutes.
fn clear_year(place: Place, midnight: Moment, panels: &Panels, minutes: u32) -> f64 {
    let around = Air::standard(place.altitude);
    let step = f64::from(minutes) / 60.0;
    let prepared = PreparedPanel::new(panels.orientation, panels.ground, panels.glass);
    let mut sum = 0.0;
    for at in 0..525_600 / minutes {
        let now = midnight.after_hours((f64::from(at) + 0.5) * step);
        let sun = position(now, place, around, Method::Fast).unwrap();
        if sun.apparent.degrees() >= 90.0 {
            continue;
        }
        let day = now.day_of_year();
        let sky = clear_sky(sun, day, place.altitude, 2.8);
        let lit = prepared.lit(sky, sun, day);
        let cell = cell_temperature(celsius(15.0), lit.before.total(), 1.0, panels.mounting);
        sum += module_power(panels.module, lit.behind.total(), cell).watts() * step / 1000.0;
    }
    sum
}

fn measure(name: &str, mut run: impl FnMut() -> f64) {
    let mut best = f64::INFINITY;
    let mut answer = 0.0;
    for _ in 0..5 {
        let begun = Instant::now();
        answer = black_box(run());
        best = best.min(begun.elapsed().as_secs_f64());
    }
    println!("{name}: {:.2} ms (answer {answer:.3})", best * 1e3);
}
