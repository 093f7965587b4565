//! Proves the fixes of all findings in the background, worst finding first,
//! so that no page has to wait for them. Not here: proving itself, and
//! keeping what was proven (see [`crate::study::Study::fixes`]).

use crate::session::Session;
use crate::study::Study;
use std::collections::BTreeMap;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError};
use tokio::runtime::Handle;
use tokio::sync::watch;
use wainwright_rules::Fix;

/// Proves fixes in the background.
#[derive(Debug)]
pub struct Mender {
    proven: Mutex<Proven>,
    news: watch::Sender<u64>,
    ended: AtomicBool,
}

/// What was proven for one study.
#[derive(Debug, Default)]
struct Proven {
    study: Option<Arc<Study>>,
    fixes: BTreeMap<String, Arc<Vec<Fix>>>,
}

/// How far the fixes of one finding are.
#[derive(Debug, Clone)]
pub enum Mending {
    /// Still being worked out.
    UnderWay,
    /// All there are, cheapest first.
    Done(Arc<Vec<Fix>>),
}

impl Default for Mender {
    fn default() -> Self {
        Self {
            proven: Mutex::default(),
            news: watch::Sender::new(0),
            ended: AtomicBool::new(false),
        }
    }
}

impl Mender {
    /// Follows the project from now on.
    pub fn start(self: &Arc<Self>, session: &Arc<Session>, runtime: &Handle) {
        let mut snapshots = session.subscribe();
        let session = Arc::clone(session);
        let mender = Arc::clone(self);
        runtime.spawn(async move {
            loop {
                let (work, at) = (Arc::clone(&mender), Arc::clone(&session));
                let done = tokio::task::spawn_blocking(move || work.prove_all(&at)).await;
                if done.is_err() || snapshots.changed().await.is_err() {
                    return;
                }
            }
        });
    }

    /// Ends the work after the finding under way.
    pub fn end(&self) {
        self.ended.store(true, Ordering::Relaxed);
    }

    /// Counts every finding whose fixes were proven.
    pub fn subscribe(&self) -> watch::Receiver<u64> {
        self.news.subscribe()
    }

    /// The fixes of one finding, as far as they are.
    pub fn fixes(&self, study: &Arc<Study>, key: &str) -> Mending {
        let proven = self.proven();
        let same = proven.study.as_ref().is_some_and(|s| Arc::ptr_eq(s, study));
        let fixes = proven.fixes.get(key).filter(|_| same);
        fixes.map_or(Mending::UnderWay, |fixes| Mending::Done(Arc::clone(fixes)))
    }

    /// Stops early when the project has moved on.
    fn prove_all(&self, session: &Session) {
        let study = Arc::clone(&session.snapshot().study);
        *self.proven() = Proven {
            study: Some(Arc::clone(&study)),
            fixes: BTreeMap::new(),
        };
        for finding in &study.findings {
            let moved_on = !Arc::ptr_eq(&session.snapshot().study, &study);
            if moved_on || self.ended.load(Ordering::Relaxed) {
                return;
            }
            let key = finding.key();
            let fixes = study.fixes(&key).unwrap_or_default();
            self.proven().fixes.insert(key, fixes);
            self.news.send_modify(|count| *count += 1);
        }
    }

    fn proven(&self) -> MutexGuard<'_, Proven> {
        self.proven.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
