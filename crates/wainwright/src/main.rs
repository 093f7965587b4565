//! Starts the program. Everything else is in the library of this crate.

use std::process::ExitCode;

fn main() -> ExitCode {
    wainwright::cli::run(std::env::args_os())
}
