//! Time of a clear year of a solar panel, side by side with pvlib: sun, sky, panel, glass, cells, power.
//!
//! Run with `cargo bench -p wainwright-engines --bench sun`; `./test tools` installs pvlib. Both sides
//! run in turn, on one thread, warm; the median of five rounds counts, and both yields must agree.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "a failed assumption ends the measurement"
)]

#[path = "../tests/solar_library/mod.rs"]
mod solar_library;

use solar_library::SolarLibrary;
use std::hint::black_box;
use std::time::Instant;
use wainwright_engines::solar_power::*;
use wainwright_engines::sun::*;
use wainwright_units::*;

/// Rounds that count; one more before them warms both sides up.
const ROUNDS: usize = 5;

/// Largest difference of the two yields of a year.
const MOST_OFF: f64 = 0.0005;

/// Minutes of a step, and how many times faster than pvlib the engine must be.
const WANTED: [(u32, f64); 2] = [(60, 20.0), (1, 15.0)];

const LATITUDE: f64 = 39.74;
const LONGITUDE: f64 = -105.18;
const ALTITUDE_METRES: f64 = 1829.0;
const TURBIDITY: f64 = 2.8;
const ALBEDO: f64 = 0.2;
const TILT: f64 = 10.0;
const FACING: f64 = 180.0;
const RATED_WATTS: f64 = 400.0;
const PER_KELVIN: f64 = -0.0035;
const AIR_CELSIUS: f64 = 15.0;
const WIND: f64 = 1.0;

/// Local midnight of 1 January 2026, as seconds since 1970.
const FIRST_SECONDS: u64 = 1_767_250_800;

fn main() {
    let mut library = SolarLibrary::start();
    let mut slow = Vec::new();
    for (minutes, wanted) in WANTED {
        let (mut theirs, mut ours, mut exact) = (Vec::new(), Vec::new(), Vec::new());
        for round in 0..=ROUNDS {
            let (their_seconds, yielded) = by_library(&mut library, minutes);
            let (seconds, own) = timed(|| clear_year(minutes, Method::Fast));
            let (exact_seconds, exact_own) = timed(|| clear_year(minutes, Method::Exact));
            for kilowatt_hours in [own, exact_own] {
                let off = (kilowatt_hours / yielded - 1.0).abs();
                assert!(off < MOST_OFF, "{kilowatt_hours} kWh, pvlib {yielded} kWh");
            }
            if round == 0 {
                println!(
                    "{minutes} min: {own:.3} kWh, exact sun {exact_own:.3} kWh, pvlib {yielded:.3} kWh \
                     ({:+.4} % and {:+.4} %)",
                    (own / yielded - 1.0) * 100.0,
                    (exact_own / yielded - 1.0) * 100.0
                );
                continue;
            }
            theirs.push(their_seconds);
            ours.push(seconds);
            exact.push(exact_seconds);
        }
        let [theirs, ours, exact] = [theirs, ours, exact].map(median);
        println!(
            "{minutes} min: pvlib {:.2} ms, engine {:.3} ms = {:.1} times (wanted {wanted}), \
             with the exact sun {:.3} ms = {:.1} times",
            theirs * 1e3,
            ours * 1e3,
            theirs / ours,
            exact * 1e3,
            theirs / exact
        );
        if theirs / ours < wanted {
            slow.push(minutes);
        }
    }
    assert!(slow.is_empty(), "too slow in steps of {slow:?} minutes");
}

/// Seconds and kilowatt-hours of a clear year by pvlib.
fn by_library(library: &mut SolarLibrary, minutes: u32) -> (f64, f64) {
    let answer = library.ask(&format!(
        "year {minutes} first={FIRST_SECONDS} latitude={LATITUDE} longitude={LONGITUDE} \
         altitude={ALTITUDE_METRES} turbidity={TURBIDITY} albedo={ALBEDO} tilt={TILT} \
         azimuth={FACING} rated={RATED_WATTS} per_kelvin={PER_KELVIN} air={AIR_CELSIUS} wind={WIND}"
    ));
    let (seconds, kilowatt_hours) = answer.split_once(' ').unwrap();
    (seconds.parse().unwrap(), kilowatt_hours.parse().unwrap())
}

fn timed(run: impl Fn() -> f64) -> (f64, f64) {
    let begun = Instant::now();
    let answer = black_box(run());
    (begun.elapsed().as_secs_f64(), answer)
}

/// Energy of a clear year [kWh] in steps of so many minutes, everything prepared anew.
fn clear_year(minutes: u32, method: Method) -> f64 {
    let step_hours = f64::from(black_box(minutes)) / 60.0;
    let place = Place {
        latitude: Angle::from_degrees(LATITUDE),
        longitude: Angle::from_degrees(LONGITUDE),
        altitude: Length::from_metres(ALTITUDE_METRES),
    };
    let instants = Instants {
        first: Moment::from_utc(1970, 1, 1, 0.0)
            .unwrap()
            .after_hours(FIRST_SECONDS as f64 / 3600.0 + 0.5 * step_hours),
        step_hours,
        count: 525_600 / minutes,
    };
    let panel = PreparedPanel::new(
        Orientation {
            tilt: Angle::from_degrees(TILT),
            azimuth: Angle::from_degrees(FACING),
        },
        Ratio::from_fraction(ALBEDO),
        Glass::MartinRuiz { coefficient: 0.16 },
    );
    let module = Module {
        rated: Power::from_watts(RATED_WATTS),
        per_kelvin: PER_KELVIN,
        dim_loss: 0.0,
    };
    let open_rack = Mounting {
        still: 25.0,
        by_wind: 6.84,
    };
    let air = Temperature::from_celsius(AIR_CELSIUS);
    let clear = ClearSky::new(place.altitude, TURBIDITY);
    let sweep = Sweep::new(place, Air::standard(place.altitude), instants, method).unwrap();
    let watts = |step: SunStep| {
        if step.ray.up <= 0.0 {
            return 0.0;
        }
        let sky = clear.light(&step.ray, step.extraterrestrial);
        let lit = panel.lit_by(sky, &step.ray, step.extraterrestrial);
        let cell = cell_temperature(air, lit.before.total(), WIND, open_rack);
        module_power(module, lit.behind.total(), cell).watts()
    };
    sweep.steps().map(watts).sum::<f64>() * step_hours / 1000.0
}

fn median(mut seconds: Vec<f64>) -> f64 {
    seconds.sort_by(f64::total_cmp);
    seconds[seconds.len() / 2]
}
