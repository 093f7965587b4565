//! Oracles: independent, slow methods agree with the assessment on random
//! small projects, and a general-purpose circuit simulator on the demos.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test that cannot go on has failed"
)]

mod guards;
mod ngspice;
mod random;
mod routes;
mod volts;
