//! Sizing against HiGHS, a general solver of mixed-integer programs, run live on the same problems. Not
//! here: tiny problems with anything allowed (`oracle_sizing`).
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod sizing_problems;

mod python;

use python::python;
use sizing_problems::{Dice, Minus, Plant, plant};
use std::fmt::Write as _;
use std::path::Path;
use std::process::Command;
use std::time::Instant;
use wainwright_engines::sizing::*;

/// Problems compared.
const CASES: u64 = 100;
/// Problems with crossing ways compared.
const CROSSING: u64 = 16;
/// Most circuits of one problem.
const MOST_CIRCUITS: usize = 25;
/// Times the engine is run on each problem; the shortest counts.
const RUNS: usize = 3;

#[test]
fn agrees_with_a_general_solver() {
    compare(&(0..CASES).map(problem).collect::<Vec<_>>());
}

/// Costs are whole cents; 1e-6 is what HiGHS promises of an optimum.
fn compare(problems: &[(Plant, Problem)]) {
    let theirs = by_highs(problems);
    let (mut own_seconds, mut their_seconds, mut solved) = (0.0, 0.0, 0);
    let mut ratios = Vec::new();
    for ((shape, problem), (expected, seconds)) in problems.iter().zip(theirs) {
        let (found, own) = timed(problem);
        match (&found, expected) {
            (Ok(plan), Some(cost)) => {
                let close = (plan.appraisal.cost - cost).abs() <= 1e-6 * cost.max(1.0);
                assert!(close && plan.proven, "{shape:?}: {plan:?} against {cost}");
                assert!(
                    appraise(problem, &plan.chosen).unwrap().holds(),
                    "{shape:?}"
                );
                solved += 1;
            }
            (Err(SizingError::Impossible(_)), None) => {}
            (found, expected) => panic!("{shape:?}: {found:?} against {expected:?}"),
        }
        own_seconds += own;
        their_seconds += seconds;
        ratios.push(seconds / own);
    }
    ratios.sort_by(f64::total_cmp);
    println!(
        "{} problems of up to {MOST_CIRCUITS} circuits, {solved} with a plan: engine {:.1} ms, HiGHS {:.1} ms, ratio {:.0}; \
         of each: least {:.1}, median {:.0}, greatest {:.0}",
        problems.len(),
        own_seconds * 1e3,
        their_seconds * 1e3,
        their_seconds / own_seconds,
        ratios[0],
        ratios[ratios.len() / 2],
        ratios[ratios.len() - 1],
    );
    assert!(solved * 5 >= problems.len() * 3, "{solved}");
}

/// Minus bars that take circuits of several fuse blocks each: the limits form no tree.
#[test]
fn crossing_ways_agree_with_a_general_solver() {
    let shape = |seed: u64| Plant {
        circuits: 3 + seed as usize % 8,
        blocks: 2 + seed as usize % 2,
        minus: Some(Minus::CrossBars),
    };
    let problems = (0..CROSSING).map(|seed| (shape(seed), plant(seed, shape(seed))));
    compare(&problems.collect::<Vec<_>>());
}

/// A third plain trees, a third with plus and minus leads alike, a third with a minus tree of its own.
fn problem(seed: u64) -> (Plant, Problem) {
    let mut dice = Dice::new(seed);
    let circuits = dice.between(3, MOST_CIRCUITS);
    let shape = Plant {
        // HiGHS takes long over two trees of many circuits.
        circuits: if seed % 3 == 2 {
            circuits.min(14)
        } else {
            circuits
        },
        blocks: dice.between(1, 3),
        minus: [None, Some(Minus::Alike), Some(Minus::OneBar)][(seed % 3) as usize],
    };
    (shape, plant(seed, shape))
}

fn timed(problem: &Problem) -> (Result<Plan, SizingError>, f64) {
    let mut best = f64::INFINITY;
    let mut found = least_cost(problem);
    for _ in 0..RUNS {
        let start = Instant::now();
        found = least_cost(problem);
        best = best.min(start.elapsed().as_secs_f64());
    }
    (found, best)
}

