//! Sources, heaters, seasons, bands and shares of trips, against cases worked out by hand.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod campers;
mod rows;

use campers::{ALL_OF_IT, camper, celsius, hour, lossless, share, start, watts};
use rows::chains;
use wainwright_engines::battery::*;
use wainwright_engines::solar_power::*;
use wainwright_engines::sun::{Glass, Moment, Orientation, Place};
use wainwright_engines::trip::*;
use wainwright_engines::weather::{DailyAnomaly, Randomness, estimated_swing};
use wainwright_units::*;

fn volts(value: f64) -> Voltage {
    Voltage::from_volts(value)
}

fn amperes(value: f64) -> Current {
    Current::from_amperes(value)
}

fn near(energy: Energy, expected: f64) {
    assert!(
        (energy.watt_hours() - expected).abs() < 1e-9,
        "{energy:?} {expected}"
    );
}

/// V (Vs − V) / R: 13 V through 0.4 Ω gives 105.6 W at half the voltage, 13·12 − 12² over 0.4 =
/// 30 W when the charger needs 12 V, nothing when it needs 13.5 V.
#[test]
fn a_thin_wire_limits_the_charger() {
    let line = |least: f64| Line {
        source: volts(13.0),
        resistance: Resistance::from_ohms(0.4),
        least: volts(least),
    };
    assert!((line(5.0).most_power().watts() - 105.625).abs() < 1e-9);
    assert!((line(12.0).most_power().watts() - 30.0).abs() < 1e-9);
    assert_eq!(line(13.5).most_power(), Power::ZERO);
    // No voltage above the least gives more.
    for step in 0..=100 {
        let at = 12.0 + f64::from(step) / 100.0;
        assert!(at * (13.0 - at) / 0.4 <= 30.0 + 1e-9);
    }
    let loads = [Load::steady(Law::Fixed(watts(100.0)))];
    let camper = Camper {
        solar: &[],
        alternator: Some(Charger {
            line: Some(line(12.0)),
            ..Charger::of(watts(250.0), share(0.9))
        }),
        ..camper(lossless(1000.0), &loads)
    };
    let driving = Hour {
        driving: true,
        ..hour(9, 0.0)
    };
    let trip = simulate(&camper, start(0.5), &[driving, hour(10, 0.0)]).unwrap();
    near(trip.totals.alternator, 27.0);
    near(trip.totals.alternator_input, 30.0);
    near(trip.totals.stored, 27.0 - 200.0);
}

/// 20 A at 14.2 V from 12 V at 90 % take 26.3 A, one decimal printed.
#[test]
fn a_converter_takes_more_current_than_it_gives() {
    let charger = Charger {
        current: amperes(20.0),
        ..Charger::of(watts(400.0), share(0.9))
    };
    let given = charger.reach().at(volts(14.2)).watts();
    assert!((given / 0.9 / 12.0 - 26.3).abs() < 0.05);
}

/// Of two set points the higher one gives first: at 10 V, 1 Ah a percent and 10 mΩ.
///
/// The shore holds 10.4 V, the sun 10.2 V. From 10 V open and 100 mΩ the sun alone would push 2 A
/// (20.4 W), the shore 4 A (41.6 W). With 15 W of shore, its 1.44 A leave room for the sun up to
/// 2 A at 10.2 V; with 30 W of shore the terminals are above 10.2 V and the sun gives nothing.
#[test]
fn the_higher_set_point_gives_first() {
    let field = [Solar {
        absorption: volts(10.2),
        ..ALL_OF_IT[0]
    }];
    let shore = |power: f64| {
        Some(Charger {
            absorption: volts(10.4),
            ..Charger::of(watts(power), Ratio::ONE)
        })
    };
    let now = Hour {
        shore: true,
        ..hour(12, 500.0)
    };
    let run = |power: f64| {
        let camper = Camper {
            solar: &field,
            shore: shore(power),
            pack: Pack {
                connections: Resistance::from_ohms(0.1),
                ..lossless(10_000.0)
            },
            ..camper(lossless(1.0), &[])
        };
        let (_, all) = simulate_hours(&camper, start(0.5), &[now]).unwrap();
        let fast = Prepared::new(&camper).unwrap();
        assert_eq!(
            fast.simulate(start(0.5), &[now]).unwrap().totals.fields[0],
            all[0].fields[0]
        );
        all[0]
    };
    let both = run(15.0);
    near(both.shore, 15.0);
    near(both.fields[0], 2.0 * 10.2 - 15.0);
    assert!((both.current.amperes() - 2.0).abs() < 1e-9);
    let alone = run(30.0);
    near(alone.shore, 30.0);
    near(alone.fields[0], 0.0);
    near(alone.spilled, 500.0);
    let held = run(100.0);
    near(held.shore, 4.0 * 10.4);
}

