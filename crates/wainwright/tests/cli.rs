//! Stories of the command line: what a person types, what is printed, and
//! the exit status.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a story that cannot go on must fail"
)]

#[path = "support/program.rs"]
mod program;
#[path = "support/projects.rs"]
mod projects;
mod support;

use program::{json, program, run, stderr, stdout, text};
use projects::{HALF_READABLE, UNFUSED};
use serde_json::Value;
use std::fs;
use std::process::{Command, Stdio};
use support::Folder;

#[test]
fn check_of_an_unfused_wire_cries_danger() {
    let folder = Folder::new();
    let file = folder.write("t.toml", UNFUSED);
    let output = run(&["check", text(&file)]);
    assert_eq!(output.status.code(), Some(3), "{}", stderr(&output));
    let said = stdout(&output);
    assert!(
        said.contains("DANGER") && said.contains("pump-plus"),
        "{said}"
    );
    assert!(!said.contains('\u{1b}'), "no colours into a pipe");
    assert_eq!(
        stdout(&run(&["check", text(&file)])),
        said,
        "the same every time"
    );
}

#[test]
fn check_shows_the_least_severity_asked_for_but_its_status_tells_all() {
    let folder = Folder::new();
    let file = folder.write("t.toml", UNFUSED);
    let args = [
        "check",
        text(&file),
        "--json",
        "--no-fixes",
        "--severity",
        "danger",
    ];
    let output = run(&args);
    assert_eq!(output.status.code(), Some(3));
    let report: Value = serde_json::from_slice(&output.stdout).unwrap();
    let findings = report["findings"].as_array().unwrap();
    assert!(!findings.is_empty());
    assert!(findings.iter().all(|f| f["severity"] == "danger"));
    let all = json(&["check", text(&file), "--json", "--no-fixes"]);
    assert!(all["findings"].as_array().unwrap().len() > findings.len());
}

#[test]
fn check_of_a_file_that_is_not_there_says_so_on_standard_error_alone() {
    let output = run(&["check", "no-such-file.toml"]);
    assert_eq!(output.status.code(), Some(4));
    assert_eq!(stdout(&output), "");
    assert!(stderr(&output).contains("no-such-file.toml: there is no such file"));
}

#[test]
fn check_of_a_text_that_is_half_readable_says_where_and_is_no_success() {
    let folder = Folder::new();
    let file = folder.write("t.toml", HALF_READABLE);
    let output = run(&["check", text(&file)]);
    assert!(output.status.code() >= Some(2), "{:?}", output.status);
    let said = stdout(&output);
    assert!(said.contains("line 4"), "{said}");
    assert!(said.contains("left out"), "{said}");
}

#[test]
fn check_of_an_empty_file_is_no_success() {
    let folder = Folder::new();
    let file = folder.write("t.toml", "wainwright = 1\n");
    let output = run(&["check", text(&file)]);
    assert_eq!(output.status.code(), Some(2));
    assert!(stdout(&output).contains("Nothing could be computed"));
}

#[test]
fn a_state_is_found_by_its_own_id_and_an_unknown_one_lists_those_there_are() {
    let folder = Folder::new();
    let file = folder.write("t.toml", UNFUSED);
    let said = stdout(&run(&[
        "check",
        text(&file),
        "--state",
        "night",
        "--no-fixes",
    ]));
    assert!(said.contains("State: Night"), "{said}");
    let output = run(&["check", text(&file), "--state", "noon"]);
    assert_eq!(output.status.code(), Some(5));
    assert!(stderr(&output).contains("state.night"));
}

#[test]
fn a_proven_fix_mends_what_it_says_and_touches_nothing_else() {
    let folder = Folder::new();
    let file = folder.write("t.toml", UNFUSED);
    let report = json(&["check", text(&file), "--json"]);
    let findings = report["findings"].as_array().unwrap();
    let fixable = findings.iter().find(|f| f["fixes"][0].is_object());
    let key = fixable.expect("something can be fixed")["key"]
        .as_str()
        .unwrap();

    let dry = json(&["fix", text(&file), key, "--dry-run", "--json"]);
    assert_eq!(dry["applied"], false);
    assert_eq!(fs::read_to_string(&file).unwrap(), UNFUSED);

    let output = run(&["fix", text(&file), key]);
    assert!(output.status.success(), "{}", stderr(&output));
    let after = fs::read_to_string(&file).unwrap();
    assert_ne!(after, UNFUSED);
    let removed = dry["removed"].as_array().unwrap();
    for line in UNFUSED.lines().filter(|l| !removed.iter().any(|r| r == l)) {
        assert!(after.contains(line), "lost: {line}");
    }
    let now = json(&["check", text(&file), "--json", "--no-fixes"]);
    let still = |key: &str| {
        now["findings"]
            .as_array()
            .unwrap()
            .iter()
            .any(|f| f["key"] == key)
    };
    for mended in dry["mends"].as_array().unwrap() {
        assert!(!still(mended.as_str().unwrap()), "{mended} still stands");
    }
}

