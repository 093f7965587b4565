//! Where the Python of the general solver and of the solar library is. Not here: what is asked of them.

use std::path::{Path, PathBuf};

/// The Python that `./test tools` set up, or the one on the path.
pub fn python() -> PathBuf {
    let own = Path::new(env!("CARGO_TARGET_TMPDIR")).join("../python/bin/python");
    if own.exists() {
        own
    } else {
        PathBuf::from("python3")
    }
}
