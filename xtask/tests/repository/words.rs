//! Words that do not belong in a text of the project. Not here: words shown to people (`glossary`).

use crate::tree;

/// Each in two halves, so that this file does not hold them.
const FORBIDDEN: &[[&str; 2]] = &[
    ["/fa", "rm/"],
    ["/wo", "rk/"],
    ["/tm", "p/ww"],
    ["fa", "rm-studio"],
    ["fa", "rm-bench"],
    ["tran", "script"],
    ["seed docu", "ment"],
    ["cla", "ude"],
    ["chat", "gpt"],
    ["issues s", "aid"],
    ["crates", ".io"],
    ["pypi", ".org"],
    ["npmjs", "."],
    ["deb.deb", "ian"],
    ["language mo", "del"],
];

#[test]
fn no_text_holds_words_that_do_not_belong() {
    let words: Vec<String> = FORBIDDEN.iter().map(|halves| halves.concat()).collect();
    let mut complaints = Vec::new();
    // A lock file names where its packages come from; cargo writes it.
    for file in tree::files("", "")
        .into_iter()
        .filter(|file| file.path != "Cargo.lock")
    {
        let text = file.text.to_lowercase();
        let bad = words.iter().filter(|word| text.contains(word.as_str()));
        complaints.extend(bad.map(|word| format!("{}: {word}", file.path)));
    }
    tree::none(complaints);
}
