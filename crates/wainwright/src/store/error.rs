//! Why a file could not be read or written, in words that say what to do
//! next. Not here: the reading and writing.

use std::fmt;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};
use std::string::FromUtf8Error;

/// Why a file could not be read or written.
#[derive(Debug)]
pub enum StoreError {
    /// There is no such file.
    NotFound {
        /// Which.
        path: PathBuf,
    },
    /// A folder, pipe or device.
    NotAFile {
        /// Which.
        path: PathBuf,
    },
    /// Larger than [`super::LARGEST`].
    TooLarge {
        /// Which.
        path: PathBuf,
        /// Its size [bytes].
        bytes: u64,
    },
    /// Not UTF-8 text.
    NotText {
        /// Which.
        path: PathBuf,
        /// Line of the first bad byte, from 1.
        line: usize,
        /// Its place in the file, from 0.
        byte: usize,
    },
    /// Somebody else changed the file since it was read.
    Changed {
        /// Which.
        path: PathBuf,
    },
    /// The file was deleted or moved since it was read.
    Gone {
        /// Which.
        path: PathBuf,
    },
    /// A new file was wanted and there is already one.
    Exists {
        /// Which.
        path: PathBuf,
    },
    /// Another running copy keeps saving the same file.
    Busy {
        /// Which.
        path: PathBuf,
    },
    /// The system refuses.
    System {
        /// Which file.
        path: PathBuf,
        /// What was tried.
        doing: Doing,
        /// What the system said.
        error: io::Error,
    },
}

/// What was tried when the system refused.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Doing {
    /// Reading.
    Read,
    /// Writing.
    Write,
}

impl StoreError {
    /// The system's refusal, with the common "no such file" made plain.
    pub(super) fn system(path: &Path, doing: Doing, error: io::Error) -> Self {
        let path = path.to_path_buf();
        if doing == Doing::Read && error.kind() == ErrorKind::NotFound {
            return Self::NotFound { path };
        }
        Self::System { path, doing, error }
    }

    /// Where the first byte sits that is not UTF-8.
    pub(super) fn not_text(path: &Path, error: &FromUtf8Error) -> Self {
        let byte = error.utf8_error().valid_up_to();
        let before = error.as_bytes().get(..byte).unwrap_or_default();
        Self::NotText {
            path: path.to_path_buf(),
            line: 1 + before.iter().filter(|b| **b == b'\n').count(),
            byte,
        }
    }

    /// The file this is about.
    pub fn path(&self) -> &Path {
        match self {
            Self::NotFound { path }
            | Self::NotAFile { path }
            | Self::TooLarge { path, .. }
            | Self::NotText { path, .. }
            | Self::Changed { path }
            | Self::Gone { path }
            | Self::Exists { path }
            | Self::Busy { path }
            | Self::System { path, .. } => path,
        }
    }

    fn why(&self) -> String {
        match self {
            Self::NotFound { .. } => "there is no such file; check the name".into(),
            Self::NotAFile { .. } => {
                "this is a folder or a device, not a project file; give the name of a file".into()
            }
            Self::TooLarge { bytes, .. } => format!(
                "the text has {bytes} bytes and a project text has at most {}; is it the right file?",
                super::LARGEST
            ),
            Self::NotText { line, byte, .. } => format!(
                "line {line} (byte {byte}) is not UTF-8 text; save the file as UTF-8 in your editor, or check that it is the right file"
            ),
            Self::Changed { .. } => {
                "the file was changed by another program since it was read, so it was not overwritten; read it again".into()
            }
            Self::Gone { .. } => {
                "the file was deleted or moved; put it back, or save under a name".into()
            }
            Self::Exists { .. } => {
                "there is already a file of that name and it was left as it is; choose another name".into()
            }
            Self::Busy { .. } => {
                "another running copy is saving this file; try again in a moment".into()
            }
            Self::System { doing, error, .. } => refusal(*doing, error),
        }
    }
}

impl fmt::Display for StoreError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.path().display(), self.why())
    }
}

impl std::error::Error for StoreError {
    fn source(&self) -> Option<&(dyn std::error::Error + 'static)> {
        match self {
            Self::System { error, .. } => Some(error),
            _ => None,
        }
    }
}

fn refusal(doing: Doing, error: &io::Error) -> String {
    let kind = error.kind();
    match (doing, kind) {
        (Doing::Read, ErrorKind::PermissionDenied) => {
            "you may not read this file; ask its owner or change its permissions".into()
        }
        (Doing::Write, ErrorKind::PermissionDenied | ErrorKind::ReadOnlyFilesystem) => {
            "the file or its folder is write-protected, nothing was written; save under a name in another folder".into()
        }
        (Doing::Write, ErrorKind::StorageFull | ErrorKind::QuotaExceeded | ErrorKind::FileTooLarge) => {
            format!("no room on the disk ({error}), the file on disk is as it was; make room, or save under a name on another disk")
        }
        (Doing::Write, ErrorKind::NotFound) => {
            "there is no such folder; check the name".into()
        }
        (Doing::Read, _) => format!("could not be read ({error})"),
        (Doing::Write, _) => {
            format!("could not be written ({error}), the file on disk is as it was")
        }
    }
}
