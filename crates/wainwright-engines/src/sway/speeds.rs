//! The speeds at which the motion turns: damping gone, and static divergence.
//! Neither is a safe speed; what is left out of the model mostly makes real rigs worse.

use super::input::Rig;
use super::model::{Row, carried, determinant, wheelsets};
use super::motion::motion;
use crate::refusal::{Refusal, require};

/// Speeds that are tried between the ends of the range; a turn narrower than that is not seen.
const TRIALS: usize = 160;

/// Halvings of the interval in which damping turns.
const HALVINGS: usize = 50;

/// Where the oscillation stops dying out.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Onset {
    /// The swing dies out at every speed tried.
    NotInRange,
    /// The swing grows already at the lowest speed.
    BelowRange,
    /// The swing neither dies nor grows.
    At {
        /// That speed [m/s].
        metres_per_second: f64,
        /// Swings per second there \[Hz\].
        hertz: f64,
        /// Growth left over there [1/s].
        residual: f64,
    },
}

/// Lowest speed in a range [m/s] at which an oscillation stops dying out.
///
/// # Errors
/// As `motion`; a range whose ends are the wrong way round.
pub fn zero_damping_speed(rig: &Rig, from: f64, to: f64) -> Result<Onset, Refusal> {
    require("highest speed [m/s]", to, to > from, "above the lowest")?;
    if growth(rig, from)?.0 >= 0.0 {
        return Ok(Onset::BelowRange);
    }
    let mut low = from;
    for trial in 1..=TRIALS {
        let high = from + (to - from) * trial as f64 / TRIALS as f64;
        if growth(rig, high)?.0 >= 0.0 {
            return narrow(rig, low, high);
        }
        low = high;
    }
    Ok(Onset::NotInRange)
}

/// Speed at which straight running turns unstable without oscillation [m/s]; `None` when it never
/// does. It depends on the car and its axle stiffnesses and on the load the ball puts on them.
///
/// # Errors
/// As `motion`.
pub fn divergence_speed(rig: &Rig) -> Result<Option<f64>, Refusal> {
    rig.check()?;
    let (mut sideways, mut turning, mut hitch): (Row, Row, Row) = ([0.0; 3], [0.0; 3], [0.0; 3]);
    for set in wheelsets(rig) {
        for (index, arm) in set.row.into_iter().enumerate() {
            let force = set.tyres.newtons_per_radian * arm;
            sideways[index] += force * set.row[0];
            turning[index] += force * set.row[1];
            hitch[index] -= force * set.hitch_share;
        }
    }
    let squared =
        -determinant(sideways, turning, hitch) / determinant(sideways, carried(rig), hitch);
    Ok((squared.is_finite() && squared > 0.0).then(|| squared.sqrt()))
}

fn narrow(rig: &Rig, mut low: f64, mut high: f64) -> Result<Onset, Refusal> {
    for _ in 0..HALVINGS {
        let middle = 0.5 * (low + high);
        if growth(rig, middle)?.0 >= 0.0 {
            high = middle;
        } else {
            low = middle;
        }
    }
    let (residual, hertz) = growth(rig, high)?;
    Ok(Onset::At {
        metres_per_second: high,
        hertz,
        residual,
    })
}

/// Fastest growth of any oscillation [1/s] and its frequency \[Hz\].
fn growth(rig: &Rig, speed: f64) -> Result<(f64, f64), Refusal> {
    let roots = motion(rig, speed)?.roots;
    Ok(roots
        .iter()
        .filter(|root| root.im > 0.0)
        .map(|root| (root.re, root.im / std::f64::consts::TAU))
        .fold(
            (f64::NEG_INFINITY, 0.0),
            |a, b| if b.0 > a.0 { b } else { a },
        ))
}
