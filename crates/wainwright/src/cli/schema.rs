//! `schema`: the published JSON Schemas.

use super::args::{SchemaArgs, SchemaOf};
use super::exit::{Status, Trouble};
use super::out::Out;

/// The schema of what `check --json` prints. A test holds real reports
/// against it.
const REPORT: &str = include_str!("../../../../docs/schema/report.json");

/// Prints the schema.
pub fn run(args: &SchemaArgs, out: &mut Out) -> Result<Status, Trouble> {
    match args.of {
        SchemaOf::Project => out.json(&wainwright_model::json_schema()),
        SchemaOf::Report => out.line(REPORT.trim_end()),
    }
    Ok(Status::Done)
}
