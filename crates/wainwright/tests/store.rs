//! Stories of the file on disk: what is written, what is refused, and what
//! happens when somebody else is at the same file.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a story that cannot go on must fail"
)]

mod support;

use std::fs::{self, File};
use std::os::unix::fs::{PermissionsExt, symlink};
use std::process::Command;
use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::thread;
use std::time::{Duration, SystemTime};
use support::Folder;
use wainwright::store::{LARGEST, Look, Store, StoreError, read};

#[test]
fn a_saved_text_is_on_disk_and_nothing_else_is_left_behind() {
    let folder = Folder::new();
    let path = folder.write("a.toml", "one\n");
    let mut store = Store::open(&path).unwrap();
    store.save("two\n").unwrap();
    assert_eq!(fs::read_to_string(&path).unwrap(), "two\n");
    assert_eq!(folder.names(), ["a.toml"]);
    assert_eq!(store.look().unwrap(), Look::Same);
}

#[test]
fn permissions_stay_and_a_link_stays_a_link() {
    let folder = Folder::new();
    let target = folder.write("real.toml", "one\n");
    fs::set_permissions(&target, fs::Permissions::from_mode(0o640)).unwrap();
    let link = folder.join("link.toml");
    symlink("real.toml", &link).unwrap();
    Store::open(&link).unwrap().save("two\n").unwrap();
    assert!(fs::symlink_metadata(&link).unwrap().is_symlink());
    assert_eq!(fs::read_to_string(&target).unwrap(), "two\n");
    let mode = fs::metadata(&target).unwrap().permissions().mode();
    assert_eq!(mode & 0o777, 0o640);
}

#[test]
fn what_is_no_project_text_is_refused_with_a_reason() {
    let folder = Folder::new();
    let missing = Store::open(&folder.join("none.toml")).unwrap_err();
    assert!(matches!(missing, StoreError::NotFound { .. }));
    assert!(missing.to_string().contains("there is no such file"));

    let not_a_file = Store::open(folder.path()).unwrap_err();
    assert!(matches!(not_a_file, StoreError::NotAFile { .. }));

    let pipe = folder.join("pipe");
    assert!(
        Command::new("mkfifo")
            .arg(&pipe)
            .status()
            .unwrap()
            .success()
    );
    let not_a_file = Store::open(&pipe).unwrap_err();
    assert!(matches!(not_a_file, StoreError::NotAFile { .. }));

    let bytes = folder.join("bytes.toml");
    fs::write(&bytes, b"fine\nbad \xff byte\n").unwrap();
    let error = Store::open(&bytes).unwrap_err();
    assert!(
        matches!(
            error,
            StoreError::NotText {
                line: 2,
                byte: 9,
                ..
            }
        ),
        "{error:?}"
    );
}

#[test]
fn the_size_limit_is_exact_in_both_directions() {
    let folder = Folder::new();
    let largest = usize::try_from(LARGEST).unwrap();
    let path = folder.write("big.toml", &"x".repeat(largest));
    let mut store = Store::open(&path).unwrap();
    let error = store.save(&"y".repeat(largest + 1)).unwrap_err();
    assert!(matches!(error, StoreError::TooLarge { .. }));
    assert!(fs::read_to_string(&path).unwrap().starts_with('x'));
    fs::write(&path, "z".repeat(largest + 1)).unwrap();
    let error = read(&path).unwrap_err();
    assert!(matches!(error, StoreError::TooLarge { .. }));
}

#[test]
fn a_change_from_outside_is_never_overwritten() {
    let folder = Folder::new();
    let path = folder.write("a.toml", "one\n");
    let mut store = Store::open(&path).unwrap();
    fs::write(&path, "theirs\n").unwrap();
    let error = store.save("ours\n").unwrap_err();
    assert!(matches!(error, StoreError::Changed { .. }));
    assert_eq!(fs::read_to_string(&path).unwrap(), "theirs\n");
    assert_eq!(folder.names(), ["a.toml"]);
    assert_eq!(store.look().unwrap(), Look::Changed("theirs\n".into()));
    store.save("ours, knowing theirs\n").unwrap();
}

