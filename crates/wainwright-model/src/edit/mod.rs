//! Changing the text: edits as data, applied as splices.
//!
//! Here: what an edit is, and all-or-nothing application. Values become text in [`value_text`], places are found in
//! [`outline`], which [`follow`] keeps true from edit to edit, fields are changed in [`field`], tables in [`table`], names in [`rename`]. Not here: whether an edit
//! makes sense for a trailer.
//!
//! An edit touches only the bytes it must: comments, order, spacing and line endings elsewhere stay as they are.
//! A removed table takes the comment lines directly above it along, and those directly below its last line unless
//! they stand directly above the next header; a comment set apart by blank lines stays.

mod field;
mod follow;
#[cfg(test)]
mod oracle;
mod outline;
mod patch;
mod problem;
mod rename;
mod table;
mod typed;
mod value_text;

pub use patch::{Patch, inverse_of, replay};
pub use problem::EditProblem;
pub use typed::typed;

use crate::syntax::{self, LONGEST_TEXT, Lines};
use outline::Outline;
use patch::Splice;

/// Names from the outside in, such as `["wire", "fridge-pos", "size"]`.
pub type Path = Vec<String>;

/// A path from its names.
pub fn path<const N: usize>(names: [&str; N]) -> Path {
    names.map(str::to_owned).to_vec()
}

/// One change to the text.
#[derive(Debug, Clone, PartialEq)]
pub enum Edit {
    /// Gives a key a value: replaces the value, or adds the key at the end of its table. The tables `project`,
    /// `trailer` and `limits` are made when they are missing; other tables must be there.
    Set {
        /// The key.
        path: Path,
        /// Its value.
        value: Value,
    },
    /// Takes a key out, with its line.
    Unset {
        /// The key.
        path: Path,
    },
    /// Adds a table after another one, or after the last one of its element, or at the end.
    Add {
        /// The table, such as `["wire", "new-id"]`.
        table: Path,
        /// Its keys and values in order.
        fields: Vec<(String, Value)>,
        /// The table to put it after.
        after: Option<Path>,
    },
    /// Takes a table out, with the comment directly above it.
    Remove {
        /// The table.
        table: Path,
    },
    /// Gives an element another id and changes every reference to it.
    Rename {
        /// The table, such as `["item", "fridge"]`.
        table: Path,
        /// The new id.
        to: String,
    },
}

/// A value to write.
#[derive(Debug, Clone, PartialEq)]
pub enum Value {
    /// Text; quantities are text too.
    Text(String),
    /// A whole number.
    Integer(i64),
    /// Any other number; must be finite.
    Number(f64),
    /// `true` or `false`.
    Bool(bool),
    /// A list.
    List(Vec<Value>),
}

impl From<&str> for Value {
    fn from(text: &str) -> Self {
        Self::Text(text.to_owned())
    }
}

/// A changed text and the way back.
#[derive(Debug, Clone, PartialEq)]
pub struct Applied {
    /// The text after all edits.
    pub text: String,
    /// Patches that, applied in this order to `text`, give the former text back, byte for byte.
    pub inverse: Vec<Patch>,
}

/// Applies all edits in order, or none.
///
/// ```
/// use wainwright_model::{Edit, Value, apply, path, replay};
/// let text = "[wire.a]  # red\nsize = \"14 AWG\" # as found\n";
/// let edit = Edit::Set { path: path(["wire", "a", "size"]), value: Value::Text("10 AWG".into()) };
/// let applied = apply(text, &[edit])?;
/// assert_eq!(applied.text, "[wire.a]  # red\nsize = \"10 AWG\" # as found\n");
/// assert_eq!(replay(&applied.text, &applied.inverse)?, text);
/// # Ok::<(), wainwright_model::EditProblem>(())
/// ```
///
/// # Errors
/// When an edit does not fit the text, or the result would be less legal than the text was.
pub fn apply(text: &str, edits: &[Edit]) -> Result<Applied, EditProblem> {
    let mut outline = Outline::new(text.to_owned());
    let mut inverse = Vec::new();
    for edit in edits {
        let patches = patch::patches(&outline.text, plan(&outline, edit)?)?;
        outline.change(&patches)?;
        inverse.extend(patches.iter().map(Patch::inverse));
        check(&outline, edit)?;
    }
    inverse.reverse();
    legal(&outline, text)?;
    Ok(Applied {
        text: outline.text,
        inverse,
    })
}

fn plan(outline: &Outline, edit: &Edit) -> Result<Vec<Splice>, EditProblem> {
    within_limits(outline)?;
    match edit {
        Edit::Set { path, value } => field::set(outline, path, value),
        Edit::Unset { path } => field::unset(outline, path),
        Edit::Add {
            table,
            fields,
            after,
        } => table::add(outline, table, fields, after.as_deref()),
        Edit::Remove { table } => table::remove(outline, table),
        Edit::Rename { table, to } => rename::rename(outline, table, to),
    }
}

/// Whether the edit did what it says, read from the changed text.
fn check(outline: &Outline, edit: &Edit) -> Result<(), EditProblem> {
    let missed = |path: &[String]| {
        Err(EditProblem::NotReachable {
            path: path.join("."),
        })
    };
    match edit {
        Edit::Set { path, value } => match outline.leaf(path) {
            Some(node) if value_text::same(value, node) => Ok(()),
            _ => missed(path),
        },
        Edit::Unset { path } if outline.is_there(path) => missed(path),
        Edit::Remove { table } if outline.is_there(table) => missed(table),
        Edit::Add { table, .. } if !outline.is_there(table) => missed(table),
        Edit::Rename { table, to } => {
            let (_, front) = table.split_last().ok_or(EditProblem::EmptyPath)?;
            let renamed: Path = front.iter().cloned().chain([to.clone()]).collect();
            if outline.is_there(table) || !outline.is_there(&renamed) {
                missed(table)
            } else {
                Ok(())
            }
        }
        _ => Ok(()),
    }
}

fn within_limits(outline: &Outline) -> Result<(), EditProblem> {
    match outline.text.len() {
        bytes if bytes > LONGEST_TEXT => Err(EditProblem::TooLong { bytes }),
        _ => Ok(()),
    }
}

/// How many former faults are compared to find the new one.
const MOST_COMPARED: usize = 200;

/// Whether the text is no less legal than it was.
fn legal(outline: &Outline, former: &str) -> Result<(), EditProblem> {
    within_limits(outline)?;
    let after = outline.all_faults();
    if after.is_empty() {
        return Ok(());
    }
    let before = Outline::new(former.to_owned()).all_faults();
    if after.len() <= before.len() {
        return Ok(());
    }
    let known = |fault: &syntax::Fault| {
        let mut compared = before.iter().take(MOST_COMPARED);
        compared.any(|old| (&old.found, &old.expected) == (&fault.found, &fault.expected))
    };
    match after
        .iter()
        .take(MOST_COMPARED)
        .find(|fault| !known(fault))
        .or(after.last())
    {
        Some(fault) => {
            let (line, column) = Lines::new(&outline.text).place(fault.at);
            let (found, expected) = (fault.found.clone(), fault.expected.clone());
            Err(EditProblem::WouldBreak {
                line,
                column,
                found,
                expected,
            })
        }
        None => Ok(()),
    }
}
