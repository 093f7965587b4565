//! Light above the air, monthly facts and distances against published and independent figures.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod rows;

use rows::{Row, rows};
use wainwright_engines::climate::*;
use wainwright_engines::sun::{Moment, Place};
use wainwright_engines::trip::SunPath;
use wainwright_engines::weather::{LightAbove, MONTH_DAYS, is_date};
use wainwright_units::*;

fn at(latitude: f64, longitude: f64, metres: f64) -> Place {
    Place {
        latitude: Angle::from_degrees(latitude),
        longitude: Angle::from_degrees(longitude),
        altitude: Length::from_metres(metres),
    }
}

fn place_of(row: &Row) -> Place {
    at(row.number("lat"), row.number("lon"), row.number("alt"))
}

fn usual() -> Usual {
    let kelvins = [4.6, 4.9, 4.4, 3.8, 3.4, 2.6, 2.2, 2.3, 2.9, 3.4, 4.0, 4.4];
    Usual {
        deviation: kelvins.map(TemperatureDifference::from_kelvins),
        memory: 0.66,
        wind: 4.0,
        lowest_deviations: 2.16,
        range_over_swing: 1.2,
        spread: YearSpread {
            usual: 0.08,
            sunny: 0.05,
            dull: 0.12,
            sunny_from: 0.62,
            dull_below: 0.42,
        },
    }
}

/// Light on the ground is clearness times OUR light above the air, in all 394 months with a sun.
///
/// The table's own light above the air was summed over hours of another year: 0.2 % and the last
/// digit of three for the quarter of a day by which years differ.
#[test]
fn light_is_clearness_times_our_light_above() {
    let mut checked = 0;
    let mut worst = (0.0_f64, String::new());
    for year in rows("climate_monthly.csv").chunks(12) {
        let above = monthly_above(place_of(&year[0])).unwrap();
        for (row, above) in year.iter().zip(above) {
            let off = above - row.number("h0_kwh");
            assert!(
                off.abs() <= 0.002 * row.number("h0_kwh") + 0.001,
                "{}",
                row.name()
            );
            let share = off.abs() / row.number("h0_kwh").max(1.0);
            if share > worst.0 {
                worst = (share, format!("{} {}", row.name(), row.text("month")));
            }
            if row.number("kt").is_nan() {
                assert!(above < 0.1);
                continue;
            }
            let light = row.number("kt") * above;
            let allowed = 0.002 * row.number("ghi_kwh") + 0.0005 * above + 0.001;
            let left = (light - row.number("ghi_kwh")).abs();
            assert!(left <= allowed, "{} {left} {allowed}", row.name());
            checked += 1;
        }
    }
    println!(
        "light above the air: worst {:.2} % at {}",
        100.0 * worst.0,
        worst.1
    );
    assert_eq!(checked, 394);
}

/// The closed form against sums of six parts an hour of the exact path of the sun, per day and
/// hour: 0.4 % of the day for the steps of the sum and the declination that stands still.
#[test]
fn closed_form_agrees_with_sums() {
    for (place, zone) in [
        (at(39.83, -104.65, 1650.0), -7.0),
        (at(-33.98, 18.6, 42.0), 2.0),
        (at(1.35, 103.98, 5.0), 8.0),
        (at(60.2, 24.9, 10.0), 2.0),
    ] {
        for (month, day) in [(1, 15), (3, 20), (6, 21), (9, 1), (12, 22)] {
            let midnight = Moment::from_utc(2026, month, day, -zone).unwrap();
            let path = SunPath::new(place, midnight, 1).unwrap();
            let light = LightAbove::new(place, zone, month, day).unwrap();
            let sum: f64 = path.above().iter().sum();
            assert!((light.day() - sum).abs() < 0.004 * sum, "{month} {day}");
            let hours: f64 = (0..24).map(|hour| light.hour(hour)).sum();
            assert!((hours - light.day()).abs() < 1e-9 * sum + 1e-9);
            for (hour, expected) in (0..24).zip(&path.days()[0]) {
                let off = light.hour(hour) - expected.above;
                // A part of an hour at sunrise, at most 12° of height.
                assert!(off.abs() < 0.004 * sum + 6.0, "{month} {day} {hour} {off}");
            }
        }
    }
}

