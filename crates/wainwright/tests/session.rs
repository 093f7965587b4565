//! Stories of one open project: edits, undo, two people at the same file,
//! and edits that meet a change made outside.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a story that cannot go on must fail"
)]

mod support;

use std::fs;
use std::path::Path as FilePath;
use std::sync::Arc;
use std::thread;
use support::Folder;
use wainwright::session::{CHANGED_OUTSIDE, DISPLACED, Disk, Refusal, Session};
use wainwright_model::{Edit, Value, path};

const TEXT: &str = "\
wainwright = 1

[item.lamp]          # bought used
kind = \"load\"
power = \"20 W\"

[wire.lamp-plus]
from = \"lamp.+\"
to = \"lamp.-\"
size = \"14 AWG\"     # as found
";

fn set(table: &str, id: &str, key: &str, value: &str) -> Edit {
    Edit::Set {
        path: path([table, id, key]),
        value: Value::from(value),
    }
}

fn thicker() -> [Edit; 1] {
    [set("wire", "lamp-plus", "size", "10 AWG")]
}

fn on_disk(path: &FilePath) -> String {
    fs::read_to_string(path).unwrap()
}

#[test]
fn an_edit_is_on_disk_when_it_is_confirmed_and_undo_brings_every_byte_back() {
    let folder = Folder::new();
    let path = folder.write("t.toml", TEXT);
    let session = Session::open(&path).unwrap();
    let after = session.apply(&thicker(), 1, "thicker lamp wire").unwrap();
    assert!(after.is_saved());
    assert_eq!(after.revision, 2);
    assert_eq!(on_disk(&path), TEXT.replace("14 AWG", "10 AWG"));
    assert_eq!(after.undo.as_deref(), Some("thicker lamp wire"));

    let back = session.undo(2).unwrap();
    assert_eq!(on_disk(&path), TEXT);
    assert_eq!(&*back.study.text, TEXT);
    assert_eq!(
        (back.undo.as_deref(), back.redo.as_deref()),
        (None, Some("thicker lamp wire"))
    );

    session.redo(3).unwrap();
    assert_eq!(on_disk(&path), TEXT.replace("14 AWG", "10 AWG"));
    assert!(matches!(session.redo(4), Err(Refusal::NothingLeft)));
}

#[test]
fn a_new_edit_ends_what_could_be_redone() {
    let folder = Folder::new();
    let session = Session::open(&folder.write("t.toml", TEXT)).unwrap();
    session.apply(&thicker(), 1, "a").unwrap();
    session.undo(2).unwrap();
    let now = session
        .apply(&[set("item", "lamp", "power", "30 W")], 3, "b")
        .unwrap();
    assert_eq!(now.redo, None);
    assert!(matches!(session.redo(4), Err(Refusal::NothingLeft)));
}

#[test]
fn edits_are_all_taken_or_none() {
    let folder = Folder::new();
    let path = folder.write("t.toml", TEXT);
    let session = Session::open(&path).unwrap();
    let edits = [
        thicker()[0].clone(),
        set("wire", "no-such", "size", "10 AWG"),
    ];
    let refusal = session.apply(&edits, 1, "both").unwrap_err();
    assert!(matches!(refusal, Refusal::Edit(_)));
    assert_eq!(on_disk(&path), TEXT);
    assert_eq!(session.snapshot().revision, 1);
}

#[test]
fn an_edit_based_on_an_older_text_goes_on_when_its_table_is_as_it_was() {
    let folder = Folder::new();
    let path = folder.write("t.toml", TEXT);
    let session = Session::open(&path).unwrap();
    session
        .apply(&[set("item", "lamp", "power", "30 W")], 1, "first")
        .unwrap();
    let after = session.apply(&thicker(), 1, "second").unwrap();
    let expected = TEXT.replace("20 W", "30 W").replace("14 AWG", "10 AWG");
    assert_eq!(on_disk(&path), expected);
    assert_eq!(after.revision, 3);
}

