//! One open project: the text, everything that follows from it, edits with
//! undo, and the file it lives in. Readers on any thread get a snapshot that
//! never changes; edits are taken one at a time. Not here: disk access (see
//! [`crate::store`]) and how anything is shown.

mod history;
mod rebase;
mod refusal;

pub use refusal::Refusal;

use crate::store::{Look, Store, StoreError};
use crate::study::Study;
use history::{History, Step};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use tokio::sync::watch;
use wainwright_model::Edit;

/// How often an edit is put on a text that keeps changing outside.
const SAVE_TRIES: usize = 3;

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

#[derive(Debug)]
struct Writer {
    store: Store,
    history: History,
    now: Arc<Snapshot>,
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
        let mut history = History::default();
        history.keep(1, Arc::clone(&now.study.text));
        let (shown, _) = watch::channel(Arc::clone(&now));
        let writer = Mutex::new(Writer {
            store,
            history,
            now,
        });
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
        writer.store = Store::create(path, &writer.now.study.text)?;
        writer.update(|now| {
            now.path = path.to_path_buf();
            now.disk = Disk::Saved;
        });
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

#[derive(Debug, Clone, Copy)]
enum Way {
    Back,
    Forth,
}

impl Writer {
    fn change(
        &mut self,
        label: &str,
        wanted: impl Fn(&Self) -> Result<String, Refusal>,
    ) -> Result<(), Refusal> {
        self.look_outside();
        for _ in 0..SAVE_TRIES {
            let text = wanted(self)?;
            check_size(&text)?;
            if text == *self.now.study.text {
                return Ok(());
            }
            match self.store.save(&text) {
                // Somebody else was faster: the edit goes on their text.
                Err(StoreError::Changed { .. }) => self.look_outside(),
                Err(StoreError::Busy { .. }) => return Err(Refusal::Restless),
                saved => {
                    self.step_to(text, label);
                    self.note_saving(saved);
                    return Ok(());
                }
            }
        }
        Err(Refusal::Restless)
    }

    fn travel(&mut self, revision: u64, way: Way) -> Result<(), Refusal> {
        self.look_outside();
        self.expect(revision)?;
        let now = &self.now.study.text;
        let text = match way {
            Way::Back => self.history.last_done().and_then(|s| s.undo(now)),
            Way::Forth => self.history.last_undone().and_then(|s| s.redo(now)),
        };
        let text = text.ok_or(Refusal::NothingLeft)?;
        let saved = self.store.save(&text);
        if matches!(saved, Err(StoreError::Changed { .. } | StoreError::Busy { .. })) {
            self.look_outside();
            self.expect(revision)?;
            return Err(Refusal::Restless);
        }
        match way {
            Way::Back => self.history.note_undone(),
            Way::Forth => self.history.note_redone(),
        }
        self.show_text(text);
        self.note_saving(saved);
        Ok(())
    }

    fn edited(&self, edits: &[Edit], revision: u64) -> Result<String, Refusal> {
        let now = &self.now.study.text;
        if revision != self.now.revision {
            let base = self.history.text_of(revision);
            rebase::check(base.as_deref(), now, edits)?;
        }
        let applied = wainwright_model::apply(now, edits).map_err(Refusal::Edit)?;
        Ok(applied.text)
    }

    fn expect(&self, revision: u64) -> Result<(), Refusal> {
        if revision == self.now.revision {
            Ok(())
        } else {
            Err(Refusal::Outdated { tables: Vec::new() })
        }
    }

    /// Takes in what another program wrote. Edits that never reached the
    /// disk stay reachable: they are what an undo of that change leads to.
    fn look_outside(&mut self) {
        let unsaved = !self.is_on_disk();
        match self.store.look() {
            Ok(Look::Same) if !self.is_on_disk() => {}
            Ok(Look::Same) => self.note_saving(Ok(())),
            Ok(Look::Changed(text)) => {
                if text != *self.now.study.text {
                    let label = if unsaved { DISPLACED } else { CHANGED_OUTSIDE };
                    self.step_to(text, label);
                }
                self.note_saving(Ok(()));
            }
            Ok(Look::Gone) => {
                let path = self.store.path().to_path_buf();
                self.note_saving(Err(StoreError::Gone { path }));
            }
            Err(error) => self.note_saving(Err(error)),
        }
    }

    /// Whether the text shown is the one last seen on disk.
    fn is_on_disk(&self) -> bool {
        *self.now.study.text == *self.store.text()
    }

    fn save(&mut self) {
        let text = Arc::clone(&self.now.study.text);
        let saved = self.store.save(&text);
        self.note_saving(saved);
    }

    fn note_saving(&mut self, saved: Result<(), StoreError>) {
        let disk = match saved {
            Ok(()) => Disk::Saved,
            Err(error) => Disk::Unsaved(error.to_string()),
        };
        if self.now.disk != disk {
            self.update(|now| now.disk = disk);
        }
    }

    fn step_to(&mut self, text: String, label: &str) {
        let step = Step::between(&self.now.study.text, &text, label);
        self.history.record(step);
        self.show_text(text);
    }

    fn show_text(&mut self, text: String) {
        let study = Arc::new(Study::of(text));
        let revision = self.now.revision + 1;
        self.history.keep(revision, Arc::clone(&study.text));
        let undo = self.history.last_done().map(|s| s.label.clone());
        let redo = self.history.last_undone().map(|s| s.label.clone());
        self.update(|now| {
            now.revision = revision;
            now.study = study;
            now.undo = undo;
            now.redo = redo;
        });
    }

    fn update(&mut self, change: impl FnOnce(&mut Snapshot)) {
        let mut next = Snapshot::clone(&self.now);
        change(&mut next);
        self.now = Arc::new(next);
    }
}

fn check_size(text: &str) -> Result<(), Refusal> {
    if text.len() as u64 <= crate::store::LARGEST {
        Ok(())
    } else {
        Err(Refusal::TooLarge)
    }
}
