//! Laws of edits on sound texts: what was set is read back, undo gives every byte back, other lines stay.

#![allow(
    clippy::unwrap_used,
    clippy::panic,
    reason = "a test may stop on anything unexpected"
)]

use proptest::prelude::*;
use wainwright_model::{Catalogue, Edit, Path, Value, apply, parse, replay};

const FIXTURE: &str = include_str!("fixtures/v1.toml");

/// A table of the fixture.
fn table() -> impl Strategy<Value = Path> {
    let headers: Vec<Path> = FIXTURE
        .lines()
        .filter_map(|line| line.strip_prefix('[')?.strip_suffix(']'))
        .filter(|header| header.split('.').count() == 2 && !header.contains("not-a-table"))
        .map(|header| header.split('.').map(str::to_owned).collect())
        .collect();
    prop::sample::select(headers)
}

fn key() -> impl Strategy<Value = String> {
    prop_oneof![
        prop::sample::select(vec![
            "kind", "label", "note", "size", "power", "from", "on", "spot", "path", "route",
            "mass", "full"
        ])
        .prop_map(str::to_owned),
        "[a-z]{1,8}",
        "[ -~é]{1,6}",
    ]
}

fn value() -> impl Strategy<Value = Value> {
    let leaf = prop_oneof![
        any::<String>().prop_map(Value::Text),
        any::<i64>().prop_map(Value::Integer),
        any::<f64>()
            .prop_filter("finite", |number| number.is_finite())
            .prop_map(Value::Number),
        any::<bool>().prop_map(Value::Bool),
    ];
    leaf.prop_recursive(2, 8, 4, |inner| {
        prop::collection::vec(inner, 0..4).prop_map(Value::List)
    })
}

fn edit() -> impl Strategy<Value = Edit> {
    let field = || {
        (table(), key()).prop_map(|(mut table, key)| {
            table.push(key);
            table
        })
    };
    prop_oneof![
        4 => (field(), value()).prop_map(|(path, value)| Edit::Set { path, value }),
        1 => (table(), "[a-z0-9_-]{1,12}").prop_map(|(table, to)| Edit::Rename { table, to }),
        1 => table().prop_map(|table| Edit::Remove { table }),
        1 => field().prop_map(|path| Edit::Unset { path }),
        1 => (prop::sample::select(vec!["item", "wire", "part", "state", "trunk", "opening", "stock", "weighing"]), "[a-z]{12}", table(), value()).prop_map(
            |(element, id, after, value)| Edit::Add {
                table: vec![element.to_owned(), id],
                fields: vec![("note".into(), value)],
                after: Some(after),
            }
        ),
    ]
}

/// The fixture with one kind of line ending, or the other.
fn text() -> impl Strategy<Value = String> {
    prop_oneof![
        Just(FIXTURE.to_owned()),
        Just(FIXTURE.replace('\n', "\r\n")),
        Just(FIXTURE.trim_end().to_owned())
    ]
}

/// Lines that a value takes; one where there is none yet.
fn lines_of(text: &str, path: &Path) -> usize {
    let document = toml_edit::Document::parse(text).unwrap();
    let mut item = Some(document.as_item());
    for key in path {
        item = item.and_then(|item| item.get(key.as_str()));
    }
    let span = item.and_then(toml_edit::Item::span);
    span.map_or(1, |span| text[span].lines().count().max(1))
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(400) })]

    #[test]
    fn undo_gives_every_byte_back(text in text(), edits in prop::collection::vec(edit(), 1..4)) {
        if let Ok(applied) = apply(&text, &edits) {
            prop_assert_eq!(replay(&applied.text, &applied.inverse).unwrap(), text);
            prop_assert!(toml_edit::Document::parse(applied.text.as_str()).is_ok(), "{}", applied.text);
        }
    }

    /// The oracle of a batch: each edit alone, on the text the one before left behind.
    #[test]
    fn a_batch_is_its_edits_one_by_one(text in text(), edits in prop::collection::vec(edit(), 1..12)) {
        let mut alone = text.clone();
        let mut inverse = Vec::new();
        let mut refused = None;
        for (number, edit) in edits.iter().enumerate() {
            match apply(&alone, std::slice::from_ref(edit)) {
                Ok(applied) => {
                    alone = applied.text;
                    inverse.splice(0..0, applied.inverse);
                }
                Err(problem) => {
                    refused = Some((number, problem));
                    break;
                }
            }
        }
        match refused {
            None => {
                let batch = apply(&text, &edits).unwrap();
                prop_assert_eq!(&batch.text, &alone);
                prop_assert_eq!(batch.inverse, inverse);
            }
            Some((number, problem)) => {
                let upto = edits.get(..=number).unwrap_or_default();
                prop_assert_eq!(apply(&text, upto), Err(problem));
                let sound = edits.get(..number).unwrap_or_default();
                prop_assert_eq!(apply(&text, sound).unwrap().text, alone);
            }
        }
    }

    #[test]
    fn set_leaves_every_other_line_alone(text in text(), table in table(), key in key(), value in value()) {
        let path: Path = table.iter().cloned().chain([key]).collect();
        let former = lines_of(&text, &path);
        let edit = Edit::Set { path, value };
        let applied = apply(&text, &[edit]).unwrap();
        let before: Vec<&str> = text.lines().collect();
        let after: Vec<&str> = applied.text.lines().collect();
        let same_front = before.iter().zip(&after).take_while(|(a, b)| a == b).count();
        let same_back = before.iter().rev().zip(after.iter().rev()).take_while(|(a, b)| a == b).count();
        // The lines of the value changed, or one line more.
        let touched = before.len().saturating_sub(same_front + same_back);
        prop_assert!(touched <= former, "{} lines", touched);
        prop_assert!(after.len() <= before.len() + 1);
        if text.contains('\r') {
            prop_assert_eq!(applied.text.matches('\n').count(), applied.text.matches("\r\n").count());
        }
    }

    #[test]
    fn set_is_read_back_by_the_library(text in text(), table in table(), key in key(), typed in any::<String>()) {
        let path: Path = table.iter().cloned().chain([key.clone()]).collect();
        let applied = apply(&text, &[Edit::Set { path, value: Value::Text(typed.clone()) }]).unwrap();
        let document = toml_edit::Document::parse(applied.text.as_str()).unwrap();
        let read = document.as_table()[&table[0]][&table[1]][&key].as_str().map(str::to_owned);
        prop_assert_eq!(read, Some(typed));
    }

    #[test]
    fn rename_makes_no_new_problem(table in table(), to in "[a-z]{10}") {
        let applied = apply(FIXTURE, &[Edit::Rename { table: table.clone(), to: to.clone() }]).unwrap();
        let parsed = parse(&applied.text, &Catalogue::default());
        prop_assert_eq!(parsed.problems, vec![]);
        let back = apply(&applied.text, &[Edit::Rename { table: vec![table[0].clone(), to], to: table[1].clone() }]).unwrap();
        prop_assert_eq!(back.text, FIXTURE);
    }

    #[test]
    fn add_then_remove_gives_every_byte_back(text in text(), after in table(), id in "[a-z]{12}") {
        let table = vec![after[0].clone(), id];
        let fields = vec![("note".to_owned(), Value::from("x"))];
        let added = apply(&text, &[Edit::Add { table: table.clone(), fields, after: Some(after) }]).unwrap();
        let removed = apply(&added.text, &[Edit::Remove { table }]).unwrap();
        // A text without an ending on its last line gets one from the new table.
        prop_assert_eq!(removed.text.trim_end(), text.trim_end());
    }
}
