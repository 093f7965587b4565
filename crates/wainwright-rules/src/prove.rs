//! Proven fixes: each remedy of a rule is tried on a copy of the project
//! text, which is parsed, assessed and judged again. Offered is only what
//! makes the finding go away, brings nothing as bad and no warning, and makes
//! nothing as bad clearly worse. Not here: what to
//! try (the rules' remedies).

use crate::catalogue::rule;
use crate::finding::{Finding, Subject};
use crate::judge::judge;
use crate::remedy::likeness::keep_others;
use crate::rule::{Change, Remedy};
use crate::severity::Severity;
use std::collections::{BTreeMap, BTreeSet};
use std::sync::{Arc, Mutex, OnceLock, PoisonError};
use wainwright_analysis::{Assessment, assess, catalogue};
use wainwright_model::{Edit, Project, apply, parse};

/// Most re-assessments a caller should allow for one finding.
pub const MOST_TRIALS: usize = 40;

/// Rungs tried above the least one that removes the finding, when that one
/// brings something as bad.
const RUNGS_BEYOND: usize = 2;

/// A margin that shrinks by no more than this share of itself (and of its
/// limit, where it is near nothing) is as it was: a thicker feed shifts
/// currents elsewhere a little.
const WORSE: f64 = 0.15;

/// A proven change.
#[derive(Debug, Clone, PartialEq)]
pub struct Fix {
    /// What to do, in words.
    pub title: String,
    /// The edits that do it.
    pub edits: Vec<Edit>,
    /// Effort and money together, in units of one plug-in fuse swapped.
    pub cost: f64,
    /// Keys of the findings that are gone afterwards, this one included.
    pub mends: Vec<String>,
    /// Keys of the findings about the same subjects that are still there.
    pub leaves: Vec<String>,
    /// Findings that are new; cautions and notices less severe than the one
    /// mended.
    pub brings: Vec<Finding>,
}

/// Proven fixes for one finding, cheapest first. `cap` bounds the number of
/// re-assessments over all remedies; [`MOST_TRIALS`] is a good value. Within
/// one remedy the least change that works is found by doubling and
/// bisecting, on the understanding that more of the same change helps no
/// less. For several findings of one text use [`Trials`].
pub fn fixes(
    text: &str,
    project: &Project,
    assessment: &Assessment,
    finding: &Finding,
    cap: usize,
) -> Vec<Fix> {
    Trials::new(text, project, assessment).fixes(finding, cap)
}

/// What is wrong after a change; `None` where its edits do not apply.
type Outcome = Option<Arc<[Finding]>>;

/// The trials of one text. Findings often share a remedy: a change that was
/// tried for one of them is not worked out again for the next. May be shared
/// between threads; whoever asks for the same trial meanwhile waits for it.
pub struct Trials<'a> {
    text: &'a str,
    project: &'a Project,
    assessment: &'a Assessment,
    before: OnceLock<Vec<Finding>>,
    /// By the edits, written out.
    known: Mutex<BTreeMap<String, Arc<OnceLock<Outcome>>>>,
}

impl<'a> Trials<'a> {
    /// For a text and what was read and computed from it.
    pub fn new(text: &'a str, project: &'a Project, assessment: &'a Assessment) -> Self {
        Self {
            text,
            project,
            assessment,
            before: OnceLock::new(),
            known: Mutex::default(),
        }
    }

    /// As [`fixes`].
    pub fn fixes(&self, finding: &Finding, cap: usize) -> Vec<Fix> {
        let Some(rule) = rule(finding.rule) else {
            return Vec::new();
        };
        let mut remedies = rule.remedies(finding, self.assessment, self.project);
        for rung in remedies.iter_mut().flat_map(|remedy| &mut remedy.rungs) {
            rung.edits = keep_others(self.project, &rung.edits);
        }
        remedies.sort_by(|a, b| least_cost(a).total_cmp(&least_cost(b)));
        let before = self
            .before
            .get_or_init(|| judge(self.project, self.assessment));
        let mut bench = Bench {
            trials: self,
            finding,
            before,
            left: cap,
        };
        let mut found: Vec<Fix> = remedies
            .iter()
            .filter_map(|remedy| bench.search(remedy))
            .collect();
        found.sort_by(|a, b| {
            a.cost
                .total_cmp(&b.cost)
                .then(a.edits.len().cmp(&b.edits.len()))
        });
        without_needless(found)
    }

