//! Every fixture is used by a test or by the program. Not here: what the fixtures say.

use crate::tree::{self, File};

#[test]
fn no_fixture_is_an_orphan() {
    let mut users = tree::rust_files();
    users.extend(tree::files("tests", ".mjs"));
    users.push(File {
        path: "README.md".into(),
        text: tree::text("README.md"),
    });
    let orphans = fixtures()
        .into_iter()
        .filter(|fixture| !is_used(fixture, &users));
    tree::none(
        orphans
            .map(|path| format!("{path}: nothing uses it"))
            .collect(),
    );
}

/// Examples, fixtures of tests, and texts that are part of the program.
fn fixtures() -> Vec<String> {
    let mut paths: Vec<String> = tree::files("examples", "")
        .into_iter()
        .map(|file| file.path)
        .collect();
    let inside = tree::files("crates", "").into_iter().map(|file| file.path);
    paths.extend(inside.filter(|path| {
        path.contains("/fixtures/") || path.contains("/src/") && !path.ends_with(".rs")
    }));
    paths
}

fn is_used(fixture: &str, users: &[File]) -> bool {
    let name = fixture.rsplit('/').next().unwrap_or(fixture);
    let folder = fixture.rsplit_once('/').map_or("", |(folder, _)| folder);
    let whole_folder = format!("\"{}\"", folder.rsplit('/').next().unwrap_or(""));
    // A test may also read all files of a folder it names.
    users.iter().any(|user| {
        user.text.contains(name)
            || folder.contains("/fixtures") && user.text.contains(&whole_folder)
    })
}
