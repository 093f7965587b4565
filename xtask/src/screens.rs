//! Pictures of all pages of the app, for looking at. Not here: the pages, the list of them, and
//! the browser, which the browser tests know.

use crate::tree;
use std::process::Command;

/// Builds the app and takes the pictures.
pub fn take() -> Result<String, String> {
    let root = tree::root();
    run(Command::new(env!("CARGO"))
        .args(["build", "-p", "wainwright"])
        .current_dir(&root))?;
    run(Command::new("node")
        .arg("tests/browser/screens.mjs")
        .current_dir(&root))?;
    Ok("the pictures are in target/screens".into())
}

fn run(command: &mut Command) -> Result<(), String> {
    let program = command.get_program().to_string_lossy().into_owned();
    match command.status() {
        Ok(status) if status.success() => Ok(()),
        Ok(status) => Err(format!("{program} ended with {status}")),
        Err(why) => Err(format!("{program} did not start: {why}. Run: ./test tools")),
    }
}