    /// Everything that is wrong after these edits.
    fn after(&self, edits: &[Edit]) -> Outcome {
        let mut known = self.known.lock().unwrap_or_else(PoisonError::into_inner);
        let trial = Arc::clone(known.entry(format!("{edits:?}")).or_default());
        // Worked out without the lock, so that other trials do not wait.
        drop(known);
        trial.get_or_init(|| self.judge_edited(edits)).clone()
    }

    fn judge_edited(&self, edits: &[Edit]) -> Outcome {
        let applied = apply(self.text, edits).ok()?;
        let parsed = parse(&applied.text, catalogue());
        Some(judge(&parsed.project, &assess(&parsed.project)).into())
    }
}

/// Drops a fix when a cheaper one touches no more and mends as much.
fn without_needless(sorted: Vec<Fix>) -> Vec<Fix> {
    let mut kept: Vec<Fix> = Vec::new();
    for fix in sorted {
        let needless = kept.iter().any(|other| {
            let no_more = touched(other).is_subset(&touched(&fix));
            no_more && fix.mends.iter().all(|key| other.mends.contains(key))
        });
        if !needless {
            kept.push(fix);
        }
    }
    kept
}

/// What a fix changes, by path.
fn touched(fix: &Fix) -> BTreeSet<&[String]> {
    fix.edits
        .iter()
        .map(|edit| match edit {
            Edit::Set { path, .. } | Edit::Unset { path } => path.as_slice(),
            Edit::Add { table, .. } | Edit::Remove { table } | Edit::Rename { table, .. } => {
                table.as_slice()
            }
        })
        .collect()
}

fn least_cost(remedy: &Remedy) -> f64 {
    remedy.rungs.first().map_or(f64::INFINITY, |rung| rung.cost)
}

/// One finding on trial.
struct Bench<'a> {
    trials: &'a Trials<'a>,
    finding: &'a Finding,
    before: &'a [Finding],
    left: usize,
}

/// What one trial showed.
enum Trial {
    /// The finding is gone and nothing as bad is new.
    Works(Box<Fix>),
    /// The finding is gone, but something as bad is new.
    Harms,
    /// The finding is still there, or the edits do not apply.
    Fails,
}

