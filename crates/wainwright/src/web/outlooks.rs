//! Outlooks of trips and charts of sizes, kept until what they rest on changes: each takes longer than a page may.
//! A first look comes while the page waits; the finer one is worked out afterwards and open pages are told. Not here:
//! the trip study (analysis).

use std::collections::BTreeMap;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, MutexGuard, OnceLock, PoisonError};
use tokio::sync::watch;
use tokio::task::spawn_blocking;
use wainwright_analysis::result::trip::{NoOutlook, SizeChart, TripOutlook};
use wainwright_analysis::trips::{Effort, TripInputs, outlook, sizes};

/// An answer of the trip study.
pub type Answer<T> = Arc<Result<T, NoOutlook>>;

/// What is known of an answer now.
#[derive(Debug, Clone)]
pub struct Look<T> {
    /// The finest answer there is.
    pub found: Answer<T>,
    /// A finer one is being worked out.
    pub waits: bool,
}

/// Kept answers by trip.
#[derive(Debug)]
pub struct Outlooks {
    kept: Mutex<BTreeMap<String, Arc<Entry>>>,
    /// One finer answer at a time: it needs a whole processor.
    fine: Mutex<()>,
    news: watch::Sender<u64>,
}

/// All answers for one trip on equal inputs. Whoever asks first works an answer out, whoever asks meanwhile waits.
#[derive(Debug)]
struct Entry {
    inputs: TripInputs,
    outlook: Pair<TripOutlook>,
    sizes: Pair<SizeChart>,
}

#[derive(Debug)]
struct Pair<T> {
    quick: OnceLock<Answer<T>>,
    full: OnceLock<Answer<T>>,
    begun: AtomicBool,
}

impl<T> Default for Pair<T> {
    fn default() -> Self {
        Self {
            quick: OnceLock::new(),
            full: OnceLock::new(),
            begun: AtomicBool::new(false),
        }
    }
}

/// Which answer of an entry, and how it is worked out.
struct Question<T> {
    pair: fn(&Entry) -> &Pair<T>,
    work: fn(&TripInputs, Effort) -> Result<T, NoOutlook>,
}

// Derived, it would ask the same of the answer.
impl<T> Clone for Question<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T> Copy for Question<T> {}

impl Default for Outlooks {
    fn default() -> Self {
        Self {
            kept: Mutex::default(),
            fine: Mutex::default(),
            news: watch::Sender::new(0),
        }
    }
}

impl Outlooks {
    /// What becomes of a trip.
    pub async fn outlook(self: &Arc<Self>, trip: &str, inputs: TripInputs) -> Look<TripOutlook> {
        let question = Question {
            pair: |entry| &entry.outlook,
            work: outlook,
        };
        self.look(trip, inputs, question).await
    }

    /// How large battery and modules would have to be for a trip.
    pub async fn sizes(self: &Arc<Self>, trip: &str, inputs: TripInputs) -> Look<SizeChart> {
        let question = Question {
            pair: |entry| &entry.sizes,
            work: sizes,
        };
        self.look(trip, inputs, question).await
    }

    /// Counts every finer answer.
    pub fn subscribe(&self) -> watch::Receiver<u64> {
        self.news.subscribe()
    }

