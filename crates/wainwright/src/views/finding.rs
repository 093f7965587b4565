//! Findings with their fixes, problems of the text, and the pages of the
//! rules, as plain data.

use super::Fixes;
use super::basis::{BasisView, SourceView};
use super::state::state_id;
use crate::study::Study;
use serde::Serialize;
use wainwright_analysis::result::Assessment;
use wainwright_model::{Problem, ProblemSeverity};
use wainwright_rules::{Amount, Finding, Fix, RuleDoc, Severity, Subject};

/// One thing that is wrong.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FindingView {
    /// Names the finding as long as it stands.
    pub key: String,
    /// Id of the rule.
    pub rule: &'static str,
    /// `danger`, `warning`, `caution` or `notice`.
    pub severity: &'static str,
    /// What it is about, the chief thing first.
    pub subjects: Vec<SubjectView>,
    /// Complete on its own.
    pub headline: String,
    /// Further sentences.
    pub detail: Vec<String>,
    /// The computed value.
    pub value: Option<AmountView>,
    /// The limit it is held against.
    pub limit: Option<AmountView>,
    /// Share of the limit that is left; negative when over it.
    pub margin: Option<f64>,
    /// Paths of values nobody gave that were used.
    pub assumptions: Vec<String>,
    /// The limit rests on a number written from memory or on a stand-in.
    pub from_memory: bool,
    /// Proven fixes, cheapest first; null when they were not worked out.
    pub fixes: Option<Vec<FixView>>,
}

/// What a finding is about.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
pub enum SubjectView {
    /// A conductor.
    Wire {
        /// Its id.
        id: String,
    },
    /// A piece of gear.
    Item {
        /// Its id.
        id: String,
    },
    /// A terminal of a piece of gear.
    Terminal {
        /// Id of the gear.
        id: String,
        /// Name of the terminal.
        terminal: String,
    },
    /// One way of a fuse block or switch bank.
    Way {
        /// Id of the gear.
        id: String,
        /// From 1.
        way: usize,
    },
    /// An operating state.
    State {
        /// Its id.
        id: String,
    },
    /// The wiring as a whole.
    System,
    /// The trailer as a whole, on the road.
    Trailer,
    /// A rating of trailer or tow vehicle.
    Rating {
        /// Its path in the file.
        path: String,
    },
    /// A door, window or vent.
    Opening {
        /// Its id.
        id: String,
    },
    /// A weight that was taken.
    Weighing {
        /// Its id.
        id: String,
    },
    /// A layer of the lining.
    Layer {
        /// Its id.
        id: String,
    },
}

/// A value or a limit.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct AmountView {
    /// Symbol.
    pub symbol: &'static str,
    /// In the base unit of its quantity (A, V, °C, m, Ω, W, s, share).
    pub value: f64,
    /// With unit, for people.
    pub text: String,
    /// Published source.
    pub source: Option<SourceView>,
    /// Where it came from.
    pub basis: BasisView,
}

/// A fix that was proven on a copy of the project.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FixView {
    /// Give this number to `fix`, from 1.
    pub number: usize,
    /// What it does.
    pub title: String,
    /// Effort and money together, in units of one plug-in fuse swapped.
    pub cost: f64,
    /// Keys of the findings that are gone with it.
    pub mends: Vec<String>,
    /// Keys of the findings about the same things that stay.
    pub leaves: Vec<String>,
    /// Headlines of lesser findings that come with it.
    pub brings: Vec<String>,
}

/// A place of the text that could not be read as meant.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ProblemView {
    /// From 1.
    pub line: usize,
    /// In characters, from 1.
    pub column: usize,
    /// Dotted path.
    pub path: String,
    /// `error` (left out) or `warning` (read all the same).
    pub severity: &'static str,
    /// What stands there.
    pub found: String,
    /// What could stand there.
    pub expected: String,
    /// What to do.
    pub hint: Option<String>,
}

/// The page of one rule.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct RuleView {
    /// Id.
    pub id: &'static str,
    /// In a few words.
    pub title: &'static str,
    /// Worst severity it uses.
    pub worst: &'static str,
    /// What it finds.
    pub what: &'static str,
    /// Why it matters.
    pub why: &'static str,
    /// An example with figures.
    pub example: &'static str,
    /// What to do.
    pub what_to_do: &'static str,
    /// Where the limits come from.
    pub sources: &'static [&'static str],
}

