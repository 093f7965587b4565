//! Runs the program as a person would.
#![allow(dead_code, missing_docs, reason = "no story uses everything here")]
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a story that cannot go on must fail"
)]

use serde_json::Value;
use std::path::Path;
use std::process::{Command, Output};

pub fn program() -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_wainwright"));
    command.env_remove("COLUMNS").env_remove("NO_COLOR");
    command
}

pub fn run(args: &[&str]) -> Output {
    program().args(args).output().unwrap()
}

pub fn stdout(output: &Output) -> String {
    String::from_utf8(output.stdout.clone()).unwrap()
}

pub fn stderr(output: &Output) -> String {
    String::from_utf8(output.stderr.clone()).unwrap()
}

pub fn text(path: &Path) -> &str {
    path.to_str().unwrap()
}

/// Standard output as JSON; whatever the exit status says.
pub fn json(args: &[&str]) -> Value {
    let output = run(args);
    serde_json::from_slice(&output.stdout)
        .unwrap_or_else(|e| panic!("{args:?}: {e}\n{}", stderr(&output)))
}