#[test]
fn fix_without_a_key_lists_and_with_a_wrong_one_refuses() {
    let folder = Folder::new();
    let file = folder.write("t.toml", UNFUSED);
    let listed = json(&["fix", text(&file), "--json"]);
    assert!(
        listed
            .as_array()
            .unwrap()
            .iter()
            .all(|f| f["fixes"].is_array())
    );
    assert_eq!(
        run(&["fix", text(&file), "no-such:finding"]).status.code(),
        Some(5)
    );
    let key = listed[0]["key"].as_str().unwrap();
    let output = run(&["fix", text(&file), key, "--number", "99"]);
    assert_eq!(output.status.code(), Some(5));
    assert_eq!(fs::read_to_string(&file).unwrap(), UNFUSED);
}

#[test]
fn a_new_project_is_sound_and_never_replaces_a_file() {
    let folder = Folder::new();
    for units in ["us", "metric"] {
        let file = folder.join(&format!("{units}.toml"));
        assert!(
            run(&["new", text(&file), "--units", units])
                .status
                .success()
        );
        let output = run(&["check", text(&file)]);
        let status = output.status.code();
        assert!(status <= Some(1), "{status:?}\n{}", stdout(&output));
        let report = json(&["check", text(&file), "--json", "--no-fixes"]);
        assert_eq!(
            report["problems"].as_array().unwrap().len(),
            0,
            "{}",
            report["problems"]
        );
        assert_eq!(run(&["new", text(&file)]).status.code(), Some(4));
    }
}

#[test]
fn a_command_line_that_is_not_understood_is_told_apart_from_findings() {
    assert_eq!(run(&["check"]).status.code(), Some(64));
    assert_eq!(
        run(&["check", "a.toml", "--no-such-option"]).status.code(),
        Some(64)
    );
    let output = run(&["joint", "--resistance", "lots", "--current", "10 A"]);
    assert_eq!(output.status.code(), Some(64));
    assert!(stderr(&output).contains("lots"), "{}", stderr(&output));
    let help = run(&["--help"]);
    assert!(help.status.success());
    assert!(stdout(&help).contains("Exit status:"));
}

#[test]
fn a_reader_that_goes_away_is_no_accident() {
    // Nobody reads from the first moment on, so that it does not matter who is quicker.
    let (reader, writer) = std::io::pipe().unwrap();
    drop(reader);
    let output = program()
        .args(["parts", "--json"])
        .stdout(writer)
        .stderr(Stdio::piped())
        .output()
        .unwrap();
    assert_eq!(output.status.code(), Some(141), "{output:?}");
    assert_eq!(stderr(&output), "");
}

/// Through `script` of util-linux, which makes a terminal to write to.
#[test]
fn a_terminal_gets_colours_unless_it_wants_none() {
    let folder = Folder::new();
    let file = folder.write("t.toml", UNFUSED);
    let typed = format!(
        "{} check {} --no-fixes",
        env!("CARGO_BIN_EXE_wainwright"),
        text(&file)
    );
    let on_terminal = |no_color: &str| {
        let mut script = Command::new("script");
        script.args(["--quiet", "--command", &typed, "/dev/null"]);
        script
            .env("NO_COLOR", no_color)
            .env("TERM", "xterm")
            .stdin(Stdio::null());
        stdout(&script.output().unwrap())
    };
    assert!(on_terminal("").contains("\u{1b}[1;31mDANGER"));
    let plain = on_terminal("1");
    assert!(plain.contains("DANGER") && !plain.contains('\u{1b}'));
}

#[test]
fn a_netlist_of_a_state_is_solved_alike_by_a_circuit_simulator() {
    let folder = Folder::new();
    let file = folder.write("t.toml", UNFUSED);
    let output = run(&["netlist", text(&file), "--state", "everything-full"]);
    assert_eq!(output.status.code(), Some(0), "{}", stderr(&output));
    let deck = stdout(&output);
    let said = deck.lines().filter_map(|line| {
        let (node, rest) = line.strip_prefix("* n")?.split_once(' ')?;
        let volts: f64 = rest.split_once(" V")?.0.parse().ok()?;
        Some((format!("v(n{node})"), volts))
    });
    let path = folder.write("t.cir", &deck);
    let simulated = Command::new("ngspice").arg("-b").arg(&path).output();
    let simulated = stdout(&simulated.expect("ngspice runs; apt-get install ngspice"));
    let mut compared = 0;
    for (name, volts) in said {
        let line = simulated.lines().find(|line| line.starts_with(&name));
        let theirs = line.and_then(|line| line.split_once(" = "));
        let theirs: f64 = theirs
            .expect("every node is printed")
            .1
            .trim()
            .parse()
            .expect("a number");
        assert!(
            (theirs - volts).abs() < 1e-6,
            "{name}: {volts} against {theirs}"
        );
        compared += 1;
    }
    assert!(compared >= 4, "only {compared} nodes");
}
