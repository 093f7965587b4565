//! Short circuits worked by hand against the fault study.
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod fuses;
mod wires;

use fuses::*;
use wainwright_engines::conductor_heat::{self, Surroundings};
use wainwright_engines::faults::*;
use wainwright_engines::network::{Branch, Network};
use wainwright_units::*;
use wires::{amperes, awg, celsius, close};

fn network(node_count: usize, branches: Vec<Branch>) -> Network {
    Network {
        node_count,
        ground: 0,
        branches,
    }
}

fn case(from: usize) -> FaultCase {
    FaultCase {
        place: 1,
        from,
        to: 0,
        bridge: Resistance::from_ohms(0.0),
    }
}

/// A PVC wire that starts at 70 °C and may reach 160 °C (IEC 60364-4-43).
fn pvc(branch: usize, name: &str) -> Withstand {
    Withstand {
        branch,
        build: awg(name),
        surroundings: Surroundings::Open,
        ambient: celsius(30.0),
        start: celsius(70.0),
        insulation_limit: celsius(105.0),
        short_limit: celsius(160.0),
    }
}

/// Both ends are studied with the same network; the outcome is that of the largest.
fn one(net: &Network, devices: &[Device], wires: &[Withstand], case: FaultCase) -> Outcome {
    let study = study(net, net, devices, wires, &[case]).expect("sound plant");
    let found = study.cases.into_iter().next().expect("one case");
    assert_eq!(found.largest, found.smallest);
    assert_eq!(found.place, 1);
    found.largest
}

/// Battery 13.2 V 5 mΩ – large blade 60 A – feed – medium blade 15 A – 14 AWG – fault.
/// `rest` [Ω] completes the loop.
fn chain(feed: f64, wire: f64) -> (Network, Vec<Device>, Vec<Withstand>) {
    let net = network(
        6,
        vec![
            source(1, 0, 13.2, 0.005),
            resistor(1, 2, 0.001),
            resistor(2, 3, feed),
            resistor(3, 4, 0.0048),
            resistor(4, 5, wire),
        ],
    );
    let devices = vec![
        device(1, 60.0, large_blade(), 1000.0),
        device(3, 15.0, medium_blade(), 1000.0),
    ];
    (net, devices, vec![pvc(4, "14"), pvc(2, "6")])
}

/// 13.2 V over 107.3 mΩ = 123.02 A, 8.2 times 15 A: opens within 0.1 s; the 60 A blade sees 2.05 times and
/// holds for 1.8 s. I²t ≤ 123.02² · 0.1 = 1513 A²s; 14 AWG PVC withstands 5.74e4 (1 %: three digits).
#[test]
fn branch_fuse_opens_first() {
    let (net, devices, wires) = chain(0.0118, 0.0847);
    let found = one(&net, &devices, &wires, case(5));
    assert!(
        (found.current.amperes() - 123.02).abs() < 0.01,
        "{:?}",
        found.current
    );
    assert_eq!(found.paths.len(), 1);
    let path = &found.paths[0];
    assert_eq!(path.sources, [0]);
    assert_eq!(
        path.devices
            .iter()
            .map(|duty| duty.device)
            .collect::<Vec<_>>(),
        [1, 0]
    );
    assert_eq!(path.selectivity, Selectivity::Proven);
    assert_eq!(path.devices[0].above_interrupt, Some(false));
    assert_eq!(found.openings.len(), 1);
    assert_eq!(found.openings[0].device, 1);
    assert!(found.may_open_too.is_empty());
    let Clearing::Cleared { earliest, latest } = found.clearing else {
        panic!("{:?}", found.clearing)
    };
    assert_eq!(latest.seconds(), 0.1);
    // 8.2013 times: 0.02 s · (6/8.2013)².
    assert!(close(earliest.seconds(), 0.010_704, 1e-3), "{earliest:?}");
    let stress = &found.stresses[0];
    assert!(close(stress.let_through, 1513.4, 1e-3) && close(stress.withstand, 5.74e4, 0.01));
    assert!(stress.survives && stress.basis == Basis::Adiabatic);
    // (234.5 + 70) · exp(1513.4/(226 · 2.081)²) − 234.5.
    assert!(
        (stress.hottest.celsius() - 72.09).abs() < 0.02,
        "{stress:?}"
    );
    assert!(found.stresses[1].survives);
}

