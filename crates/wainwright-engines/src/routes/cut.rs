//! How long to cut a wire for its way. Not here: the way.

use crate::refusal::{Refusal, not_below_zero};
use wainwright_units::{Length, Ratio};

/// What a wire needs beyond its bare way.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Allowance {
    /// Share of the bare way for bends and for not being pulled tight, 0 or more.
    pub bend_slack: Ratio,
    /// Loop that hangs below the entry so that water drops off \[m\], 0 or more.
    pub drop_loop: Length,
    /// Wire that goes into the termination at each end \[m\], 0 or more.
    pub terminations: [Length; 2],
}

/// A cut length and what it is made of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Cut {
    /// The bare way.
    pub bare: Length,
    /// For bends.
    pub slack: Length,
    /// For the drop loop.
    pub drop_loop: Length,
    /// For both terminations.
    pub terminations: Length,
    /// All of it: what to cut.
    pub total: Length,
}

/// How long to cut a wire whose bare way is known.
///
/// # Errors
/// A [`Refusal`] for a length or share below zero or not a number.
pub fn cut_length(bare: Length, allowance: &Allowance) -> Result<Cut, Refusal> {
    let [one, other] = allowance.terminations;
    not_below_zero("bare length [m]", bare.metres())?;
    not_below_zero("bend_slack", allowance.bend_slack.fraction())?;
    not_below_zero("drop_loop [m]", allowance.drop_loop.metres())?;
    not_below_zero("termination [m]", one.metres())?;
    not_below_zero("termination [m]", other.metres())?;
    let slack = bare * allowance.bend_slack.fraction();
    Ok(Cut {
        bare,
        slack,
        drop_loop: allowance.drop_loop,
        terminations: one + other,
        total: bare + slack + allowance.drop_loop + one + other,
    })
}
