//! Stories: project text in, results out. Expected figures are worked out by
//! hand in each test from Ohm's and Kirchhoff's laws.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test that cannot go on has failed"
)]

mod assumptions;
mod cabinets;
mod demos;
mod extremes;
mod gear;
mod indoors;
mod lining;
mod lining_any;
mod mutilated;
mod routes;
mod settings;
mod sources;
mod states;
mod takeoff;
mod trips;
mod wiring;

use wainwright_analysis::catalogue;
use wainwright_analysis::result::{Assessment, ConsumerInState, StateKind, WireInState};
use wainwright_model::{Project, parse};

/// The project of a text without any problem in it.
fn read(text: &str) -> Project {
    let parsed = parse(text, catalogue());
    assert_eq!(parsed.problems, vec![], "the text has problems:\n{text}");
    parsed.project
}

fn assess(text: &str) -> Assessment {
    wainwright_analysis::assess(&read(text))
}

fn state(found: &Assessment, kind: &StateKind) -> usize {
    let states = found.states.iter();
    states.map(|s| &s.kind).position(|k| k == kind).unwrap()
}

fn full(found: &Assessment) -> usize {
    state(found, &StateKind::EverythingFull)
}

fn named(found: &Assessment, id: &str) -> usize {
    let id = wainwright_model::Id::new(id).unwrap();
    state(found, &StateKind::Named(id))
}

fn wire(found: &Assessment, id: &str, state: usize) -> WireInState {
    found.wire(id).unwrap().states[state]
}

fn gear(found: &Assessment, id: &str, state: usize) -> ConsumerInState {
    found.consumer(id).unwrap().states[state]
}

#[track_caller]
fn close(found: f64, expected: f64, tolerance: f64) {
    assert!(
        (found - expected).abs() <= tolerance,
        "{found} against {expected}"
    );
}

/// A 12.8 V battery of 10 mΩ between the terminals `bat.+` and `bat.-`.
const BATTERY: &str = r#"
wainwright = 1
[item.bat]
kind = "battery"
chemistry = "lfp"
cells = 4
capacity = "100 Ah"
resistance = "10 mohm"
"#;

/// A wire of 12 AWG whose ends are without resistance worth the name.
fn lead(id: &str, from: &str, to: &str) -> String {
    format!(
        "[wire.{id}]\nfrom = \"{from}\"\nto = \"{to}\"\nsize = \"12 AWG\"\n\
         insulation = \"gxl\"\nlength = \"3 m\"\njoint_from = \"0.1 mohm\"\njoint_to = \"0.1 mohm\"\n"
    )
}

/// The battery with one load straight across it.
fn with_load(fields: &str) -> String {
    let load = format!("[item.load]\nkind = \"load\"\n{fields}\n");
    let leads = lead("p", "bat.+", "load.+") + &lead("m", "load.-", "bat.-");
    format!("{BATTERY}{load}{leads}")
}
