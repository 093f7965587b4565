//! The only place that reads or writes a file: one project text on disk,
//! read whole, replaced whole, and never overwritten when somebody else
//! changed it. Not here: what the text means, and what to do about a change
//! (see [`crate::session`]).

mod error;
mod fresh;
mod stamp;

pub use error::StoreError;

use error::Doing;
use fresh::Fresh;
use stamp::Stamp;
use std::fs::{self, File, Metadata, OpenOptions};
use std::io::{ErrorKind, Read, Write};
use std::path::{Path, PathBuf};
use std::thread;
use std::time::Duration;

/// Largest project text that is read or written [bytes]. A written-out
/// trailer is a few hundred kilobytes at most; a bigger file is some other
/// file opened by mistake.
pub const LARGEST: u64 = 4 * 1024 * 1024;

/// How often a file that changes while it is being read is read again.
const READ_TRIES: usize = 5;

/// Pause between two tries [ms], long enough for an editor to finish writing.
const PAUSE_MS: u64 = 20;

/// A project file and what was last seen in it.
#[derive(Debug)]
pub struct Store {
    path: PathBuf,
    text: String,
    stamp: Option<Stamp>,
}

/// What a look at the file found.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Look {
    /// It still holds what was last read or saved here.
    Same,
    /// Somebody else changed it; this is what it holds now.
    Changed(String),
    /// It was deleted or moved away.
    Gone,
}

impl Store {
    /// Opens an existing file and reads it whole.
    ///
    /// # Errors
    /// When there is no such file, it is no plain file, it is larger than
    /// [`LARGEST`], it is not UTF-8 text, or the system refuses.
    pub fn open(path: &Path) -> Result<Self, StoreError> {
        let (text, stamp) = read_settled(path)?;
        Ok(Self {
            path: path.to_path_buf(),
            text,
            stamp: Some(stamp),
        })
    }

    /// Writes a new file; an existing one is left as it is.
    ///
    /// # Errors
    /// [`StoreError::Exists`] when there is already a file of that name, or
    /// why the system refuses.
    pub fn create(path: &Path, text: &str) -> Result<Self, StoreError> {
        check_size(path, text.len() as u64)?;
        write_first(path, text)?;
        let stamp = fs::metadata(path).ok().map(|m| Stamp::of(&m));
        Ok(Self {
            path: path.to_path_buf(),
            text: text.to_owned(),
            stamp,
        })
    }

    /// The path as it was given.
    pub fn path(&self) -> &Path {
        &self.path
    }

    /// What the file held when it was last read or saved here.
    pub fn text(&self) -> &str {
        &self.text
    }

    /// Replaces the whole file, or leaves it exactly as it was. When this
    /// returns `Ok`, the text is on the disk.
    ///
    /// The new text is written beside the file, forced to disk, given the
    /// old permissions, and renamed over it. The new file also keeps other
    /// running copies of this program out until the rename is done, so that
    /// the check for outside changes cannot be overtaken by them. An editor
    /// that saves between that check and the rename, a matter of
    /// microseconds, cannot be kept out.
    ///
    /// # Errors
    /// [`StoreError::Changed`] or [`StoreError::Gone`] when the file is not
    /// what was last seen here, or why the system refuses. The file is
    /// untouched after every error.
    pub fn save(&mut self, text: &str) -> Result<(), StoreError> {
        check_size(&self.path, text.len() as u64)?;
        let target = follow(&self.path)?;
        let fresh = Fresh::begin(&self.path, &target)?;
        let (found, _) = read_whole(&target).map_err(|error| self.name_gone(error))?;
        if found != self.text && found != text {
            return Err(StoreError::Changed {
                path: self.path.clone(),
            });
        }
        if found != text {
            fresh.replace(text, &target)?;
        }
        text.clone_into(&mut self.text);
        self.stamp = fs::metadata(&target).ok().map(|m| Stamp::of(&m));
        Ok(())
    }

    /// Looks whether the file was changed from outside. A file whose size,
    /// times and identity are as before costs one system call. A changed
    /// text is from now on the last one seen.
    ///
    /// # Errors
    /// When the file is there but cannot be read as a project text.
    pub fn look(&mut self) -> Result<Look, StoreError> {
        let meta = match fs::metadata(&self.path) {
            Ok(meta) => meta,
            Err(error) if error.kind() == ErrorKind::NotFound => return Ok(Look::Gone),
            Err(error) => return Err(StoreError::system(&self.path, Doing::Read, error)),
        };
        if self.stamp.is_some_and(|s| s.still_tells(&meta)) {
            return Ok(Look::Same);
        }
        let (text, stamp) = match read_settled(&self.path) {
            Ok(found) => found,
            Err(StoreError::NotFound { .. }) => return Ok(Look::Gone),
            Err(error) => return Err(error),
        };
        self.stamp = Some(stamp);
        if text == self.text {
            return Ok(Look::Same);
        }
        self.text.clone_from(&text);
        Ok(Look::Changed(text))
    }

    fn name_gone(&self, error: StoreError) -> StoreError {
        match error {
            StoreError::NotFound { .. } => StoreError::Gone {
                path: self.path.clone(),
            },
            other => other,
        }
    }
}

