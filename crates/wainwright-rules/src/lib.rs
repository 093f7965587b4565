//! One file per rule: findings and proven fixes.
//!
//! [`judge`] runs every rule of the [`catalogue()`] over an assessment;
//! [`fixes`] proposes changes of the project text for one finding and proves
//! each by assessing an edited copy, [`Trials`] for many findings of one text.
//! The documentation of a rule ([`RuleDoc`]) is the text the app and the
//! command line show.
//!
//! Not here: physics (the engines), the values judged (the analysis),
//! published limits (the reference).

mod catalogue;
mod charging;
mod finding;
mod indoors;
mod judge;
mod lining;
pub mod plan;
mod prove;
mod remedy;
mod rule;
mod severity;
mod towing;
mod view;
mod wiring;

pub use catalogue::{catalogue, docs, rule};
pub use finding::{Amount, Finding, Subject, rests_on_memory};
pub use judge::judge;
pub use prove::{Fix, MOST_TRIALS, Trials, fixes};
pub use rule::{Change, Remedy, Rule, RuleDoc};
pub use severity::Severity;
