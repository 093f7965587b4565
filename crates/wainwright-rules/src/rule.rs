//! What every rule is: a documented judgement on an assessment, and the
//! changes that might mend what it finds. Not here: the rules themselves.

use crate::finding::Finding;
use crate::severity::Severity;
use wainwright_analysis::Assessment;
use wainwright_model::{Edit, Project};

/// The page of one rule, shown by the app and the command line alike.
#[derive(Debug, Clone, Copy)]
pub struct RuleDoc {
    /// Kebab-case id, named for the bad state.
    pub id: &'static str,
    /// The bad state in a few words.
    pub title: &'static str,
    /// The worst signal word it can use.
    pub worst: Severity,
    /// What it finds.
    pub what: &'static str,
    /// Why it matters.
    pub why: &'static str,
    /// One example with figures.
    pub example: &'static str,
    /// What to do.
    pub what_to_do: &'static str,
    /// Where the limits come from: ids of the reference's sources, or a
    /// sentence naming document and place, or saying that it is judgement.
    pub sources: &'static [&'static str],
}

/// A judgement on an assessment.
pub trait Rule: Sync {
    /// Its page.
    fn doc(&self) -> &'static RuleDoc;

    /// Everything it finds, in an order that depends on the project only.
    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding>;

    /// Changes that might mend one of its findings. None is promised to
    /// work: [`crate::prove::fixes`] tries them.
    fn remedies(
        &self,
        finding: &Finding,
        assessment: &Assessment,
        project: &Project,
    ) -> Vec<Remedy>;
}

/// One kind of change in rising strength, for example "next size up", "two
/// sizes up". The least one that works is looked for.
#[derive(Debug, Clone, PartialEq)]
pub struct Remedy {
    /// From the least change to the most.
    pub rungs: Vec<Change>,
}

/// One change of the project text.
#[derive(Debug, Clone, PartialEq)]
pub struct Change {
    /// What to do, in words.
    pub title: String,
    /// The edits that do it.
    pub edits: Vec<Edit>,
    /// Effort and money together, in units of one plug-in fuse swapped.
    pub cost: f64,
}

impl Remedy {
    /// A ladder of changes; empty ladders are dropped by [`Remedy::some`].
    pub fn ladder(rungs: Vec<Change>) -> Self {
        Self { rungs }
    }

    /// A single change.
    pub fn one(title: impl Into<String>, edits: Vec<Edit>, cost: f64) -> Self {
        Self {
            rungs: vec![Change {
                title: title.into(),
                edits,
                cost,
            }],
        }
    }

    /// Keeps only remedies that change anything.
    pub fn some(remedies: Vec<Remedy>) -> Vec<Remedy> {
        remedies
            .into_iter()
            .filter_map(|mut remedy| {
                remedy.rungs.retain(|rung| !rung.edits.is_empty());
                (!remedy.rungs.is_empty()).then_some(remedy)
            })
            .collect()
    }
}
