//! The road study: project text in, loads, margins, damping and holds out.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test that cannot go on has failed"
)]

mod better;
mod oracles;
mod placing;
mod proofs;
mod stories;

use wainwright_analysis::catalogue;
use wainwright_analysis::result::road::{Level, RoadResult, RoadState};
use wainwright_analysis::road;
use wainwright_model::{Project, parse};

/// The project of a text without any problem in it.
fn read(text: &str) -> Project {
    let parsed = parse(text, catalogue());
    assert_eq!(parsed.problems, vec![], "the text has problems:\n{text}");
    parsed.project
}

fn study(text: &str) -> RoadResult {
    let found = road::study(&read(text));
    assert_eq!(found.refused, Vec::<String>::new());
    found
}

/// The fill state with these levels.
fn state<'a>(found: &'a RoadResult, levels: &[Level]) -> &'a RoadState {
    let mut states = found.states.iter();
    states
        .find(|state| {
            state.levels == levels
                && state.kind == wainwright_analysis::result::road::RoadStateKind::Fills
        })
        .unwrap()
}

#[track_caller]
fn close(found: f64, expected: f64, tolerance: f64) {
    assert!(
        (found - expected).abs() <= tolerance,
        "{found} against {expected}"
    );
}