#[test]
fn an_edit_based_on_an_older_text_is_refused_when_its_table_changed() {
    let folder = Folder::new();
    let path = folder.write("t.toml", TEXT);
    let session = Session::open(&path).unwrap();
    session.apply(&thicker(), 1, "first").unwrap();
    let late = [set("wire", "lamp-plus", "size", "16 AWG")];
    let refusal = session.apply(&late, 1, "second").unwrap_err();
    assert!(
        refusal
            .to_string()
            .contains("[wire.lamp-plus] was changed meanwhile")
    );
    assert_eq!(on_disk(&path), TEXT.replace("14 AWG", "10 AWG"));
    assert!(matches!(session.undo(1), Err(Refusal::Outdated { .. })));
    assert!(matches!(
        session.replace_text("", 1, "x"),
        Err(Refusal::Outdated { .. })
    ));
    assert!(matches!(
        session.apply(&late, 99, "x"),
        Err(Refusal::TooOld)
    ));
}

#[test]
fn an_edit_meets_a_change_made_outside_and_both_stay() {
    let folder = Folder::new();
    let path = folder.write("t.toml", TEXT);
    let session = Session::open(&path).unwrap();
    let theirs = TEXT.replace("20 W", "25 W");
    fs::write(&path, &theirs).unwrap();
    let after = session.apply(&thicker(), 1, "ours").unwrap();
    assert!(after.is_saved());
    assert_eq!(on_disk(&path), theirs.replace("14 AWG", "10 AWG"));
    assert_eq!(after.revision, 3, "theirs and ours are two steps");
}

#[test]
fn an_edit_of_a_table_that_was_changed_outside_is_refused() {
    let folder = Folder::new();
    let path = folder.write("t.toml", TEXT);
    let session = Session::open(&path).unwrap();
    let theirs = TEXT.replace("14 AWG", "12 AWG");
    fs::write(&path, &theirs).unwrap();
    let refusal = session.apply(&thicker(), 1, "ours").unwrap_err();
    assert!(matches!(refusal, Refusal::Outdated { .. }));
    assert_eq!(on_disk(&path), theirs);
    assert_eq!(&*session.snapshot().study.text, theirs);
}

#[test]
fn a_change_made_outside_is_taken_in_and_can_be_taken_back() {
    let folder = Folder::new();
    let path = folder.write("t.toml", TEXT);
    let session = Session::open(&path).unwrap();
    assert!(session.poll().is_none());
    fs::write(&path, "wainwright = 1\n").unwrap();
    let now = session.poll().unwrap();
    assert_eq!(now.undo.as_deref(), Some(CHANGED_OUTSIDE));
    assert!(now.study.project.items.is_empty());
    assert!(session.poll().is_none());
    session.undo(2).unwrap();
    assert_eq!(on_disk(&path), TEXT);
}

#[test]
fn a_deleted_file_keeps_its_text_and_its_later_edits_until_they_are_saved() {
    let folder = Folder::new();
    let path = folder.write("t.toml", TEXT);
    let session = Session::open(&path).unwrap();
    fs::remove_file(&path).unwrap();
    let now = session.poll().unwrap();
    assert!(matches!(&now.disk, Disk::Unsaved(why) if why.contains("deleted or moved")));

    let after = session.apply(&thicker(), 1, "edit").unwrap();
    assert!(!after.is_saved());
    let edited = TEXT.replace("14 AWG", "10 AWG");
    assert_eq!(&*after.study.text, edited);
    assert!(folder.names().is_empty());

    let elsewhere = folder.join("u.toml");
    let after = session.save_as(&elsewhere).unwrap();
    assert!(after.is_saved());
    assert_eq!(on_disk(&elsewhere), edited);
    session.undo(after.revision).unwrap();
    assert_eq!(on_disk(&elsewhere), TEXT);
}

