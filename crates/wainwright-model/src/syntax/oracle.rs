//! Oracle: the TOML library, given the whole text at once, accepts what is accepted here and reads the same values.
//!
//! The statement scanner, the tree and their rules on double definitions were written without the library's document
//! reader, so agreement on seeded texts is evidence for both.

use super::{
    NodeValue, Script, plain, read, scan, statement,
    tree::{Shape, Tree},
};
use crate::common;
use std::collections::BTreeMap;
use toml_edit::{Document, Item, Table, Value};

/// Dotted path (as debug text) to the bytes of the value.
type Leaves = BTreeMap<Vec<String>, std::ops::Range<usize>>;

fn ours(text: &str) -> Option<Leaves> {
    let script: Script = read(text);
    let mut faults = script.faults.clone();
    let tree = Tree::new(&script.statements, &mut faults);
    if !faults.is_empty() {
        return None;
    }
    let mut leaves = Leaves::new();
    let mut open = vec![(0, Vec::new())];
    while let Some((index, path)) = open.pop() {
        let branch = tree.get(index)?;
        if let Shape::Value(node) = &branch.shape {
            assert!(!matches!(node.value, NodeValue::Table(_)));
            leaves.insert(path, node.span.clone());
            continue;
        }
        for child in &branch.children {
            let mut path = path.clone();
            path.push(tree.get(*child)?.name.clone());
            open.push((*child, path));
        }
    }
    Some(leaves)
}

fn theirs(text: &str) -> Option<Leaves> {
    let document = Document::parse(text).ok()?;
    let mut leaves = Leaves::new();
    descend(document.as_table(), &[], &mut leaves);
    Some(leaves)
}

fn descend(table: &Table, path: &[String], leaves: &mut Leaves) {
    for (name, item) in table.iter() {
        let path: Vec<String> = path.iter().cloned().chain([name.to_owned()]).collect();
        match item {
            Item::Table(inner) => descend(inner, &path, leaves),
            Item::Value(value) => value_leaves(value, &path, leaves),
            _ => {}
        }
    }
}

fn value_leaves(value: &Value, path: &[String], leaves: &mut Leaves) {
    let Value::InlineTable(table) = value else {
        leaves.insert(path.to_vec(), value.span().unwrap());
        return;
    };
    for (name, inner) in table.iter() {
        let path: Vec<String> = path.iter().cloned().chain([name.to_owned()]).collect();
        value_leaves(inner, &path, leaves);
    }
}

#[test]
fn the_library_agrees_on_what_is_legal_and_on_every_value() {
    let (mut legal, mut broken) = (0, 0);
    for case in 0..60_000_u64 {
        let text = common::text(&mut common::Dice::new(case + 7_000_000));
        // Lists of tables are legal TOML and refused here, by design.
        if text.contains("[[") {
            continue;
        }
        // The library counts offsets from after a byte order mark; places are compared without one.
        let text = text.trim_start_matches('\u{feff}');
        let (ours, theirs) = (ours(text), theirs(text));
        assert_eq!(ours, theirs, "case {case}: {text:?}");
        if theirs.is_some() {
            legal += 1
        } else {
            broken += 1
        }
    }
    assert!(
        legal > 5_000 && broken > 5_000,
        "{legal} legal, {broken} broken"
    );
}

#[test]
fn plain_statements_are_read_as_the_library_reads_them() {
    let (mut plain_ones, mut others) = (0, 0);
    for case in 0..40_000_u64 {
        let text = common::text(&mut common::Dice::new(case + 9_000_000));
        for piece in scan::pieces(&text, 0, &mut Vec::new()) {
            if piece.fault.is_some() {
                continue;
            }
            match plain::read(&text, piece.span.clone()) {
                Some(body) => {
                    let theirs = statement::by_library(&text, piece.span.clone());
                    assert_eq!(Ok(body), theirs, "case {case}: {:?}", &text[piece.span]);
                    plain_ones += 1;
                }
                None => others += 1,
            }
        }
    }
    assert!(
        plain_ones > 50_000 && others > 20_000,
        "{plain_ones} plain, {others} others"
    );
    let fixture = scan::pieces(common::FIXTURE, 0, &mut Vec::new());
    let plain_ones = fixture
        .iter()
        .filter(|piece| plain::read(common::FIXTURE, piece.span.clone()).is_some());
    assert!(plain_ones.count() * 10 > fixture.len() * 9);
}

#[test]
fn the_fixture_is_read_the_same() {
    let leaves = ours(common::FIXTURE).unwrap();
    assert_eq!(Some(&leaves), theirs(common::FIXTURE).as_ref());
    assert!(leaves.len() > 150);
}
