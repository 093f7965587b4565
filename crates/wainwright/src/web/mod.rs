//! The pages served on this computer: one project, drawn by the server as
//! HTML and SVG, with a small script that makes changes appear in place. Not
//! here: arithmetic, judgement, and writing files (see [`crate::session`]).

mod act;
mod app;
mod assets;
mod form;
mod guard;
mod html;
mod layout_scene;
mod linings;
mod live;
mod mender;
mod outlooks;
mod pages;
mod planned;
mod router;
mod schematic;
mod server;
mod single_line;
mod trouble;
mod view;
mod weather_files;
mod what_if;

pub use server::{Running, start};

use crate::session::Session;
use std::sync::Arc;

/// Where to serve.
#[derive(Debug, Clone, Copy, Default)]
pub struct Listen {
    /// Port; any free one when not given.
    pub port: Option<u16>,
    /// Whether to open the browser of this computer.
    pub open_browser: bool,
}

/// Serves the project until the program is stopped.
///
/// # Errors
/// When the port cannot be opened.
pub fn serve(session: Arc<Session>, listen: &Listen) -> Result<(), String> {
    server::serve(session, listen)
}
