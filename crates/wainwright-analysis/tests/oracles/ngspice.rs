//! Every state of both demos, solved again by ngspice.

use std::process::Command;
use wainwright_analysis::{assess, catalogue, netlist};

/// Largest difference of any node voltage [V].
const TOLERANCE: f64 = 1e-6;

#[test]
fn ngspice_finds_the_same_voltages_in_every_state_of_both_demos() {
    let demos = [
        include_str!("../../../../examples/dark-sky.toml"),
        include_str!("../../../../examples/dark-sky-metric.toml"),
    ];
    let mut compared = 0;
    for (demo, text) in demos.iter().enumerate() {
        let project = wainwright_model::parse(text, catalogue()).project;
        for state in 0..assess(&project).states.len() {
            let found = netlist(&project, state).expect("every demo state has an operating point");
            for (node, volts) in ngspice(&found.text, demo * 100 + state) {
                let ours = found.node_volts[node]
                    .expect("a printed node has a voltage")
                    .volts();
                assert!(
                    (ours - volts).abs() < TOLERANCE,
                    "demo {demo} state {state} node {node}: {ours} against {volts}"
                );
                compared += 1;
            }
        }
    }
    assert!(compared > 1000, "only {compared} voltages were compared");
}

/// Runs a deck; node number and voltage of every printed line.
fn ngspice(deck: &str, number: usize) -> Vec<(usize, f64)> {
    let path = std::path::Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!("demo-{number}.cir"));
    std::fs::write(&path, deck).expect("the deck is written");
    let output = Command::new("ngspice").arg("-b").arg(&path).output();
    let output = output.expect("ngspice runs; install it with: apt-get install ngspice");
    let text = String::from_utf8_lossy(&output.stdout);
    let volts = text.lines().filter_map(|line| {
        let (name, value) = line.split_once(" = ")?;
        let node = name.trim().strip_prefix("v(n")?.strip_suffix(')')?;
        Some((node.parse().ok()?, value.trim().parse().ok()?))
    });
    let volts: Vec<(usize, f64)> = volts.collect();
    assert!(
        !volts.is_empty(),
        "ngspice printed no voltage:\n{text}\n{}",
        String::from_utf8_lossy(&output.stderr)
    );
    volts
}
