//! One project text and all that follows from it: project, problems,
//! assessment, findings, and fixes on demand. Not here: files, undo, and how
//! any of it is shown.

use std::collections::BTreeMap;
use std::sync::{Arc, Mutex, PoisonError};
use wainwright_analysis::result::Assessment;
use wainwright_model::{Problem, ProblemSeverity, Project};
use wainwright_rules::{Finding, Fix, Severity};

/// Most re-assessments spent on proving the fixes of one finding.
pub const FIX_TRIES: usize = 400;

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
    fixes: Mutex<BTreeMap<String, Arc<Vec<Fix>>>>,
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
    /// at the first call and kept. `None` when there is no such finding.
    pub fn fixes(&self, key: &str) -> Option<Arc<Vec<Fix>>> {
        let kept = self.kept().get(key).cloned();
        if kept.is_some() {
            return kept;
        }
        let finding = self.finding(key)?;
        // Worked out without the lock, so that other findings do not wait.
        let found = Arc::new(wainwright_rules::fixes(
            &self.text,
            &self.project,
            &self.assessment,
            finding,
            FIX_TRIES,
        ));
        Some(Arc::clone(
            self.kept().entry(key.to_owned()).or_insert(found),
        ))
    }

    fn kept(&self) -> std::sync::MutexGuard<'_, BTreeMap<String, Arc<Vec<Fix>>>> {
        self.fixes.lock().unwrap_or_else(PoisonError::into_inner)
    }
}
