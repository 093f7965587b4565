//! The program: session, store, command line, web pages.
fn main() {}
