//! Any text is read without a panic, with every problem inside the text, and any edit either leaves no trace of
//! itself or can be taken back.
//!
//! 300,000 seeded cases; `WAINWRIGHT_FUZZ_CASES=1000000` asks for more.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test may stop on anything unexpected"
)]

mod common;

use common::{Dice, text};
use wainwright_model::{Catalogue, Edit, Parsed, Path, Value, apply, inverse_of, parse, replay};

const CASES: usize = 300_000;

fn cases() -> usize {
    std::env::var("WAINWRIGHT_FUZZ_CASES")
        .ok()
        .and_then(|count| count.parse().ok())
        .unwrap_or(CASES)
}

#[test]
fn any_text_is_read_and_any_edit_is_undone() {
    let (library, _) = Catalogue::parse("[part.p]\nkind = \"load\"\npower = \"3 W\"\n");
    let mut tally = Tally::default();
    for case in 0..cases() {
        let mut dice = Dice::new(case as u64 + 1);
        let text = text(&mut dice);
        let parsed = parse(&text, &library);
        tally.count(&parsed);
        check_places(&text, &parsed);
        if case % 4 == 0 {
            tally.edited += usize::from(edit(&mut dice, &text));
        }
    }
    // The mix must keep reaching both sides, or the test says little.
    let some = cases() / 100;
    assert!(
        tally.sound > some && tally.broken > some && tally.wires > some && tally.edited > some,
        "{tally:?}"
    );
}

#[derive(Debug, Default)]
struct Tally {
    sound: usize,
    broken: usize,
    wires: usize,
    edited: usize,
}

impl Tally {
    fn count(&mut self, parsed: &Parsed) {
        let sound = parsed
            .problems
            .iter()
            .all(|problem| problem.path == "wainwright");
        self.sound += usize::from(sound);
        self.broken += usize::from(!sound);
        self.wires += usize::from(!parsed.project.wires.is_empty());
    }
}

fn check_places(text: &str, parsed: &Parsed) {
    let lines: Vec<&str> = text.split('\n').collect();
    for problem in &parsed.problems {
        let line = lines
            .get(problem.line - 1)
            .unwrap_or_else(|| panic!("{problem} is past the end of {text:?}"));
        assert!(
            (1..=line.chars().count() + 1).contains(&problem.column),
            "{problem} is past the line in {text:?}"
        );
        assert!(
            !problem.found.is_empty() && !problem.expected.is_empty(),
            "{problem:?}"
        );
    }
    for (_, item) in &parsed.project.items {
        assert!(item.at.line >= 1 && item.at.line <= lines.len());
        item.spec.terminals();
    }
}

/// One random edit; whether it was made.
fn edit(dice: &mut Dice, text: &str) -> bool {
    let edit = random_edit(dice);
    let Ok(applied) = apply(text, std::slice::from_ref(&edit)) else {
        return false;
    };
    let back = replay(&applied.text, &applied.inverse).unwrap();
    assert_eq!(back, text, "{edit:?}");
    assert_eq!(
        replay(text, &inverse_of(&applied.inverse)).unwrap(),
        applied.text,
        "{edit:?}"
    );
    let legal = |text: &str| toml_edit::Document::parse(text).is_ok();
    assert!(
        !legal(text) || legal(&applied.text),
        "{edit:?} broke {text:?} into {:?}",
        applied.text
    );
    true
}

fn random_edit(dice: &mut Dice) -> Edit {
    let table = random_table(dice);
    let key = dice.pick(&[
        "kind", "power", "from", "size", "x", "odd key", "on", "label", "spot", "path", "route",
    ]);
    let field: Path = table.iter().cloned().chain([key.to_owned()]).collect();
    match dice.below(8) {
        0..=3 => Edit::Set {
            path: field,
            value: random_value(dice),
        },
        4 => Edit::Unset { path: field },
        5 => {
            let after = (dice.below(2) == 0).then(|| random_table(dice));
            Edit::Add {
                table,
                fields: vec![(key.to_owned(), random_value(dice))],
                after,
            }
        }
        6 => Edit::Remove { table },
        _ => Edit::Rename {
            table,
            to: dice.pick(&["a", "b", "new", "Bad", "fridge"]).to_owned(),
        },
    }
}

fn random_table(dice: &mut Dice) -> Path {
    let element = dice.pick(&[
        "item", "item", "item", "wire", "wire", "part", "state", "project", "trailer", "strange",
        "trunk", "opening", "stock", "weighing", "vehicle", "towing",
    ]);
    let id = dice.pick(&[
        "a",
        "b",
        "w",
        "x",
        "s",
        "p",
        "fridge",
        "fan",
        "night",
        "fridge-pos",
        "new-one",
    ]);
    match element {
        "project" | "trailer" | "vehicle" | "towing" => vec![element.to_owned()],
        _ => vec![element.to_owned(), id.to_owned()],
    }
}

fn random_value(dice: &mut Dice) -> Value {
    match dice.below(6) {
        0 => Value::Integer(dice.below(9) as i64),
        1 => Value::Number(0.25 * dice.below(9) as f64),
        2 => Value::Bool(dice.below(2) == 0),
        3 => Value::List(vec!["fridge".into(), "a".into()]),
        _ => Value::from(dice.pick(&[
            "60 W",
            "a.+",
            "it's",
            "5' 3\"",
            "\\ \r\n\t\u{1}é",
            "",
            "load",
            "24 in, 10 in, 0",
            "1 in x 2 in x 3 in",
        ])),
    }
}
