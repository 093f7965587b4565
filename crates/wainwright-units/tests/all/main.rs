//! Tests of the units crate.
//!
//! - `proofs`: published values of unit conversions and wire gauges.
//! - `round_trip`: what is shown can be typed again (property tests over the legal ranges).
//! - `spellings`, `wire_sizes`: what people type and what it means.
//! - `errors`: what is not understood, with the column and the advice.
//! - `show`: how values are written.
//! - `fuzz`: no text makes the parser panic or leave its promises.
//! - `arithmetic`: products and quotients of quantities, points and vectors.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a test that panics has failed, in its helper functions too"
)]

mod arithmetic;
mod errors;
mod fuzz;
mod proofs;
mod round_trip;
mod show;
mod spellings;
mod wire_sizes;