impl Bench<'_> {
    /// The least rung of a ladder that works.
    fn search(&mut self, remedy: &Remedy) -> Option<Fix> {
        let mut tried: BTreeMap<usize, Trial> = BTreeMap::new();
        let first = self.first_gone(remedy, &mut tried)?;
        let last = (first + RUNGS_BEYOND).min(remedy.rungs.len().checked_sub(1)?);
        for rung in first..=last {
            self.trial(remedy, rung, &mut tried)?;
            if let Some(Trial::Works(fix)) = tried.remove(&rung) {
                return Some(*fix);
            }
        }
        None
    }

    /// The least rung that removes the finding: doubling to find one that
    /// does, then bisecting.
    fn first_gone(&mut self, remedy: &Remedy, tried: &mut BTreeMap<usize, Trial>) -> Option<usize> {
        let end = remedy.rungs.len();
        let (mut low, mut step) = (0, 0);
        let mut high = loop {
            let rung = step.min(end.checked_sub(1)?);
            if self.gone(remedy, rung, tried)? {
                break rung;
            }
            low = rung + 1;
            if low >= end {
                return None;
            }
            step = 2 * step + 1;
        };
        while low < high {
            let middle = low + (high - low) / 2;
            if self.gone(remedy, middle, tried)? {
                high = middle;
            } else {
                low = middle + 1;
            }
        }
        Some(high)
    }

    fn gone(
        &mut self,
        remedy: &Remedy,
        rung: usize,
        tried: &mut BTreeMap<usize, Trial>,
    ) -> Option<bool> {
        self.trial(remedy, rung, tried)?;
        Some(!matches!(tried.get(&rung), Some(Trial::Fails) | None))
    }

    /// Tries one rung once; nothing when the cap is used up.
    fn trial(
        &mut self,
        remedy: &Remedy,
        rung: usize,
        tried: &mut BTreeMap<usize, Trial>,
    ) -> Option<()> {
        if tried.contains_key(&rung) {
            return Some(());
        }
        self.left = self.left.checked_sub(1)?;
        let change = remedy.rungs.get(rung)?;
        let outcome = self.assess(change).unwrap_or(Trial::Fails);
        tried.insert(rung, outcome);
        Some(())
    }

    /// Applies a change to a copy of the text and judges the result.
    fn assess(&self, change: &Change) -> Option<Trial> {
        let after = self.trials.after(&change.edits)?;
        if stands(self.finding, &after) {
            return Some(Trial::Fails);
        }
        let brings: Vec<Finding> = after
            .iter()
            .filter(|finding| self.is_new(finding))
            .cloned()
            .collect();
        let unbearable = |finding: &Finding| finding.severity.at_least(self.unbearable());
        if brings.iter().any(unbearable) || after.iter().any(|finding| self.worsens(finding)) {
            return Some(Trial::Harms);
        }
        let mends = self
            .before
            .iter()
            .filter(|finding| !stands(finding, &after));
        let touches = |finding: &&Finding| {
            finding
                .subjects
                .iter()
                .any(|subject| self.finding.subjects.contains(subject))
        };
        let known = |finding: &&Finding| !self.is_new(finding);
        let leaves = after.iter().filter(touches).filter(known);
        Some(Trial::Works(Box::new(Fix {
            title: change.title.clone(),
            edits: change.edits.clone(),
            cost: change.cost,
            mends: mends.map(Finding::key).collect(),
            leaves: leaves.map(Finding::key).collect(),
            brings,
        })))
    }
}

impl Bench<'_> {
    /// The least severity that a fix must not bring: as bad as what it mends,
    /// and in no case a warning.
    fn unbearable(&self) -> Severity {
        self.finding.severity.max(Severity::Warning)
    }

    /// Whether a finding was not there before, or not as bad.
    fn is_new(&self, after: &Finding) -> bool {
        let key = after.key();
        !self.before.iter().any(|before| {
            (before.key() == key || is_part_of(after, before))
                && before.severity.at_least(after.severity)
        })
    }

    /// Whether a finding as bad as the one on trial was there before with a
    /// clearly better margin.
    fn worsens(&self, after: &Finding) -> bool {
        let key = after.key();
        let before = self.before.iter().find(|finding| finding.key() == key);
        let (Some(before), Some(now)) = (before.and_then(|f| f.margin), after.margin) else {
            return false;
        };
        after.severity.at_least(self.finding.severity)
            && now.fraction() < before.fraction() - WORSE * before.fraction().abs().max(WORSE)
    }
}

/// Whether a finding is still there: under its key, or, where the wiring was
/// rearranged and circuits have other names, about a part of its subjects.
fn stands(before: &Finding, after: &[Finding]) -> bool {
    let key = before.key();
    after
        .iter()
        .any(|finding| finding.key() == key || is_part_of(finding, before))
}

/// Whether a finding is what is left of another: the same rule, and its first
/// subject is a conductor that the other named.
fn is_part_of(finding: &Finding, whole: &Finding) -> bool {
    let wire = finding
        .subjects
        .first()
        .filter(|first| matches!(first, Subject::Wire(_)));
    finding.rule == whole.rule && wire.is_some_and(|first| whole.subjects.contains(first))
}
