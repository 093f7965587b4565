//! How the engines of weight and towing refuse nonsense: one error, said the same way by all.
//! No equation is here.

use std::fmt;

/// An input outside what it can physically be, or a balance that does not close.
#[derive(Debug, Clone, PartialEq)]
pub struct Refusal {
    /// Kind and index of the list entry at fault; `None` when the value stands alone.
    pub place: Option<(&'static str, usize)>,
    /// Name of the field, with its unit.
    pub field: &'static str,
    /// What was given, in that unit.
    pub found: f64,
    /// What was expected.
    pub expected: &'static str,
}

impl Refusal {
    pub(crate) const fn new(field: &'static str, found: f64, expected: &'static str) -> Self {
        Self {
            place: None,
            field,
            found,
            expected,
        }
    }

    /// The same refusal with the list entry it belongs to.
    pub(crate) const fn at(mut self, kind: &'static str, index: usize) -> Self {
        self.place = Some((kind, index));
        self
    }
}

impl fmt::Display for Refusal {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        if let Some((kind, index)) = self.place {
            write!(out, "{kind} {}: ", index + 1)?;
        }
        write!(
            out,
            "{} is {}, expected {}; correct this value or what it is made from",
            self.field, self.found, self.expected
        )
    }
}

impl std::error::Error for Refusal {}

/// Refuses NaN and infinity.
pub(crate) fn finite(field: &'static str, found: f64) -> Result<(), Refusal> {
    require(field, found, found.is_finite(), "a finite number")
}

/// Refuses anything but a finite number above zero.
pub(crate) fn above_zero(field: &'static str, found: f64) -> Result<(), Refusal> {
    require(
        field,
        found,
        found.is_finite() && found > 0.0,
        "a number above zero",
    )
}

/// Refuses anything but a finite number, zero or above.
pub(crate) fn not_below_zero(field: &'static str, found: f64) -> Result<(), Refusal> {
    require(
        field,
        found,
        found.is_finite() && found >= 0.0,
        "zero or above",
    )
}

/// Refuses a value unless a condition holds.
pub(crate) fn require(
    field: &'static str,
    found: f64,
    holds: bool,
    expected: &'static str,
) -> Result<(), Refusal> {
    if holds {
        Ok(())
    } else {
        Err(Refusal::new(field, found, expected))
    }
}
