//! Rules of the repository, as tests: what may depend on what, what a crate must never contain,
//! how files begin, how long they are, which headings and sections must be there.
//!
//! Not here: behaviour of the program.

#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

mod crates;
mod documents;
mod fixtures;
mod glossary;
mod headings;
mod purity;
mod sources;
mod tree;
mod words;
