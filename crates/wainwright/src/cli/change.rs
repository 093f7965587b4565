//! A change of the file, made through the same session as the app makes its
//! own, and how it is shown. Not here: which change.

use super::diff::Line;
use super::exit::Trouble;
use super::out::Out;
use crate::session::{Disk, Session, Snapshot};
use std::sync::Arc;
use wainwright_model::Edit;

/// Makes the change. One that did not reach the disk was not made.
///
/// # Errors
/// Why the change was not taken or not saved.
pub fn apply(
    session: &Session,
    before: &Snapshot,
    edits: &[Edit],
    title: &str,
) -> Result<Arc<Snapshot>, Trouble> {
    let after = session
        .apply(edits, before.revision, title)
        .map_err(|refusal| Trouble::NotChanged(refusal.to_string()))?;
    match &after.disk {
        Disk::Saved => Ok(after),
        Disk::Unsaved(why) => Err(Trouble::NotChanged(why.clone())),
    }
}

/// Lines that go and lines that come.
pub fn print(lines: &[Line<'_>], out: &mut Out) {
    for line in lines {
        let text = match line {
            Line::Same(text) => format!("  {text}"),
            Line::Removed(text) => out.paint.removed(&format!("- {text}")),
            Line::Added(text) => out.paint.added(&format!("+ {text}")),
            Line::Gap(number) => out.paint.dim(&format!("line {number}")),
        };
        out.line(text);
    }
}
