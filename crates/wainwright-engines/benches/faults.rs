//! Time of a complete fault study on radial plants of 60, 1000 and 10 000 conductors: a short at the end
//! of every conductor, with strong and weak sources. Run with `cargo bench --bench faults`.

#[path = "../tests/fuses/mod.rs"]
mod fuses;
#[path = "../tests/wires/mod.rs"]
mod wires;

use fuses::{device, large_blade, medium_blade, resistor, source};
use std::hint::black_box;
use std::time::Instant;
use wainwright_engines::conductor_heat::{Surroundings, steady};
use wainwright_engines::faults::{Device, FaultCase, Withstand, overload, study};
use wainwright_engines::network::Network;
use wainwright_units::Resistance;
use wires::{amperes, awg, celsius};

/// Conductors in one branch circuit behind its fuse.
const CIRCUIT: usize = 4;
/// Branch circuits on one distribution bar.
const BAR: usize = 12;

struct Plant {
    network: Network,
    devices: Vec<Device>,
    conductors: Vec<Withstand>,
    cases: Vec<FaultCase>,
}

/// Batteries behind a main fuse, bars with a feed fuse each, circuits with a branch fuse each; the return
/// is the ground node.
fn plant(conductors: usize, batteries: usize, weaker: f64) -> Plant {
    let mut made = Plant {
        network: Network {
            node_count: 2,
            ground: 0,
            branches: vec![],
        },
        devices: vec![],
        conductors: vec![],
        cases: vec![],
    };
    for _ in 0..batteries {
        let plus = made.node();
        made.network
            .branches
            .push(source(plus, 0, 13.2 / weaker, 0.005 * weaker));
        made.wire(plus, 1, "2/0", 0.001);
        made.fuse(300.0, true);
    }
    while made.conductors.len() < conductors {
        let bar = made.node();
        made.wire(1, bar, "2", 0.003);
        made.fuse(100.0, true);
        for _ in 0..BAR {
            let mut from = bar;
            for step in 0..CIRCUIT {
                if made.conductors.len() >= conductors {
                    break;
                }
                let to = made.node();
                made.wire(from, to, "14", 0.010);
                if step == 0 {
                    made.fuse(15.0, false);
                }
                from = to;
            }
        }
    }
    made
}

impl Plant {
    fn node(&mut self) -> usize {
        self.network.node_count += 1;
        self.network.node_count - 1
    }

    fn wire(&mut self, from: usize, to: usize, name: &str, ohms: f64) {
        let branch = self.network.branches.len();
        self.network.branches.push(resistor(from, to, ohms));
        self.conductors.push(Withstand {
            branch,
            build: awg(name),
            surroundings: Surroundings::Bundle {
                loaded: 3,
                total: 5,
            },
            ambient: celsius(40.0),
            start: celsius(60.0),
            insulation_limit: celsius(105.0),
            short_limit: celsius(160.0),
        });
        let bridge = Resistance::from_ohms(0.0);
        self.cases.push(FaultCase {
            place: branch,
            from: to,
            to: 0,
            bridge,
        });
    }

    /// Puts a fuse into the wire made last.
    fn fuse(&mut self, rating: f64, large: bool) {
        let curve = if large { large_blade() } else { medium_blade() };
        self.devices.push(device(
            self.network.branches.len() - 1,
            rating,
            curve,
            1000.0,
        ));
    }
}

/// Shortest time of a few runs [µs].
fn shortest(runs: usize, mut work: impl FnMut()) -> f64 {
    let time = |_| {
        let start = Instant::now();
        work();
        start.elapsed().as_secs_f64() * 1e6
    };
    (0..runs).map(time).fold(f64::INFINITY, f64::min)
}

fn main() {
    for batteries in [1, 2] {
        for conductors in [60, 1000, 10_000] {
            let (strong, weak) = (
                plant(conductors, batteries, 1.0),
                plant(conductors, batteries, 1.5),
            );
            let micros = shortest(5, || {
                let found = study(
                    &strong.network,
                    &weak.network,
                    &strong.devices,
                    &strong.conductors,
                    &strong.cases,
                );
                black_box(found.is_ok());
            });
            println!(
                "{batteries} batteries, {conductors:>6} conductors: {:>10.2} ms, {:.2} µs for each",
                micros / 1e3,
                micros / conductors as f64,
            );
        }
    }
    let plant = plant(60, 1, 1.0);
    let (fuse, wire) = (&plant.devices[2], &plant.conductors[2]);
    let micros = shortest(200, || {
        black_box(overload(black_box(fuse), wire, amperes(2000.0)).is_ok());
    });
    println!("overload of one fuse and one conductor: {micros:.1} µs");
    let micros = shortest(20, || {
        for step in 0..1000 {
            let current = amperes(20.0 + f64::from(step) * 0.01);
            let (build, place) = (&wire.build, &wire.surroundings);
            black_box(steady(build, place, wire.ambient, current).is_ok());
        }
    });
    println!(
        "settled temperature of one conductor: {:.2} µs",
        micros / 1e3
    );
}
