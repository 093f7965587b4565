//! Replacing a file in one step: the new text is complete on disk under
//! another name before it takes the old one's place. Not here: the check
//! whether the old one may be replaced.

use super::error::{Doing, StoreError};
use std::ffi::OsString;
use std::fs::{self, File, OpenOptions};
use std::io::{self, ErrorKind, Write};
use std::os::unix::fs::{MetadataExt, OpenOptionsExt, fchown};
use std::path::{Path, PathBuf};
use std::thread;
use std::time::Duration;

/// How often to try while another copy of the program is saving.
const TRIES: usize = 40;

/// Pause between tries [ms]; 40 tries make one second.
const PAUSE_MS: u64 = 25;

/// A new file this old was left behind by a copy that died while saving [s].
const LEFT_BEHIND_S: u64 = 30;

/// A new file beside the one it will replace. While it exists, every other
/// copy of this program waits with saving the same project.
pub struct Fresh {
    named: PathBuf,
    path: PathBuf,
    file: File,
    placed: bool,
}

impl Fresh {
    /// Makes the new file, empty and readable by nobody else. `named` is the
    /// path people know, for messages.
    ///
    /// # Errors
    /// When another copy keeps saving, or the folder cannot be written.
    pub fn begin(named: &Path, target: &Path) -> Result<Self, StoreError> {
        let path = beside(target);
        for _ in 0..TRIES {
            let made = OpenOptions::new()
                .write(true)
                .create_new(true)
                .mode(0o600)
                .open(&path);
            match made {
                Ok(file) => {
                    return Ok(Self {
                        named: named.to_path_buf(),
                        path,
                        file,
                        placed: false,
                    });
                }
                Err(error) if error.kind() == ErrorKind::AlreadyExists => wait_for(&path),
                Err(error) => return Err(StoreError::system(named, Doing::Write, error)),
            }
        }
        Err(StoreError::Busy {
            path: named.to_path_buf(),
        })
    }

    /// Fills the new file, forces it to disk and puts it in the old one's
    /// place with the old one's permissions.
    ///
    /// # Errors
    /// Why the system refuses; the old file is then as it was.
    pub fn replace(mut self, text: &str, target: &Path) -> Result<(), StoreError> {
        self.try_replace(text, target)
            .map_err(|error| StoreError::system(&self.named, Doing::Write, error))
    }

    fn try_replace(&mut self, text: &str, target: &Path) -> io::Result<()> {
        let old = fs::metadata(target)?;
        if old.permissions().readonly() && !is_writable(target) {
            return Err(ErrorKind::PermissionDenied.into());
        }
        self.file.write_all(text.as_bytes())?;
        // File systems without owners or modes (memory sticks) refuse these
        // two; the file then keeps the narrow ones it was made with.
        let _ = fchown(&self.file, Some(old.uid()), Some(old.gid()));
        let _ = self.file.set_permissions(old.permissions());
        self.file.sync_all()?;
        if !self.is_in_place() {
            return Err(ErrorKind::Interrupted.into());
        }
        fs::rename(&self.path, target)?;
        self.placed = true;
        sync_folder_of(target)
    }

    /// Whether the name still stands for the file made here. A copy that was
    /// stopped for long may have been taken for dead and its file removed.
    fn is_in_place(&self) -> bool {
        let ours = self.file.metadata().map(|m| (m.dev(), m.ino()));
        let named = fs::symlink_metadata(&self.path).map(|m| (m.dev(), m.ino()));
        matches!((ours, named), (Ok(a), Ok(b)) if a == b)
    }
}

impl Drop for Fresh {
    fn drop(&mut self) {
        if !self.placed && self.is_in_place() {
            let _ = fs::remove_file(&self.path);
        }
    }
}

/// Forces a folder's list of names to disk, so that a rename survives a
/// power cut.
///
/// # Errors
/// Why the system refuses.
pub fn sync_folder_of(path: &Path) -> io::Result<()> {
    let folder = match path.parent() {
        Some(parent) if parent != Path::new("") => parent,
        _ => Path::new("."),
    };
    match File::open(folder)?.sync_all() {
        // Some network file systems cannot do this for a folder at all.
        Err(error) if error.kind() == ErrorKind::InvalidInput => Ok(()),
        done => done,
    }
}

/// Hidden, in the same folder, so that the rename stays on one file system.
fn beside(target: &Path) -> PathBuf {
    let mut name = OsString::from(".");
    name.push(target.file_name().unwrap_or_default());
    name.push(".new");
    target.with_file_name(name)
}

/// A rename needs the folder alone to be writable; a file its owner has
/// write-protected is respected all the same.
fn is_writable(target: &Path) -> bool {
    OpenOptions::new().append(true).open(target).is_ok()
}

fn wait_for(path: &Path) {
    let age = fs::metadata(path).and_then(|m| m.modified());
    let old = age.is_ok_and(|t| {
        t.elapsed()
            .is_ok_and(|a| a > Duration::from_secs(LEFT_BEHIND_S))
    });
    if old {
        let _ = fs::remove_file(path);
    } else {
        thread::sleep(Duration::from_millis(PAUSE_MS));
    }
}
