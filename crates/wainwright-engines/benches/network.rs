//! Time of operating points and fault studies, side by side with ngspice on the same networks.
//!
//! Engine: wall time per call, the best of several batches. Simulator: its own "Total analysis
//! time" per further `op` in one process, so that starting it, reading the deck and the first
//! set-up are not counted against it; `run` is the wall time of a process that reads the deck and
//! solves once. Its iteration starts without given node voltages, which is its fastest way.
//! Faults in the simulator are one `op` per place with the bridge altered; a sample of places is
//! timed and scaled up. The last column is how far the two are apart.
//! Run with `cargo bench -p wainwright-engines --bench network`.
#![allow(
    clippy::expect_used,
    reason = "a failed assumption ends the measurement"
)]

#[path = "../tests/network_support/mod.rs"]
mod network_support;
#[path = "../tests/network_support/simulator.rs"]
mod simulator;

use std::fmt::Write as _;
use std::hint::black_box;
use std::time::Instant;

use network_support::{Loads, Numbers, random_network};
use simulator::{Bench, deck, printed_volts};
use wainwright_engines::fault_currents::FaultCurrents;
use wainwright_engines::network::{
    Branch, Element, Network, OperatingPoint, Options, Plan, operating_point,
};
use wainwright_units::Resistance;

/// Conductors, loops and repeats of the simulator's `op`.
const SIZES: [(usize, usize, usize); 3] = [(60, 3, 3000), (1_000, 20, 300), (10_000, 50, 20)];
/// Places of a fault that are timed in the simulator.
const SAMPLED_PLACES: usize = 4;
/// The bridge of every fault [Ω].
const BRIDGE_OHMS: f64 = 1e-3;

fn main() {
    println!("operating point, seconds per solve");
    println!(
        "conductors  whole call  planned     warm        ngspice op  op/planned  ngspice run  \
         run/whole  apart"
    );
    for (conductors, loops, repeats) in SIZES {
        let network = network(conductors, loops, Loads::Mixed);
        operating_point_row(&network, conductors, repeats);
    }
    println!("\nfault currents at every place, seconds per study");
    println!("conductors  places  prepare     study       ngspice op  ratio    apart");
    for (conductors, loops, repeats) in SIZES {
        let network = network(conductors, loops, Loads::None);
        fault_row(&network, conductors, repeats.min(200));
    }
}

/// A trailer-like network; half of its nodes are on the return side.
fn network(conductors: usize, loops: usize, loads: Loads) -> Network {
    random_network(&mut Numbers(7), conductors - loops, loops, loads)
}

fn operating_point_row(network: &Network, conductors: usize, repeats: usize) {
    let options = Options::default();
    let plan = Plan::new(network).expect("it can be planned");
    let point = plan.solve(network, None);
    let point = point.expect("it has an operating point");
    let whole = best(|| drop(black_box(operating_point(network, &options))));
    let planned = best(|| drop(black_box(plan.solve(network, None))));
    let warm = best(|| drop(black_box(plan.solve(network, Some(&point)))));
    let bench = Bench::new("wainwright-bench");
    let path = bench.write("network.cir", &deck(network, &[]));
    let source = format!("source {}\nop\n", path.display());
    let start = Instant::now();
    let printed = bench.run("control.cir", &format!("{source}print all\n"));
    let run = start.elapsed().as_secs_f64();
    let repeated =
        format!("{source}rusage all\nrepeat {repeats}\nop\ndestroy all\nend\nrusage all\n");
    let each = analysis_seconds(&bench.run("control.cir", &repeated), repeats);
    println!(
        "{conductors:10}  {whole:<10.2e}  {planned:<10.2e}  {warm:<10.2e}  {each:<10.2e}  \
         {:<10.0}  {run:<11.2e}  {:<9.0}  {:.1e} V",
        each / planned,
        run / whole,
        apart_volts(&point, &printed_volts(network, &printed)),
    );
}

fn apart_volts(point: &OperatingPoint, expected: &[Option<f64>]) -> f64 {
    let pairs = expected.iter().zip(&point.node_volts);
    let apart = pairs.map(|(a, b)| {
        a.zip(*b)
            .map_or(f64::INFINITY, |(a, b)| (a - b.volts()).abs())
    });
    apart.fold(0.0, f64::max)
}

