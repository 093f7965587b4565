//! Time of operating points and fault studies, side by side with ngspice on the same networks.
//!
//! Engine: wall time per call, the best of several batches. Simulator: wall time of one process
//! with many `op` commands less that of one with a single `op`, divided by the difference, so that
//! starting, reading the deck and setting up are not counted against it. Faults in the simulator
//! are one `op` per place with the bridge altered; a sample of places is timed and scaled up.
//! Run with `cargo bench -p wainwright-engines --bench network`.

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
use wainwright_engines::network::{Element, Network, Options, Plan, operating_point};
use wainwright_units::Resistance;

/// Conductors, loops and repeats of the simulator's `op`.
const SIZES: [(usize, usize, usize); 3] = [(60, 3, 2000), (1_000, 20, 200), (10_000, 50, 20)];
/// Places of a fault that are timed in the simulator.
const SAMPLED_PLACES: usize = 20;

fn main() {
    println!("operating point, seconds per solve");
    println!("conductors  whole call  planned     warm        ngspice op  ratio planned  apart");
    for (conductors, loops, repeats) in SIZES {
        let network = network(conductors, loops, Loads::Mixed);
        operating_point_row(&network, conductors, repeats);
    }
    println!("\nfault currents at every place, seconds per study");
    println!("conductors  places  prepare     study       ngspice     ratio    apart");
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
    let point = plan.solve(network, None).expect("it has an operating point");
    let whole = best(|| drop(black_box(operating_point(network, &options))));
    let planned = best(|| drop(black_box(plan.solve(network, None))));
    let warm = best(|| drop(black_box(plan.solve(network, Some(&point)))));
    let bench = Bench::new("wainwright-bench");
    let path = bench.write("network.cir", &deck(network, &guess(network)));
    let source = format!("source {}\n", path.display());
    let commands = |count: usize| format!("{source}repeat {count}\nop\ndestroy all\nend\nop\nprint all\n");
    let (simulated, printed) = simulated_seconds(&bench, &commands, repeats);
    let expected = printed_volts(network, &printed);
    let apart = expected.iter().zip(&point.node_volts).fold(0.0, |worst: f64, (a, b)| {
        let difference = a.zip(*b).map_or(f64::NAN, |(a, b)| (a - b.volts()).abs());
        if difference.is_nan() { f64::NAN } else { worst.max(difference) }
    });
    println!(
        "{conductors:10}  {whole:<10.3e}  {planned:<10.3e}  {warm:<10.3e}  {simulated:<10.3e}  \
         {:<13.0}  {apart:.1e} V",
        simulated / planned
    );
}

fn fault_row(network: &Network, conductors: usize, repeats: usize) {
    let none = Resistance::from_ohms(0.001);
    let places: Vec<(usize, usize)> = (1..network.node_count / 2).map(|k| (2 * k, 2 * k + 1)).collect();
    let prepare = best(|| drop(black_box(FaultCurrents::new(network))));
    let faults = FaultCurrents::new(network).expect("it can be prepared");
    let study = best(|| {
        for &(plus, minus) in &places {
            black_box(faults.at(plus, minus, none));
        }
    });
    // Every sampled place has a bridge in the deck, of a teraohm until it is altered.
    let sample: Vec<(usize, usize)> = (0..SAMPLED_PLACES)
        .map(|k| places[k * places.len() / SAMPLED_PLACES])
        .collect();
    let mut bridged = network.clone();
    for &(from, to) in &sample {
        let element = Element::Resistor(Resistance::from_ohms(1e12));
        bridged.branches.push(wainwright_engines::network::Branch { from, to, element });
    }
    let first = network.branches.len();
    let bench = Bench::new("wainwright-bench");
    let path = bench.write("faults.cir", &deck(&bridged, &guess(network)));
    let rounds = repeats.div_ceil(SAMPLED_PLACES);
    let commands = |count: usize| {
        let mut text = format!("source {}\nop\n", path.display());
        for round in 0..count.div_ceil(SAMPLED_PLACES) {
            for (k, (plus, minus)) in sample.iter().enumerate() {
                let name = format!("R{}", first + k);
                writeln!(text, "alter {name} = 1e-3\nop").expect("text can be written");
                if round == 0 {
                    writeln!(text, "print v(n{plus})-v(n{minus})").expect("text can be written");
                }
                writeln!(text, "destroy all\nalter {name} = 1e12").expect("text can be written");
            }
        }
        text
    };
    let (each, printed) = simulated_seconds(&bench, &commands, rounds * SAMPLED_PLACES);
    let amps = printed.lines().filter_map(|line| line.split_once('='));
    let amps: Vec<f64> = amps.filter_map(|(_, v)| v.trim().parse::<f64>().ok()).map(|v| v / 1e-3).collect();
    let apart = sample.iter().zip(&amps).fold(0.0, |worst: f64, (&(plus, minus), expected)| {
        let found = faults.at(plus, minus, none).total.amperes();
        worst.max((found - expected).abs() / expected.abs())
    });
    let compared = if amps.len() >= sample.len() { apart } else { f64::NAN };
    let simulated = each * places.len() as f64;
    println!(
        "{conductors:10}  {:6}  {prepare:<10.3e}  {study:<10.3e}  {simulated:<10.3e}  {:<7.0}  {compared:.1e}",
        places.len(),
        simulated / (prepare + study)
    );
}

/// Seconds per repeat, and what the longer run printed.
fn simulated_seconds(bench: &Bench, commands: &dyn Fn(usize) -> String, repeats: usize) -> (f64, String) {
    let mut timed = |count: usize| {
        let text = commands(count);
        let start = Instant::now();
        let printed = bench.run("control.cir", &text);
        (start.elapsed().as_secs_f64(), printed)
    };
    let (short, _) = timed(1);
    let (long, printed) = timed(repeats + 1);
    ((long - short) / repeats as f64, printed)
}

fn guess(network: &Network) -> Vec<f64> {
    let is_plus = |node: usize| node == 1 || (node > 0 && node % 2 == 0);
    (0..network.node_count).map(|node| if is_plus(node) { 13.0 } else { 0.0 }).collect()
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