/// The same devices at 600 A, ten times the large blade's rating: 0.1 s against 0.04·(6/10)² = 0.0144 s.
#[test]
fn selectivity_not_provable_near_the_battery() {
    let (net, devices, wires) = chain(0.001, 0.0102);
    let found = one(&net, &devices, &wires, case(5));
    assert!((found.current.amperes() - 600.0).abs() < 0.01);
    assert_eq!(
        found.paths[0].selectivity,
        Selectivity::NotProven { upstream: 0 }
    );
    assert_eq!(found.may_open_too, [0]);
    // 600² · 0.1 = 36000 A²s is still below 5.74e4.
    assert!(found.stresses[0].survives && close(found.stresses[0].let_through, 36_000.0, 1e-6));
}

/// Bolted battery shorts, 13.2 V: 20, 5, 2 mΩ give 660, 2640, 6600 A; with 1.05 · 12.8 V and 0.9 · R 747,
/// 2987, 7467 A (IEC 61660-1, factors from memory). Which devices can interrupt the 5 mΩ one.
#[test]
fn battery_shorts() {
    for (milliohms, plain, strong) in [
        (20.0, 660.0, 747.0),
        (5.0, 2640.0, 2987.0),
        (2.0, 6600.0, 7467.0),
    ] {
        let net = |volts, factor| network(2, vec![source(1, 0, volts, factor * milliohms * 1e-3)]);
        let study = study(
            &net(1.05 * 12.8, 0.9),
            &net(13.2, 1.0),
            &[],
            &[],
            &[case(1)],
        )
        .unwrap();
        let found = &study.cases[0];
        assert!((found.largest.current.amperes() - strong).abs() < 0.5);
        assert!((found.smallest.current.amperes() - plain).abs() < 0.5);
        assert_eq!(found.largest.paths[0].selectivity, Selectivity::Unprotected);
        assert!(matches!(found.largest.clearing, Clearing::Never { .. }));
    }
    for (interrupt, above) in [(1000.0, true), (2000.0, true), (20_000.0, false)] {
        let net = network(3, vec![source(1, 0, 13.2, 0.005), resistor(1, 2, 1e-9)]);
        let fuse = device(1, 100.0, large_blade(), interrupt);
        let found = one(&net, &[fuse], &[], case(2));
        assert_eq!(found.paths[0].devices[0].above_interrupt, Some(above));
        assert_eq!(found.openings[0].above_interrupt, Some(above));
    }
}

/// At 14 V a loop of 14 mΩ keeps the current of a 1 kA blade inside its rating; a little less does not.
#[test]
fn least_loop_for_a_blade() {
    for (loop_ohms, above) in [(0.014_001, false), (0.013_99, true)] {
        let net = network(
            3,
            vec![source(1, 0, 14.0, 0.004), resistor(1, 2, loop_ohms - 0.004)],
        );
        let found = one(
            &net,
            &[device(1, 30.0, medium_blade(), 1000.0)],
            &[],
            case(2),
        );
        assert_eq!(
            found.paths[0].devices[0].above_interrupt,
            Some(above),
            "{loop_ohms}"
        );
    }
}

/// Two equal batteries, each 13.2 V 10 mΩ through its own blade (100 A and 50 A), into a cable of 10 mΩ.
/// By hand: 880 A, 440 A each. The 50 A blade (8.8 times) opens by 0.1 s. The other (4.4 times, latest
/// 0.2525 s) has then melted by 0.396; alone it carries 660 A (6.6 times, latest 0.1 s) and needs 0.0604 s
/// more. I²t of the cable 880² · 0.1 + 660² · 0.0604 = 1.037e5 A²s. 0.2 %: four digits.
#[test]
fn two_batteries() {
    let net = network(
        5,
        vec![
            source(1, 0, 13.2, 0.009),
            source(2, 0, 13.2, 0.009),
            resistor(1, 3, 0.001),
            resistor(2, 3, 0.001),
            resistor(3, 4, 0.010),
        ],
    );
    let devices = [
        device(2, 100.0, medium_blade(), 1000.0),
        device(3, 50.0, medium_blade(), 1000.0),
    ];
    let found = one(&net, &devices, &[pvc(4, "10")], case(4));
    assert!((found.current.amperes() - 880.0).abs() < 0.01);
    assert_eq!(found.paths.len(), 2);
    assert!(
        found
            .paths
            .iter()
            .all(|path| path.selectivity == Selectivity::Single)
    );
    let order: Vec<usize> = found
        .openings
        .iter()
        .map(|opening| opening.device)
        .collect();
    assert_eq!(order, [1, 0]);
    assert!((found.openings[1].current.amperes() - 660.0).abs() < 0.01);
    let Clearing::Cleared { latest, .. } = found.clearing else {
        panic!("{:?}", found.clearing)
    };
    assert!(close(found.openings[0].latest.seconds(), 0.1, 1e-9));
    assert!(
        close(found.openings[1].latest.seconds(), 0.1604, 0.002),
        "{latest:?}"
    );
    let stress = &found.stresses[0];
    assert!(stress.let_through >= 1.037e5 * 0.998, "{stress:?}");
    // Early 50 A blade: 0.02·(6/8.8)² = 0.0093 s at 880 A, melted by 0.0368, then 0.0963 s at 660 A: less.
    assert!(close(stress.let_through, 1.037e5, 0.002), "{stress:?}");
}

