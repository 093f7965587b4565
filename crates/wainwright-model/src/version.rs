//! The version of the file format, and the way from an older version to this one.
//!
//! Not here: the format itself. There is one version so far;
//! when a second comes, `STEPS` gets its first step, and the fixture of every released version must still load.

use crate::edit::{Applied, Edit, EditProblem, apply};
use crate::place::Field;
use crate::problem::{Complaint, ProblemSeverity};
use crate::read::fields::Fields;
use crate::read::{Catalogue, Reader, parse};
use crate::schema::{VERSION_KEY, ValueKind};

/// The version this program reads and writes.
pub const CURRENT_VERSION: u32 = 1;

const VERSIONS: ValueKind = ValueKind::Integer {
    low: 1,
    high: u32::MAX as i64,
};

/// One step from a version to the next, as edits, so that comments and order stay.
type Step = fn(&str) -> Vec<Edit>;

/// The step at place n leads from version n + 1 to version n + 2.
const STEPS: &[Step] = &[];
const _: () = assert!(
    STEPS.len() + 1 == CURRENT_VERSION as usize,
    "every older version has a step"
);

/// Brings a text of an older version to [`CURRENT_VERSION`]; a text of this version, of a newer one, or without a
/// version comes back as it is.
///
/// # Errors
/// When a step does not fit the text, as for any edit.
pub fn migrate(text: &str) -> Result<Applied, EditProblem> {
    let version = parse(text, &Catalogue::default())
        .project
        .version
        .map_or(CURRENT_VERSION, |given| given.value);
    let first = usize::try_from(version)
        .unwrap_or(usize::MAX)
        .saturating_sub(1);
    let mut migrated = Applied {
        text: text.to_owned(),
        inverse: Vec::new(),
    };
    for step in STEPS.get(first..).unwrap_or_default() {
        let next = apply(&migrated.text, &step(&migrated.text))?;
        migrated = Applied {
            text: next.text,
            inverse: [next.inverse, migrated.inverse].concat(),
        };
    }
    Ok(migrated)
}

/// Reads the version. None at all, or a newer one than is known, is a warning; the rest is read as usual.
pub(crate) fn read(reader: &mut Reader<'_>) -> Field<u32> {
    let mut root = Fields::new(reader, 0, String::new());
    let version: Field<u32> = root.take(VERSION_KEY, &VERSIONS);
    let given = root.has(VERSION_KEY);
    let newer = version
        .as_ref()
        .map(|given| given.value)
        .filter(|number| *number > CURRENT_VERSION);
    let (found, hint) = match newer {
        Some(number) => (
            format!("version {number}"),
            "this file was written for a newer program; what is new in it is left out, and kept in the text".to_owned(),
        ),
        None if given => return version,
        None => ("no version".to_owned(), format!("write {VERSION_KEY} = {CURRENT_VERSION} as the first line")),
    };
    root.complain_at_key(
        VERSION_KEY,
        Complaint {
            at: 0,
            path: VERSION_KEY,
            found,
            expected: format!("{VERSION_KEY} = {CURRENT_VERSION}"),
            hint: Some(hint),
            severity: ProblemSeverity::Warning,
        },
    );
    version
}
