//! Starts pvlib, a general-purpose solar library in Python, for tests and measurements. Not here:
//! what is compared.
#![allow(dead_code, reason = "each user needs a part")]

#[path = "../python/mod.rs"]
mod python;

use python::python;
use std::io::{BufRead, BufReader, Write};
use std::path::Path;
use std::process::{Child, ChildStdin, ChildStdout, Command, Stdio};

/// What each of these variables sets is the number of threads of a numerical library.
const THREADS: &[&str] = &[
    "OMP_NUM_THREADS",
    "OPENBLAS_NUM_THREADS",
    "MKL_NUM_THREADS",
    "NUMEXPR_NUM_THREADS",
    "NUMBA_NUM_THREADS",
];

/// A running `chain.py`, which answers one line for each line.
pub struct SolarLibrary {
    child: Child,
    questions: ChildStdin,
    answers: BufReader<ChildStdout>,
}

impl SolarLibrary {
    /// Starts it, on one thread.
    pub fn start() -> SolarLibrary {
        let script = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/solar_library/chain.py");
        let mut command = Command::new(python());
        command.arg(script);
        for name in THREADS {
            command.env(name, "1");
        }
        let started = command.stdin(Stdio::piped()).stdout(Stdio::piped()).spawn();
        let mut child = started.unwrap_or_else(|error| {
            panic!("python cannot be started ({error}); run `./test tools`")
        });
        let questions = child.stdin.take().unwrap();
        let answers = BufReader::new(child.stdout.take().unwrap());
        let mut library = SolarLibrary {
            child,
            questions,
            answers,
        };
        println!("compared with {}", library.ask("version"));
        library
    }

    /// The answer to a line.
    pub fn ask(&mut self, question: &str) -> String {
        // A program that has ended cannot be written to; what it lacked stands in its complaint.
        let asked = writeln!(self.questions, "{question}").and_then(|()| self.questions.flush());
        let mut answer = String::new();
        let read = self.answers.read_line(&mut answer);
        assert!(
            asked.is_ok() && read.is_ok_and(|bytes| bytes > 0),
            "no answer to '{question}': this needs pvlib as pinned; `./test tools` installs it \
             (Python package pvlib)"
        );
        answer.trim().to_owned()
    }
}

impl Drop for SolarLibrary {
    fn drop(&mut self) {
        // It may have ended already.
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}
