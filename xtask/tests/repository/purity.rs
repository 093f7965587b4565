//! What the core must never touch, and the one place that touches files. Not here: who depends on
//! whom (`crates`).

use crate::tree::{self, File};

/// Modules of the standard library that reach outside, or make two runs differ.
const OUTSIDE: &[&str] = &["fs", "net", "env", "process", "thread"];

/// Words of code that do the same in other ways.
const IMPURE: &[&str] = &[
    "SystemTime",
    "Instant::",
    "HashMap",
    "HashSet",
    "RandomState",
    "println!",
    "eprintln!",
    "print!(",
    "env::",
];

/// The one module that reads and writes files.
const STORE: &[&str] = &[
    "crates/wainwright/src/store.rs",
    "crates/wainwright/src/store/",
];

#[test]
fn the_core_touches_nothing_outside() {
    let core = tree::files("crates", ".rs")
        .into_iter()
        .filter(|file| is_core(&file.path));
    tree::none(
        core.flat_map(|file| complaints(&file, reaches_out))
            .collect(),
    );
}

#[test]
fn only_the_store_touches_files() {
    let shell = tree::files("crates/wainwright/src", ".rs");
    let others = shell
        .into_iter()
        .filter(|file| !STORE.iter().any(|store| file.path.starts_with(store)));
    tree::none(
        others
            .flat_map(|file| {
                complaints(&file, |line| {
                    names_std(line, &["fs"]).or(word(line, "File::"))
                })
            })
            .collect(),
    );
}

#[test]
fn the_check_sees_what_it_should() {
    for line in [
        "use std::fs;",
        "    std::fs::read(path)",
        "use std::{fmt, net::TcpStream};",
        "let m: HashMap<u8, u8>;",
    ] {
        assert!(reaches_out(line).is_some(), "{line}");
    }
    for line in [
        "use std::fmt;",
        "let offset = reference.fs_count;",
        "use std::collections::BTreeMap;",
        "env!(\"X\")",
    ] {
        assert!(reaches_out(line).is_none(), "{line}");
    }
}

/// Product code of every crate but the program itself.
fn is_core(path: &str) -> bool {
    let inside: Vec<&str> = path.split('/').collect();
    matches!(inside.as_slice(), ["crates", name, "src", ..] if *name != "wainwright")
        && !path.ends_with("/oracle.rs")
}

fn complaints<'f>(file: &'f File, check: impl Fn(&str) -> Option<String> + 'f) -> Vec<String> {
    let bad = file
        .code()
        .filter_map(|(number, line)| check(line).map(|what| (number, what)));
    bad.map(|(number, what)| format!("{}:{number}: {what}", file.path))
        .collect()
}

fn reaches_out(line: &str) -> Option<String> {
    names_std(line, OUTSIDE).or_else(|| IMPURE.iter().find_map(|bad| word(line, bad)))
}

/// A module of the standard library, by its full path or inside braces.
fn names_std(line: &str, modules: &[&str]) -> Option<String> {
    let after = line.split_once("std::")?.1;
    let mut names =
        after.split(|letter: char| !letter.is_alphanumeric() && letter != '_' && letter != ':');
    let first_of = |name: &str| name.split("::").next().unwrap_or("").to_owned();
    names.find_map(|name| {
        modules
            .contains(&first_of(name).as_str())
            .then(|| format!("std::{name}"))
    })
}

/// A word, not as the end of a longer one.
fn word(line: &str, bad: &str) -> Option<String> {
    let at = line.find(bad)?;
    let before = line[..at].chars().next_back();
    (!before.is_some_and(|letter| letter.is_alphanumeric() || letter == '_'))
        .then(|| bad.to_owned())
}
