//! Automation in Rust: generated documents and repository chores. No product code.
fn main() {}
