//! The cheap outward signs of a file: enough to tell that it is unchanged
//! without reading it. Not here: reading it.

use std::fs::Metadata;
use std::os::unix::fs::MetadataExt;
use std::time::{Duration, SystemTime};

/// Changes this close to the moment of looking may carry the same time stamp
/// as the look itself, on file systems that count in steps of up to 2 s (FAT).
const COARSEST_CLOCK: Duration = Duration::from_secs(3);

/// Identity, size and times of a file when it was read or written.
#[derive(Debug, Clone, Copy)]
pub struct Stamp {
    device: u64,
    inode: u64,
    length: u64,
    modified: (i64, i64),
    changed: (i64, i64),
    settled: bool,
}

impl Stamp {
    /// The signs of a file now.
    pub fn of(meta: &Metadata) -> Self {
        let age = |time: SystemTime| time.elapsed().unwrap_or_default();
        Self {
            device: meta.dev(),
            inode: meta.ino(),
            length: meta.len(),
            modified: (meta.mtime(), meta.mtime_nsec()),
            changed: (meta.ctime(), meta.ctime_nsec()),
            settled: meta.modified().is_ok_and(|m| age(m) > COARSEST_CLOCK),
        }
    }

    /// Whether equal signs prove an equal file. They do only when the file
    /// was already old when it was read: else a second change within one
    /// tick of the file system's clock would go unseen.
    pub fn still_tells(&self, meta: &Metadata) -> bool {
        self.settled && *self == Self::of(meta)
    }
}

impl PartialEq for Stamp {
    fn eq(&self, other: &Self) -> bool {
        (self.device, self.inode, self.length) == (other.device, other.inode, other.length)
            && (self.modified, self.changed) == (other.modified, other.changed)
    }
}