impl FindingView {
    /// The same as plain data; with its fixes when they are wanted.
    pub fn of(finding: &Finding, study: &Study, fixes: Fixes) -> Self {
        let key = finding.key();
        let fixes = (fixes == Fixes::Proven)
            .then(|| study.fixes(&key))
            .flatten();
        let subject = |s: &Subject| SubjectView::of(s, &study.assessment);
        Self {
            rule: finding.rule,
            severity: severity(finding.severity),
            subjects: finding.subjects.iter().map(subject).collect(),
            headline: finding.headline.clone(),
            detail: finding.detail.clone(),
            value: finding.value.as_ref().map(AmountView::of),
            limit: finding.limit.as_ref().map(AmountView::of),
            margin: finding.margin.map(|m| m.fraction()),
            assumptions: finding.assumptions.iter().map(|p| p.join(".")).collect(),
            from_memory: finding.from_memory,
            fixes: fixes.map(|f| fix_views(&f)),
            key,
        }
    }
}

/// Fixes with their numbers.
pub fn fix_views(fixes: &[Fix]) -> Vec<FixView> {
    let numbered = fixes.iter().enumerate();
    numbered
        .map(|(index, fix)| FixView {
            number: index + 1,
            title: fix.title.clone(),
            cost: fix.cost,
            mends: fix.mends.clone(),
            leaves: fix.leaves.clone(),
            brings: fix.brings.iter().map(|f| f.headline.clone()).collect(),
        })
        .collect()
}

impl SubjectView {
    /// The same as plain data.
    pub fn of(subject: &Subject, assessment: &Assessment) -> Self {
        match subject {
            Subject::Wire(id) => Self::Wire { id: id.to_string() },
            Subject::Item(id) => Self::Item { id: id.to_string() },
            Subject::Terminal(id, terminal) => Self::Terminal {
                id: id.to_string(),
                terminal: terminal.clone(),
            },
            Subject::Way(id, way) => Self::Way {
                id: id.to_string(),
                way: *way,
            },
            Subject::State(index) => {
                let state = assessment.states.get(*index);
                state.map_or(Self::System, |s| Self::State {
                    id: state_id(&s.kind),
                })
            }
            Subject::System => Self::System,
            Subject::Trailer => Self::Trailer,
            Subject::Rating(path) => Self::Rating { path: path.clone() },
            Subject::Opening(id) => Self::Opening { id: id.to_string() },
            Subject::Weighing(id) => Self::Weighing { id: id.to_string() },
            Subject::Layer(id) => Self::Layer { id: id.to_string() },
        }
    }
}

impl AmountView {
    fn of(amount: &Amount) -> Self {
        Self {
            symbol: amount.symbol,
            value: amount.value,
            text: amount.text.clone(),
            source: amount.source.map(SourceView::of),
            basis: BasisView::of(&amount.basis),
        }
    }
}

impl ProblemView {
    /// The same as plain data.
    pub fn of(problem: &Problem) -> Self {
        Self {
            line: problem.line,
            column: problem.column,
            path: problem.path.clone(),
            severity: match problem.severity {
                ProblemSeverity::Error => "error",
                ProblemSeverity::Warning => "warning",
            },
            found: problem.found.clone(),
            expected: problem.expected.clone(),
            hint: problem.hint.clone(),
        }
    }
}

impl RuleView {
    /// The same as plain data.
    pub fn of(doc: &'static RuleDoc) -> Self {
        Self {
            id: doc.id,
            title: doc.title,
            worst: severity(doc.worst),
            what: doc.what,
            why: doc.why,
            example: doc.example,
            what_to_do: doc.what_to_do,
            sources: doc.sources,
        }
    }
}

/// Signal word in small letters.
pub fn severity(severity: Severity) -> &'static str {
    match severity {
        Severity::Danger => "danger",
        Severity::Warning => "warning",
        Severity::Caution => "caution",
        Severity::Notice => "notice",
    }
}
