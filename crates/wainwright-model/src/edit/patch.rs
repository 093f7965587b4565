//! Changes at the level of bytes, exactly invertible.
//!
//! Not here: where to cut (the other files of this folder).

use super::EditProblem;
use std::ops::Range;

/// One replaced stretch of text.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Patch {
    /// Where it starts \[bytes\].
    pub at: usize,
    /// What stood there.
    pub removed: String,
    /// What stands there now.
    pub inserted: String,
}

impl Patch {
    /// Puts `inserted` where `removed` stands.
    ///
    /// # Errors
    /// When `removed` does not stand there.
    pub fn redo(&self, text: &str) -> Result<String, EditProblem> {
        let mut text = text.to_owned();
        self.put(&mut text)?;
        Ok(text)
    }

    /// Puts `removed` where `inserted` stands.
    ///
    /// # Errors
    /// When `inserted` does not stand there.
    pub fn undo(&self, text: &str) -> Result<String, EditProblem> {
        self.inverse().redo(text)
    }

    /// The patch that takes this one back.
    #[must_use]
    pub fn inverse(&self) -> Self {
        Self {
            at: self.at,
            removed: self.inserted.clone(),
            inserted: self.removed.clone(),
        }
    }

    pub(super) fn put(&self, text: &mut String) -> Result<(), EditProblem> {
        let end = self.at.saturating_add(self.removed.len());
        if text.get(self.at..end) != Some(self.removed.as_str()) {
            return Err(EditProblem::OtherText { at: self.at });
        }
        text.replace_range(self.at..end, &self.inserted);
        Ok(())
    }
}

/// Applies patches in order.
///
/// # Errors
/// When a patch belongs to another text.
pub fn replay(text: &str, patches: &[Patch]) -> Result<String, EditProblem> {
    let mut text = text.to_owned();
    patches.iter().try_for_each(|patch| patch.put(&mut text))?;
    Ok(text)
}

/// The patches that take `patches` back, in the order to apply them.
pub fn inverse_of(patches: &[Patch]) -> Vec<Patch> {
    patches.iter().rev().map(Patch::inverse).collect()
}

/// A stretch to replace, before it is known what stands there.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Splice {
    pub span: Range<usize>,
    pub inserted: String,
}

/// The splices as patches, last place first so that earlier offsets stay true.
pub(super) fn patches(text: &str, mut splices: Vec<Splice>) -> Result<Vec<Patch>, EditProblem> {
    splices.sort_by_key(|splice| std::cmp::Reverse(splice.span.start));
    let patch = |Splice { span, inserted }: Splice| {
        let removed = text.get(span.clone());
        let removed = removed.ok_or(EditProblem::OtherText { at: span.start })?;
        Ok(Patch {
            at: span.start,
            removed: removed.to_owned(),
            inserted,
        })
    };
    splices.into_iter().map(patch).collect()
}
