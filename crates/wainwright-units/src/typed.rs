//! A value together with the text a person typed for it, so that the text is never lost.

use std::fmt;

use crate::definition::System;
use crate::error::QuantityError;
use crate::quantity::Quantity;
use crate::wire_size::WireSize;

/// Something that can be read from what a person types: every quantity, and wire sizes.
pub trait FromText: Sized {
    /// Reads the text.
    ///
    /// # Errors
    /// A text that is not understood.
    fn from_text(text: &str) -> Result<Self, QuantityError>;
}

impl<Q: Quantity> FromText for Q {
    fn from_text(text: &str) -> Result<Self, QuantityError> {
        Q::parse(text)
    }
}

impl FromText for WireSize {
    fn from_text(text: &str) -> Result<Self, QuantityError> {
        WireSize::parse(text)
    }
}

/// A value and its text exactly as typed, blanks included.
#[derive(Debug, Clone, PartialEq)]
pub struct Typed<Q> {
    /// The value.
    pub value: Q,
    /// The text as typed.
    pub text: String,
}

impl<Q: FromText> Typed<Q> {
    /// Reads the text and keeps it.
    ///
    /// # Errors
    /// A text that is not understood.
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        Q::from_text(text).map(|value| Typed {
            value,
            text: text.to_owned(),
        })
    }
}

impl<Q: Quantity> Typed<Q> {
    /// A computed value with the text a person would have typed for it.
    ///
    /// The text is rounded, so reading it again may give a slightly different value.
    #[must_use]
    pub fn shown(value: Q, system: System) -> Self {
        Typed {
            value,
            text: value.show(system),
        }
    }
}

impl<Q> fmt::Display for Typed<Q> {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        out.write_str(&self.text)
    }
}
