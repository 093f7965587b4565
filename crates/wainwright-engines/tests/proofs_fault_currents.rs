//! Closed-form cases of the fault engine, and battery short circuits with printed values.
//!
//! Not here: operating points (`proofs_network`) and random comparisons (`oracle_network`).
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a failed assumption of a test is a failed test"
)]

mod network_support;

use network_support::{Build, amps, near, solve};
use wainwright_engines::fault_currents::FaultCurrents;
use wainwright_units::Resistance;

#[test]
fn bolted_short_at_a_battery() {
    // Isc = Voc/R: 13.2 V behind 20, 5 and 2 mΩ, and 1.05·12.8 V behind 0.9·R, printed to 1 A.
    let cases = [
        (13.2, 0.020, 660.0),
        (13.2, 0.005, 2640.0),
        (13.2, 0.002, 6600.0),
        (1.05 * 12.8, 0.9 * 0.020, 747.0),
        (1.05 * 12.8, 0.9 * 0.005, 2987.0),
        (1.05 * 12.8, 0.9 * 0.002, 7467.0),
    ];
    for (emf, ohms, expected) in cases {
        let mut build = Build::new();
        let plus = build.node();
        build.source(plus, 0, emf, ohms);
        let faults = FaultCurrents::new(&build.done()).unwrap();
        let fault = faults.at(plus, 0, Resistance::from_ohms(0.0));
        near(fault.total.amperes(), expected, 0.5);
        near(fault.open_circuit.volts(), emf, 1e-12);
        near(fault.source_resistance.ohms(), ohms, 1e-15);
    }
}

#[test]
fn final_value_of_a_short_through_wire() {
    // 13.2 V over 107.3 mΩ in all: 123.02 A once the inductance no longer counts.
    let mut build = Build::new();
    let (plus, end) = (build.node(), build.node());
    build.source(plus, 0, 13.2, 0.0073);
    build.wire(plus, end, 0.060);
    let faults = FaultCurrents::new(&build.done()).unwrap();
    let fault = faults.at(end, 0, Resistance::from_ohms(0.040));
    near(fault.total.amperes(), 123.02, 0.005);
    assert_eq!(fault.branches.len(), 2);
    for (_, amps) in &fault.branches {
        near(amps.amperes(), 123.02, 0.005);
    }
}

#[test]
fn series_parallel_and_star_delta() {
    // Two resistors in parallel feeding one in series.
    let mut build = Build::new();
    let (plus, middle) = (build.node(), build.node());
    build.source(plus, 0, 12.0, 0.5);
    build.wire(plus, middle, 2.0);
    build.wire(plus, middle, 6.0);
    build.wire(middle, 0, 4.0);
    let point = solve(&build.done());
    near(amps(&point, 0), 2.0, 1e-13);
    near(amps(&point, 1), 1.5, 1e-13);
    near(amps(&point, 2), 0.5, 1e-13);

    // A star 1, 2, 3 Ω and the delta 11/3, 11, 11/2 Ω seen from outside are the same.
    let mut star = Build::new();
    let corners = [star.node(), star.node(), star.node()];
    let centre = star.node();
    for (corner, ohms) in corners.into_iter().zip([1.0, 2.0, 3.0]) {
        star.wire(corner, centre, ohms);
    }
    let mut delta = Build::new();
    for _ in 0..3 {
        delta.node();
    }
    delta.wire(corners[0], corners[1], 11.0 / 3.0);
    delta.wire(corners[1], corners[2], 11.0);
    delta.wire(corners[0], corners[2], 11.0 / 2.0);
    let resistance = |build: &Build, a: usize, b: usize| {
        let mut build = build.clone();
        build.source(a, 0, 1.0, 1e3);
        let faults = FaultCurrents::new(&build.done()).unwrap();
        faults
            .at(a, b, Resistance::from_ohms(0.0))
            .source_resistance
            .ohms()
    };
    for (a, b, expected) in [(0, 1, 3.0), (1, 2, 5.0), (0, 2, 4.0)] {
        let (a, b) = (corners[a], corners[b]);
        near(resistance(&star, a, b), expected, 1e-13);
        near(resistance(&delta, a, b), expected, 1e-12);
    }
}

#[test]
fn opening_a_branch_can_leave_a_source_alone() {
    // Two batteries joined by a fuse; the fault is at the second one's end of the wire.
    let mut build = Build::new();
    let (one, two, end) = (build.node(), build.node(), build.node());
    build.source(one, 0, 13.2, 0.010);
    let fuse = build.wire(one, two, 0.002);
    let second = build.source(two, 0, 13.2, 0.020);
    let wire = build.wire(two, end, 0.100);
    let faults = FaultCurrents::new(&build.done()).unwrap();
    let bolted = Resistance::from_ohms(0.0);
    let both = 1.0 / (1.0 / 0.012 + 1.0 / 0.020) + 0.100;
    near(faults.at(end, 0, bolted).total.amperes(), 13.2 / both, 1e-9);
    let with_fuse_open = faults.at_with_open(end, 0, bolted, &[fuse]);
    near(with_fuse_open.total.amperes(), 110.0, 1e-9);
    assert_eq!(with_fuse_open.branches.len(), 2);
    assert_eq!(
        faults.at_with_open(end, 0, bolted, &[wire]).total.amperes(),
        0.0
    );
    let nothing_left = faults.at_with_open(end, 0, bolted, &[fuse, second]);
    assert_eq!(nothing_left.total.amperes(), 0.0);
    assert!(nothing_left.branches.is_empty());
    // The first battery, cut off from the fault, still sees nothing but itself.
    near(
        faults.at_with_open(one, 0, bolted, &[fuse]).total.amperes(),
        1320.0,
        1e-9,
    );
    assert_eq!(faults.at(end, end, bolted).total.amperes(), 0.0);
    assert_eq!(faults.at(end, 99, bolted).total.amperes(), 0.0);
}
