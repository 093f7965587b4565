//! Networks for tests: a builder, the chained switch bank, and seeded random networks.
//!
//! Not here: expected values and other solvers.
#![allow(
    dead_code,
    clippy::expect_used,
    reason = "each test file uses a part, and a failed assumption is a failed test"
)]

use wainwright_engines::network::{
    Branch, Element, Network, OperatingPoint, Options, operating_point,
};
use wainwright_units::{Current, Power, Resistance, Voltage};

/// A network under construction; node 0 is ground.
#[derive(Debug, Clone, Default)]
pub struct Build {
    pub node_count: usize,
    pub branches: Vec<Branch>,
}

impl Build {
    pub fn new() -> Self {
        Self {
            node_count: 1,
            branches: Vec::new(),
        }
    }

    pub fn node(&mut self) -> usize {
        self.node_count += 1;
        self.node_count - 1
    }

    pub fn add(&mut self, from: usize, to: usize, element: Element) -> usize {
        self.branches.push(Branch { from, to, element });
        self.branches.len() - 1
    }

    pub fn wire(&mut self, from: usize, to: usize, ohms: f64) -> usize {
        self.add(from, to, Element::Resistor(Resistance::from_ohms(ohms)))
    }

    pub fn source(&mut self, plus: usize, minus: usize, volts: f64, ohms: f64) -> usize {
        let emf = Voltage::from_volts(volts);
        let resistance = Resistance::from_ohms(ohms);
        self.add(plus, minus, Element::Source { emf, resistance })
    }

    pub fn amps(&mut self, from: usize, to: usize, amps: f64) -> usize {
        self.add(
            from,
            to,
            Element::ConstantCurrent(Current::from_amperes(amps)),
        )
    }

    pub fn watts(&mut self, from: usize, to: usize, watts: f64, lowest_volts: f64) -> usize {
        let power = Power::from_watts(watts);
        let lowest = Voltage::from_volts(lowest_volts);
        self.add(from, to, Element::ConstantPower { power, lowest })
    }

    pub fn charger(&mut self, plus: usize, minus: usize, volts: f64, amps: f64) -> usize {
        let limit = Voltage::from_volts(volts);
        let most = Current::from_amperes(amps);
        self.add(plus, minus, Element::Regulated { limit, most })
    }

    pub fn done(self) -> Network {
        Network {
            node_count: self.node_count,
            ground: 0,
            branches: self.branches,
        }
    }
}

/// The three kinds of load of the chained switch bank.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LoadKind {
    Current,
    Resistance,
    Power,
}

/// The chained switch bank: four cells, protection circuit, main fuse, feed, six jumpers, seven
/// switch inputs of which the last six feed a load each, and a common return.
pub struct SwitchBank {
    pub network: Network,
    /// bp, fo, s0…s6, nb in this order.
    pub named: Vec<usize>,
    /// Plus and minus node of each load.
    pub loads: Vec<(usize, usize)>,
    pub load_branches: Vec<usize>,
}

pub fn switch_bank(kind: LoadKind) -> SwitchBank {
    let mut build = Build::new();
    let mut minus = 0;
    for _ in 0..4 {
        let plus = build.node();
        build.source(plus, minus, 3.32, 0.6e-3);
        minus = plus;
    }
    let (bp, fo) = (build.node(), build.node());
    build.wire(minus, bp, 2.5e-3);
    build.wire(bp, fo, 0.7e-3);
    let mut switches = vec![build.node()];
    build.wire(fo, switches[0], 3.8e-3);
    let nb = build.node();
    build.wire(nb, 0, 3.8e-3);
    let (mut loads, mut load_branches) = (Vec::new(), Vec::new());
    let amps = [9.0, 6.0, 5.0, 4.0, 3.5, 3.0];
    let milliohms = [16.94, 21.175, 27.104, 33.88, 38.115, 46.585];
    for (load_amps, ohms) in amps.into_iter().zip(milliohms.map(|m| m * 1e-3)) {
        let (before, s, out) = (switches[switches.len() - 1], build.node(), build.node());
        build.wire(before, s, 2.55e-3);
        build.wire(s, out, 7.0e-3);
        let (plus, minus) = (build.node(), build.node());
        build.wire(out, plus, ohms);
        build.wire(minus, nb, ohms);
        load_branches.push(match kind {
            LoadKind::Current => build.amps(plus, minus, load_amps),
            LoadKind::Resistance => build.wire(plus, minus, 12.0 / load_amps),
            LoadKind::Power => build.watts(plus, minus, 12.0 * load_amps, 0.0),
        });
        switches.push(s);
        loads.push((plus, minus));
    }
    let mut named = vec![bp, fo];
    named.extend(switches);
    named.push(nb);
    SwitchBank {
        network: build.done(),
        named,
        loads,
        load_branches,
    }
}

