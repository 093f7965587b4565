//! Steps back and forth between texts, and the texts of former revisions.
//! Not here: when a step is made.

use std::collections::VecDeque;
use std::sync::Arc;
use wainwright_model::Patch;

/// Most steps that can be undone.
const MOST_STEPS: usize = 500;

/// Most text kept in the steps of one direction [bytes].
const MOST_STEP_BYTES: usize = 32 * 1024 * 1024;

/// Most former revisions whose text is kept.
const MOST_FORMER: usize = 200;

/// Most text kept of former revisions [bytes].
const MOST_FORMER_BYTES: usize = 32 * 1024 * 1024;

/// One change of the text and what people call it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Step {
    /// What people call it.
    pub label: String,
    patch: Patch,
}

impl Step {
    /// The smallest single replacement that turns `before` into `after`.
    pub fn between(before: &str, after: &str, label: &str) -> Self {
        let at = common_head(before, after);
        let (old, new) = (tail_from(before, at), tail_from(after, at));
        let tail = common_tail(old, new);
        let patch = Patch {
            at,
            removed: head_to(old, old.len() - tail).to_owned(),
            inserted: head_to(new, new.len() - tail).to_owned(),
        };
        let label = label.to_owned();
        Self { label, patch }
    }

    /// The text before the step; `None` when `after` is not the text it led to.
    pub fn undo(&self, after: &str) -> Option<String> {
        self.patch.undo(after).ok()
    }

    /// The text after the step; `None` when `before` is not the text it began at.
    pub fn redo(&self, before: &str) -> Option<String> {
        self.patch.redo(before).ok()
    }

    fn bytes(&self) -> usize {
        self.patch.removed.len() + self.patch.inserted.len()
    }
}

/// Steps that can be undone and redone, and former texts by revision.
#[derive(Debug, Default)]
pub struct History {
    done: VecDeque<Step>,
    undone: VecDeque<Step>,
    former: VecDeque<(u64, Arc<str>)>,
}

impl History {
    /// Records a new step; what was undone before it can no longer be redone.
    pub fn record(&mut self, step: Step) {
        self.undone.clear();
        push_bounded(&mut self.done, step);
    }

    /// The step an undo would take back.
    pub fn last_done(&self) -> Option<&Step> {
        self.done.back()
    }

    /// The step a redo would repeat.
    pub fn last_undone(&self) -> Option<&Step> {
        self.undone.back()
    }

    /// Moves the last step from done to undone.
    pub fn note_undone(&mut self) {
        if let Some(step) = self.done.pop_back() {
            push_bounded(&mut self.undone, step);
        }
    }

    /// Moves the last undone step back to done.
    pub fn note_redone(&mut self) {
        if let Some(step) = self.undone.pop_back() {
            push_bounded(&mut self.done, step);
        }
    }

    /// Keeps the text of a revision for edits that are still based on it.
    pub fn keep(&mut self, revision: u64, text: Arc<str>) {
        self.former.push_back((revision, text));
        let mut bytes: usize = self.former.iter().map(|(_, t)| t.len()).sum();
        while self.former.len() > MOST_FORMER || bytes > MOST_FORMER_BYTES {
            let Some((_, dropped)) = self.former.pop_front() else {
                break;
            };
            bytes -= dropped.len();
        }
    }

    /// The text of a revision, while it is still kept.
    pub fn text_of(&self, revision: u64) -> Option<Arc<str>> {
        let found = self.former.iter().find(|(r, _)| *r == revision);
        found.map(|(_, text)| Arc::clone(text))
    }
}

fn push_bounded(steps: &mut VecDeque<Step>, step: Step) {
    steps.push_back(step);
    let mut bytes: usize = steps.iter().map(Step::bytes).sum();
    while steps.len() > MOST_STEPS || (bytes > MOST_STEP_BYTES && steps.len() > 1) {
        let Some(dropped) = steps.pop_front() else {
            break;
        };
        bytes -= dropped.bytes();
    }
}

fn common_head(a: &str, b: &str) -> usize {
    let same = a.bytes().zip(b.bytes()).take_while(|(x, y)| x == y).count();
    floor_boundary(a, b, same)
}

fn common_tail(a: &str, b: &str) -> usize {
    let (x, y) = (a.bytes().rev(), b.bytes().rev());
    let mut same = x.zip(y).take_while(|(x, y)| x == y).count();
    while !(a.is_char_boundary(a.len() - same) && b.is_char_boundary(b.len() - same)) {
        same -= 1;
    }
    same
}

/// Equal bytes may end inside a character that differs in its last byte.
fn floor_boundary(a: &str, b: &str, mut at: usize) -> usize {
    while !(a.is_char_boundary(at) && b.is_char_boundary(at)) {
        at -= 1;
    }
    at
}

fn tail_from(text: &str, at: usize) -> &str {
    text.get(at..).unwrap_or_default()
}

fn head_to(text: &str, at: usize) -> &str {
    text.get(..at).unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    proptest! {
        /// Any step leads from one text to the other and back, also where
        /// characters of several bytes share some of them.
        #[test]
        fn a_step_is_exactly_invertible(a in "[aé漢字\n]{0,12}", b in "[aé漢字\n]{0,12}") {
            let step = Step::between(&a, &b, "");
            prop_assert_eq!(step.redo(&a), Some(b.clone()));
            prop_assert_eq!(step.undo(&b), Some(a));
        }
    }

    #[test]
    fn a_step_holds_only_what_differs() {
        let step = Step::between("size = \"14 AWG\"\n", "size = \"10 AWG\"\n", "x");
        assert_eq!(
            (step.patch.removed.as_str(), step.patch.inserted.as_str()),
            ("4", "0")
        );
    }

    #[test]
    fn a_step_refuses_a_text_it_does_not_belong_to() {
        let step = Step::between("one two", "one three", "x");
        assert_eq!(step.undo("another text"), None);
    }

    #[test]
    fn former_texts_are_bounded_by_count_and_bytes() {
        let mut history = History::default();
        let text: Arc<str> = "x".repeat(4 * 1024 * 1024).into();
        for revision in 0..20 {
            history.keep(revision, Arc::clone(&text));
        }
        assert_eq!(history.text_of(11), None, "8 texts of 4 MiB fill 32 MiB");
        assert!(history.text_of(12).is_some());
    }
}
