//! How bad a finding is, by the signal words of ANSI Z535. Not here: which
//! rule uses which word, that is decided in the rule's own file.

use std::fmt;

/// Signal word of a finding; [`Severity::Danger`] is the worst and sorts first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Severity {
    /// Fire, shock or explosion is shown by the computed figures.
    Danger,
    /// People could be hurt, or gear does not work or is ruined.
    Warning,
    /// It works, but shortens life, or leaves less margin than good practice.
    Caution,
    /// Worth knowing; nobody is hurt.
    Notice,
}

impl Severity {
    /// All of them, worst first.
    pub const ALL: [Severity; 4] = [
        Severity::Danger,
        Severity::Warning,
        Severity::Caution,
        Severity::Notice,
    ];

    /// The signal word as shown to people.
    pub fn word(self) -> &'static str {
        match self {
            Severity::Danger => "Danger",
            Severity::Warning => "Warning",
            Severity::Caution => "Caution",
            Severity::Notice => "Notice",
        }
    }

    /// Whether this is as bad as `other`, or worse.
    pub fn at_least(self, other: Severity) -> bool {
        self <= other
    }
}

impl fmt::Display for Severity {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}