/// Least cost, or none, and the seconds it took, of each problem.
fn by_highs(problems: &[(Plant, Problem)]) -> Vec<(Option<f64>, f64)> {
    let file = Path::new(env!("CARGO_TARGET_TMPDIR")).join(format!(
        "sizing-{}-{}.json",
        std::process::id(),
        problems.len()
    ));
    let list: Vec<String> = problems.iter().map(|(_, problem)| json(problem)).collect();
    std::fs::write(&file, format!("[{}]", list.join(",\n"))).expect("the problems can be written");
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/sizing_problems/milp.py");
    let output = Command::new(python()).arg(script).arg(&file).output();
    let output = output
        .unwrap_or_else(|error| panic!("python cannot be started ({error}); run `./test tools`"));
    let complaint = String::from_utf8_lossy(&output.stderr);
    assert!(
        output.status.success(),
        "this test compares with HiGHS; `./test tools` installs it (Python package highspy):\n{complaint}"
    );
    std::fs::remove_file(&file).expect("the file is there");
    let printed = String::from_utf8_lossy(&output.stdout).into_owned();
    let solved: Vec<_> = printed.lines().map(one_line).collect();
    assert_eq!(solved.len(), problems.len(), "{complaint}");
    solved
}

fn one_line(line: &str) -> (Option<f64>, f64) {
    let mut words = line.split(' ');
    let status = words.next().unwrap();
    let mut number = || words.next().unwrap().parse::<f64>().unwrap();
    let (cost, seconds) = (number(), number());
    match status {
        "optimal" => (Some(cost), seconds),
        "infeasible" => (None, seconds),
        other => panic!("HiGHS ended as '{other}'"),
    }
}

/// Drops in millivolts and resistances in milliohms, so that all of them are whole numbers.
fn json(problem: &Problem) -> String {
    let thousandths = |value: f64| (value * 1e3).round();
    let or_null = |value: Option<f64>| value.map_or("null".to_owned(), |value| value.to_string());
    let index = |value: Option<usize>| value.map_or("null".to_owned(), |value| value.to_string());
    let mut text = String::from("{\"sections\":[");
    for (place, section) in problem.sections.iter().enumerate() {
        let choices: Vec<String> = (section.choices.iter())
            .map(|choice| {
                let device = or_null(choice.device.map(|rating| rating.amperes()));
                let (drop, ohms) = (
                    thousandths(choice.drop.volts()),
                    thousandths(choice.resistance.ohms()),
                );
                format!("[{},{drop},{ohms},{device}]", choice.cost)
            })
            .collect();
        let comma = if place > 0 { "," } else { "" };
        let (parent, ratio) = (index(section.parent), section.upstream_ratio.fraction());
        write!(
            text,
            "{comma}{{\"parent\":{parent},\"ratio\":{ratio},\"choices\":[{}]}}",
            choices.join(",")
        )
        .unwrap();
    }
    let limits: Vec<String> = problem
        .limits
        .iter()
        .map(|limit| {
            let fault = limit.fault.as_ref();
            let table = fault.map_or("null".to_owned(), |fault| {
                let rows = fault.table.iter().map(|(rating, most)| {
                    format!("[{},{}]", rating.amperes(), thousandths(most.ohms()))
                });
                format!("[{}]", rows.collect::<Vec<_>>().join(","))
            });
            let drop = or_null(limit.most_drop.map(|drop| thousandths(drop.volts())));
            let at = index(fault.map(|fault| fault.at));
            format!(
                "{{\"sections\":{:?},\"drop\":{drop},\"at\":{at},\"table\":{table}}}",
                limit.sections
            )
        })
        .collect();
    write!(
        text,
        "],\"limits\":[{}],\"alike\":{:?}}}",
        limits.join(","),
        problem.alike
    )
    .unwrap();
    text
}
