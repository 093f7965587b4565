//! A value and how well it is known.

use wainwright_units::Quantity;

use crate::refusal::{Refusal, finite, not_below_zero};

/// A value with its standard uncertainty.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measured<Q> {
    /// The value.
    pub value: Q,
    /// One standard deviation, zero or above.
    pub sigma: Q,
}

impl<Q: Quantity> Measured<Q> {
    /// A value without uncertainty.
    #[must_use]
    pub fn exact(value: Q) -> Self {
        Self {
            value,
            sigma: Q::from_base(0.0),
        }
    }

    /// A reading of a display that moves in steps: evenly likely anywhere within half a step.
    #[must_use]
    pub fn to_the_step(value: Q, step: Q) -> Self {
        Self {
            value,
            sigma: Q::from_base(step.base().abs() / 12.0_f64.sqrt()),
        }
    }

    /// A result from its value and the effect of each uncertain input on it.
    pub(super) fn from_effects(value: f64, effects: &[f64]) -> Self {
        let variance: f64 = effects.iter().map(|effect| effect * effect).sum();
        Self {
            value: Q::from_base(value),
            sigma: Q::from_base(variance.sqrt()),
        }
    }

    pub(super) fn check(&self, field: &'static str) -> Result<(), Refusal> {
        finite(field, self.value.base())?;
        not_below_zero("uncertainty", self.sigma.base())
    }
}