    async fn look<T: Send + Sync + 'static>(
        self: &Arc<Self>,
        trip: &str,
        inputs: TripInputs,
        question: Question<T>,
    ) -> Look<T> {
        let entry = self.entry(trip, inputs);
        let pair = (question.pair)(&entry);
        if let Some(full) = pair.full.get() {
            return Look {
                found: Arc::clone(full),
                waits: false,
            };
        }
        let quick = match pair.quick.get() {
            Some(quick) => Arc::clone(quick),
            None => {
                let asked = Arc::clone(&entry);
                let worked = spawn_blocking(move || answer(&asked, question, Effort::Quick)).await;
                worked.unwrap_or_else(|_| broken())
            }
        };
        let waits = quick.is_ok();
        if waits && !pair.begun.swap(true, Ordering::AcqRel) {
            let (all, trip) = (Arc::clone(self), trip.to_owned());
            let entry = Arc::clone(&entry);
            // Nobody waits for it: open pages are told.
            drop(spawn_blocking(move || all.refine(&trip, &entry, question)));
        }
        Look {
            found: quick,
            waits,
        }
    }

    /// The entry for these inputs; an older one of the trip is given up.
    fn entry(&self, trip: &str, inputs: TripInputs) -> Arc<Entry> {
        let mut kept = self.kept();
        match kept.get(trip) {
            Some(entry) if entry.inputs == inputs => Arc::clone(entry),
            _ => {
                let entry = Arc::new(Entry {
                    inputs,
                    outlook: Pair::default(),
                    sizes: Pair::default(),
                });
                kept.insert(trip.to_owned(), Arc::clone(&entry));
                entry
            }
        }
    }

    fn refine<T>(&self, trip: &str, entry: &Arc<Entry>, question: Question<T>) {
        let _one = self.fine.lock().unwrap_or_else(PoisonError::into_inner);
        let wanted = |kept: &BTreeMap<String, Arc<Entry>>| {
            kept.get(trip).is_some_and(|now| Arc::ptr_eq(now, entry))
        };
        // The project may have moved on while others were worked out.
        if wanted(&self.kept()) {
            answer(entry, question, Effort::Full);
            self.news.send_modify(|count| *count += 1);
        }
    }

    fn kept(&self) -> MutexGuard<'_, BTreeMap<String, Arc<Entry>>> {
        self.kept.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

fn answer<T>(entry: &Entry, question: Question<T>, effort: Effort) -> Answer<T> {
    let pair = (question.pair)(entry);
    let place = match effort {
        Effort::Quick => &pair.quick,
        Effort::Full => &pair.full,
    };
    let found = place.get_or_init(|| Arc::new((question.work)(&entry.inputs, effort)));
    Arc::clone(found)
}

/// The work ended without an answer: a fault of ours, said as such.
fn broken<T>() -> Answer<T> {
    Arc::new(Err(NoOutlook::Refused(
        "the trip study stopped; this is a fault of the program".into(),
    )))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::study::Study;
    use wainwright_analysis::trips::inputs;

    const TEXT: &str = include_str!("../../../../examples/dark-sky.toml");

    fn of(text: &str) -> TripInputs {
        let study = Study::of(text);
        inputs(&study.project, &study.assessment, "new-moon").unwrap()
    }

    #[test]
    fn an_entry_is_kept_while_what_it_rests_on_is_equal() {
        let outlooks = Outlooks::default();
        let first = outlooks.entry("new-moon", of(TEXT));
        assert!(Arc::ptr_eq(&first, &outlooks.entry("new-moon", of(TEXT))));
        assert_eq!(outlooks.kept().len(), 1);
        let longer = TEXT.replace("nights = 6", "nights = 5");
        assert_ne!(longer, TEXT);
        let second = outlooks.entry("new-moon", of(&longer));
        assert!(!Arc::ptr_eq(&first, &second));
        assert_eq!(outlooks.kept().len(), 1, "the older one is given up");
    }

    #[test]
    fn an_answer_is_worked_out_once() {
        static TIMES: std::sync::atomic::AtomicUsize = std::sync::atomic::AtomicUsize::new(0);
        fn work(_: &TripInputs, _: Effort) -> Result<SizeChart, NoOutlook> {
            TIMES.fetch_add(1, Ordering::SeqCst);
            std::thread::sleep(std::time::Duration::from_millis(30));
            Err(NoOutlook::NoTrip)
        }
        let outlooks = Outlooks::default();
        let entry = outlooks.entry("new-moon", of(TEXT));
        let question = Question {
            pair: |entry: &Entry| &entry.sizes,
            work,
        };
        std::thread::scope(|scope| {
            for _ in 0..4 {
                scope.spawn(|| answer(&entry, question, Effort::Quick));
            }
        });
        assert_eq!(TIMES.load(Ordering::SeqCst), 1);
    }
}
