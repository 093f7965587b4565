//! Stories of a disk that fails: full, write-protected, or somebody else's.
//! The full and the protected disk are real ones: a tiny file system in
//! memory, mounted where only the test itself sees it. Where that is not
//! allowed, these stories fail; they are never passed over.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a story that cannot go on must fail"
)]

mod support;

use std::fs;
use std::os::unix::fs::PermissionsExt;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};
use support::Folder;
use wainwright::session::{Disk, Session};
use wainwright::store::{Store, StoreError};
use wainwright_model::{Edit, Value, path};

/// Tells an inner story where its disk is mounted.
const DISK: &str = "STORY_DISK";

#[test]
fn on_a_full_disk_edits_are_kept_and_saved_once_there_is_room() {
    on_a_disk_of_its_own("inner_full_disk");
}

#[test]
#[ignore = "runs on a disk of its own, started by the story above"]
fn inner_full_disk() {
    let disk = disk();
    let path = disk.join("t.toml");
    let text = format!(
        "wainwright = 1\n# {}\n[item.lamp]\nkind = \"load\"\n",
        "x".repeat(20_000)
    );
    fs::write(&path, &text).unwrap();
    let session = Session::open(&path).unwrap();
    fill(&disk.join("filler"));

    let after = session.apply(&[power("20 W")], 1, "edit").unwrap();
    assert!(
        matches!(&after.disk, Disk::Unsaved(why) if why.contains("no room on the disk")),
        "{:?}",
        after.disk
    );
    assert!(after.study.text.contains("20 W"));
    assert_eq!(
        fs::read_to_string(&path).unwrap(),
        text,
        "the file on disk is whole"
    );
    let names: Vec<_> = fs::read_dir(&disk)
        .unwrap()
        .map(|e| e.unwrap().file_name())
        .collect();
    assert_eq!(names.len(), 2, "nothing half-written is left: {names:?}");

    let new = Store::create(&disk.join("new.toml"), &"y".repeat(20_000)).unwrap_err();
    assert!(new.to_string().contains("no room on the disk"));
    assert!(!disk.join("new.toml").exists());

    fs::remove_file(disk.join("filler")).unwrap();
    assert!(session.poll().unwrap().is_saved());
    assert!(fs::read_to_string(&path).unwrap().contains("20 W"));
}

#[test]
fn on_a_write_protected_disk_edits_are_kept_and_saved_once_it_is_open() {
    on_a_disk_of_its_own("inner_protected_disk");
}

#[test]
#[ignore = "runs on a disk of its own, started by the story above"]
fn inner_protected_disk() {
    let disk = disk();
    let path = disk.join("t.toml");
    fs::write(&path, "wainwright = 1\n[item.lamp]\nkind = \"load\"\n").unwrap();
    let session = Session::open(&path).unwrap();
    remount(&disk, "ro");
    let after = session.apply(&[power("20 W")], 1, "edit").unwrap();
    assert!(
        matches!(&after.disk, Disk::Unsaved(why) if why.contains("write-protected")),
        "{:?}",
        after.disk
    );
    assert!(after.study.text.contains("20 W"));
    remount(&disk, "rw");
    assert!(session.poll().unwrap().is_saved());
    assert!(fs::read_to_string(&path).unwrap().contains("20 W"));
}

#[test]
fn in_a_folder_that_may_not_be_written_nothing_is_written_and_the_reason_is_said() {
    let folder = Folder::new();
    fs::set_permissions(folder.path(), fs::Permissions::from_mode(0o555)).unwrap();
    let output = as_ordinary_user(&["new", folder.join("t.toml").to_str().unwrap()]);
    fs::set_permissions(folder.path(), fs::Permissions::from_mode(0o755)).unwrap();
    assert_eq!(output.status.code(), Some(4), "{output:?}");
    let said = String::from_utf8(output.stderr).unwrap();
    assert!(said.contains("write-protected"), "{said}");
    assert!(folder.names().is_empty());
}

