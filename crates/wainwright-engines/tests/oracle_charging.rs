//! Properties of the settings on thousands of random systems: remedies tried out, monotony, honesty of
//! the diagnosis.
#![allow(clippy::expect_used, clippy::unwrap_used, reason = "test code")]

mod charging_support;

use charging_support::*;
use std::collections::BTreeMap;
use wainwright_engines::charging::System;
use wainwright_engines::charging::*;
use wainwright_units::*;

fn kinds(found: &[Conflict]) -> Vec<(ConflictKind, Place)> {
    found.iter().map(|one| (one.kind, one.place)).collect()
}

/// Every remedy removes its conflict and brings no other; there is one unless a range is empty.
#[test]
fn remedies_tried_out_on_10_000_systems() {
    let mut random_numbers = Random(20_261_125);
    let (mut tried, mut without) = (BTreeMap::<ConflictKind, usize>::new(), 0);
    for _ in 0..10_000 {
        let system = random(&mut random_numbers);
        let found = conflicts(&system).unwrap();
        let before = kinds(&found);
        let cards = cards(&system).unwrap();
        for conflict in &found {
            if conflict.remedy.is_empty() {
                assert!(has_empty_range(&cards), "{conflict:?}");
                assert!(conflict.change.is_some(), "{conflict:?}");
                without += 1;
                continue;
            }
            *tried.entry(conflict.kind).or_default() += 1;
            let mut mended = system.clone();
            for change in &conflict.remedy {
                apply(&mut mended, *change);
            }
            let after = kinds(&conflicts(&mended).unwrap());
            let own = (conflict.kind, conflict.place);
            assert!(!after.contains(&own), "{conflict:?} stays");
            let new = after.iter().find(|one| !before.contains(one));
            assert_eq!(new, None, "from {conflict:?}");
        }
    }
    println!("tried {tried:?}, without a legal value {without}");
    assert_eq!(tried.len(), 23, "every kind was met: {tried:?}");
    assert!(tried.values().all(|count| *count > 50), "{tried:?}");
}

/// All advised settings together agree, where all of them exist.
#[test]
fn adopting_all_cards_leaves_no_conflict_of_settings() {
    let mut random_numbers = Random(7);
    let mut whole = 0;
    for _ in 0..10_000 {
        let mut system = random(&mut random_numbers);
        let cards = cards(&system).unwrap();
        if has_empty_range(&cards) {
            continue;
        }
        whole += 1;
        adopt(&mut system, &cards);
        let left = conflicts(&system).unwrap();
        let of_devices = [
            ConflictKind::LoadDump,
            ConflictKind::CannotWake,
            ConflictKind::LeadAcidProfile,
            ConflictKind::NoColdLockout,
        ];
        let left: Vec<_> = left
            .iter()
            .filter(|one| !of_devices.contains(&one.kind))
            .collect();
        assert!(left.is_empty(), "{left:#?}");
    }
    assert!(whole > 1000, "{whole}");
}

fn has_empty_range(cards: &Cards) -> bool {
    let charger = |card: &ChargerCard| {
        let cold = card
            .lockout
            .as_ref()
            .is_some_and(|point| point.advised.is_none());
        cold || card.absorption.advised.is_none()
            || card.float.advised.is_none()
            || card.tail.advised.is_none()
    };
    let disconnect =
        |card: &DisconnectCard| card.off.advised.is_none() || card.on.advised.is_none();
    cards.chargers.iter().any(charger) || cards.disconnects.iter().any(disconnect)
}

/// Advice stays between its ends; both ends are among those listed, and none lies inside.
#[test]
fn advice_lies_between_the_ends_that_bind() {
    let mut random_numbers = Random(3);
    for _ in 0..2000 {
        let cards = cards(&random(&mut random_numbers)).unwrap();
        let points = cards
            .chargers
            .iter()
            .flat_map(|card| [&card.absorption, &card.float]);
        let others = cards
            .disconnects
            .iter()
            .flat_map(|card| [&card.off, &card.on]);
        for point in points.chain(others) {
            assert!(point.lows.contains(&point.low) && point.highs.contains(&point.high));
            assert!(point.lows.iter().all(|end| end.value <= point.low.value));
            assert!(point.highs.iter().all(|end| end.value >= point.high.value));
            assert_eq!(point.advised.is_none(), point.low.value > point.high.value);
            assert_eq!(point.advised.is_none(), point.change.is_some());
            assert!(point.advised.is_none_or(|advised| point.allows(advised)));
        }
    }
}

