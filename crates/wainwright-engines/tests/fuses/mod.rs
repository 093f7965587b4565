//! Opening curves and small networks used by several tests. Gates as published in ISO 8820-3, medium
//! (type C) and large (type E) blades (values: memory).
#![allow(dead_code, clippy::expect_used, reason = "each test uses a part of it")]

use wainwright_engines::faults::Device;
use wainwright_engines::network::{Branch, Element};
use wainwright_engines::protection::{Gate, OpeningCurve};
use wainwright_units::*;

/// A curve from multiple, earliest and latest time; a negative time stands for none.
pub fn curve(gates: &[(f64, f64, f64)]) -> OpeningCurve {
    let time = |seconds: f64| (seconds >= 0.0).then(|| Duration::from_seconds(seconds));
    let gates = gates.iter().map(|&(multiple, earliest, latest)| Gate {
        multiple: Ratio::from_fraction(multiple),
        earliest: time(earliest),
        latest: time(latest),
    });
    OpeningCurve {
        gates: gates.collect(),
    }
}

pub fn medium_blade() -> OpeningCurve {
    curve(&[
        (1.10, 360_000.0, -1.0),
        (1.35, 0.75, 600.0),
        (1.60, 0.25, 50.0),
        (2.0, 0.15, 5.0),
        (3.5, 0.04, 0.5),
        (6.0, 0.02, 0.1),
    ])
}

pub fn large_blade() -> OpeningCurve {
    curve(&[
        (1.10, 360_000.0, -1.0),
        (1.35, 60.0, 1800.0),
        (2.0, 2.0, 60.0),
        (3.5, 0.2, 7.0),
        (6.0, 0.04, 1.0),
    ])
}

pub fn device(branch: usize, rating: f64, curve: OpeningCurve, interrupt: f64) -> Device {
    Device {
        branch,
        rating: Current::from_amperes(rating),
        curve,
        interrupt: Some(Current::from_amperes(interrupt)),
        recloses: false,
    }
}

pub fn resistor(from: usize, to: usize, ohms: f64) -> Branch {
    Branch {
        from,
        to,
        element: Element::Resistor(Resistance::from_ohms(ohms)),
    }
}

pub fn source(plus: usize, minus: usize, volts: f64, ohms: f64) -> Branch {
    let (emf, resistance) = (Voltage::from_volts(volts), Resistance::from_ohms(ohms));
    Branch {
        from: plus,
        to: minus,
        element: Element::Source { emf, resistance },
    }
}
