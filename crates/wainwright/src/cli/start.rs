//! `new`: a small commented project to begin with.

use super::args::{Demo, NewArgs};
use super::exit::{Status, Trouble};
use super::out::Out;
use crate::store::Store;

const STARTER_US: &str = include_str!("starter-us.toml");
const STARTER_METRIC: &str = include_str!("starter-metric.toml");

/// Writes the file; an existing one is left as it is.
pub fn run(args: &NewArgs, out: &mut Out) -> Result<Status, Trouble> {
    let text = match args.units {
        Demo::Us => STARTER_US,
        Demo::Metric => STARTER_METRIC,
    };
    Store::create(&args.file, text)?;
    let file = args.file.display();
    out.line(format!("Wrote {file}. Next: wainwright check {file}"));
    Ok(Status::Done)
}
