//! Stories told over HTTP: a browser of the person's own computer, and
//! strangers, ask a server at work.
#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test that cannot go on fails"
)]

mod client;
mod edits;
mod escaping;
mod forms;
mod layout;
mod lining;
mod lists;
mod live;
mod pages;
mod strangers;
mod wiring;
