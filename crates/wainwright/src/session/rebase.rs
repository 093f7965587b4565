//! Whether edits made on an older text may go on the present one: only when
//! every table they touch reads as it did. Not here: applying them.

use super::Refusal;
use std::collections::BTreeSet;
use wainwright_model::{Edit, EditProblem, Path};

/// Names in the path of a table with an id, such as `wire.fridge-pos`.
const KEYED: usize = 2;

/// Checks that no table touched by `edits` differs between the text they
/// were made on and the present one.
///
/// # Errors
/// [`Refusal::Outdated`] with the tables that differ, [`Refusal::TooOld`]
/// when the older text is not kept any more.
pub fn check(base: Option<&str>, now: &str, edits: &[Edit]) -> Result<(), Refusal> {
    let base = base.ok_or(Refusal::TooOld)?;
    let touched: BTreeSet<Path> = edits.iter().flat_map(touched).collect();
    let differs = |table: &Path| match (reads(base, table), reads(now, table)) {
        (Ok(before), Ok(after)) => before != after,
        // A table that cannot be read alone may be compared by nobody.
        _ => true,
    };
    let tables: Vec<String> = touched
        .into_iter()
        .filter(differs)
        .map(|table| table.join("."))
        .collect();
    if tables.is_empty() {
        Ok(())
    } else {
        Err(Refusal::Outdated { tables })
    }
}

/// The tables an edit changes, or would take the place of.
fn touched(edit: &Edit) -> Vec<Path> {
    match edit {
        Edit::Set { path, .. } | Edit::Unset { path } => vec![table_of(path)],
        Edit::Add { table, .. } | Edit::Remove { table } => vec![table.clone()],
        Edit::Rename { table, to } => {
            let mut renamed = table.clone();
            renamed.pop();
            renamed.push(to.clone());
            vec![table.clone(), renamed]
        }
    }
}

/// The table a key is in: `wire.a` of `wire.a.size`, `limits` of
/// `limits.drop_other`.
fn table_of(path: &Path) -> Path {
    let names = path.len().saturating_sub(1).min(KEYED);
    path.iter().take(names).cloned().collect()
}

/// How a table reads, comments and all: just what removing it would take
/// out of the text. `None` when there is no such table.
fn reads(text: &str, table: &Path) -> Result<Option<String>, EditProblem> {
    if table.is_empty() {
        return Ok(None);
    }
    let removal = Edit::Remove {
        table: table.clone(),
    };
    match wainwright_model::apply(text, &[removal]) {
        Ok(applied) => {
            let cuts = applied.inverse.iter().map(|patch| patch.inserted.trim());
            Ok(Some(cuts.collect::<Vec<_>>().join("\n")))
        }
        Err(EditProblem::NoSuchTable { .. }) => Ok(None),
        Err(problem) => Err(problem),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wainwright_model::{Value, path};

    const BASE: &str = "[wire.a]\nsize = \"14 AWG\"\n\n[wire.b]\nsize = \"12 AWG\"\n";

    fn set_a() -> Vec<Edit> {
        vec![Edit::Set {
            path: path(["wire", "a", "size"]),
            value: Value::from("10 AWG"),
        }]
    }

    #[test]
    fn a_change_of_another_table_does_not_matter() {
        let now = BASE.replace("12 AWG", "8 AWG") + "\n[wire.c]\nsize = \"6 AWG\"\n";
        assert!(check(Some(BASE), &now, &set_a()).is_ok());
    }

    #[test]
    fn a_change_of_the_same_table_is_named() {
        let now = BASE.replace("14 AWG", "8 AWG");
        match check(Some(BASE), &now, &set_a()) {
            Err(Refusal::Outdated { tables }) => assert_eq!(tables, ["wire.a"]),
            other => panic!("{other:?}"),
        }
    }

    #[test]
    fn a_table_removed_meanwhile_is_a_change() {
        let now = "[wire.b]\nsize = \"12 AWG\"\n";
        assert!(matches!(
            check(Some(BASE), now, &set_a()),
            Err(Refusal::Outdated { .. })
        ));
    }

    #[test]
    fn an_id_taken_meanwhile_is_a_change() {
        let add = Edit::Add {
            table: path(["wire", "c"]),
            fields: Vec::new(),
            after: None,
        };
        let now = format!("{BASE}\n[wire.c]\nsize = \"6 AWG\"\n");
        assert!(check(Some(BASE), BASE, std::slice::from_ref(&add)).is_ok());
        assert!(check(Some(BASE), &now, &[add]).is_err());
    }

    #[test]
    fn without_the_older_text_nothing_is_taken() {
        assert!(matches!(check(None, BASE, &set_a()), Err(Refusal::TooOld)));
    }
}
