//! Steady currents and voltages of a direct-current network.
//!
//! # Computes
//! The potential of every node, the current in every branch, what each load and charger does, and
//! where the power goes; or, when the supply cannot carry the load, how much of it it can.
//!
//! # Equation
//! Kirchhoff's current law at every node, Σ i = 0 \[A\], with i = v/R for a resistor,
//! i = (E − v)/R out of a source, i = P/v into a constant-power load, and with the charger either
//! off, at its largest current, or at its limit voltage. Sources are written as a current E/R
//! beside a conductance 1/R, so the matrix stays symmetric. Newton's method solves it from
//! open-circuit voltages downwards; the slope matrix is G − Σ (P/v²)·u·uᵀ.
//!
//! On the branch where a real supply works, this matrix is positive definite, from the
//! unloaded state, where it is G, down to the first point where it becomes singular: the nose of
//! the power–voltage curve. A pivot that is not positive is therefore taken as voltage collapse, not
//! as a numerical accident. For one load the test says v > Voc/2, where Voc is the voltage it
//! would see with everything else drawing its present current, so the lower root is never
//! returned. The collapse point is then found by raising all constant powers in proportion.
//!
//! # Assumptions and limits
//! Steady state: no inductance, no battery chemistry, no ripple. Resistances do not change with
//! temperature here; the caller repeats the solve. A load whose return is interrupted, and one
//! whose open-circuit voltage is zero or reversed, draws nothing. A constant-current load keeps
//! drawing even if that reverses its voltage; it is then reported as dropped out. A load with a
//! lowest voltage falls to a resistor below it, so it never collapses the supply. Several loads
//! with lowest voltages can have more than one steady state; the one reported is that reached
//! while the voltage falls from the unloaded state.
//!
//! # Valid range
//! Resistances, voltages and powers from 1e-30 to 1e30 in their base unit are accepted;
//! resistances from 1 µΩ to 1 MΩ in one network close Kirchhoff's law to 1e-9 at each node.
//!
//! # Example
//! ```
//! use wainwright_engines::network::{Branch, Element, Network, Options, operating_point};
//! use wainwright_units::{Power, Resistance, Voltage};
//!
//! let battery = Element::Source {
//!     emf: Voltage::from_volts(13.2),
//!     resistance: Resistance::from_ohms(0.030),
//! };
//! let load = Element::ConstantPower {
//!     power: Power::from_watts(500.0),
//!     lowest: Voltage::from_volts(0.0),
//! };
//! let network = Network {
//!     node_count: 2,
//!     ground: 0,
//!     branches: vec![
//!         Branch { from: 1, to: 0, element: battery },
//!         Branch { from: 1, to: 0, element: load },
//!     ],
//! };
//! let point = operating_point(&network, &Options::default())?;
//! // (13.2 + √(13.2² − 4·500·0.030))/2 = 11.944156 V
//! assert!((point.node_volts[1].unwrap().volts() - 11.944156).abs() < 1e-6);
//! # Ok::<(), wainwright_engines::network::NetworkError>(())
//! ```
//!
//! # Sources
//! Nodal analysis and Newton's method are textbook material. Elimination without subtraction:
//! W. K. Grassmann, M. I. Taksar, D. P. Heyman, Operations Research 33 (1985) 1107–1116. Least-index
//! rule for complementarity: K. G. Murty, Opsearch 11 (1974) 123–130.

mod check;
mod circuit;
mod collapse;
mod error;
mod islands;
mod newton;
mod plan;
mod report;
mod settle;
mod types;

pub(crate) use check::check;
pub use error::{Collapse, NetworkError};
pub use plan::Plan;
pub use types::{Balance, Branch, BranchState, Element, Network, OperatingPoint, Options};

/// Finds the operating point of a network.
///
/// # Errors
/// [`NetworkError::Malformed`] for a description that cannot be solved,
/// [`NetworkError::Collapse`] when the supply cannot carry the constant loads, and
/// [`NetworkError::NotConverged`] when a cap was reached or a conservation law does not hold.
pub fn operating_point(
    network: &Network,
    options: &Options,
) -> Result<OperatingPoint, NetworkError> {
    Plan::with_options(network, options)?.solve(network, None)
}
