//! The roots of the motion at one speed, and what they mean.
//! Not here: searching for speeds (`speeds`).

use wainwright_units::Ratio;

use super::complex::Complex;
use super::eigen::eigenvalues;
use super::input::Rig;
use super::model::matrix;
use crate::refusal::{Refusal, require};

/// Slowest speed at which the model is used [m/s]: it divides by the speed.
const SLOWEST: f64 = 1.0;

/// Imaginary part below which a root counts as real, relative to its size.
const REAL: f64 = 1e-7;

/// One root of the motion; the motion goes as exp(λt).
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Root {
    /// Growth per second [1/s]; below zero it dies out.
    pub re: f64,
    /// Angular frequency [rad/s].
    pub im: f64,
}

/// The oscillation that dies out worst.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Sway {
    /// Damping ratio; below zero the swing grows.
    pub damping: Ratio,
    /// Swings per second \[Hz\].
    pub hertz: f64,
    /// Its root, the one with the positive imaginary part.
    pub root: Root,
}

/// The sideways motion at a speed.
#[derive(Debug, Clone, PartialEq)]
pub struct Motion {
    /// All roots, the fastest growing first.
    pub roots: Vec<Root>,
    /// The worst oscillation; `None` when there is none.
    pub sway: Option<Sway>,
    /// Whether a motion grows without oscillating: the car turns away from straight running.
    pub diverges: bool,
    /// Largest miss of the sums of the roots and of their squares, relative to the matrix.
    pub residual: f64,
}

/// Damping of two rigs at the same speed.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct DampingChange {
    /// Damping ratio of the first rig; `None` when it does not oscillate.
    pub before: Option<Ratio>,
    /// Damping ratio of the second rig; `None` when it does not oscillate.
    pub after: Option<Ratio>,
    /// Second minus first; `None` when either does not oscillate.
    pub change: Option<f64>,
}

/// Roots, damping and frequency at a speed [m/s].
///
/// # Errors
/// A value that cannot be, a speed below 1 m/s, or roots that do not add up.
pub fn motion(rig: &Rig, metres_per_second: f64) -> Result<Motion, Refusal> {
    rig.check()?;
    require(
        "speed [m/s]",
        metres_per_second,
        metres_per_second.is_finite() && metres_per_second >= SLOWEST,
        "1 m/s or more",
    )?;
    let (found, residual) = eigenvalues(&matrix(rig, metres_per_second))?;
    let mut roots: Vec<Root> = found.into_iter().map(tidy).collect();
    roots.sort_by(|a, b| b.re.total_cmp(&a.re).then(b.im.total_cmp(&a.im)));
    Ok(Motion {
        sway: worst(&roots),
        diverges: roots.iter().any(|root| root.im == 0.0 && root.re > 0.0),
        roots,
        residual,
    })
}

/// Damping at a speed before and after a change of layout.
///
/// # Errors
/// As [`motion`].
pub fn damping_change(
    before: &Rig,
    after: &Rig,
    metres_per_second: f64,
) -> Result<DampingChange, Refusal> {
    let damping = |rig| motion(rig, metres_per_second).map(|m| m.sway.map(|sway| sway.damping));
    let (before, after) = (damping(before)?, damping(after)?);
    Ok(DampingChange {
        before,
        after,
        change: before
            .zip(after)
            .map(|(first, second)| (second - first).fraction()),
    })
}

/// A root whose imaginary part is rounding becomes real.
fn tidy(root: Complex) -> Root {
    let im = if root.im.abs() <= REAL * root.size() {
        0.0
    } else {
        root.im
    };
    Root { re: root.re, im }
}

fn worst(roots: &[Root]) -> Option<Sway> {
    roots
        .iter()
        .filter(|root| root.im > 0.0)
        .map(|root| Sway {
            damping: Ratio::from_fraction(-root.re / root.re.hypot(root.im)),
            hertz: root.im / std::f64::consts::TAU,
            root: *root,
        })
        .min_by(|a, b| a.damping.total_cmp(&b.damping))
}
