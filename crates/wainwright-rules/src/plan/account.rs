//! The account of a plan: what was decided and why, what could not be done.

use std::collections::BTreeSet;

/// One decision of a plan.
#[derive(Debug, Clone, PartialEq)]
pub struct Decision {
    /// What is added, in one sentence.
    pub what: String,
    /// Why, in one sentence.
    pub why: String,
    /// The rule or table it follows.
    pub source: &'static str,
    /// Items it is about, by id.
    pub items: Vec<String>,
}

/// What kind of thing stands in the way.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum ObstacleKind {
    /// Something is missing that a person must decide or type.
    Missing,
    /// The gear does not go together, whatever the wiring is.
    Gear,
    /// No size, fuse or number that is sold fits.
    NothingFits,
    /// An item of the file is not used because it does not fit.
    Unused,
    /// The check still finds something.
    Unsolved,
}

/// Something that could not be done, with the reason.
#[derive(Debug, Clone, PartialEq)]
pub struct Obstacle {
    /// What kind of thing it is.
    pub kind: ObstacleKind,
    /// The sentence for people.
    pub text: String,
    /// Items it is about, by id.
    pub items: Vec<String>,
}

/// The account while it is written.
#[derive(Debug, Clone, Default)]
pub(super) struct Account {
    pub(super) decisions: Vec<Decision>,
    pub(super) obstacles: Vec<Obstacle>,
    said: BTreeSet<String>,
}

impl Account {
    /// Notes a decision; the same sentence is noted once.
    pub(super) fn decide(
        &mut self,
        what: impl Into<String>,
        why: impl Into<String>,
        source: &'static str,
        items: &[&str],
    ) {
        let (what, why) = (what.into(), why.into());
        if self.said.insert(what.clone()) {
            self.decisions.push(Decision {
                what,
                why,
                source,
                items: owned(items),
            });
        }
    }

    /// Notes an obstacle; the same sentence is noted once.
    pub(super) fn cannot(&mut self, kind: ObstacleKind, text: impl Into<String>, items: &[&str]) {
        let text = text.into();
        if self.said.insert(text.clone()) {
            self.obstacles.push(Obstacle {
                kind,
                text,
                items: owned(items),
            });
        }
    }
}

fn owned(items: &[&str]) -> Vec<String> {
    items.iter().map(|id| (*id).to_string()).collect()
}
