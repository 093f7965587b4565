//! Laws that hold for every box, wall and cabinet: more insulation never lets more heat through, more
//! air never leaves more gas, what goes in comes out.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

use proptest::prelude::*;
use wainwright_engines::cabinet_air::*;
use wainwright_engines::damp::*;
use wainwright_engines::fresh_air::*;
use wainwright_engines::heat_loss::*;
use wainwright_engines::moist_air::Carrier;
use wainwright_units::*;

const FILMS: Films = Films {
    inside: 0.13,
    outside: 0.04,
};

fn celsius(value: f64) -> Temperature {
    Temperature::from_celsius(value)
}

fn mm(value: f64) -> Length {
    Length::from_millimetres(value)
}

fn layer(millimetres: f64, conductivity: f64, mu: f64) -> Layer {
    let k = ThermalConductivity::from_watts_per_kelvin_metre(conductivity);
    Layer::solid(mm(millimetres), k, mu)
}

/// Foam and ribs, foam across them, lining; with wood or metal ribs.
fn wall(foam: f64, across: f64, rib_share: f64, metal: bool) -> BuildUp {
    let path = |first| vec![first, layer(across, 0.03, 80.0), layer(12.7, 0.12, 50.0)];
    let section = |share, first| Section {
        share: Ratio::from_fraction(share),
        layers: path(first),
    };
    let clear = layer(foam, 0.03, 60.0);
    let sections = if metal {
        vec![section(1.0, clear)]
    } else {
        vec![
            section(1.0 - rib_share, clear),
            section(rib_share, layer(foam, 0.13, 50.0)),
        ]
    };
    let ribs = MetalRibs {
        spacing: mm(406.4),
        flange: mm(30.0),
        sheet: mm(1.5),
        webs: 2,
        conductivity: ThermalConductivity::from_watts_per_kelvin_metre(50.0),
        vapour_metres: 1500.0,
        first_layer: 0,
        last_layer: 0,
    };
    BuildUp {
        flow: Flow::Horizontal,
        air_layers_at: celsius(10.0),
        sections,
        metal: metal.then_some(ribs),
    }
}

fn u(build_up: &BuildUp) -> f64 {
    transmittance(build_up, FILMS).unwrap().watts_per_m2_kelvin
}

