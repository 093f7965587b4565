//! The position of the sun against the low-precision equations of the almanac, at random.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

use proptest::prelude::*;
use wainwright_engines::sun::*;
use wainwright_units::*;

/// Zenith and azimuth [°] by the Astronomical Almanac's short equations, 0.01° from 1950 to 2050
/// (memory). Azimuth from north over east.
fn almanac(julian_days: f64, latitude: f64, longitude: f64) -> (f64, f64) {
    let days = julian_days - 2_451_545.0;
    let mean = (280.460 + 0.985_647_4 * days).to_radians();
    let anomaly = (357.528 + 0.985_600_3 * days).to_radians();
    let along = mean + (1.915 * anomaly.sin() + 0.020 * (2.0 * anomaly).sin()).to_radians();
    let lean = (23.439 - 4e-7 * days).to_radians();
    let ascension = (lean.cos() * along.sin()).atan2(along.cos());
    let declination = (lean.sin() * along.sin()).asin();
    let hours = ((julian_days + 0.5).fract()) * 24.0;
    let greenwich = 6.697_375 + 0.065_709_824_2 * (days - hours / 24.0) + 1.002_737_91 * hours;
    let turn = (greenwich * 15.0 + longitude).to_radians() - ascension;
    let north = latitude.to_radians();
    let cosine = north.sin() * declination.sin() + north.cos() * declination.cos() * turn.cos();
    let east = -turn.sin() * declination.cos();
    let ahead = declination.sin() * north.cos() - declination.cos() * north.sin() * turn.cos();
    let azimuth = east.atan2(ahead).to_degrees().rem_euclid(360.0);
    (cosine.clamp(-1.0, 1.0).acos().to_degrees(), azimuth)
}

proptest! {
    /// 0.03°: 0.01° of each side and the parallax of the sun, 0.002°, with room for the azimuth,
    /// which counts by its arc on the sky.
    #[test]
    fn both_methods_agree_with_the_almanac(
        days in 0.0..8760.0, latitude in -89.0..89.0, longitude in -180.0..180.0,
    ) {
        let moment = Moment::from_utc(2026, 1, 1, 24.0 * days).unwrap();
        let place = Place {
            latitude: Angle::from_degrees(latitude),
            longitude: Angle::from_degrees(longitude),
            altitude: Length::ZERO,
        };
        let (zenith, azimuth) = almanac(moment.julian_days(), latitude, longitude);
        for method in [Method::Fast, Method::Exact] {
            let sun = position(moment, place, Air::standard(Length::ZERO), method).unwrap();
            prop_assert!((sun.zenith.degrees() - zenith).abs() < 0.03);
            let turn = (sun.azimuth.degrees() - azimuth + 180.0).rem_euclid(360.0) - 180.0;
            prop_assert!((turn * sun.zenith.radians().sin()).abs() < 0.03);
            prop_assert!(sun.apparent <= sun.zenith);
        }
    }

    /// Light on a panel adds up from a sky of many patches: a level ring of even light gives what
    /// the closed view factor says, 1 % with patches of one degree.
    #[test]
    fn even_sky_is_the_sum_of_its_patches(tilt in 0.0..90.0) {
        let panel = Orientation { tilt: Angle::from_degrees(tilt), azimuth: Angle::from_degrees(180.0) };
        let (mut sum, mut level) = (0.0, 0.0);
        for zenith in 0..90 {
            for azimuth in 0..360 {
                let patch = Sun {
                    zenith: Angle::from_degrees(f64::from(zenith) + 0.5),
                    apparent: Angle::from_degrees(f64::from(zenith) + 0.5),
                    azimuth: Angle::from_degrees(f64::from(azimuth)),
                };
                let size = patch.zenith.radians().sin();
                sum += size * incidence(patch, panel).radians().cos().max(0.0);
                level += size * patch.zenith.radians().cos();
            }
        }
        let sky = Sky { global: 100.0, beam: 0.0, diffuse: 100.0 };
        let straight_up = Sun {
            zenith: Angle::ZERO,
            apparent: Angle::ZERO,
            azimuth: Angle::ZERO,
        };
        let closed = on_panel_even_sky(sky, straight_up, panel, Ratio::ZERO).sky;
        prop_assert!((closed - 100.0 * sum / level).abs() < 1.0);
    }

    /// A prepared panel gives the light of the single equations, to 1e-9 of the light,
    /// behind the glass to 1e-6, which an arc cosine costs near straight in.
    #[test]
    fn prepared_panels_give_the_same_light(
        zenith in 0.0..110.0, azimuth in 0.0..360.0, tilt in 0.0..90.0, facing in 0.0..360.0,
        global in 0.0..1100.0, day in 1_u32..366, kind in 0..3,
    ) {
        let sun = Sun {
            zenith: Angle::from_degrees(zenith),
            apparent: Angle::from_degrees(zenith - 0.1),
            azimuth: Angle::from_degrees(azimuth),
        };
        let panel = Orientation {
            tilt: Angle::from_degrees(tilt),
            azimuth: Angle::from_degrees(facing),
        };
        let glass = match kind {
            0 => Glass::MartinRuiz { coefficient: 0.16 },
            1 => Glass::Straight { slope: 0.05 },
            _ => Glass::Physical { index: 1.526, extinction: 4.0, thickness: 0.002 },
        };
        let ground = Ratio::from_fraction(0.2);
        let sky = split(global, sun.zenith, day);
        let light = on_panel(sky, sun, day, panel, ground);
        let behind = through_glass(light, incidence(sun, panel), panel.tilt, glass);
        let lit = PreparedPanel::new(panel, ground, glass).lit(sky, sun, day);
        prop_assert!((lit.before.total() - light.total()).abs() <= 1e-9 * (1.0 + global));
        prop_assert!((lit.behind.total() - behind.total()).abs() <= 1e-6 * (1.0 + global));
    }
}
