//! No verb: opens a project in the browser of this computer. Not here: the
//! pages.

use super::args::{AppArgs, Demo};
use super::exit::{Status, Trouble};
use super::out::Out;
use crate::session::Session;
use crate::store::{self, Store};
use crate::web::{self, Listen};
use std::path::PathBuf;
use std::sync::Arc;

/// The example in feet and AWG.
const DARK_SKY: &str = include_str!("../../../../examples/dark-sky.toml");

/// The example in metres and mm².
const DARK_SKY_METRIC: &str = include_str!("../../../../examples/dark-sky-metric.toml");

/// Serves the project until the program is stopped.
pub fn run(args: &AppArgs, out: &mut Out) -> Result<Status, Trouble> {
    let path = match &args.file {
        Some(path) => path.clone(),
        None => copy_of_demo(args.demo, out)?,
    };
    let session = Arc::new(Session::open(&path)?);
    out.flush();
    let listen = Listen {
        port: args.port,
        open_browser: !args.no_browser,
    };
    web::serve(session, &listen).map_err(Trouble::NotChanged)?;
    Ok(Status::Done)
}

/// The example itself is part of the program and cannot change, so people
/// work on a copy, which does not stay for ever.
fn copy_of_demo(demo: Demo, out: &mut Out) -> Result<PathBuf, Trouble> {
    let (name, text) = match demo {
        Demo::Us => ("dark-sky.toml", DARK_SKY),
        Demo::Metric => ("dark-sky-metric.toml", DARK_SKY_METRIC),
    };
    let path = store::passing_folder("wainwright")?.join(name);
    Store::create(&path, text)?;
    out.wrapped("", &format!(
        "No file was given, so this is a copy of an example: {}. The system clears that folder sooner or later; to keep your changes, save under another name.",
        path.display()
    ));
    Ok(path)
}