fn months(outside: &[f64], inside_humidity: f64) -> Vec<Month> {
    let month = |&at: &f64| Month {
        climate: Climate {
            inside: celsius(at.max(18.0)),
            inside_humidity: Ratio::from_fraction(inside_humidity),
            outside: celsius(at),
            outside_humidity: Ratio::from_fraction(0.8),
        },
        duration: Duration::from_hours(730.0),
    };
    outside.iter().map(month).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    /// Thicker foam, between ribs or across them, never lets more heat through.
    #[test]
    fn more_insulation_less_heat(
        foam in 10.0..80.0_f64,
        across in 1.0..60.0_f64,
        more in 0.1..40.0_f64,
        share in 0.0..0.3_f64,
        metal: bool,
    ) {
        let before = u(&wall(foam, across, share, metal));
        prop_assert!(u(&wall(foam + more, across, share, metal)) <= before * (1.0 + 1e-12));
        prop_assert!(u(&wall(foam, across + more, share, metal)) <= before * (1.0 + 1e-12));
    }

    /// The combined method lies between its limits, and ribs never help.
    #[test]
    fn limits_enclose(foam in 10.0..80.0_f64, across in 1.0..60.0_f64, share in 0.0..0.3_f64) {
        let found = transmittance(&wall(foam, across, share, false), FILMS).unwrap();
        prop_assert!(found.lower <= found.resistance * (1.0 + 1e-12));
        prop_assert!(found.resistance <= found.upper * (1.0 + 1e-12));
        prop_assert!(u(&wall(foam, across, 0.0, false)) <= found.watts_per_m2_kelvin * (1.0 + 1e-12));
    }

    /// Heat through a profile is the same in every layer.
    #[test]
    fn heat_in_is_heat_out(foam in 1.0..80.0_f64, inside in -10.0..35.0_f64, outside in -30.0..60.0_f64) {
        let section = &wall(foam, 5.0, 0.0, true).sections[0];
        let found =
            profile(section, Flow::Up, celsius(10.0), FILMS, celsius(inside), celsius(outside)).unwrap();
        for (two, r) in found.temperatures.windows(2).zip(&found.resistances) {
            let watts = (two[1] - two[0]).kelvins() / r;
            prop_assert!((watts - found.watts_per_m2).abs() < 1e-9 * (1.0 + watts.abs()));
        }
    }

    /// More air, or a larger opening, never leaves more carbon dioxide; books close.
    #[test]
    fn more_air_less_gas(
        litres in 5e3..3e4_f64,
        start in 400.0..2000.0_f64,
        flow in 0.0..100.0_f64,
        more in 0.1..100.0_f64,
        people in 0.0..0.03_f64,
    ) {
        let room = Night { volume: Volume::from_litres(litres), outside_ppm: 420.0, start_ppm: start.max(420.0) };
        let spell = |flow| Spell {
            duration: Duration::from_hours(7.0),
            co2_litres_per_second: people,
            airflow: Airflow::from_cubic_metres_per_hour(flow),
        };
        let before = night(&room, &[spell(flow)]).unwrap();
        let after = night(&room, &[spell(flow + more)]).unwrap();
        prop_assert!(after.peak_ppm <= before.peak_ppm * (1.0 + 1e-12));
        prop_assert!(after.mean_ppm <= before.mean_ppm * (1.0 + 1e-12));
        let kept = (before.ends_ppm[0] - room.start_ppm) * litres / 1e6;
        prop_assert!((before.made_litres - before.carried_litres - kept).abs() < 1e-6);
    }

    /// A night stepped second by second with Euler's method comes to the same.
    #[test]
    fn small_steps_agree(litres in 5e3..3e4_f64, flow in 1.0..60.0_f64, people in 0.0..0.03_f64) {
        let room = Night { volume: Volume::from_litres(litres), outside_ppm: 420.0, start_ppm: 800.0 };
        let spell = Spell {
            duration: Duration::from_hours(2.0),
            co2_litres_per_second: people,
            airflow: Airflow::from_cubic_metres_per_hour(flow),
        };
        let mut now = 800.0;
        for _ in 0..72_000 {
            let rate = 1e6 * people - flow / 3.6 * (now - 420.0);
            now += 0.1 * rate / litres;
        }
        let found = night(&room, &[spell]).unwrap().ends_ppm[0];
        // Euler's error is half a step times the time constant's rate: below 0.02 %.
        prop_assert!((found - now).abs() < 2e-4 * found, "{found} {now}");
    }

    /// Larger openings, more height and more skin never make a cabinet warmer; heat leaves whole.
    #[test]
    fn more_opening_less_heat(
        heat in 5.0..300.0_f64,
        low in 20.0..500.0_f64,
        high in 20.0..500.0_f64,
        height in 0.1..1.5_f64,
        skin in 0.0..5.0_f64,
        more in 1.0..2.0_f64,
        leaving: bool,
    ) {
        let of = |low: f64, high: f64, height: f64, skin: f64| {
            let vents = Vents {
                low: Area::from_square_metres(low * 1e-4),
                high: Area::from_square_metres(high * 1e-4),
                coefficient: Ratio::from_fraction(0.6),
                height: Length::from_metres(height),
                counted_at: if leaving { CountedAt::Leaving } else { CountedAt::Incoming },
            };
            rise(&Cabinet {
                heat: Power::from_watts(heat),
                skin_watts_per_kelvin: skin,
                ambient: celsius(30.0),
                air: Carrier { kg_per_m3: 1.16, joules_per_kg_kelvin: 1005.0 },
                cooling: Cooling::Openings(vents),
            })
        };
        if let Ok(before) = of(low, high, height, skin) {
            prop_assert!((before.by_air.watts() + before.by_skin.watts() - heat).abs() < 1e-6);
            for after in [
                of(low * more, high, height, skin),
                of(low, high * more, height, skin),
                of(low, high, height * more, skin),
                of(low, high, height, skin + more - 1.0),
            ] {
                prop_assert!(after.unwrap().rise.kelvins() <= before.rise.kelvins() * (1.0 + 1e-12));
            }
        }
    }

    /// A year keeps its books, water never goes below nothing, and drier air inside never wets more.
    #[test]
    fn a_year_keeps_its_books(
        outside in prop::collection::vec(-15.0..28.0_f64, 12),
        humidity in 0.3..0.75_f64,
        foam in 10.0..60.0_f64,
        skin in prop::sample::select(vec![0.5, 5.0, 1500.0]),
        metal: bool,
    ) {
        let mut build_up = wall(foam, 2.0, 0.1, metal);
        for section in &mut build_up.sections {
            section.layers.insert(0, Layer::known(0.0, skin));
        }
        if let Some(ribs) = &mut build_up.metal {
            ribs.first_layer = 1;
            ribs.last_layer = 1;
        }
        let wet = year(&build_up, FILMS, &months(&outside, humidity)).unwrap();
        let dry = year(&build_up, FILMS, &months(&outside, 0.6 * humidity)).unwrap();
        prop_assert_eq!(wet.len(), 2);
        for (wet, dry) in wet.iter().zip(&dry) {
            let mut stored = 0.0;
            for (_, month) in &wet.months {
                stored += month.entered_grams_per_m2 - month.left_grams_per_m2;
                prop_assert!((month.stored_grams_per_m2() - stored).abs() < 1e-6);
                prop_assert!(month.stored.iter().all(|one| one.grams_per_m2 >= 0.0));
                for node in &month.nodes {
                    prop_assert!(node.vapour_pascals <= node.saturation_pascals * (1.0 + 1e-9));
                }
            }
            prop_assert!((wet.left_grams_per_m2 - stored).abs() < 1e-6);
            if wet.begins == dry.begins {
                prop_assert!(dry.peak_grams_per_m2 <= wet.peak_grams_per_m2 + 1e-9);
            }
        }
    }
}
