//! One project text and all that follows from it: project, problems,
//! assessment, findings, and fixes on demand. Not here: files, undo, and how
//! any of it is shown.

use std::collections::BTreeMap;
use std::sync::atomic::{AtomicUsize, Ordering};
use std::sync::{Arc, Mutex, OnceLock, PoisonError};
use std::thread;
use wainwright_analysis::result::Assessment;
use wainwright_model::{Problem, ProblemSeverity, Project};
use wainwright_rules::{Finding, Fix, MOST_TRIALS, Severity, Trials};

/// Fixes of one finding, worked out by whoever asks first.
type Proven = Arc<OnceLock<Arc<Vec<Fix>>>>;

/// A project text and all that follows from it. It never changes, so it can
/// be shared between threads freely.
#[derive(Debug)]
pub struct Study {
    /// The text itself.
    pub text: Arc<str>,
    /// What could be read in it.
    pub project: Project,
    /// What could not.
    pub problems: Vec<Problem>,
    /// Everything computed about it.
    pub assessment: Assessment,
    /// What is wrong with it, worst first.
    pub findings: Vec<Finding>,
    fixes: Mutex<BTreeMap<String, Proven>>,
}

impl Study {
    /// Reads, assesses and judges a text. Total: any text gives a study.
    pub fn of(text: impl Into<Arc<str>>) -> Self {
        let text = text.into();
        let parsed = wainwright_model::parse(&text, wainwright_analysis::catalogue());
        let assessment = wainwright_analysis::assess(&parsed.project);
        let findings = wainwright_rules::judge(&parsed.project, &assessment);
        Self {
            text,
            project: parsed.project,
            problems: parsed.problems,
            assessment,
            findings,
            fixes: Mutex::default(),
        }
    }

    /// The worst severity among the findings.
    pub fn worst(&self) -> Option<Severity> {
        // Danger is the first of the signal words.
        self.findings.iter().map(|f| f.severity).min()
    }

    /// Whether some of the text was left out because it could not be read.
    pub fn is_incomplete(&self) -> bool {
        self.problems
            .iter()
            .any(|p| p.severity == ProblemSeverity::Error)
    }

    /// The finding with this key.
    pub fn finding(&self, key: &str) -> Option<&Finding> {
        self.findings.iter().find(|f| f.key() == key)
    }

    /// Proven fixes of the finding with this key, cheapest first; worked out
    /// at the first call and kept. Whoever asks meanwhile waits for the same
    /// result. `None` when there is no such finding.
    pub fn fixes(&self, key: &str) -> Option<Arc<Vec<Fix>>> {
        self.fixes_by(&self.trials(), key)
    }

    fn fixes_by(&self, trials: &Trials<'_>, key: &str) -> Option<Arc<Vec<Fix>>> {
        let finding = self.finding(key)?;
        let proven = Arc::clone(self.kept().entry(key.to_owned()).or_default());
        // Worked out without the lock, so that other findings do not wait.
        let found = proven.get_or_init(|| Arc::new(trials.fixes(finding, MOST_TRIALS)));
        Some(Arc::clone(found))
    }

    /// Runs `meanwhile` while the fixes of these findings are worked out in
    /// their order, on all processors.
    pub fn with_fixes<T>(&self, findings: &[&Finding], meanwhile: impl FnOnce() -> T) -> T {
        let next = AtomicUsize::new(0);
        let trials = self.trials();
        let work = || {
            while let Some(finding) = findings.get(next.fetch_add(1, Ordering::Relaxed)) {
                self.fixes_by(&trials, &finding.key());
            }
        };
        let workers = thread::available_parallelism().map_or(1, usize::from);
        thread::scope(|scope| {
            for _ in 0..workers.min(findings.len()) {
                scope.spawn(work);
            }
            meanwhile()
        })
    }

    fn trials(&self) -> Trials<'_> {
        Trials::new(&self.text, &self.project, &self.assessment)
    }

    fn kept(&self) -> std::sync::MutexGuard<'_, BTreeMap<String, Proven>> {
        self.fixes.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