/// A small generator of repeatable numbers (SplitMix64).
pub struct Numbers(pub u64);

impl Numbers {
    pub fn raw(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        z ^ (z >> 31)
    }

    /// Between 0 and 1.
    pub fn unit(&mut self) -> f64 {
        (self.raw() >> 11) as f64 / (1u64 << 53) as f64
    }

    pub fn between(&mut self, low: f64, high: f64) -> f64 {
        low + (high - low) * self.unit()
    }

    /// Evenly spread over the orders of magnitude.
    pub fn scaled(&mut self, low: f64, high: f64) -> f64 {
        (self.between(low.ln(), high.ln())).exp()
    }

    pub fn below(&mut self, count: usize) -> usize {
        (self.raw() % count.max(1) as u64) as usize
    }
}

/// Loads of a random network.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Loads {
    /// A mix of constant current, resistance and power.
    Mixed,
    /// None at all, for fault studies.
    None,
}

/// A random trailer-like network: a plus tree and a minus tree over the same places, one to three
/// batteries, a load at about half of the places, and optionally extra wires that make loops.
pub fn random_network(numbers: &mut Numbers, nodes: usize, loops: usize, loads: Loads) -> Network {
    let mut build = Build::new();
    let places = (nodes / 2).max(2);
    let mut pairs = vec![(build.node(), 0)];
    for _ in 1..places {
        // Near the front more often, which gives both long runs and busy junctions.
        let near = numbers.unit() * numbers.unit();
        let at = pairs[((pairs.len() as f64) * near) as usize];
        let place = (build.node(), build.node());
        build.wire(at.0, place.0, numbers.scaled(0.3e-3, 20e-3));
        build.wire(place.1, at.1, numbers.scaled(0.3e-3, 20e-3));
        pairs.push(place);
    }
    for _ in 0..loops {
        let (one, other) = (pairs[numbers.below(places)], pairs[numbers.below(places)]);
        if numbers.unit() < 0.5 {
            build.wire(one.0, other.0, numbers.scaled(0.5e-3, 30e-3));
        } else {
            build.wire(one.1, other.1, numbers.scaled(0.5e-3, 30e-3));
        }
    }
    for index in 0..=numbers.below(3) {
        let at = if index == 0 { 0 } else { numbers.below(places) };
        let (plus, minus) = pairs[at];
        build.source(
            plus,
            minus,
            numbers.between(12.6, 13.6),
            numbers.scaled(2e-3, 20e-3),
        );
    }
    if loads == Loads::Mixed {
        // About as much in total whatever the size; half of the places have a load.
        let total_amps = numbers.between(20.0, 200.0);
        let each_amps = total_amps / (places as f64 / 2.0);
        for &(plus, minus) in &pairs {
            let amps = each_amps * numbers.between(0.2, 1.8);
            match numbers.below(6) {
                0 => build.amps(plus, minus, amps),
                1 => build.wire(plus, minus, 12.0 / amps),
                2 => build.watts(plus, minus, 12.0 * amps, 8.0),
                _ => continue,
            };
        }
    }
    build.done()
}

/// Multiplies every constant power.
pub fn multiply_powers(network: &mut Network, times: f64) {
    for branch in &mut network.branches {
        if let Element::ConstantPower { power, .. } = &mut branch.element {
            *power = Power::from_watts(power.watts() * times);
        }
    }
}

/// The operating point of a network that has one.
pub fn solve(network: &Network) -> OperatingPoint {
    operating_point(network, &Options::default()).expect("it has an operating point")
}

/// Potential of a supplied node [V].
pub fn volts(point: &OperatingPoint, node: usize) -> f64 {
    point.node_volts[node].expect("it is supplied").volts()
}

/// Current of a branch [A].
pub fn amps(point: &OperatingPoint, branch: usize) -> f64 {
    point.branch_amps[branch].amperes()
}

/// Asserts that a value is within a tolerance of the expected one.
#[track_caller]
pub fn near(found: f64, expected: f64, tolerance: f64) {
    let difference = (found - expected).abs();
    assert!(
        difference <= tolerance,
        "found {found}, expected {expected}"
    );
}
