//! When a fuse or breaker opens, as a band between two published curves.
//! The published gates themselves, and what the opening protects, are not here.
//!
//! # Computes
//! From the gates of a protective device (multiples of its rating with the earliest and the latest
//! opening time), the time before which it does not open and the time by which it has opened, at any
//! multiple. Whether one device provably opens before another.
//!
//! # Equation
//! - Between two gates, log t runs straight in log I, for the earliest and the latest separately.
//! - Above the last gate: earliest falls with I⁻² (constant I²t), latest stays what it was.
//! - Selective at a current: latest of the device near the fault < earliest of the one before it.
//!
//! # Assumptions and limits
//! A standard promises something at its gates only; the straight line between them is the usual
//! reading. Nothing is promised below the lowest gate with a latest time: there the latest time is
//! `None`, however long the current lasts. Cold device at 25 °C; heat nearby makes fuses open sooner.
//! A gate that states a latest time and no earliest one may open at once: earliest is then zero.
//!
//! # Valid range
//! Any multiple above zero. Below the lowest gate the device is taken not to open.
//!
//! # Example
//! ```
//! use wainwright_engines::protection::{Gate, OpeningCurve};
//! use wainwright_units::{Duration, Ratio};
//! let s = |t| Some(Duration::from_seconds(t));
//! let gate = |m, earliest, latest| Gate { multiple: Ratio::from_fraction(m), earliest, latest };
//! let curve = OpeningCurve {
//!     gates: vec![gate(1.1, s(360_000.0), None), gate(1.35, s(0.75), s(600.0)), gate(2.0, s(0.15), s(5.0))],
//! };
//! assert!(curve.band(1.2).latest.is_none());
//! assert_eq!(curve.band(2.0).latest, s(5.0));
//! ```
//!
//! # Sources
//! - ISO 8820-3 and SAE J1284: form of the gates (gate values: memory, held outside this crate).
//! - IEC 60269-2: selectivity by comparing pre-arcing and operating I²t (memory).

mod curve;

pub use curve::{Band, CurveError, Gate, OpeningCurve};

/// Whether the device near the fault provably opens before the one upstream of it, each with the band
/// at its own current.
pub fn provably_selective(near: Band, upstream: Band) -> bool {
    match (near.latest, upstream.earliest) {
        (Some(latest), Some(earliest)) => latest < earliest,
        (Some(_), None) => true,
        (None, _) => false,
    }
}
