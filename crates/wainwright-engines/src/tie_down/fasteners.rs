//! What bolts and wood screws hold. Not here: what they are screwed into, but for its specific
//! gravity.

use wainwright_units::{Area, Force, Length, Ratio, STANDARD_GRAVITY};

use crate::refusal::{Refusal, above_zero, require};

/// Newtons in a pound-force.
const NEWTONS_PER_POUND: f64 = 0.453_592_37 * STANDARD_GRAVITY;

/// Lag screw withdrawal, G^(3/2) D^(3/4) [lbf per inch] (National Design Specification; read).
const LAG: f64 = 1800.0;

/// Wood screw withdrawal, G² D [lbf per inch] (National Design Specification; read).
const SCREW: f64 = 2850.0;

/// Strength of a bolt's metal.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoltMetal {
    /// Stress it bears without lasting stretch [N/mm²], above zero.
    pub proof_newtons_per_mm2: f64,
    /// Stress at which it breaks [N/mm²], above zero.
    pub tensile_newtons_per_mm2: f64,
    /// Shear strength as a share of that, above zero.
    pub shear_share: Ratio,
}

/// What one bolt holds.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoltStrength {
    /// Proof load along the bolt \[N\].
    pub proof: Force,
    /// Breaking load across it, thread in the shear plane \[N\].
    pub shear: Force,
}

/// What a bolt of a stress area holds.
///
/// # Errors
/// A value that is not above zero.
pub fn bolt(stress_area: Area, metal: &BoltMetal) -> Result<BoltStrength, Refusal> {
    let square_millimetres = stress_area.square_metres() * 1e6;
    above_zero("stress area [mm²]", square_millimetres)?;
    above_zero("proof stress [N/mm²]", metal.proof_newtons_per_mm2)?;
    above_zero("tensile strength [N/mm²]", metal.tensile_newtons_per_mm2)?;
    above_zero("shear share", metal.shear_share.fraction())?;
    let newtons = |stress: f64| Force::from_newtons(stress * square_millimetres);
    Ok(BoltStrength {
        proof: newtons(metal.proof_newtons_per_mm2),
        shear: newtons(metal.tensile_newtons_per_mm2) * metal.shear_share,
    })
}

/// Allowable withdrawal of a lag screw from side grain \[N\], from the specific gravity of the
/// wood, the shank diameter and the length of thread in the wood without its tip.
///
/// # Errors
/// A specific gravity outside 0.3 to 0.8, or a length that is not above zero.
pub fn lag_withdrawal(gravity: Ratio, diameter: Length, thread: Length) -> Result<Force, Refusal> {
    check(gravity, diameter, thread)?;
    let per_inch = LAG * gravity.fraction().powf(1.5) * diameter.inches().powf(0.75);
    Ok(pounds(per_inch * thread.inches()))
}

/// Allowable withdrawal of a wood screw from side grain \[N\], as [`lag_withdrawal`].
///
/// # Errors
/// As [`lag_withdrawal`].
pub fn screw_withdrawal(
    gravity: Ratio,
    diameter: Length,
    thread: Length,
) -> Result<Force, Refusal> {
    check(gravity, diameter, thread)?;
    let per_inch = SCREW * gravity.fraction().powi(2) * diameter.inches();
    Ok(pounds(per_inch * thread.inches()))
}

fn check(gravity: Ratio, diameter: Length, thread: Length) -> Result<(), Refusal> {
    let share = gravity.fraction();
    require(
        "specific gravity of the wood",
        share,
        (0.3..=0.8).contains(&share),
        "0.3 to 0.8",
    )?;
    above_zero("diameter of the screw [in]", diameter.inches())?;
    above_zero("thread in the wood [in]", thread.inches())
}

fn pounds(value: f64) -> Force {
    Force::from_newtons(value * NEWTONS_PER_POUND)
}