#[test]
fn more_imbalance_never_raises_absorption_nor_lowers_the_disconnect() {
    let mut random_numbers = Random(11);
    for _ in 0..300 {
        let mut system = random(&mut random_numbers);
        let (mut absorption, mut low) = (f64::INFINITY, 0.0);
        for step in 0..=60 {
            system.battery.ahead = share(0.0005 * f64::from(step));
            let cards = cards(&system).unwrap();
            let now = cards.chargers[0]
                .absorption
                .advised
                .map_or(0.0, |at| at.volts());
            assert!(now <= absorption + 1e-9, "{now} after {absorption}");
            absorption = now;
            let off = cards.disconnects[0].off.low.value.volts();
            assert!(off >= low - 1e-9, "{off} after {low}");
            low = off;
        }
    }
}

#[test]
fn thicker_wire_never_narrows_a_range() {
    let mut random_numbers = Random(13);
    for _ in 0..1000 {
        let mut system = random(&mut random_numbers);
        let width = |system: &System<'_>| {
            let cards = cards(system).unwrap();
            let wide = |point: &SetPoint<Voltage>| (point.high.value - point.low.value).volts();
            let (charger, device) = (&cards.chargers[0], &cards.disconnects[0]);
            [
                wide(&charger.absorption),
                wide(&device.off),
                wide(&charger.float),
            ]
        };
        let thin = width(&system);
        system.chargers[0].wire = system.chargers[0].wire * 0.5;
        system.disconnects[0].wire = system.disconnects[0].wire * 0.5;
        let thick = width(&system);
        for (thin, thick) in thin.into_iter().zip(thick) {
            assert!(thick >= thin - 1e-9, "{thin} to {thick}");
        }
    }
}

/// What is said to be needed when no value is legal is enough, and a hundredth less is not.
#[test]
fn thicker_wire_and_evener_cells_are_just_enough() {
    let mut random_numbers = Random(17);
    let mut met = [0, 0, 0];
    for _ in 0..10_000 {
        let system = random(&mut random_numbers);
        let before = cards(&system).unwrap();
        match before.chargers[0].absorption.change {
            Some(ToChange::WireBelow(most)) => {
                met[0] += 1;
                let with = |factor: f64| {
                    let mut other = system.clone();
                    other.chargers[0].wire = most * factor;
                    cards(&other).unwrap().chargers[0]
                        .absorption
                        .advised
                        .is_some()
                };
                assert!(with(0.999_999) && !with(1.01));
            }
            Some(ToChange::CellsWithin(most)) => {
                met[1] += 1;
                let with = |factor: f64| {
                    let mut other = system.clone();
                    other.battery.ahead = most * factor;
                    cards(&other).unwrap().chargers[0].absorption.high.value
                };
                let low = before.chargers[0].absorption.low.value;
                assert!(with(0.999) >= low && with(1.01) < low);
            }
            _ => {}
        }
        if let Some(ToChange::CurrentBelow(most)) = before.disconnects[0].off.change {
            met[2] += 1;
            let with = |factor: f64| {
                let mut other = system.clone();
                other.disconnects.truncate(1);
                other.disconnects[0].most = most * factor;
                cards(&other).unwrap().disconnects[0].off.high.value
            };
            let low = before.disconnects[0].off.low.value;
            assert!(with(0.999) >= low && with(1.01) < low, "{most:?}");
        }
    }
    assert!(met.iter().all(|count| *count > 20), "{met:?}");
}

/// A thousand readings of known causes, settings not known: how often the true cause comes first.
#[test]
fn the_true_cause_of_1000_noisy_readings() {
    let mut system = usual(0.005);
    system.chargers[0].settings = None;
    system.disconnects[0].settings = None;
    let (all, _) = share_found(&system, 1.0, 1000, 23);
    let (some, _) = share_found(&system, 0.5, 300, 29);
    println!("true cause first: {all:.3} with all readings, {some:.3} with half of them");
    // Found by chance: one in fifteen.
    assert!(all > 0.85, "{all}");
    assert!(some > 0.65, "{some}");
}

