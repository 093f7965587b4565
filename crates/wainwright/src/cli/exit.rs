//! Exit statuses and what is printed when something fails. Not here: what
//! is printed when it does not.

use crate::store::StoreError;
use std::process::ExitCode;
use wainwright_rules::Severity;

/// Shown below the help.
pub const HELP: &str = "\
Exit status:
  0   nothing worse than a notice
  1   caution
  2   warning, or part of the file could not be understood,
      or there is nothing in it to compute
  3   danger
  4   the file could not be read or written
  5   there is no such thing as was asked for
  64  the command line was not understood";

/// How a verb ended that did its job.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Status {
    /// Nothing to complain about.
    Done,
    /// The worst that was found.
    Found(Option<Severity>),
    /// As found, but part of the text could not be read.
    Incomplete(Option<Severity>),
}

/// Why a verb could not do its job.
#[derive(Debug)]
pub enum Trouble {
    /// The file could not be read or written.
    Store(StoreError),
    /// A change was not taken or not saved.
    NotChanged(String),
    /// There is no such rule, subject, state, finding or fix.
    NoSuch(String),
    /// A value on the command line was not understood.
    Usage(String),
}

impl From<StoreError> for Trouble {
    fn from(error: StoreError) -> Self {
        Self::Store(error)
    }
}

/// The exit code of a verb, after saying on standard error what went wrong.
pub fn of(done: Result<Status, Trouble>) -> ExitCode {
    match done {
        Ok(Status::Done) => ExitCode::SUCCESS,
        Ok(Status::Found(worst)) => ExitCode::from(code(worst)),
        Ok(Status::Incomplete(worst)) => ExitCode::from(code(worst).max(2)),
        Err(trouble) => {
            let (text, code) = match trouble {
                Trouble::Store(error) => (error.to_string(), 4),
                Trouble::NotChanged(text) => (text, 4),
                Trouble::NoSuch(text) => (text, 5),
                Trouble::Usage(text) => (text, 64),
            };
            eprintln!("wainwright: {text}");
            ExitCode::from(code)
        }
    }
}

/// The exit code when the command line itself was not understood, or was a
/// request for help.
pub fn of_usage(error: &clap::Error) -> ExitCode {
    // Printing can only fail when nobody listens any more.
    let _ = error.print();
    if error.use_stderr() {
        ExitCode::from(64)
    } else {
        ExitCode::SUCCESS
    }
}

fn code(worst: Option<Severity>) -> u8 {
    match worst {
        None | Some(Severity::Notice) => 0,
        Some(Severity::Caution) => 1,
        Some(Severity::Warning) => 2,
        Some(Severity::Danger) => 3,
    }
}
