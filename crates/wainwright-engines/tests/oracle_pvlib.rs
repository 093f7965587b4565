//! Light and power of a panel against pvlib, run live on random places, times and panels. Not here:
//! its stored results (`proofs_sun`, `proofs_solar_power`), its speed (the measurement `sun`).
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod solar_library;

use solar_library::SolarLibrary;
use std::collections::BTreeMap;
use wainwright_engines::solar_power::*;
use wainwright_engines::sun::*;
use wainwright_engines::weather::Randomness;
use wainwright_units::*;

/// Instants with the sun up, and most of all instants that are drawn for them.
const LIT_CASES: usize = 50;
const MOST_CASES: u64 = 400;

/// Lead of even time over the clock that both sides are told [s].
const LEAD_SECONDS: f64 = 69.0;

/// Seconds from 1970 to 2026.
const YEAR_2026: f64 = 1_767_225_600.0;

/// One instant, one place, one panel.
struct Case {
    /// Whole seconds since 1970.
    seconds: f64,
    place: Place,
    panel: Orientation,
    turbidity: f64,
    albedo: f64,
    share: f64,
    air: f64,
    wind: f64,
}

type Named = BTreeMap<String, f64>;

/// Every intermediate, by the same sun, to 1e-9 of it; cosines and light of 1e-12 are zero.
#[test]
fn every_intermediate_of_random_instants() {
    for (case, theirs) in cases() {
        for (name, ours) in chain(&case, given_sun(&theirs)) {
            let expected = theirs[name];
            if ours.is_nan() && expected.is_nan() {
                continue;
            }
            let allowed = 1e-9 * expected.abs() + 1e-12;
            assert!(
                (ours - expected).abs() <= allowed,
                "{name}: {ours} instead of {expected}; {}",
                case.question()
            );
        }
    }
}

/// Our own sun. Exact: 4e-7°, by which the sky turns in the last digit of a Julian date, on either
/// side. Fast: 0.02°, of an arc on the sky. Light on the panel and behind its glass: 0.3 W/m².
#[test]
fn own_sun_at_random_instants() {
    for (case, theirs) in cases() {
        let expected = given_sun(&theirs);
        for (method, close) in [(Method::Exact, 4e-7), (Method::Fast, 0.02)] {
            let sun = case.sun(method);
            let off = (sun.zenith.degrees() - expected.zenith.degrees()).abs();
            let seen = (sun.apparent.degrees() - expected.apparent.degrees()).abs();
            let turn = (sun.azimuth - expected.azimuth).degrees() + 540.0;
            let across = (turn.rem_euclid(360.0) - 180.0).abs() * sun.zenith.radians().sin();
            assert!(
                off < close && seen < close && across < close,
                "{method:?} {off} {seen} {across}; {}",
                case.question()
            );
            let ours: BTreeMap<_, _> = chain(&case, sun).into_iter().collect();
            for name in ["poa_hd", "e_eff"] {
                let miss = (ours[name] - theirs[name]).abs();
                assert!(miss < 0.3, "{method:?} {name} {miss}; {}", case.question());
            }
        }
    }
}

/// Random cases with what pvlib finds: fifty in the light, and the dark ones drawn among them.
fn cases() -> Vec<(Case, Named)> {
    let mut library = SolarLibrary::start();
    let mut found = Vec::new();
    let mut lit = 0;
    for stream in 0..MOST_CASES {
        let case = Case::draw(&mut Randomness::new(400, stream));
        let theirs = named(&library.ask(&case.question()));
        lit += usize::from(theirs["ghi_cs"] > 0.0);
        found.push((case, theirs));
        if lit == LIT_CASES {
            return found;
        }
    }
    panic!("{lit} of {MOST_CASES} instants have light, expected {LIT_CASES}");
}

fn named(answer: &str) -> Named {
    let pair = |word: &str| {
        let (name, value) = word.split_once('=').unwrap();
        (name.to_owned(), value.parse().unwrap())
    };
    answer.split(' ').map(pair).collect()
}

fn given_sun(theirs: &Named) -> Sun {
    Sun {
        zenith: Angle::from_degrees(theirs["zenith"]),
        apparent: Angle::from_degrees(theirs["app_zenith"]),
        azimuth: Angle::from_degrees(theirs["sun_az"]),
    }
}

