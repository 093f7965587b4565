//! `schema`: the published JSON Schemas.

use super::args::{SchemaArgs, SchemaOf};
use super::exit::{Status, Trouble};
use super::out::Out;

/// The schema of what `check --json` prints. A test holds real reports
/// against it.
const REPORT: &str = include_str!("../../../../docs/schema/report.json");

/// The schema of what `plan --json` prints.
const PLAN: &str = include_str!("../../../../docs/schema/plan.json");

/// The schema of what `lists --json` prints.
const LISTS: &str = include_str!("../../../../docs/schema/lists.json");

/// The schema of what `place --json` prints.
const PLACE: &str = include_str!("../../../../docs/schema/place.json");

/// Prints the schema.
pub fn run(args: &SchemaArgs, out: &mut Out) -> Result<Status, Trouble> {
    match args.of {
        SchemaOf::Project => out.json(&wainwright_model::json_schema()),
        SchemaOf::Report => out.line(REPORT.trim_end()),
        SchemaOf::Plan => out.line(PLAN.trim_end()),
        SchemaOf::Lists => out.line(LISTS.trim_end()),
        SchemaOf::Place => out.line(PLACE.trim_end()),
    }
    Ok(Status::Done)
}
