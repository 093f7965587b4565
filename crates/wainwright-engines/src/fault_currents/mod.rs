//! Short-circuit currents between any two nodes of a network of resistors and sources.
//!
//! # Computes
//! For a short between two nodes: its current, the open-circuit voltage and source resistance
//! seen there, and the current in every branch that carries any. It is prepared once and then
//! answers for any place, also with branches opened, as after a fuse has opened.
//!
//! # Equation
//! Thévenin's theorem: I = Voc/(Rs + Rbridge) \[A\], with Rs the resistance of the network between
//! the two nodes with all source voltages at zero. Branch currents are the sum of the state before
//! the fault and of the answer of the network to −I (superposition).
//! Dead-end trees without a source are kept out of the matrix: only the way from the short to the
//! rest of the network carries current, so one fault costs as much as that way plus the looped
//! part of the network, and the whole study of a radial network is near-linear.
//!
//! # Assumptions and limits
//! Steady state: the inductive rise is over and source voltages hold. Resistances do not change
//! while the current flows. Loads and chargers have no place here; leave them out, or write them
//! as resistors or sources. Only currents above 1 mA are listed.
//!
//! # Valid range
//! As the `network` module. A bridge that is negative or not a number counts as 0 Ω.
//!
//! # Example
//! ```
//! use wainwright_engines::fault_currents::FaultCurrents;
//! use wainwright_engines::network::{Branch, Element, Network};
//! use wainwright_units::{Resistance, Voltage};
//!
//! // 13.2 V behind 5 mΩ: 2640 A at the terminals, 13.2/0.030 = 440 A behind 25 mΩ of wire.
//! let battery = Element::Source {
//!     emf: Voltage::from_volts(13.2),
//!     resistance: Resistance::from_ohms(0.005),
//! };
//! let wire = Element::Resistor(Resistance::from_ohms(0.025));
//! let network = Network {
//!     node_count: 3,
//!     ground: 0,
//!     branches: vec![
//!         Branch { from: 1, to: 0, element: battery },
//!         Branch { from: 1, to: 2, element: wire },
//!     ],
//! };
//! let faults = FaultCurrents::new(&network)?;
//! let none = Resistance::from_ohms(0.0);
//! assert!((faults.at(1, 0, none).total.amperes() - 2640.0).abs() < 1e-9);
//! assert!((faults.at(2, 0, none).total.amperes() - 440.0).abs() < 1e-9);
//! assert_eq!(faults.at_with_open(2, 0, none, &[1]).total.amperes(), 0.0);
//! # Ok::<(), wainwright_engines::network::NetworkError>(())
//! ```
//!
//! # Sources
//! Thévenin's theorem and superposition are textbook material; the steady short-circuit current
//! of a battery in this form is that of IEC 61660-1, without its factors.

mod core;
mod trees;
mod wires;

use wainwright_units::{Current, Resistance, Voltage};

use self::core::{Core, Rest};
use self::trees::{Climb, Trees};
use self::wires::Wire;
use crate::network::{Network, NetworkError, check};

/// A network prepared for fault studies.
#[derive(Debug, Clone)]
pub struct FaultCurrents {
    wires: Vec<Wire>,
    /// Sources with both terminals on one node.
    loops: Vec<usize>,
    node_count: usize,
    trees: Trees,
    core: Core,
    rest: Rest,
}

/// A short circuit between two nodes.
#[derive(Debug, Clone, PartialEq)]
pub struct FaultPoint {
    /// Current through the bridge, positive from the first node to the second [A].
    pub total: Current,
    /// Branches that carry more than 1 mA, ascending, signed as the network module says.
    pub branches: Vec<(usize, Current)>,
    /// Voltage from the first node to the second before the fault [V].
    pub open_circuit: Voltage,
    /// Resistance of the network between the two nodes [Ω]; infinite without a connection.
    pub source_resistance: Resistance,
    /// Largest current left over at a node of the looped part, by Kirchhoff's current law [A].
    pub residual: Current,
}

/// Currents up to this are not listed [A].
const LISTED_AMPS: f64 = 1e-3;
/// Current error accepted before the fault, beside the largest current that a source could give.
const REST_RESIDUAL: f64 = 1e-9;

impl FaultCurrents {
    /// Prepares a network of resistors, open branches and sources.
    ///
    /// # Errors
    /// [`NetworkError::Malformed`] for values out of range, loads and chargers;
    /// [`NetworkError::NotConverged`] when Kirchhoff's law does not hold before the fault.
    pub fn new(network: &Network) -> Result<Self, NetworkError> {
        check(network)?;
        let branches = network.branches.iter().enumerate();
        let wires: Vec<Wire> = branches
            .map(|(index, branch)| Wire::read(index, branch))
            .collect::<Result<_, _>>()?;
        let trees = Trees::new(network.node_count, &wires);
        let core = Core::new(&trees, &wires);
        let rest = core.at_rest(&wires, &[])?;
        let is_loop = |index: &usize| wires[*index].is_source && !wires[*index].joins();
        let faults = Self {
            loops: (0..wires.len()).filter(is_loop).collect(),
            wires,
            node_count: network.node_count,
            trees,
            core,
            rest,
        };
        faults.check_rest()?;
        Ok(faults)
    }

    /// The fault between two nodes bridged by a resistance.
    ///
    /// Two nodes that no source connects, a node with itself, and nodes that do not exist give no
    /// current.
    #[must_use]
    pub fn at(&self, a: usize, b: usize, bridge: Resistance) -> FaultPoint {
        self.solve(&self.rest, a, b, bridge, &[])
    }

