//! Times the whole assessment of both demos, and solving their states against
//! ngspice on the same networks in the same run. Prints a table; asserts nothing.

use std::hint::black_box;
use std::path::PathBuf;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};
use wainwright_analysis::{assess, catalogue, netlist};
use wainwright_model::{Project, parse};

const DEMOS: [(&str, &str); 2] = [
    (
        "12.8 V demo",
        include_str!("../../../examples/dark-sky.toml"),
    ),
    (
        "25.6 V demo",
        include_str!("../../../examples/dark-sky-metric.toml"),
    ),
];
/// Rounds per figure; the smallest is shown, because other work only adds time.
const ROUNDS: usize = 40;

fn main() {
    println!(
        "{:14} {:>8} {:>12} {:>12} {:>14} {:>16} {:>8}",
        "project", "wires", "parse", "assessment", "ours per state", "ngspice process", "ratio"
    );
    let empty = ngspice("* empty\nV1 a 0 1\nR1 a 0 1\n.op\n.end\n", "empty");
    for (name, text) in DEMOS {
        let project = parse(text, catalogue()).project;
        let parsing = least(ROUNDS, || {
            drop(black_box(parse(black_box(text), catalogue())))
        });
        let whole = least(ROUNDS, || drop(black_box(assess(black_box(&project)))));
        let found = assess(&project);
        let per_state = whole / found.states.len() as u32;
        let theirs = states_in_ngspice(&project, found.states.len(), name).saturating_sub(empty);
        println!(
            "{name:14} {:>8} {:>12.2?} {:>12.2?} {:>14.2?} {:>16.2?} {:>7.0}x",
            found.wires.len(),
            parsing,
            whole,
            per_state,
            theirs,
            theirs.as_secs_f64() / per_state.as_secs_f64()
        );
    }
    println!(
        "ours per state: the WHOLE assessment (heat loop, every fault, every guard) divided by its states."
    );
    println!(
        "ngspice process: one process for one state's operating point, less an empty deck ({empty:.2?})."
    );
}

fn least(rounds: usize, mut work: impl FnMut()) -> Duration {
    (0..rounds)
        .map(|_| {
            let start = Instant::now();
            work();
            start.elapsed()
        })
        .min()
        .unwrap_or_default()
}

fn states_in_ngspice(project: &Project, states: usize, name: &str) -> Duration {
    let decks = (0..states).filter_map(|state| Some((state, netlist(project, state)?.text)));
    let times: Vec<Duration> = decks
        .map(|(state, deck)| ngspice(&deck, &format!("{name}-{state}")))
        .collect();
    times.iter().sum::<Duration>() / times.len().max(1) as u32
}

/// Least of five runs of one deck.
fn ngspice(deck: &str, name: &str) -> Duration {
    let path: PathBuf =
        std::env::temp_dir().join(format!("wainwright-bench-{}.cir", name.replace(' ', "-")));
    if let Err(error) = std::fs::write(&path, deck) {
        println!("no deck written: {error}");
        return Duration::ZERO;
    }
    least(5, || {
        let run = Command::new("ngspice")
            .arg("-b")
            .arg(&path)
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .status();
        if run.is_err() {
            println!("ngspice does not run; install it with: apt-get install ngspice");
        }
    })
}