/// Four fields with controllers of their own: current limit, wire loss, a switching controller, own
/// draw; at 10 V.
#[test]
fn four_fields_each_by_itself() {
    let tracking = |efficiency: f64, own: f64, most: f64| Controller::Tracking {
        efficiency: share(efficiency),
        own: watts(own),
        most: amperes(most),
    };
    let field = |controller, left: f64| Solar {
        controller,
        left: share(left),
        ..ALL_OF_IT[0]
    };
    let fields = [
        field(tracking(0.95, 0.0, 10.0), 1.0),
        field(tracking(0.95, 0.0, 100.0), 0.97),
        field(
            Controller::Switching {
                short_circuit: amperes(6.0),
                most: amperes(10.0),
            },
            1.0,
        ),
        field(tracking(1.0, 2.0, 100.0), 1.0),
    ];
    let camper = Camper {
        solar: &fields,
        ..camper(lossless(100_000.0), &[])
    };
    let mut now = hour(12, 0.0);
    now.panel = [200.0, 200.0, 100.0, 50.0].map(watts);
    now.light = [800.0; 4];
    let (_, all) = simulate_hours(&camper, start(0.5), &[now]).unwrap();
    // 190 W is more than 10 A at 10 V; 200 · 0.95 · 0.97; 6 A · 0.8 · 10 V; 50 − 2.
    for (given, expected) in all[0].fields.iter().zip([100.0, 184.3, 48.0, 48.0]) {
        near(*given, expected);
    }
    let five = [ALL_OF_IT[0]; 5];
    let too_many = Camper {
        solar: &five,
        ..camper
    };
    for error in [
        simulate(&too_many, start(0.5), &[now]).map(|_| ()),
        Prepared::new(&too_many).map(|_| ()),
    ] {
        assert!(matches!(error, Err(TripError::Input { hour: 0, .. })));
    }
}

/// 30 K in a camper of 50 W/K need three quarters of a heater of 2 kW: 0.24 L an hour of running are
/// 0.18 L, 0.12 L a kilowatt-hour too. From half a litre two hours and 7/9 of the third.
#[test]
fn heaters_stop_without_fuel() {
    let laws = [
        Burn::PerHour {
            running: Volume::from_litres(0.24),
        },
        Burn::PerHeat {
            litres_per_kwh: 0.12,
        },
    ];
    for burns in laws {
        let loads = [
            Load::steady(Law::Heater {
                electric: watts(20.0),
                heat: watts(2000.0),
                watts_per_kelvin: 50.0,
                keeps: celsius(18.0),
                burns,
            }),
            Load::steady(Law::Fixed(watts(5.0))),
        ];
        let camper = Camper {
            fuel_tank: Volume::from_litres(10.0),
            ..camper(lossless(1000.0), &loads)
        };
        let begin = Start {
            fuel: Volume::from_litres(0.5),
            ..start(1.0)
        };
        let hours = [Hour {
            air: celsius(-12.0),
            ..hour(0, 0.0)
        }; 5];
        let (trip, all) = simulate_hours(&camper, begin, &hours).unwrap();
        for (hour, wanted) in all
            .iter()
            .zip([20.0, 20.0, 5.0 + 15.0 * 7.0 / 9.0, 5.0, 5.0])
        {
            near(hour.wanted, wanted);
        }
        assert!((all[0].fuel.litres() - 0.32).abs() < 1e-12);
        near(loads[0].energy(&hours[2], &all[2]), 15.0 * 7.0 / 9.0);
        near(loads[1].energy(&hours[2], &all[2]), 5.0);
        assert_eq!(trip.first_cold, Some(2));
        assert!((trip.totals.fuel_used.litres() - 0.5).abs() < 1e-12);
        assert!((trip.totals.fuel_missing.litres() - 0.4).abs() < 1e-12);
        // Cut off for half an hour, it burns half: 20 W from 10 Wh.
        let begin = Start {
            charge: share(0.01),
            ..begin
        };
        let trip = simulate(&camper, begin, &hours[..1]).unwrap();
        assert!((trip.totals.fuel_used.litres() - 0.09).abs() < 1e-12);
    }
}