impl Case {
    fn draw(random: &mut Randomness) -> Case {
        let mut between = |low: f64, high: f64| low + (high - low) * random.uniform();
        Case {
            seconds: (YEAR_2026 + between(-10.0, 20.0) * 365.25 * 86_400.0).floor(),
            place: Place {
                latitude: Angle::from_degrees(between(-66.0, 66.0)),
                longitude: Angle::from_degrees(between(-180.0, 180.0)),
                altitude: Length::from_metres(between(0.0, 3500.0)),
            },
            panel: Orientation {
                tilt: Angle::from_degrees(between(0.5, 90.0)),
                azimuth: Angle::from_degrees(between(0.0, 360.0)),
            },
            turbidity: between(1.8, 6.0),
            albedo: between(0.05, 0.7),
            share: between(0.05, 1.0),
            air: between(-25.0, 45.0),
            wind: between(0.0, 12.0),
        }
    }

    fn question(&self) -> String {
        format!(
            "case first={} delta_t={LEAD_SECONDS} latitude={} longitude={} altitude={} tilt={} \
             azimuth={} turbidity={} albedo={} share={} air={} wind={} rated=400 per_kelvin=-0.0035",
            self.seconds,
            self.place.latitude.degrees(),
            self.place.longitude.degrees(),
            self.place.altitude.metres(),
            self.panel.tilt.degrees(),
            self.panel.azimuth.degrees(),
            self.turbidity,
            self.albedo,
            self.share,
            self.air,
            self.wind,
        )
    }

    fn moment(&self) -> Moment {
        let start = Moment::from_utc(1970, 1, 1, 0.0).unwrap();
        start
            .after_hours(self.seconds / 3600.0)
            .with_delta_seconds(LEAD_SECONDS)
    }

    fn sun(&self, method: Method) -> Sun {
        let around = Air::standard(self.place.altitude);
        position(self.moment(), self.place, around, method).unwrap()
    }
}

/// The chain by the names of the columns of the stored results.
fn chain(case: &Case, sun: Sun) -> Vec<(&'static str, f64)> {
    let altitude = case.place.altitude;
    let day = case.moment().day_of_year();
    let clear = clear_sky(sun, day, altitude, case.turbidity);
    let global = clear.global * case.share;
    let sky = split(global, sun.zenith, day);
    let albedo = Ratio::from_fraction(case.albedo);
    let light = on_panel(sky, sun, day, case.panel, albedo);
    let even = on_panel_even_sky(sky, sun, case.panel, albedo);
    let slant = incidence(sun, case.panel);
    let glass = Glass::MartinRuiz { coefficient: 0.16 };
    let behind = through_glass(light, slant, case.panel.tilt, glass).total();
    let physical = Glass::Physical {
        index: 1.526,
        extinction: 4.0,
        thickness: 0.002,
    };
    let straight = Glass::Straight { slope: 0.05 };
    let air = Temperature::from_celsius(case.air);
    let open_rack = Mounting {
        still: 25.0,
        by_wind: 6.84,
    };
    let cell = cell_temperature(air, light.total(), case.wind, open_rack);
    let power = |dim_loss: f64| {
        let module = Module {
            rated: Power::from_watts(400.0),
            per_kelvin: -0.0035,
            dim_loss,
        };
        module_power(module, behind, cell).watts()
    };
    vec![
        ("day", f64::from(day)),
        ("pressure", air_pressure(altitude)),
        ("dni_extra", extraterrestrial(day)),
        (
            "am_rel",
            relative_air_mass(sun.apparent).unwrap_or(f64::NAN),
        ),
        (
            "am_abs",
            absolute_air_mass(sun.apparent, altitude).unwrap_or(f64::NAN),
        ),
        ("ghi_cs", clear.global),
        ("dni_cs", clear.beam),
        ("dhi_cs", clear.diffuse),
        ("ghi_haurwitz", haurwitz(sun.apparent)),
        ("ghi", global),
        ("kt", clearness(global, sun.zenith, day)),
        ("dni_erbs", sky.beam),
        ("dhi_erbs", sky.diffuse),
        ("cos_aoi", slant.radians().cos()),
        ("poa_beam", light.beam),
        ("poa_sky_hd", light.sky),
        ("poa_sky_iso", even.sky),
        ("poa_ground", light.ground),
        ("poa_hd", light.total()),
        ("iam_phys", physical.beam_factor(slant)),
        ("iam_ashrae", straight.beam_factor(slant)),
        ("iam_mr", glass.beam_factor(slant)),
        ("iam_mr_sky", glass.sky_factor(case.panel.tilt)),
        ("iam_mr_gnd", glass.ground_factor(case.panel.tilt)),
        ("e_eff", behind),
        ("tcell_faiman", cell.celsius()),
        ("pdc", power(0.0)),
        ("pdc_lowlight", power(0.01)),
    ]
}
