//! Who may depend on whom. Not here: what a crate may contain (`purity`).

use crate::tree;
use std::collections::BTreeMap;
use std::process::Command;

/// Each crate of ours with the crates of ours it may use, and the foreign ones it may use.
const ALLOWED: &[(&str, &[&str], &[&str])] = &[
    ("wainwright-units", &[], &[]),
    ("wainwright-reference", &["units"], &[]),
    ("wainwright-engines", &["units"], &["solar-positioning"]),
    ("wainwright-model", &["units"], &["toml_edit", "serde_json"]),
    (
        "wainwright-analysis",
        &["units", "reference", "engines", "model"],
        &[],
    ),
    (
        "wainwright-rules",
        &["units", "reference", "model", "analysis"],
        &[],
    ),
    ("wainwright-drawing", &["units", "analysis"], &[]),
    (
        "wainwright",
        &[
            "units",
            "reference",
            "model",
            "analysis",
            "rules",
            "drawing",
        ],
        &[
            "axum",
            "clap",
            "futures-util",
            "maud",
            "serde",
            "serde_json",
            "tokio",
        ],
    ),
    (
        "xtask",
        &[
            "units",
            "reference",
            "model",
            "analysis",
            "rules",
            "drawing",
        ],
        &["serde_json"],
    ),
];

/// What tests may use besides: a generator of random inputs, nothing that answers for our code.
const ALLOWED_IN_TESTS: &[&str] = &["proptest", "toml_edit", "serde_json"];

#[test]
fn dependencies_go_one_way() {
    let mut complaints = Vec::new();
    for (name, used) in used() {
        let Some((_, ours, foreign)) = ALLOWED.iter().find(|(known, ..)| *known == name) else {
            complaints.push(format!(
                "{name}: a new crate needs its row here and in ARCHITECTURE.md"
            ));
            continue;
        };
        for (other, in_tests) in used {
            let short = other.strip_prefix("wainwright-");
            let allowed = short.is_some_and(|short| ours.contains(&short))
                || foreign.contains(&other.as_str())
                || in_tests && (ALLOWED_IN_TESTS.contains(&other.as_str()) || name == other);
            if !allowed {
                complaints.push(format!("{name} must not use {other}"));
            }
        }
    }
    tree::none(complaints);
}

#[test]
fn every_crate_is_in_a_folder_of_its_name() {
    for (name, ..) in ALLOWED.iter().filter(|(name, ..)| *name != "xtask") {
        assert!(
            tree::root()
                .join("crates")
                .join(name)
                .join("Cargo.toml")
                .is_file(),
            "{name}"
        );
    }
}

#[test]
fn foreign_crates_are_argued_for() {
    let decisions: String = tree::files("docs/decisions", ".md")
        .into_iter()
        .map(|file| file.text)
        .collect();
    let named = |name: &&str| decisions.contains(&format!("`{name}`"));
    let foreign = ALLOWED
        .iter()
        .flat_map(|(_, _, foreign)| *foreign)
        .chain(&["proptest"]);
    let silent: Vec<String> = foreign
        .filter(|name| !named(name))
        .map(|name| format!("{name}: no decision names it"))
        .collect();
    tree::none(silent);
}

/// Every crate with what it uses, and whether only its tests do.
fn used() -> BTreeMap<String, Vec<(String, bool)>> {
    let out = Command::new(env!("CARGO"))
        .args([
            "metadata",
            "--no-deps",
            "--offline",
            "--format-version",
            "1",
        ])
        .current_dir(tree::root())
        .output()
        .unwrap();
    assert!(
        out.status.success(),
        "{}",
        String::from_utf8_lossy(&out.stderr)
    );
    let metadata: serde_json::Value = serde_json::from_slice(&out.stdout).unwrap();
    let packages = metadata["packages"].as_array().unwrap();
    assert_eq!(
        packages.len(),
        ALLOWED.len(),
        "crates of the workspace and rows of the table"
    );
    packages.iter().map(one_crate).collect()
}

fn one_crate(package: &serde_json::Value) -> (String, Vec<(String, bool)>) {
    let text = |value: &serde_json::Value| value.as_str().unwrap().to_owned();
    let used = package["dependencies"].as_array().unwrap().iter();
    let used = used.map(|other| (text(&other["name"]), other["kind"] == "dev"));
    (text(&package["name"]), used.collect())
}