#[test]
fn the_sun_that_does_not_set_or_rise() {
    let north = at(71.3, -156.8, 10.0);
    let winter = LightAbove::new(north, -9.0, 12, 22).unwrap();
    assert_eq!(winter.day(), 0.0);
    let summer = LightAbove::new(north, -9.0, 6, 21).unwrap();
    assert!((0..24).all(|hour| summer.hour(hour) > 0.0));
    for pole in [90.0, -90.0] {
        let light = LightAbove::new(at(pole, 0.0, 0.0), 0.0, 6, 21).unwrap();
        assert_eq!(light.day() > 0.0, pole > 0.0);
    }
    assert!(LightAbove::new(at(40.0, 0.0, 0.0), 0.0, 2, 29).is_ok());
    assert!(LightAbove::new(at(40.0, 0.0, 0.0), 0.0, 2, 30).is_err());
    assert!(is_date(2, 29) && !is_date(0, 1) && !is_date(13, 1) && !is_date(4, 31));
    assert_eq!(MONTH_DAYS.iter().sum::<u32>(), 365);
}

/// The usual example of the haversine: 36.12° N 86.67° W to 33.94° N 118.40° W is 2887.26 km on a
/// sphere of 6372.8 km (memory), which is 0.453 of its radius.
#[test]
fn distance_on_the_sphere() {
    let metres = distance(at(36.12, -86.67, 0.0), at(33.94, -118.4, 0.0)).metres();
    let expected = 2_887_259.95 / 6_372_800.0 * 6_371_008.8;
    assert!((metres - expected).abs() < 1.0, "{metres} {expected}");
    let half = distance(at(0.0, 0.0, 0.0), at(0.0, 180.0, 0.0)).metres();
    assert!((half - std::f64::consts::PI * 6_371_008.8).abs() < 1.0);
}

#[test]
fn the_nearest_place_that_is_not_on_a_mountain() {
    let listed = [
        at(40.0, -105.0, 3000.0),
        at(41.0, -104.0, 1800.0),
        at(30.0, -90.0, 5.0),
    ];
    let climb = Length::from_metres(500.0);
    let near = nearest(at(40.0, -105.0, 1650.0), &listed, climb).unwrap();
    assert_eq!(near.index, 1);
    assert_eq!(near.higher, Length::from_metres(150.0));
    assert!((near.distance.metres() - 139_800.0).abs() < 1_000.0);
    assert_eq!(nearest(at(0.0, 0.0, 8000.0), &listed, climb), None);
    assert_eq!(nearest(at(f64::NAN, 0.0, 0.0), &listed, climb), None);
    assert_eq!(nearest(at(0.0, 0.0, 0.0), &[], climb), None);
}

