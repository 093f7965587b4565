//! Stories: texts made to be too much are refused or read in bounded time, never with a crash.
//!
//! The bound of 20 s is for an unoptimised build on a busy machine; a second is usual.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test may stop on anything unexpected"
)]

use std::fmt::Write;
use std::time::{Duration, Instant};
use wainwright_model::{Catalogue, LONGEST_LINE, LONGEST_TEXT, MOST_PROBLEMS, Parsed, parse};

const BOUND: Duration = Duration::from_secs(20);

#[track_caller]
fn timed(text: &str) -> Parsed {
    let start = Instant::now();
    let parsed = parse(text, &Catalogue::default());
    assert!(
        start.elapsed() < BOUND,
        "{:?} for {} bytes",
        start.elapsed(),
        text.len()
    );
    parsed
}

/// `line(0)`, `line(1)`, ... up to nearly the longest text.
fn filled(line: impl FnMut(usize, &mut String)) -> String {
    filled_to(LONGEST_TEXT - 20_000, line)
}

fn filled_to(bytes: usize, mut line: impl FnMut(usize, &mut String)) -> String {
    let mut text = String::from("wainwright = 1\n");
    for index in 0.. {
        line(index, &mut text);
        if text.len() > bytes {
            break;
        }
    }
    text
}

#[test]
fn text_that_is_too_long_is_refused() {
    let parsed = timed(&"#\n".repeat(LONGEST_TEXT / 2 + 1));
    assert_eq!(
        parsed.problems[0].found,
        format!("a text of {} bytes", LONGEST_TEXT + 2)
    );
    assert!(parsed.project.items.is_empty());
    assert!(
        timed(&"#\n".repeat(LONGEST_TEXT / 2))
            .problems
            .iter()
            .all(|problem| problem.path == "wainwright")
    );
}

#[test]
fn line_that_is_too_long_is_refused_alone() {
    let text = format!(
        "wainwright = 1\n[project]\nnote = \"{}\"\nname = \"x\"\n",
        "x".repeat(LONGEST_LINE)
    );
    let parsed = timed(&text);
    assert_eq!(parsed.problems.len(), 1);
    assert_eq!(parsed.problems[0].line, 3);
    assert_eq!(parsed.project.head.name.unwrap().value, "x");
}

#[test]
fn nesting_is_refused() {
    for (open, close) in [
        ("[", "]"),
        ("{a=", "}"),
        ("[{a=", "}]"),
        ("[\n", "]"),
        ("{\na=", "}"),
    ] {
        for depth in [17, 1_000, 100_000] {
            let text = format!(
                "wainwright = 1\n[project]\nname = {}1{}\n",
                open.repeat(depth),
                close.repeat(depth)
            );
            let parsed = timed(&text);
            assert!(!parsed.problems.is_empty(), "{open} {depth}");
        }
    }
    let text = format!(
        "wainwright = 1\n{}a = 1\nproject.name = \"x\"\n",
        "a.".repeat(4_000)
    );
    let parsed = timed(&text);
    assert_eq!(parsed.problems.len(), 1, "{:?}", parsed.problems);
    assert!(parsed.problems[0].found.contains("dotted key"));
    assert_eq!(parsed.project.head.name.unwrap().value, "x");
    timed(&format!("[{}a]\n", "a.".repeat(4_000)));
    timed(&format!("x = {{ {}a = 1 }}\n", "a.".repeat(4_000)));
}

#[test]
fn a_hundred_thousand_tables_are_read() {
    let text = filled(|index, text| writeln!(text, "[item.i{index}]\nkind='load'").unwrap());
    let parsed = timed(&text);
    assert_eq!(parsed.problems, []);
    assert!(
        parsed.project.items.len() > 100_000,
        "{}",
        parsed.project.items.len()
    );
}

#[test]
fn a_hundred_thousand_wires_in_one_chain_and_in_one_circle() {
    let wire = |index: usize, text: &mut String| {
        writeln!(text, "[wire.w{index}]\nlike=\"w{}\"", index + 1).unwrap()
    };
    let text = filled(wire);
    let parsed = timed(&text);
    assert_eq!(parsed.problems.len(), MOST_PROBLEMS + 1);
    let count = parsed.project.wires.len();
    let text = text.replace(&format!("like=\"w{count}\""), "size=\"2 AWG\"");
    assert_eq!(
        timed(&text)
            .project
            .wires
            .get("w0")
            .unwrap()
            .size
            .as_ref()
            .unwrap()
            .text,
        "2 AWG"
    );
    timed(&text.replace("size=\"2 AWG\"", "like=\"w0\""));
}

#[test]
fn every_line_wrong() {
    for line in [
        "x\n",
        "[\n",
        "a = [\n",
        "a = {\n",
        "k = \\\"\"\"\n",
        "a = \"\"\"\n",
        "a = '''\"\"\"\n",
        "[item.a]\n",
        "= 1\n",
        "\"\n",
        "a.b = 1\n",
    ] {
        let parsed = timed(&filled_to(500_000, |_, text| text.push_str(line)));
        assert!(parsed.problems.len() <= MOST_PROBLEMS + 1);
        assert!(!parsed.problems.is_empty(), "{line}");
    }
}

#[test]
fn every_reference_wrong_beside_many_names() {
    let text = filled(|index, text| {
        writeln!(text, "[item.long-name-{index}]\nkind='bus-bar'\n[wire.w{index}]\nfrom='long-nmae-{index}.1'\nto='x.1'").unwrap();
    });
    let parsed = timed(&text);
    assert_eq!(parsed.problems.len(), MOST_PROBLEMS + 1);
    assert!(
        parsed.problems[MOST_PROBLEMS]
            .found
            .ends_with("more problems")
    );
}

#[test]
fn lines_full_of_values() {
    let row = (0..1_000)
        .map(|way| format!("\"{way} A\""))
        .collect::<Vec<_>>()
        .join(",");
    let text = filled(|index, text| {
        writeln!(
            text,
            "item.b{index} = {{ kind = 'fuse-block', fuses = [{row}] }}"
        )
        .unwrap()
    });
    timed(&text);
    timed(&filled(|_, text| {
        writeln!(text, "{}", "a=1,".repeat(2_000)).unwrap()
    }));
    timed(&filled(|index, text| {
        writeln!(text, "[[[[[[[[[[[[[[{index}").unwrap()
    }));
}
