//! The files of the checkout and their lines. Not here: any rule about them.

use std::fs;
use std::path::{Path, PathBuf};

/// Folders that hold nothing of ours.
const NOT_OURS: &[&str] = &["target", ".git", "node_modules"];

/// One text file.
pub struct File {
    /// Path from the root of the checkout, with `/`.
    pub path: String,
    /// What it says.
    pub text: String,
}

impl File {
    /// The name without folders.
    pub fn name(&self) -> &str {
        self.path.rsplit('/').next().unwrap_or(&self.path)
    }

    /// Numbered lines of code: no comments, and nothing from the unit tests at the end of a file.
    pub fn code(&self) -> impl Iterator<Item = (usize, &str)> {
        let end = self.text.find("#[cfg(test)]\nmod tests {");
        self.text[..end.unwrap_or(self.text.len())]
            .lines()
            .enumerate()
            .map(|(index, line)| (index + 1, line))
            .filter(|(_, line)| !line.trim_start().starts_with("//"))
    }
}

/// The root of the checkout.
pub fn root() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
}

/// Every text file below a folder whose name ends in `end`, in order of path.
pub fn files(folder: &str, end: &str) -> Vec<File> {
    let mut files = Vec::new();
    walk(&root().join(folder), folder, end, &mut files);
    files.sort_by(|one, other| one.path.cmp(&other.path));
    assert!(!files.is_empty(), "no file *{end} below '{folder}'");
    files
}

/// All Rust files of the checkout.
pub fn rust_files() -> Vec<File> {
    let mut files = files("crates", ".rs");
    files.extend(self::files("xtask", ".rs"));
    files
}

/// The text of one file that must be there.
pub fn text(path: &str) -> String {
    fs::read_to_string(root().join(path)).unwrap_or_else(|why| panic!("{path}: {why}"))
}

/// Fails with all complaints at once, so that one run shows the whole list.
#[track_caller]
pub fn none(complaints: Vec<String>) {
    assert!(complaints.is_empty(), "\n{}\n", complaints.join("\n"));
}

fn walk(folder: &Path, name: &str, end: &str, files: &mut Vec<File>) {
    let Ok(entries) = fs::read_dir(folder) else {
        return;
    };
    for entry in entries {
        let entry = entry.unwrap();
        let child = entry.file_name().to_string_lossy().into_owned();
        let path = if name.is_empty() {
            child.clone()
        } else {
            format!("{name}/{child}")
        };
        if entry.file_type().unwrap().is_dir() {
            if !NOT_OURS.contains(&child.as_str()) {
                walk(&entry.path(), &path, end, files);
            }
        } else if child.ends_with(end) {
            // A file that is no text (a picture) holds no words to check.
            if let Ok(text) = fs::read_to_string(entry.path()) {
                files.push(File { path, text });
            }
        }
    }
}