/// A poor short through 14 AWG behind a 20 A blade. 24 A: nothing promises that it opens; 18 A: it never does.
/// The wire settles where the heat engine says that it settles.
#[test]
fn shorts_that_stay() {
    for (amps, uncertain) in [(24.0, true), (18.0, false)] {
        let net = network(
            3,
            vec![source(1, 0, 13.2, 0.01), resistor(1, 2, 13.2 / amps - 0.01)],
        );
        let found = one(
            &net,
            &[device(1, 20.0, medium_blade(), 1000.0)],
            &[pvc(1, "14")],
            case(2),
        );
        assert_eq!(
            matches!(found.clearing, Clearing::Uncertain { .. }),
            uncertain
        );
        assert_eq!(matches!(found.clearing, Clearing::Never { .. }), !uncertain);
        let stress = &found.stresses[0];
        assert!(stress.basis == Basis::Settled && stress.lasts.is_none());
        // By hand 14 AWG settles at 60 °C with 24 A in 30 °C (33 CFR 183.425 comparison): below 70 °C, where
        // it started, so the start stays its hottest moment.
        assert_eq!(stress.hottest.celsius(), 70.0);
        assert!(stress.survives && !stress.melts);
    }
}

/// Nothing in the way: 660 A through 14 AWG for ever melts it.
#[test]
fn unprotected_wire_melts() {
    let net = network(3, vec![source(1, 0, 13.2, 0.01), resistor(1, 2, 0.01)]);
    let found = one(&net, &[], &[pvc(1, "14")], case(2));
    assert_eq!(found.paths[0].selectivity, Selectivity::Unprotected);
    assert!(matches!(found.clearing, Clearing::Never { .. }));
    let stress = &found.stresses[0];
    assert!(stress.melts && !stress.survives && stress.let_through == f64::INFINITY);
}

/// No source: no current, no path. A device that recloses: the fault comes back.
#[test]
fn dead_and_returning() {
    let net = network(3, vec![source(1, 0, 13.2, 0.01), resistor(2, 0, 0.01)]);
    let found = one(&net, &[], &[], case(2));
    assert_eq!(found.clearing, Clearing::NoCurrent);
    assert!(found.paths.is_empty() && found.stresses.is_empty());
    let net = network(3, vec![source(1, 0, 13.2, 0.01), resistor(1, 2, 0.09)]);
    let mut breaker = device(1, 20.0, medium_blade(), 1000.0);
    assert!(!one(&net, std::slice::from_ref(&breaker), &[], case(2)).comes_back);
    breaker.recloses = true;
    assert!(one(&net, &[breaker], &[], case(2)).comes_back);
}