/// What is called 80 to 100 % likely is right about as often as that.
#[test]
fn probabilities_are_honest() {
    let mut system = usual(0.005);
    system.chargers[0].settings = None;
    system.disconnects[0].settings = None;
    let (_, shares) = share_found(&system, 0.3, 600, 31);
    let claimed: f64 = shares.iter().map(|(claimed, _)| claimed).sum::<f64>() / shares.len() as f64;
    let right = shares.iter().filter(|(_, right)| *right).count() as f64 / shares.len() as f64;
    println!("claimed {claimed:.3}, right {right:.3}");
    // Three standard deviations of a share of 600.
    assert!(
        (claimed - right).abs() < 3.0 * (0.25_f64 / 600.0).sqrt(),
        "{claimed} {right}"
    );
}

/// Share of true causes ranked first, and for each reading what was claimed and whether it was right.
fn share_found(system: &System<'_>, read: f64, count: usize, seed: u64) -> (f64, Vec<(f64, bool)>) {
    let bench = Bench {
        charger: 0,
        disconnect: Some(0),
    };
    let hypotheses = Hypotheses::new(system, bench).unwrap();
    let causes: Vec<Cause> = hypotheses.causes().collect();
    let mut random_numbers = Random(seed);
    let mut shares = Vec::new();
    let mut missed = BTreeMap::<(Cause, Cause), usize>::new();
    while shares.len() < count {
        let cause = causes[(random_numbers.unit() * causes.len() as f64) as usize];
        let hidden = [0; 3].map(|_| random_numbers.unit());
        let Some(levels) = hypotheses.levels(cause, hidden) else {
            continue;
        };
        let seen = read_with_noise(&levels, read, &mut random_numbers);
        let diagnosis = hypotheses.diagnose(&seen, noise()).unwrap();
        let best = &diagnosis.ranked[0];
        if best.cause != cause {
            *missed.entry((cause, best.cause)).or_default() += 1;
        }
        shares.push((best.probability.fraction(), best.cause == cause));
    }
    println!("true cause and the one ranked first: {missed:?}");
    let right = shares.iter().filter(|(_, right)| *right).count();
    (right as f64 / count as f64, shares)
}

fn read_with_noise(levels: &Levels, read: f64, random: &mut Random) -> Observation {
    let noise = noise();
    let mut pack = |level: Voltage| {
        let reading = level + noise.pack * random.normal();
        random.chance(read).then_some(reading)
    };
    let (at_charger, at_battery) = (pack(levels.at_charger), pack(levels.at_battery));
    let at_loads = pack(levels.at_loads);
    let mut cell = |level: Voltage| {
        let reading = level + noise.cell * random.normal();
        random.chance(read).then_some(reading)
    };
    let (highest_cell, lowest_cell) = (cell(levels.highest_cell), cell(levels.lowest_cell));
    let current = levels.current + noise.current * random.normal();
    let temperature = levels.temperature.celsius() + noise.kelvins * random.normal();
    let count = levels.events.len() as f64;
    let event = levels.events[(random.unit() * count) as usize];
    let wrong = random.chance(noise.wrong_event.fraction());
    Observation {
        at_charger,
        at_battery,
        highest_cell,
        lowest_cell,
        at_loads,
        current: random.chance(read).then_some(current),
        temperature: random.chance(read).then_some(celsius(temperature)),
        event: (!wrong && random.chance(0.8)).then_some(event),
    }
}

/// Nobody learns from a reading that is the same under all causes; the first advice beats the last.
#[test]
fn the_next_measurement_tells_something() {
    let system = usual(0.005);
    let bench = Bench {
        charger: 0,
        disconnect: Some(0),
    };
    let seen = Observation {
        event: Some(Event::LoadsDropOut),
        ..Observation::default()
    };
    let diagnosis = diagnose(&system, bench, &seen, noise()).unwrap();
    assert_eq!(diagnosis.next.len(), Channel::ALL.len());
    let (first, last) = (diagnosis.next[0], diagnosis.next[Channel::ALL.len() - 1]);
    assert!(
        first.bits > 0.3 && first.bits > last.bits + 0.2,
        "{:?}",
        diagnosis.next
    );
    assert_eq!(last.channel, Channel::Temperature, "{:?}", diagnosis.next);
}