#[test]
fn an_unsaved_edit_is_saved_once_the_old_file_is_back() {
    let folder = Folder::new();
    let path = folder.write("t.toml", TEXT);
    let session = Session::open(&path).unwrap();
    fs::remove_file(&path).unwrap();
    session.apply(&thicker(), 1, "edit").unwrap();
    fs::write(&path, TEXT).unwrap();
    assert!(session.poll().unwrap().is_saved());
    assert_eq!(on_disk(&path), TEXT.replace("14 AWG", "10 AWG"));
}

/// Their text wins on disk; ours is one undo away, so nothing is lost.
#[test]
fn unsaved_edits_survive_a_change_made_outside() {
    let folder = Folder::new();
    let path = folder.write("t.toml", TEXT);
    let session = Session::open(&path).unwrap();
    fs::remove_file(&path).unwrap();
    let unsaved = session.apply(&thicker(), 1, "edit").unwrap();
    let theirs = TEXT.replace("20 W", "25 W");
    fs::write(&path, &theirs).unwrap();
    let now = session.poll().unwrap();
    assert_eq!(on_disk(&path), theirs);
    assert!(now.is_saved());
    assert_eq!(now.undo.as_deref(), Some(DISPLACED));
    let back = session.undo(now.revision).unwrap();
    assert_eq!(back.study.text, unsaved.study.text);
}

#[test]
fn a_file_that_turns_into_something_else_is_reported_and_not_overwritten() {
    let folder = Folder::new();
    let path = folder.write("t.toml", TEXT);
    let session = Session::open(&path).unwrap();
    fs::write(&path, b"\xff\xfe").unwrap();
    let now = session.poll().unwrap();
    assert!(matches!(&now.disk, Disk::Unsaved(why) if why.contains("not UTF-8")));
    session.apply(&thicker(), 1, "edit").unwrap();
    assert_eq!(fs::read(&path).unwrap(), b"\xff\xfe");
    fs::write(&path, TEXT).unwrap();
    assert!(session.poll().unwrap().is_saved());
    assert_eq!(on_disk(&path), TEXT.replace("14 AWG", "10 AWG"));
}

#[test]
fn two_copies_of_the_program_do_not_lose_each_others_edits() {
    const EDITS: usize = 15;
    let folder = Folder::new();
    let path = folder.write("t.toml", "wainwright = 1\n");
    thread::scope(|scope| {
        for who in ["a", "b"] {
            let path = &path;
            scope.spawn(move || {
                let session = Session::open(path).unwrap();
                for number in 0..EDITS {
                    add_lamp(&session, &format!("{who}{number}"));
                }
            });
        }
    });
    let last = Session::open(&path).unwrap().snapshot();
    assert_eq!(last.study.project.items.len(), 2 * EDITS);
}

fn add_lamp(session: &Session, id: &str) {
    let edit = Edit::Add {
        table: path(["item", id]),
        fields: vec![("kind".into(), Value::from("load"))],
        after: None,
    };
    loop {
        let revision = session.snapshot().revision;
        match session.apply(std::slice::from_ref(&edit), revision, id) {
            Ok(now) => return assert!(now.is_saved()),
            Err(Refusal::Restless | Refusal::Outdated { .. }) => {}
            Err(other) => panic!("{other}"),
        }
    }
}

#[test]
fn readers_get_a_snapshot_that_does_not_change_under_them_and_are_told_of_new_ones() {
    let folder = Folder::new();
    let session = Arc::new(Session::open(&folder.write("t.toml", TEXT)).unwrap());
    let mut news = session.subscribe();
    let held = session.snapshot();
    let writer = Arc::clone(&session);
    thread::spawn(move || writer.apply(&thicker(), 1, "edit").map(|_| ()))
        .join()
        .unwrap()
        .unwrap();
    assert_eq!(&*held.study.text, TEXT);
    assert!(news.has_changed().unwrap());
    assert_eq!(news.borrow_and_update().revision, 2);
    session.apply(&thicker(), 2, "the same again").unwrap();
    assert!(
        !news.has_changed().unwrap(),
        "an edit that changes nothing is no news"
    );
}
