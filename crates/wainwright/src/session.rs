//! One open project: the text, everything that follows from it, edits with
//! undo, and the file it lives in. Readers on any thread get a snapshot that
//! never changes; edits are taken one at a time. Not here: disk access (see
//! [`crate::store`]) and how anything is shown.

mod history;
mod rebase;
mod refusal;
mod writer;

pub use refusal::Refusal;

use crate::store::{Store, StoreError};
use crate::study::Study;
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use tokio::sync::watch;
use wainwright_model::Edit;
use writer::{Way, Writer};

/// What people call a change that another program made to the file.
pub const CHANGED_OUTSIDE: &str = "change made outside";

/// The same, when it came in the place of edits that were not on disk yet.
/// Taking it back brings those edits up again.
pub const DISPLACED: &str = "change made outside, instead of edits that could not be saved";

/// One open project. Cheap to share: put it in an [`Arc`].
#[derive(Debug)]
pub struct Session {
    writer: Mutex<Writer>,
    shown: watch::Sender<Arc<Snapshot>>,
}

/// The project at one moment. It never changes.
#[derive(Debug, Clone)]
pub struct Snapshot {
    /// Counts every change of the text, from 1. Give it back with an edit.
    pub revision: u64,
    /// The text and everything that follows from it.
    pub study: Arc<Study>,
    /// The file.
    pub path: PathBuf,
    /// Whether the text is on disk.
    pub disk: Disk,
    /// What an undo would take back.
    pub undo: Option<String>,
    /// What a redo would repeat.
    pub redo: Option<String>,
}

/// Whether the text shown is the text on disk.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Disk {
    /// Yes.
    Saved,
    /// No, and why. The text is kept and saving is tried again; until then
    /// [`Session::save_as`] puts it in another file.
    Unsaved(String),
}

impl Snapshot {
    /// Whether every edit shown here is on disk.
    pub fn is_saved(&self) -> bool {
        self.disk == Disk::Saved
    }
}

impl Session {
    /// Opens a project file.
    ///
    /// # Errors
    /// When the file cannot be read; problems inside a readable text are
    /// part of the snapshot.
    pub fn open(path: &Path) -> Result<Self, StoreError> {
        let store = Store::open(path)?;
        let now = Arc::new(Snapshot {
            revision: 1,
            study: Arc::new(Study::of(store.text())),
            path: path.to_path_buf(),
            disk: Disk::Saved,
            undo: None,
            redo: None,
        });
        let (shown, _) = watch::channel(Arc::clone(&now));
        let writer = Mutex::new(Writer::new(store, Arc::clone(&now)));
        Ok(Self { writer, shown })
    }

    /// The project as it is now. Never waits for an edit that is under way.
    pub fn snapshot(&self) -> Arc<Snapshot> {
        Arc::clone(&self.shown.borrow())
    }

    /// Tells of every new snapshot.
    pub fn subscribe(&self) -> watch::Receiver<Arc<Snapshot>> {
        self.shown.subscribe()
    }

    /// Puts edits on the text and saves it. All of them or none.
    ///
    /// The edits are taken when the text is still at `revision`, or when no
    /// table they touch was changed since. The edit is confirmed when the
    /// returned snapshot [`Snapshot::is_saved`].
    ///
    /// # Errors
    /// Why the edits were not taken; the text is then as it was.
    pub fn apply(
        &self,
        edits: &[Edit],
        revision: u64,
        label: &str,
    ) -> Result<Arc<Snapshot>, Refusal> {
        self.change(label, |writer| writer.edited(edits, revision))
    }

    /// Replaces the whole text, for an editor of the text itself.
    ///
    /// # Errors
    /// When the text was changed since `revision`, or is too large.
    pub fn replace_text(
        &self,
        text: &str,
        revision: u64,
        label: &str,
    ) -> Result<Arc<Snapshot>, Refusal> {
        self.change(label, |writer| {
            writer.expect(revision)?;
            Ok(text.to_owned())
        })
    }

    /// Takes the last change back, also one that was made outside.
    ///
    /// # Errors
    /// When the text was changed since `revision`, or nothing is left.
    pub fn undo(&self, revision: u64) -> Result<Arc<Snapshot>, Refusal> {
        self.travel(revision, Way::Back)
    }

    /// Repeats the last change that was taken back.
    ///
    /// # Errors
    /// When the text was changed since `revision`, or nothing is left.
    pub fn redo(&self, revision: u64) -> Result<Arc<Snapshot>, Refusal> {
        self.travel(revision, Way::Forth)
    }

    /// Looks at the file: takes in a change made outside, and tries again to
    /// save what could not be saved. Cheap when nothing happened. `Some`
    /// when there is a new snapshot.
    pub fn poll(&self) -> Option<Arc<Snapshot>> {
        let mut writer = self.writer();
        let before = Arc::clone(&writer.now);
        writer.look_outside();
        if !writer.is_on_disk() {
            writer.save();
        }
        let after = self.show(&writer);
        (!Arc::ptr_eq(&before, &after)).then_some(after)
    }

    /// Puts the text in a new file and goes on working in that one.
    ///
    /// # Errors
    /// When there is already such a file, or it cannot be written; the
    /// session then stays with the file it has.
    pub fn save_as(&self, path: &Path) -> Result<Arc<Snapshot>, StoreError> {
        let mut writer = self.writer();
        let store = Store::create(path, &writer.now.study.text)?;
        writer.move_to(store);
        Ok(self.show(&writer))
    }

    fn change(
        &self,
        label: &str,
        wanted: impl Fn(&Writer) -> Result<String, Refusal>,
    ) -> Result<Arc<Snapshot>, Refusal> {
        let mut writer = self.writer();
        let done = writer.change(label, wanted);
        let shown = self.show(&writer);
        done.map(|()| shown)
    }

    fn travel(&self, revision: u64, way: Way) -> Result<Arc<Snapshot>, Refusal> {
        let mut writer = self.writer();
        let done = writer.travel(revision, way);
        let shown = self.show(&writer);
        done.map(|()| shown)
    }

    /// A thread that died while writing left the writer between two whole
    /// states at worst, because every step ends with one assignment.
    fn writer(&self) -> MutexGuard<'_, Writer> {
        self.writer.lock().unwrap_or_else(PoisonError::into_inner)
    }

    fn show(&self, writer: &Writer) -> Arc<Snapshot> {
        self.shown.send_if_modified(|shown| {
            let new = !Arc::ptr_eq(shown, &writer.now);
            *shown = Arc::clone(&writer.now);
            new
        });
        Arc::clone(&writer.now)
    }
}