/// Cycles and means for the ageing constants: 100 W for five hours of a kilowatt-hour, then back.
#[test]
fn use_of_the_battery() {
    let loads = [Load::steady(Law::Fixed(watts(100.0)))];
    let camper = camper(lossless(1000.0), &loads);
    let hours: Vec<Hour> = (0..10)
        .map(|at| hour(at, if at < 5 { 0.0 } else { 200.0 }))
        .collect();
    let trip = simulate(&camper, start(1.0), &hours).unwrap();
    assert!((trip.cycles - 0.5).abs() < 1e-12);
    assert!((trip.mean_charge.fraction() - 0.75).abs() < 1e-12);
    assert!((trip.mean_cell.celsius() - 20.0).abs() < 1e-12);
    let day = Duration::from_hours(8766.0);
    let lost = CalendarAgeing::IRON_PHOSPHATE.loss(share(0.5), celsius(25.0), day);
    assert!((lost.percent() - 4.2).abs() < 0.06);
    let used = CycleAgeing::IRON_PHOSPHATE.loss(0.2, share(0.6), 200.0);
    assert!((used.percent() - 1.69).abs() < 5e-3);
}

/// A trip from three in the afternoon has the weather of the same days from there on, the shadow on
/// a field's part takes its share of power and none of the light, and the plan is in the hours.
#[test]
fn seasons_start_when_the_trip_starts() {
    let place = Place {
        latitude: Angle::from_degrees(39.74),
        longitude: Angle::from_degrees(-105.18),
        altitude: Length::from_metres(1829.0),
    };
    let midnight = Moment::from_utc(2026, 10, 5, 7.0).unwrap();
    let path = SunPath::new(place, midnight, 3).unwrap();
    let chains = chains();
    let climate = Climate {
        chains: &chains,
        clearness: 0.6,
        spread: 0.08,
        mean: celsius(10.0),
        anomaly: DailyAnomaly {
            memory: 0.66,
            deviation: TemperatureDifference::from_kelvins(3.5),
        },
        swing: estimated_swing(0.6),
        wind: 1.0,
    };
    let whole = Panels {
        orientation: Orientation {
            tilt: Angle::ZERO,
            azimuth: Angle::from_degrees(180.0),
        },
        module: Module {
            rated: watts(200.0),
            per_kelvin: -0.0035,
            dim_loss: 0.01,
        },
        mounting: Mounting {
            still: 20.0,
            by_wind: 3.0,
        },
        glass: Glass::MartinRuiz { coefficient: 0.16 },
        ground: share(0.2),
        shade: ShadeBlocks::even(Ratio::ONE),
        partial: ShadeBlocks::even(Ratio::ONE),
    };
    let mut shadowed = whole;
    shadowed.partial.0[6] = share(0.65);
    let fields = [whole, shadowed];
    let all = made_up_hours(&path, &climate, &fields, &mut Randomness::new(8, 3));
    let mut happenings = [Happening::default(); 40];
    happenings[2].driving = true;
    happenings[30].tap = true;
    let schedule = Schedule {
        first_hour: 15,
        hours: &happenings,
    };
    let season = Season::new(&path, climate, &fields);
    let hours = season.hours(&schedule, &mut Randomness::new(8, 3));
    assert_eq!(hours.len(), 40);
    for (at, hour) in hours.iter().enumerate() {
        let expected = Hour {
            driving: at == 2,
            tap: at == 30,
            ..all[15 + at]
        };
        assert_eq!(*hour, expected);
        assert_eq!(hour.hour_of_day as usize, (15 + at) % 24);
        let left = if (12..14).contains(&hour.hour_of_day) {
            0.65
        } else {
            1.0
        };
        let [whole, shadowed, ..] = hour.panel.map(Power::watts);
        assert!((shadowed - left * whole).abs() < 1e-9);
        assert_eq!(hour.light[0], hour.light[1]);
    }
    assert!(hours.iter().any(|hour| hour.panel[0] > watts(50.0)));
    // The path of three days ends nine hours before a schedule of 66 hours from 15 h.
    let long = [Happening::default(); 66];
    let schedule = Schedule {
        first_hour: 15,
        hours: &long,
    };
    let hours = season.hours(&schedule, &mut Randomness::new(8, 3));
    assert_eq!(hours.len(), 57);
}

/// Bands are the spread of each hour's values; hours and trips without a value are left out.
#[test]
fn bands_by_the_hour() {
    let mut bands = Bands::new(101, 3);
    for trip in 0..101 {
        bands.set(trip, 0, trip as f64);
        if trip < 11 {
            bands.set(trip, 1, 0.5 * trip as f64);
        }
    }
    bands.set(101, 0, 1e9);
    bands.set(0, 3, 1e9);
    let by_hour = bands.by_hour();
    assert_eq!(by_hour[0], [10.0, 50.0, 90.0]);
    assert_eq!(Some(by_hour[0]), spread((0..101).map(f64::from).collect()));
    assert_eq!(by_hour[1], [0.5, 2.5, 4.5]);
    assert!(by_hour[2].iter().all(|value| value.is_nan()));
}