#[test]
fn a_file_that_may_not_be_read_is_said_to_be_so() {
    let folder = Folder::new();
    let path = folder.write("t.toml", "wainwright = 1\n");
    fs::set_permissions(&path, fs::Permissions::from_mode(0o000)).unwrap();
    let output = as_ordinary_user(&["check", path.to_str().unwrap()]);
    assert_eq!(output.status.code(), Some(4), "{output:?}");
    let said = String::from_utf8(output.stderr).unwrap();
    assert!(said.contains("you may not read this file"), "{said}");
}

/// A write that is cut off in the middle, by the limit on the size of a file.
#[test]
fn a_write_cut_off_in_the_middle_leaves_the_old_file_whole() {
    let folder = Folder::new();
    let path = folder.join("new.toml");
    let program = env!("CARGO_BIN_EXE_wainwright");
    // 1 block of 512 bytes; the starter project is longer than that.
    let script = "trap '' XFSZ; ulimit -f 1; exec \"$0\" new \"$1\"";
    let output = Command::new("sh")
        .args(["-c", script, program])
        .arg(&path)
        .output()
        .unwrap();
    assert_eq!(output.status.code(), Some(4), "{output:?}");
    assert!(folder.names().is_empty(), "half a file is no file");
}

#[test]
fn a_store_error_names_the_file() {
    let error = Store::open(Path::new("/no/such/folder/t.toml")).unwrap_err();
    assert!(matches!(error, StoreError::NotFound { .. }));
    assert!(error.to_string().starts_with("/no/such/folder/t.toml: "));
}

fn power(text: &str) -> Edit {
    Edit::Set {
        path: path(["item", "lamp", "power"]),
        value: Value::from(text),
    }
}

fn disk() -> PathBuf {
    PathBuf::from(std::env::var_os(DISK).unwrap())
}

/// Takes all the room that is left.
fn fill(path: &Path) {
    use std::io::Write;
    let mut file = fs::File::create(path).unwrap();
    while file.write_all(&[0; 512]).is_ok() {}
}

fn remount(disk: &Path, how: &str) {
    let how = format!("remount,{how}");
    assert!(
        Command::new("mount")
            .args(["-o", &how])
            .arg(disk)
            .status()
            .unwrap()
            .success()
    );
}

/// Runs one story of this file on a new disk of 128 KiB, in a space of
/// mounts of its own that ends with it.
fn on_a_disk_of_its_own(story: &str) {
    let folder = Folder::new();
    let script = "mount -t tmpfs -o size=128k story \"$1\" && exec \"$0\" --exact \"$2\" --ignored --nocapture";
    // The administrator needs no other user to mount as, and has none where that is forbidden.
    let spaces: &[&str] = match is_administrator() {
        true => &["--mount"],
        false => &["--mount", "--map-root-user"],
    };
    let output = Command::new("unshare")
        .args(spaces)
        .args(["sh", "-c", script])
        .arg(std::env::current_exe().unwrap())
        .arg(folder.path())
        .arg(story)
        .env(DISK, folder.path())
        .output()
        .unwrap();
    let said = String::from_utf8_lossy(&output.stdout);
    let ran = output.status.success() && said.contains("1 passed");
    assert!(ran, "{said}\n{}", String::from_utf8_lossy(&output.stderr));
}

/// Runs the program as somebody whom permissions hold back: for the
/// administrator, without the right to pass over them. Another user would
/// not do, who may not even reach the program.
fn as_ordinary_user(args: &[&str]) -> Output {
    let program = env!("CARGO_BIN_EXE_wainwright");
    let mut command = match is_administrator() {
        true => Command::new("setpriv"),
        false => Command::new(program),
    };
    if is_administrator() {
        command.args(["--bounding-set=-dac_override,-dac_read_search", program]);
    }
    command.args(args);
    command.output().unwrap()
}

fn is_administrator() -> bool {
    Command::new("id").arg("-u").output().unwrap().stdout == b"0\n"
}