/// Typed light and typed clearness are the same months; typed temperatures give their light.
#[test]
fn twelve_typed_numbers() {
    let place = at(39.83, -104.65, 1650.0);
    let clearness = [
        0.578, 0.544, 0.596, 0.492, 0.572, 0.627, 0.597, 0.592, 0.618, 0.578, 0.529, 0.35,
    ];
    let mean = [
        0.0, 1.0, 4.0, 9.0, 14.0, 20.0, 24.0, 23.0, 18.0, 11.0, 4.0, 0.0,
    ]
    .map(Temperature::from_celsius);
    let swing = TemperatureDifference::from_kelvins(16.0);
    let typed = TypedYear {
        light: Light::Clearness(clearness),
        mean,
        extremes: Some(mean.map(|mean| (mean - swing / 2.0, mean + swing / 2.0))),
        wind: Some(3.0),
    };
    let one = from_typed(&typed, place, &usual()).unwrap();
    let global = one.months.map(|month| month.global);
    let by_light = TypedYear {
        light: Light::Global(global),
        ..typed
    };
    let other = from_typed(&by_light, place, &usual()).unwrap();
    for (a, b) in one.months.iter().zip(other.months) {
        assert!((a.clearness - b.clearness).abs() < 1e-12);
        assert_eq!((a.swing, a.wind, b.basis), (swing, 3.0, Basis::Typed));
    }
    // Sunny June, usual January, dull December.
    let spreads = [5, 0, 11].map(|at: usize| one.months[at].spread);
    assert_eq!(spreads, [0.05, 0.08, 0.12]);
    let light = Light::FromSwing {
        factor: 0.16,
        error: 0.064,
    };
    let by_swing = from_typed(&TypedYear { light, ..typed }, place, &usual()).unwrap();
    for month in by_swing.months {
        // 0.16 times the root of 16 K.
        assert!((month.clearness - 0.64).abs() < 1e-12);
        assert_eq!(
            (month.basis, month.clearness_error),
            (Basis::Temperatures, 0.064)
        );
    }
    let bare = TypedYear {
        extremes: None,
        wind: None,
        ..typed
    };
    let months = from_typed(&bare, place, &usual()).unwrap().months;
    // (25.8 · 0.578 − 5.21) · 1.2, and low − 2.16 deviations of January.
    assert!((months[0].swing.kelvins() - 11.643).abs() < 0.001);
    assert!((months[0].lowest.celsius() + 11.643 / 2.0 + 2.16 * 4.6).abs() < 0.001);
    assert_eq!(months[0].wind, 4.0);
    let south = from_typed(&bare, at(-40.0, 0.0, 0.0), &usual()).unwrap();
    assert_eq!(south.months[0].anomaly.deviation.kelvins(), 2.2);
}

#[test]
fn nonsense_is_refused_with_its_month() {
    let place = at(40.0, -105.0, 1650.0);
    let mean = [Temperature::from_celsius(10.0); 12];
    let mut numbers = [0.5; 12];
    numbers[6] = 5.1;
    let typed = |light| TypedYear {
        light,
        mean,
        extremes: None,
        wind: None,
    };
    let said =
        |typed: &TypedYear, place| from_typed(typed, place, &usual()).unwrap_err().to_string();
    let text = said(&typed(Light::Clearness(numbers)), place);
    assert!(text.starts_with("month 7: clearness is 5.1"), "{text}");
    let text = said(&typed(Light::Global([12.5; 12])), place);
    assert!(text.starts_with("month 1: light"), "{text}");
    let light = Light::FromSwing {
        factor: 0.16,
        error: 0.064,
    };
    let text = said(&typed(light), place);
    assert!(text.contains("daily range"), "{text}");
    let text = said(&typed(Light::Clearness([0.5; 12])), at(95.0, 0.0, 0.0));
    assert!(text.contains("latitude"), "{text}");
    let cold = TypedYear {
        mean: [Temperature::from_celsius(f64::NAN); 12],
        ..typed(Light::Clearness([0.5; 12]))
    };
    assert!(said(&cold, place).contains("mean temperature"));
    let nothing = [MonthFacts::default(); 12];
    assert!(from_facts(&nothing, place, &usual()).is_err());
}

/// Places with the sea or a great lake within 20 km of the airport, from the map.
const COAST: &[&str] = &[
    "Los Angeles",
    "San Francisco",
    "Miami",
    "Tampa",
    "Honolulu",
    "New York",
    "Cape May",
    "Andersen",
];

