//! The checkout: where it is, and how its files are read and written. Not here: what they hold.

use std::fs;
use std::path::{Path, PathBuf};

/// The root of the checkout.
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

/// The text of a file, empty when there is none yet.
pub fn text_or_nothing(path: &str) -> String {
    fs::read_to_string(root().join(path)).unwrap_or_default()
}

/// Writes a file and the folders it needs.
pub fn write(path: &str, text: &str) -> Result<(), String> {
    let full = root().join(path);
    let folder = full.parent().unwrap_or(&full);
    fs::create_dir_all(folder)
        .and_then(|()| fs::write(&full, text))
        .map_err(|why| format!("{path} was not written: {why}"))
}
