//! How a Rust file begins and how long it is. Not here: what it may contain (`purity`, `words`).

use crate::tree;

/// Longest file [lines]: what one person reads in one sitting.
const LONGEST: usize = 500;

#[test]
fn every_file_begins_by_saying_what_is_here() {
    let silent = tree::rust_files()
        .into_iter()
        .filter(|file| !file.text.starts_with("//! "));
    tree::none(
        silent
            .map(|file| format!("{} does not begin with //!", file.path))
            .collect(),
    );
}

#[test]
fn no_file_is_too_long() {
    let long = tree::rust_files()
        .into_iter()
        .map(|file| (file.text.lines().count(), file.path));
    let long = long.filter(|(lines, _)| *lines > LONGEST);
    tree::none(
        long.map(|(lines, path)| format!("{path}: {lines} lines, at most {LONGEST}"))
            .collect(),
    );
}

#[test]
fn nothing_is_left_undone() {
    // Put together here, so that this file does not hold them.
    let marks = [
        ["to", "do!("],
        ["unimple", "mented!("],
        ["FIX", "ME"],
        ["TO", "DO"],
    ]
    .map(|halves| halves.concat());
    let mut complaints = Vec::new();
    for file in tree::rust_files() {
        for (number, line) in file.text.lines().enumerate() {
            if let Some(mark) = marks.iter().find(|mark| line.contains(mark.as_str())) {
                complaints.push(format!("{}:{}: {mark}", file.path, number + 1));
            }
        }
    }
    tree::none(complaints);
}

/// A test that is not run by itself must be started by another one of the same file.
#[test]
fn no_test_is_passed_over() {
    let mut complaints = Vec::new();
    for file in tree::rust_files() {
        for after in file.text.split("\n#[ignore").skip(1) {
            let name = after
                .split_once("fn ")
                .and_then(|(_, rest)| rest.split('(').next())
                .unwrap_or("?");
            if !file.text.contains(&format!("\"{name}\"")) {
                complaints.push(format!("{}: nothing starts {name}", file.path));
            }
        }
    }
    tree::none(complaints);
}
