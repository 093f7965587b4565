//! Stories about plans: gear lists in, wiring out.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a story fails by stopping"
)]

mod demos;
mod laws;
mod plain;
mod random;

use wainwright_analysis::catalogue;
use wainwright_model::parse;
use wainwright_rules::plan::{Options, Plan, make};

/// The plan of a text.
fn plan(text: &str) -> Plan {
    let parsed = parse(text, catalogue());
    make(text, &parsed.project, &Options::default())
}

/// What is wrong with a plan, in words, for messages of failed tests.
fn told(plan: &Plan) -> String {
    let findings = plan.unsolved.iter();
    let findings = findings.map(|f| format!("{:?} {} {}", f.severity, f.rule, f.headline));
    let obstacles = plan
        .obstacles
        .iter()
        .map(|o| format!("{:?} {}", o.kind, o.text));
    findings.chain(obstacles).collect::<Vec<_>>().join("\n")
}