fn fault_row(network: &Network, conductors: usize, repeats: usize) {
    let bridge = Resistance::from_ohms(BRIDGE_OHMS);
    let places: Vec<(usize, usize)> = (1..network.node_count / 2)
        .map(|k| (2 * k, 2 * k + 1))
        .collect();
    let prepare = best(|| drop(black_box(FaultCurrents::new(network))));
    let faults = FaultCurrents::new(network).expect("it can be prepared");
    let study = best(|| {
        for &(plus, minus) in &places {
            black_box(faults.at(plus, minus, bridge));
        }
    });
    let sample: Vec<(usize, usize)> = (0..SAMPLED_PLACES)
        .map(|k| places[k * places.len() / SAMPLED_PLACES])
        .collect();
    let (each, volts) = simulated_faults(network, &sample, repeats.div_ceil(SAMPLED_PLACES));
    let pairs = sample.iter().zip(&volts);
    let apart = pairs.fold(0.0, |worst: f64, (&(plus, minus), volts)| {
        let expected = volts / BRIDGE_OHMS;
        let found = faults.at(plus, minus, bridge).total.amperes();
        worst.max((found / expected - 1.0).abs())
    });
    assert_eq!(volts.len(), sample.len(), "the simulator missed a place");
    let simulated = each * places.len() as f64;
    println!(
        "{conductors:10}  {:6}  {prepare:<10.2e}  {study:<10.2e}  {simulated:<10.2e}  {:<7.0}  \
         {apart:.1e} of the current",
        places.len(),
        simulated / (prepare + study),
    );
}

/// Seconds per fault in the simulator, and the voltage across each bridge.
fn simulated_faults(
    network: &Network,
    sample: &[(usize, usize)],
    rounds: usize,
) -> (f64, Vec<f64>) {
    // Every sampled place has a bridge in the deck, of a teraohm until it is altered.
    let mut bridged = network.clone();
    for &(from, to) in sample {
        let element = Element::Resistor(Resistance::from_ohms(1e12));
        bridged.branches.push(Branch { from, to, element });
    }
    let bench = Bench::new("wainwright-bench");
    let path = bench.write("faults.cir", &deck(&bridged, &[]));
    let mut commands = format!("source {}\nop\nrusage all\n", path.display());
    let mut add = |line: String| writeln!(commands, "{line}").expect("text can be written");
    for round in 0..rounds {
        for (k, (plus, minus)) in sample.iter().enumerate() {
            let name = format!("R{}", network.branches.len() + k);
            add(format!("alter {name} = {BRIDGE_OHMS:e}\nop"));
            if round == 0 {
                add(format!("print v(n{plus})-v(n{minus})"));
            }
            add(format!("destroy all\nalter {name} = 1e12"));
        }
    }
    add("rusage all".to_owned());
    let printed = bench.run("control.cir", &commands);
    let lines = printed.lines().filter(|line| line.starts_with("v(n"));
    let volts = lines.filter_map(|line| line.split_once('=')?.1.trim().parse().ok());
    let each = analysis_seconds(&printed, rounds * sample.len());
    (each, volts.collect())
}

/// Reads the simulator's analysis time per solve from reports before and after `solves` of them.
fn analysis_seconds(printed: &str, solves: usize) -> f64 {
    let lines = printed.lines();
    let lines = lines.filter(|line| line.starts_with("Total analysis time"));
    let seconds: Vec<f64> = lines
        .filter_map(|line| line.split_once('=')?.1.trim().parse().ok())
        .collect();
    match seconds.as_slice() {
        [before, after] => (after - before) / solves as f64,
        _ => f64::NAN,
    }
}

/// Seconds per call, the best of five batches of at least 20 ms.
fn best(mut call: impl FnMut()) -> f64 {
    let mut least = f64::INFINITY;
    for _ in 0..5 {
        let start = Instant::now();
        let mut calls = 0;
        while calls == 0 || start.elapsed().as_secs_f64() < 0.02 {
            call();
            calls += 1;
        }
        least = least.min(start.elapsed().as_secs_f64() / f64::from(calls));
    }
    least
}