/// 15 A blade, 14 AWG from 70 °C. Up to 123 A the most energy is let through at twice the rating, 30² · 5 =
/// 4500 A²s: (234.5 + 70) · exp(4500/(226 · 2.081)²) − 234.5 = 76.26 °C; 1.35 times (20.25 A) cools it. Up to
/// 3000 A it is the short circuit: 3000² · 0.1 = 9e5 A²s is far above 5.74e4.
#[test]
fn all_currents_up_to_the_short_circuit() {
    let fuse = device(0, 15.0, medium_blade(), 1000.0);
    let wire = pvc(0, "14");
    let weak = overload(&fuse, &wire, amperes(123.0)).unwrap();
    let check = weak.completeness.expect("above 1.35 times");
    assert!(
        close(check.current.amperes(), 30.0, 1e-9) && check.survives,
        "{check:?}"
    );
    assert!((check.hottest.celsius() - 76.26).abs() < 0.02, "{check:?}");
    let strong = overload(&fuse, &wire, amperes(3000.0)).unwrap();
    let check = strong.completeness.expect("above 1.35 times");
    assert!(!check.survives);
    assert_eq!(
        (check.current.amperes(), check.latest.seconds()),
        (3000.0, 0.1)
    );
    assert!(
        overload(&fuse, &wire, amperes(20.0))
            .unwrap()
            .completeness
            .is_none()
    );
}

/// A 30 A blade on 16 AWG (too thin): at 1.10 times its rating, 33 A, for ever; the model's 16 AWG capacity
/// at 125 °C is 32.4 A, so above 125 °C. At 1.35 times (40.5 A) for 600 s, seven time constants, it has
/// settled; and nothing promises less than that heat for ever. Just above, opening still takes minutes while
/// the current rises, so the hottest point of all lies between 1.35 and 1.60 times.
#[test]
fn slow_region_of_an_oversized_fuse() {
    let mut wire = pvc(0, "16");
    wire.start = celsius(30.0);
    let found = overload(
        &device(0, 30.0, medium_blade(), 1000.0),
        &wire,
        amperes(200.0),
    )
    .unwrap();
    assert!((found.carries.amperes() - 33.0).abs() < 1e-9);
    assert!(
        (125.0..135.0).contains(&found.carried.celsius()),
        "{found:?}"
    );
    assert!((found.opens_from.unwrap().amperes() - 40.5).abs() < 1e-9);
    let (after, worst) = (found.at_opening.unwrap().celsius(), found.worst.celsius());
    assert!(
        worst > 170.0 && after <= worst && worst - after < 0.5,
        "{found:?}"
    );
    let check = found.completeness.unwrap();
    assert!(
        (40.5..48.0).contains(&check.current.amperes()) && !check.survives,
        "{check:?}"
    );
    assert!(check.hottest.celsius() > after, "{check:?}");
}

/// One circuit of a bundle of eight is overloaded while the others stay as they were: hotter than the same
/// wire alone, cooler than with all eight overloaded, and the same as before when it carries what the
/// others carry (0.1 K: the search stops at 1e-9 of the temperature).
#[test]
fn overload_of_one_circuit_in_a_bundle() {
    let bundle = Surroundings::Bundle {
        loaded: 8,
        total: 8,
    };
    let normal = amperes(10.0);
    let steady = |surroundings: &Surroundings, current| {
        conductor_heat::steady(&awg("12"), surroundings, celsius(30.0), current)
            .unwrap()
            .conductor
    };
    let mut wire = pvc(0, "12");
    wire.surroundings = bundle;
    wire.start = steady(&bundle, normal);
    let carried = |rating: f64| {
        let found = overload(
            &device(0, rating, medium_blade(), 1000.0),
            &wire,
            amperes(1000.0),
        );
        found.unwrap().carried.celsius()
    };
    let same = carried(normal.amperes() / 1.10);
    assert!((same - wire.start.celsius()).abs() < 0.1, "{same}");
    let over = carried(25.0);
    let over_amps = amperes(25.0 * 1.10);
    assert!(
        over > steady(&Surroundings::Open, over_amps).celsius() + 5.0,
        "{over}"
    );
    assert!(over < steady(&bundle, over_amps).celsius() - 5.0, "{over}");
}

/// What refers to nothing is refused with its place.
#[test]
fn nonsense_is_refused() {
    let net = network(2, vec![source(1, 0, 13.2, 0.01)]);
    let gone = device(9, 20.0, medium_blade(), 1000.0);
    let found = study(&net, &net, &[gone], &[], &[]);
    assert!(matches!(
        found,
        Err(StudyError::Malformed {
            place: ("device", 0),
            ..
        })
    ));
    let found = study(&net, &net, &[], &[], &[case(1), case(7)]);
    assert!(matches!(
        found,
        Err(StudyError::Malformed {
            place: ("case", 1),
            ..
        })
    ));
}
