//! The one who writes: puts changes on the text, keeps history and file in
//! step with it. Not here: who may call when (see [`super::Session`]).

use super::history::{History, Step};
use super::{CHANGED_OUTSIDE, DISPLACED, Disk, Refusal, Snapshot, rebase};
use crate::store::{Look, Store, StoreError};
use crate::study::Study;
use std::sync::Arc;
use wainwright_model::Edit;

/// How often an edit is put on a text that keeps changing outside.
const SAVE_TRIES: usize = 3;

/// File, history and present state of one session.
#[derive(Debug)]
pub struct Writer {
    /// The file.
    pub store: Store,
    history: History,
    /// The present state.
    pub now: Arc<Snapshot>,
}

/// Which way through the history.
#[derive(Debug, Clone, Copy)]
pub enum Way {
    /// Undo.
    Back,
    /// Redo.
    Forth,
}

impl Writer {
    /// Begins with what was just opened.
    pub fn new(store: Store, now: Arc<Snapshot>) -> Self {
        let mut history = History::default();
        history.keep(now.revision, Arc::clone(&now.study.text));
        Self {
            store,
            history,
            now,
        }
    }

    /// Goes on in another file that holds the present text.
    pub fn move_to(&mut self, store: Store) {
        let path = store.path().to_path_buf();
        self.store = store;
        self.update(|now| {
            now.path = path;
            now.disk = Disk::Saved;
        });
    }

    /// Puts the text that `wanted` makes in the place of the present one.
    ///
    /// # Errors
    /// Why it was not taken.
    pub fn change(
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

    /// Goes one step back or forth.
    ///
    /// # Errors
    /// Why it was not done.
    pub fn travel(&mut self, revision: u64, way: Way) -> Result<(), Refusal> {
        self.look_outside();
        self.expect(revision)?;
        let now = &self.now.study.text;
        let text = match way {
            Way::Back => self.history.last_done().and_then(|s| s.undo(now)),
            Way::Forth => self.history.last_undone().and_then(|s| s.redo(now)),
        };
        let text = text.ok_or(Refusal::NothingLeft)?;
        let saved = self.store.save(&text);
        if matches!(
            saved,
            Err(StoreError::Changed { .. } | StoreError::Busy { .. })
        ) {
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

    /// The present text with edits on it.
    ///
    /// # Errors
    /// Why they do not fit.
    pub fn edited(&self, edits: &[Edit], revision: u64) -> Result<String, Refusal> {
        let now = &self.now.study.text;
        if revision != self.now.revision {
            let base = self.history.text_of(revision);
            rebase::check(base.as_deref(), now, edits)?;
        }
        let applied = wainwright_model::apply(now, edits).map_err(Refusal::Edit)?;
        Ok(applied.text)
    }

    /// Refuses what was based on another revision.
    ///
    /// # Errors
    /// When the revision is not the present one.
    pub fn expect(&self, revision: u64) -> Result<(), Refusal> {
        if revision == self.now.revision {
            Ok(())
        } else {
            Err(Refusal::Outdated { tables: Vec::new() })
        }
    }

    /// Takes in what another program wrote. Edits that never reached the
    /// disk stay reachable: they are what an undo of that change leads to.
    pub fn look_outside(&mut self) {
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
    pub fn is_on_disk(&self) -> bool {
        *self.now.study.text == *self.store.text()
    }

    /// Tries to save the present text.
    pub fn save(&mut self) {
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