/// Same length, and both within one tick of the clock of the file system:
/// size and time alone would not tell.
#[test]
fn a_change_that_leaves_size_and_time_alike_is_seen() {
    let folder = Folder::new();
    let path = folder.write("a.toml", "one\n");
    let time = SystemTime::now();
    File::open(&path).unwrap().set_modified(time).unwrap();
    let mut store = Store::open(&path).unwrap();
    fs::write(&path, "two\n").unwrap();
    File::open(&path).unwrap().set_modified(time).unwrap();
    assert_eq!(store.look().unwrap(), Look::Changed("two\n".into()));
}

#[test]
fn a_deleted_file_is_reported_and_not_quietly_made_anew() {
    let folder = Folder::new();
    let path = folder.write("a.toml", "one\n");
    let mut store = Store::open(&path).unwrap();
    fs::remove_file(&path).unwrap();
    assert_eq!(store.look().unwrap(), Look::Gone);
    let error = store.save("two\n").unwrap_err();
    assert!(matches!(error, StoreError::Gone { .. }));
    assert!(folder.names().is_empty());
    fs::write(&path, "one\n").unwrap();
    assert_eq!(store.look().unwrap(), Look::Same);
    store.save("two\n").unwrap();
}

#[test]
fn a_new_file_never_replaces_an_old_one() {
    let folder = Folder::new();
    let path = folder.write("a.toml", "one\n");
    let error = Store::create(&path, "two\n").unwrap_err();
    assert!(matches!(error, StoreError::Exists { .. }));
    assert_eq!(fs::read_to_string(&path).unwrap(), "one\n");
}

/// Four writers add one line each to what they last saw, again and again.
/// Not one line may get lost.
#[test]
fn no_update_is_lost_between_many_writers() {
    const WRITERS: usize = 4;
    const LINES: usize = 20;
    let folder = Folder::new();
    let path = folder.write("a.toml", "");
    thread::scope(|scope| {
        for writer in 0..WRITERS {
            let path = &path;
            scope.spawn(move || {
                for number in 0..LINES {
                    add_line(path, &format!("{writer} {number}\n"));
                }
            });
        }
    });
    let text = fs::read_to_string(&path).unwrap();
    assert_eq!(text.lines().count(), WRITERS * LINES);
}

/// Lines differ, because a save that finds its own text already there has
/// nothing to do and is no update.
fn add_line(path: &std::path::Path, line: &str) {
    loop {
        let mut store = Store::open(path).unwrap();
        let longer = format!("{}{line}", store.text());
        match store.save(&longer) {
            Ok(()) => return,
            Err(StoreError::Changed { .. } | StoreError::Busy { .. }) => {}
            Err(other) => panic!("{other}"),
        }
    }
}

#[test]
fn a_reader_sees_only_whole_texts() {
    let folder = Folder::new();
    let texts = ["a".repeat(200_000), "b".repeat(300_000)];
    let path = folder.write("a.toml", &texts[0]);
    let over = Arc::new(AtomicBool::new(false));
    let reader = {
        let (path, over) = (path.clone(), Arc::clone(&over));
        thread::spawn(move || {
            let mut seen = 0;
            while !over.load(Ordering::Relaxed) {
                let text = fs::read_to_string(&path).unwrap();
                let whole = text.len() == 200_000 || text.len() == 300_000;
                assert!(whole && text.bytes().all(|b| Some(b) == text.bytes().next()));
                seen += 1;
            }
            seen
        })
    };
    let mut store = Store::open(&path).unwrap();
    for turn in 1..40 {
        store.save(&texts[turn % 2]).unwrap();
    }
    over.store(true, Ordering::Relaxed);
    assert!(reader.join().unwrap() > 0);
}

#[test]
fn what_a_dead_writer_left_behind_does_not_block_for_ever() {
    let folder = Folder::new();
    let path = folder.write("a.toml", "one\n");
    let left = folder.write(".a.toml.new", "half a te");
    let mut store = Store::open(&path).unwrap();
    let error = store.save("two\n").unwrap_err();
    assert!(
        matches!(error, StoreError::Busy { .. }),
        "a young one is respected"
    );
    let old = SystemTime::now() - Duration::from_secs(60);
    File::open(&left).unwrap().set_modified(old).unwrap();
    store.save("two\n").unwrap();
    assert_eq!(folder.names(), ["a.toml"]);
}
