//! Times two hundred edits as one batch against the same edits one by one, in the same run. Prints a table; asserts
//! nothing but that both give the same text.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    reason = "a bench may stop on anything unexpected"
)]

use std::fmt::Write;
use std::hint::black_box;
use std::time::{Duration, Instant};
use wainwright_model::{Catalogue, Edit, Value, apply, parse, path};

/// Rounds per figure; the smallest is shown, because other work only adds time.
const ROUNDS: usize = 15;
/// Items, and wires, in the text.
const ROWS: usize = 55;
/// Edits in the batch.
const EDITS: usize = 200;

fn main() {
    let text = text();
    let edits = edits();
    println!(
        "{} lines, {} bytes, {} edits",
        text.lines().count(),
        text.len(),
        edits.len()
    );
    let batch = least(|| drop(black_box(apply(black_box(&text), &edits)).expect("a batch")));
    let single = least(|| drop(black_box(one_by_one(black_box(&text), &edits))));
    let reading = least(|| drop(black_box(parse(black_box(&text), &Catalogue::default()))));
    assert_eq!(
        apply(&text, &edits).expect("a batch").text,
        one_by_one(&text, &edits)
    );
    println!(
        "{:>12} {:>14} {:>8} {:>14}",
        "one batch", "one by one", "ratio", "reading once"
    );
    println!(
        "{batch:>12.2?} {single:>14.2?} {:>7.0}x {reading:>14.2?}",
        single.as_secs_f64() / batch.as_secs_f64()
    );
    for (name, kind) in KINDS {
        let some: Vec<Edit> = edits.iter().filter(|edit| kind(edit)).cloned().collect();
        let took = least(|| drop(black_box(apply(black_box(&text), &some)).expect("a batch")));
        println!("{:>4} x {name:8} {took:>12.2?}", some.len());
    }
}

type IsKind = fn(&Edit) -> bool;
const KINDS: [(&str, IsKind); 4] = [
    ("Add", |edit| matches!(edit, Edit::Add { .. })),
    ("Set", |edit| matches!(edit, Edit::Set { .. })),
    ("Remove", |edit| matches!(edit, Edit::Remove { .. })),
    ("Rename", |edit| matches!(edit, Edit::Rename { .. })),
];

fn least(mut work: impl FnMut()) -> Duration {
    let rounds = (0..ROUNDS).map(|_| {
        let start = Instant::now();
        work();
        start.elapsed()
    });
    rounds.min().unwrap_or_default()
}

fn one_by_one(text: &str, edits: &[Edit]) -> String {
    edits.iter().fold(text.to_owned(), |text, edit| {
        apply(&text, std::slice::from_ref(edit))
            .expect("an edit")
            .text
    })
}

/// A project of about six hundred lines with comments.
fn text() -> String {
    let mut text = String::from("wainwright = 1\n\n[project]\nname = \"Bench\"\n\n");
    for row in 0..ROWS {
        let _ = write!(
            text,
            "# gear {row}\n[item.gear-{row}]\nlabel = \"Gear {row}\"\nkind = \"load\"   # as found\ncurrent = \"2 A\"\n\n"
        );
    }
    for row in 0..ROWS {
        let _ = write!(
            text,
            "[wire.w-{row}]\nfrom = \"gear-{row}.+\"\nto = \"gear-{}.-\"\nsize = \"12 AWG\"\nlength = \"3' 4\\\"\"\n\n",
            (row + 1) % ROWS
        );
    }
    text
}

/// What a plan made by the program would ask for: new items and wires, values, renamed and removed ones.
fn edits() -> Vec<Edit> {
    let pairs = |pairs: &[(&str, String)]| {
        let owned = pairs
            .iter()
            .map(|(key, value)| ((*key).to_owned(), Value::Text(value.clone())));
        owned.collect::<Vec<_>>()
    };
    let edit = |number: usize| match number % 10 {
        0..=3 => Edit::Add {
            table: path(["wire", &format!("new-{number}")]),
            fields: pairs(&[
                ("from", format!("gear-{}.+", 20 + number % 30)),
                ("to", format!("gear-{}.-", 21 + number % 30)),
                ("size", "10 AWG".into()),
                ("insulation", "gxl".into()),
                ("length", "4 ft".into()),
                ("label", format!("N{number}")),
            ]),
            after: None,
        },
        4 | 5 => Edit::Add {
            table: path(["item", &format!("fuse-{number}")]),
            fields: pairs(&[
                ("label", format!("Fuse {number}")),
                ("kind", "fuse".into()),
                ("family", "blade".into()),
                ("rating", "15 A".into()),
            ]),
            after: None,
        },
        6 => Edit::Set {
            path: path(["wire", &format!("w-{}", 20 + number / 10), "size"]),
            value: "8 AWG".into(),
        },
        7 => Edit::Set {
            path: path(["item", &format!("gear-{}", 20 + number / 10), "note"]),
            value: "planned".into(),
        },
        8 => Edit::Remove {
            table: path(["wire", &format!("w-{}", number / 10)]),
        },
        _ => Edit::Rename {
            table: path(["item", &format!("gear-{}", number / 10)]),
            to: format!("thing-{number}"),
        },
    };
    (0..EDITS).map(edit).collect()
}