/// Reads a project text once, without watching the file.
///
/// # Errors
/// As for [`Store::open`].
pub fn read(path: &Path) -> Result<String, StoreError> {
    read_settled(path).map(|(text, _)| text)
}

/// Reads another file than a project, of any bytes; one byte more than `most`
/// at the most, so that whoever reads it sees that it is too large.
///
/// # Errors
/// When there is no such file, it is no plain file, or the system refuses.
pub fn read_other(path: &Path, most: usize) -> Result<Vec<u8>, StoreError> {
    let refuse = |error| StoreError::system(path, Doing::Read, error);
    check_kind(path, &fs::metadata(path).map_err(refuse)?)?;
    let file = File::open(path).map_err(refuse)?;
    check_kind(path, &file.metadata().map_err(refuse)?)?;
    let mut bytes = Vec::new();
    file.take(most as u64 + 1)
        .read_to_end(&mut bytes)
        .map_err(refuse)?;
    Ok(bytes)
}

/// A new empty folder for short-lived files, under the system's own place
/// for them, readable by this user alone.
///
/// # Errors
/// When the system refuses.
pub fn passing_folder(name: &str) -> Result<PathBuf, StoreError> {
    use std::os::unix::fs::DirBuilderExt;
    let base = std::env::temp_dir();
    for number in 1..=LARGEST {
        let folder = base.join(format!("{name}-{}-{number}", std::process::id()));
        match fs::DirBuilder::new().mode(0o700).create(&folder) {
            Ok(()) => return Ok(folder),
            Err(error) if error.kind() == ErrorKind::AlreadyExists => {}
            Err(error) => return Err(StoreError::system(&folder, Doing::Write, error)),
        }
    }
    Err(StoreError::Busy { path: base })
}

/// Reads the file, and again while it changes under the reading, so that a
/// half-written text of a slow editor is rarely taken for the real one.
fn read_settled(path: &Path) -> Result<(String, Stamp), StoreError> {
    let mut found = read_whole(path);
    for _ in 1..READ_TRIES {
        match (&found, fs::metadata(path)) {
            (Ok((_, stamp)), Ok(meta)) if *stamp == Stamp::of(&meta) => return found,
            (Ok(_), _) | (Err(StoreError::NotText { .. }), _) => {}
            (Err(_), _) => return found,
        }
        thread::sleep(Duration::from_millis(PAUSE_MS));
        found = read_whole(path);
    }
    found
}

fn read_whole(path: &Path) -> Result<(String, Stamp), StoreError> {
    let refuse = |error| StoreError::system(path, Doing::Read, error);
    // A pipe would block at opening, so the kind is looked at first.
    check_kind(path, &fs::metadata(path).map_err(refuse)?)?;
    let file = File::open(path).map_err(refuse)?;
    let meta = file.metadata().map_err(refuse)?;
    check_kind(path, &meta)?;
    check_size(path, meta.len())?;
    let mut bytes = Vec::new();
    file.take(LARGEST + 1)
        .read_to_end(&mut bytes)
        .map_err(refuse)?;
    check_size(path, bytes.len() as u64)?;
    let text = String::from_utf8(bytes).map_err(|error| StoreError::not_text(path, &error))?;
    Ok((text, Stamp::of(&meta)))
}

fn check_kind(path: &Path, meta: &Metadata) -> Result<(), StoreError> {
    if meta.is_file() {
        Ok(())
    } else {
        Err(StoreError::NotAFile {
            path: path.to_path_buf(),
        })
    }
}

fn check_size(path: &Path, bytes: u64) -> Result<(), StoreError> {
    if bytes <= LARGEST {
        Ok(())
    } else {
        Err(StoreError::TooLarge {
            path: path.to_path_buf(),
            bytes,
        })
    }
}

/// The file behind a symbolic link: the link stays, its target is replaced.
fn follow(path: &Path) -> Result<PathBuf, StoreError> {
    match fs::canonicalize(path) {
        Ok(target) => Ok(target),
        Err(error) if error.kind() == ErrorKind::NotFound => Err(StoreError::Gone {
            path: path.to_path_buf(),
        }),
        Err(error) => Err(StoreError::system(path, Doing::Write, error)),
    }
}

fn write_first(path: &Path, text: &str) -> Result<(), StoreError> {
    let refuse = |error: std::io::Error| match error.kind() {
        ErrorKind::AlreadyExists => StoreError::Exists {
            path: path.to_path_buf(),
        },
        _ => StoreError::system(path, Doing::Write, error),
    };
    let mut file = OpenOptions::new()
        .write(true)
        .create_new(true)
        .open(path)
        .map_err(refuse)?;
    let written = file
        .write_all(text.as_bytes())
        .and_then(|()| file.sync_all());
    if let Err(error) = written {
        // Half a file of a name nobody used before is of no use to anybody.
        let _ = fs::remove_file(path);
        return Err(StoreError::system(path, Doing::Write, error));
    }
    fresh::sync_folder_of(path).map_err(|error| StoreError::system(path, Doing::Write, error))
}
