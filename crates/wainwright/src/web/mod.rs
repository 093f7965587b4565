//! The pages served on this computer.

use crate::session::Session;
use std::sync::Arc;

/// Where to serve.
#[derive(Debug, Clone, Copy)]
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
pub fn serve(_session: Arc<Session>, _listen: &Listen) -> Result<(), String> {
    Err("the pages are not part of this build".into())
}
