//! Automation in Rust: which command runs what. No product code.

mod docs;
mod rules_page;
mod screens;
mod tree;

use std::process::ExitCode;

const HELP: &str = "\
cargo xtask docs            write the generated documents
cargo xtask docs --check    fail when one of them is not what would be written now
cargo xtask screens         pictures of all pages, phone and desktop, light and dark, to target/screens";

fn main() -> ExitCode {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let words: Vec<&str> = words.iter().map(String::as_str).collect();
    let done = match words.as_slice() {
        ["docs"] => docs::write(),
        ["docs", "--check"] => docs::check(),
        ["screens"] => screens::take(),
        _ => Err(format!("the commands are:\n{HELP}")),
    };
    match done {
        Ok(said) => {
            println!("{said}");
            ExitCode::SUCCESS
        }
        Err(why) => {
            eprintln!("xtask: {why}");
            ExitCode::FAILURE
        }
    }
}
