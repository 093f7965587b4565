//! The same jobs solved by HiGHS, a general solver of mixed-integer programs, as arc-flow programs
//! (Valerio de Carvalho 1999). Not here: what is compared.

#[path = "../python/mod.rs"]
mod python;

use python::python;
use std::fmt::Write as _;
use std::path::Path;
use std::process::Command;
use wainwright_engines::cutting::*;

/// What the other solver says.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Answer {
    /// Least cost \[cents\].
    Cost(f64),
    /// The bars do not hold the pieces.
    NotEnough,
    /// Not done in the time it was given.
    Open,
}

/// Answer and seconds for each job.
pub fn by_highs(jobs: &[Job], most_seconds: f64) -> Vec<(Answer, f64)> {
    let name = format!("cutting-{}-{}.json", std::process::id(), jobs.len());
    let file = Path::new(env!("CARGO_TARGET_TMPDIR")).join(name);
    let list: Vec<String> = jobs.iter().map(json).collect();
    std::fs::write(&file, format!("[{}]", list.join(",\n"))).expect("the jobs can be written");
    let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/bar_jobs/arcflow.py");
    let mut command = Command::new(python());
    command.arg(script).arg(&file).arg(most_seconds.to_string());
    let output = (command.output())
        .unwrap_or_else(|error| panic!("python cannot be started ({error}); run `./test tools`"));
    let complaint = String::from_utf8_lossy(&output.stderr);
    assert!(
        output.status.success(),
        "this compares with HiGHS; `./test tools` installs it (Python package highspy):\n{complaint}"
    );
    std::fs::remove_file(&file).expect("the file is there");
    let printed = String::from_utf8_lossy(&output.stdout).into_owned();
    let solved: Vec<_> = printed.lines().map(one_line).collect();
    assert_eq!(solved.len(), jobs.len(), "{complaint}");
    solved
}

fn one_line(line: &str) -> (Answer, f64) {
    let mut words = line.split(' ');
    let status = words.next().unwrap();
    let mut number = || words.next().unwrap().parse::<f64>().unwrap();
    let (cost, seconds) = (number(), number());
    let answer = match status {
        "optimal" => Answer::Cost(cost),
        "infeasible" => Answer::NotEnough,
        _ => Answer::Open,
    };
    (answer, seconds)
}

fn json(job: &Job) -> String {
    let per = job.leftover.map_or(1, |leftover| leftover.per);
    let pieces: Vec<String> = (job.pieces.iter())
        .map(|piece| format!("[{},{}]", piece.length, piece.count))
        .collect();
    let stocks = job.stocks.iter().map(|stock| {
        let limit = (stock.available).map_or("null".to_owned(), |limit| limit.to_string());
        let price = u64::from(stock.price) * u64::from(per);
        format!("[{},{price},{limit}]", stock.usable())
    });
    let stocks: Vec<String> = stocks.collect();
    let (least, worth) = (job.leftover).map_or((0, 0), |leftover| (leftover.least, leftover.cents));
    let mut text = String::new();
    write!(
        text,
        "{{\"kerf\":{},\"parts\":{per},\"least\":{least},\"worth\":{worth},\"pieces\":[{}],\"stocks\":[{}]}}",
        job.kerf,
        pieces.join(","),
        stocks.join(",")
    )
    .unwrap();
    text
}
