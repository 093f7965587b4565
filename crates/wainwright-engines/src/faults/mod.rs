//! What every short circuit does: which devices open, when, and what the wires go through meanwhile.
//! The currents come from `fault_currents`, the heat from `conductor_heat`, the times from
//! `protection`; whether a result is acceptable is not decided here.
//!
//! # Computes
//! For each place where two nodes are shorted, with the strongest and the weakest sources: the
//! current, the order and time band in which devices open, whether the fault is cleared, which device
//! should have opened first and whether it provably does, and the temperature of every conductor that
//! carries fault current. Separately, for one device and one conductor behind it, the overloads that
//! the device lets through.
//!
//! # Equation
//! - A device that sees changing currents opens when Σ dt / t(I) = 1, t from its earliest or its
//!   latest curve. After each opening the network is solved again without that branch.
//! - Up to 5 s of current: a conductor survives when ∫I²dt ≤ k²S².
//! - Longer: C' dθ/dt = I²R(θ) − q_out(θ), piece by piece; never cleared: the settled temperature.
//!
//! # Assumptions and limits
//! - Resistive: the rise of the current over the first millisecond is left out, which errs on the hot side.
//! - Sources keep their voltage for as long as the fault lasts. Load currents before the fault count
//!   only through the conductors' start temperatures.
//! - Slow course: every device at its latest. Fast course: every device at its earliest. Where the
//!   order of opening changes the currents, also each device early with all others late (the first
//!   eight that may open).
//! - A device opens even above its interrupt rating; that it may not is reported beside it.
//! - A device that recloses is followed to its first opening only, and the outcome says so.
//! - In a bundle, out and return of the faulted circuit carry the fault; the other loaded wires go on
//!   giving the heat that had brought the bundle to the conductor's start temperature.
//! - Between 5 s and the settled state a conductor is held against its short-circuit limit, which
//!   makers state for 5 s. The hottest temperature and the time are reported for a stricter judgement.
//!
//! # Valid range
//! Networks of resistors and sources. At most 64 openings are followed in one fault.
//!
//! # Example
//! ```
//! use wainwright_engines::faults::{FaultCase, study};
//! use wainwright_engines::network::{Branch, Element, Network};
//! use wainwright_units::{Resistance, Voltage};
//! let ohms = Resistance::from_ohms;
//! let battery = Element::Source { emf: Voltage::from_volts(13.2), resistance: ohms(0.02) };
//! let network = Network {
//!     node_count: 2,
//!     ground: 0,
//!     branches: vec![Branch { from: 1, to: 0, element: battery }],
//! };
//! let case = FaultCase { place: 7, from: 1, to: 0, bridge: ohms(0.0) };
//! let found = study(&network, &network, &[], &[], &[case]).unwrap();
//! assert!((found.cases[0].largest.current.amperes() - 660.0).abs() < 0.1);
//! ```
//!
//! # Sources
//! - IEC 60364-4-43 and -5-54: I²t ≤ k²S² up to 5 s (read).
//! - IEC 60269-2: selectivity of devices in series (memory).

mod input;
mod moment;
mod overload;
mod paths;
mod result;
mod sequence;
mod stress;
mod study;

pub use input::{Device, FaultCase, StudyError, Withstand};
pub use overload::{Completeness, Overload, overload, overload_at_most};
pub use result::{
    Basis, CaseOutcome, Clearing, Duty, Opening, Outcome, Selectivity, SourcePath, Stress, Study,
};
pub use study::{study, study_each_way};