    /// The same fault with branches removed, as when their devices have opened.
    ///
    /// It may cut off parts of the network, with or without a source in them.
    #[must_use]
    pub fn at_with_open(
        &self,
        a: usize,
        b: usize,
        bridge: Resistance,
        open: &[usize],
    ) -> FaultPoint {
        if !self.core.has_any(open) {
            return self.solve(&self.rest, a, b, bridge, open);
        }
        match self.core.at_rest(&self.wires, open) {
            Ok(rest) => self.solve(&rest, a, b, bridge, open),
            // Fewer conductances cannot fail where all of them did not.
            Err(_) => self.no_fault(&self.rest, open),
        }
    }

    fn solve(
        &self,
        rest: &Rest,
        a: usize,
        b: usize,
        bridge: Resistance,
        open: &[usize],
    ) -> FaultPoint {
        let climb = if a < self.node_count && b < self.node_count {
            self.trees.climb(&self.wires, a, b, open)
        } else {
            None
        };
        let Some(climb) = climb else {
            return self.no_fault(rest, open);
        };
        if climb.ends.0 == climb.ends.1 {
            let mut point = self.no_fault(rest, open);
            point.source_resistance = Resistance::from_ohms(climb.ohms);
            return point;
        }
        self.through_core(rest, &climb, bridge, open)
            .unwrap_or_else(|| self.no_fault(rest, open))
    }

    /// A fault whose way leads through the core; `None` when its ends are not connected there.
    fn through_core(
        &self,
        rest: &Rest,
        climb: &Climb,
        bridge: Resistance,
        open: &[usize],
    ) -> Option<FaultPoint> {
        let drawn = self.core.position(climb.ends.0)?;
        let returned = self.core.position(climb.ends.1)?;
        let answer = self.core.answer(rest, drawn, returned)?;
        let open_volts = rest.volts[drawn] - rest.volts[returned];
        let source_ohms = answer.ohms + climb.ohms;
        // `max` turns a bridge that is not a number into zero.
        let total_amps = open_volts / (source_ohms + bridge.ohms().max(0.0));
        let pairs = rest.volts.iter().zip(&answer.sink_ohms);
        let volts: Vec<f64> = pairs.map(|(v, ohms)| v - total_amps * ohms).collect();
        let mut point = FaultPoint {
            total: Current::from_amperes(total_amps),
            branches: Vec::new(),
            open_circuit: Voltage::from_volts(open_volts),
            source_resistance: Resistance::from_ohms(source_ohms),
            residual: Current::from_amperes(0.0),
        };
        let mut left_amps = vec![0.0; volts.len()];
        left_amps[drawn] -= total_amps;
        left_amps[returned] += total_amps;
        self.list_core(&mut point, &volts, left_amps, open);
        // Fault current flows from the core to the first node and back from the second.
        for &(wire, share) in &climb.from_first {
            list(&mut point, wire, -share * total_amps);
        }
        for &(wire, share) in &climb.from_second {
            list(&mut point, wire, share * total_amps);
        }
        point.branches.sort_unstable_by_key(|(branch, _)| *branch);
        Some(point)
    }

    /// The state without a fault.
    fn no_fault(&self, rest: &Rest, open: &[usize]) -> FaultPoint {
        let mut point = FaultPoint {
            total: Current::from_amperes(0.0),
            branches: Vec::new(),
            open_circuit: Voltage::from_volts(0.0),
            source_resistance: Resistance::from_ohms(f64::INFINITY),
            residual: Current::from_amperes(0.0),
        };
        self.list_core(&mut point, &rest.volts, vec![0.0; rest.volts.len()], open);
        point.branches.sort_unstable_by_key(|(branch, _)| *branch);
        point
    }

    /// Lists the currents of the core and sums them up at its nodes.
    fn list_core(
        &self,
        point: &mut FaultPoint,
        volts: &[f64],
        mut left_amps: Vec<f64>,
        open: &[usize],
    ) {
        for inside in self.core.wires.iter().filter(|w| !open.contains(&w.wire)) {
            let wire = &self.wires[inside.wire];
            let across_volts = volts[inside.from] - volts[inside.to];
            let drawn_amps = wire.drawn_amps(across_volts);
            left_amps[inside.from] -= drawn_amps;
            left_amps[inside.to] += drawn_amps;
            list(point, inside.wire, wire.amps(across_volts));
        }
        for &index in self.loops.iter().filter(|wire| !open.contains(wire)) {
            list(point, index, self.wires[index].amps(0.0));
        }
        let largest = left_amps
            .iter()
            .fold(0.0, |most: f64, amps| most.max(amps.abs()));
        point.residual = Current::from_amperes(largest);
    }

    fn check_rest(&self) -> Result<(), NetworkError> {
        let point = self.no_fault(&self.rest, &[]);
        let sources = self
            .wires
            .iter()
            .map(|wire| (wire.siemens * wire.emf_volts).abs());
        let scale_amps = sources.fold(0.0, f64::max);
        if point.residual.amperes() <= REST_RESIDUAL * scale_amps {
            return Ok(());
        }
        Err(NetworkError::NotConverged {
            iterations: 1,
            largest_residual: point.residual,
            why: "Kirchhoff's current law does not hold before the fault".to_owned(),
        })
    }
}

fn list(point: &mut FaultPoint, branch: usize, amps: f64) {
    if amps.abs() > LISTED_AMPS {
        point.branches.push((branch, Current::from_amperes(amps)));
    }
}