/// Light from temperatures over the listed places: bias 0.000, deviation 0.064 printed, over 384
/// months (all but the Arctic). Which places count as coast is not said: they were read off a map,
/// once, and give the print to its last digit.
#[test]
fn clearness_from_temperatures() {
    let all = rows("climate_monthly.csv");
    let kept = all
        .iter()
        .filter(|row| !row.text("city").starts_with("Barrow"));
    let mut off = Vec::new();
    for row in kept {
        let coast = COAST.iter().any(|name| row.text("city").starts_with(name));
        let factor = if coast { 0.19 } else { 0.16 };
        let range = row.number("tmax") - row.number("tmin");
        off.push(factor * range.sqrt() - row.number("kt"));
    }
    assert_eq!(off.len(), 384);
    let bias = off.iter().sum::<f64>() / 384.0;
    let deviation = (off.iter().map(|x| x * x).sum::<f64>() / 384.0).sqrt();
    println!("clearness from temperatures: bias {bias:.4}, deviation {deviation:.4}");
    assert!(
        bias.abs() < 0.0005 && (deviation - 0.064).abs() < 0.0005,
        "{bias} {deviation}"
    );
}

/// The swing that follows from clearness, over all months: 8.33 K printed; the daily ranges of the
/// same months are a fifth wider than the swing of the mean day (8.37 K printed).
#[test]
fn swing_from_clearness() {
    let all = rows("climate_monthly.csv");
    let lit: Vec<&Row> = all
        .iter()
        .filter(|row| !row.number("kt").is_nan())
        .collect();
    let count = lit.len() as f64;
    let swing = lit
        .iter()
        .map(|row| wainwright_engines::weather::estimated_swing(row.number("kt")).kelvins())
        .sum::<f64>()
        / count;
    let range = lit
        .iter()
        .map(|row| row.number("tmax") - row.number("tmin"))
        .sum::<f64>()
        / count;
    println!("swing {swing:.3} K, daily range {range:.3} K, over {count} months");
    // Which of the 396 months the print leaves out is not said: the Arctic alone makes 0.1.
    assert!((swing - 8.33).abs() < 0.1, "{swing}");
    assert!((range / 8.37 - 1.2).abs() < 0.01, "{range}");
}

/// Every listed place makes twelve months whose light is the table's, in the dark too.
#[test]
fn every_listed_place_makes_months() {
    let mut dark = 0;
    for year in rows("climate_monthly.csv").chunks(12) {
        let known = |value: f64| (!value.is_nan()).then_some(value);
        let celsius =
            |row: &Row, column: &str| known(row.number(column)).map(Temperature::from_celsius);
        let mut facts = [MonthFacts::default(); 12];
        for (facts, row) in facts.iter_mut().zip(year) {
            *facts = MonthFacts {
                clearness: known(row.number("kt")),
                mean: celsius(row, "tmean"),
                low: celsius(row, "tmin"),
                high: celsius(row, "tmax"),
                deviation: known(row.number("tsd")).map(TemperatureDifference::from_kelvins),
                lowest: celsius(row, "tlow"),
                wind: known(row.number("wind")),
                ..MonthFacts::default()
            };
        }
        let months = from_facts(&facts, place_of(&year[0]), &usual()).unwrap();
        for (month, row) in months.months.iter().zip(year) {
            if month.basis == Basis::Dark {
                dark += 1;
                assert!(row.text("city").starts_with("Barrow") && month.global < 0.05);
                continue;
            }
            let off = (month.global - row.number("ghi_kwh")).abs();
            assert!(
                off < 0.0025 * row.number("ghi_kwh") + 0.007,
                "{} {off}",
                row.name()
            );
            let range = row.number("tmax") - row.number("tmin");
            assert!((month.swing.kelvins() - range).abs() < 1e-9);
            assert_eq!(month.lowest.celsius(), row.number("tlow"));
            assert_eq!(month.anomaly.memory, 0.66);
            let trips = month.for_trips(&[]);
            assert_eq!(
                (trips.clearness, trips.swing),
                (month.clearness, month.swing)
            );
        }
    }
    assert_eq!(dark, 3, "January, November and December of the Arctic");
}
