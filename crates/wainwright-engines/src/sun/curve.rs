//! Declination and hour angle of the sun over some days, by cubics through nodes.
//! Not here: where that puts the sun in the sky of a place (`sweep`).

use super::position::{Method, Moment, SunError, overhead};
use std::f64::consts::TAU;

/// Widest distance of two nodes [days].
///
/// A cubic through four nodes is off by less than h⁴/24 of the fourth derivative, which is
/// 2.5° (4π/365)⁴ per day⁴ for the hour angle: 2·10⁻⁶ degrees. What the moon does to the axis within
/// weeks is below 7·10⁻⁵ degrees as a whole.
const NODE_DAYS: f64 = 2.0;

/// Nodes of a cubic.
const NODES: usize = 4;

/// Declination and hour angle between two moments.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Curve {
    first: f64,
    node_days: f64,
    windows: Vec<Window>,
}

/// Differences of the four nodes of a cubic: sine of the declination, and what the hour angle at
/// Greenwich is ahead of the clock [rad].
#[derive(Debug, Clone, Copy, PartialEq)]
struct Window {
    sine: [f64; NODES],
    ahead: [f64; NODES],
}

impl Curve {
    /// Computes the nodes; none lies outside the two moments.
    pub(super) fn new(first: Moment, last: Moment, method: Method) -> Result<Curve, SunError> {
        let days = last.julian_days() - first.julian_days();
        let most = f64::from(u16::MAX) * NODE_DAYS;
        if !(0.0..=most).contains(&days) {
            return Err(SunError::Time(format!(
                "{days} days from the first instant to the last, expected 0 to {most}"
            )));
        }
        let gaps = ((days / NODE_DAYS).ceil() as usize).max(NODES - 1);
        let node_days = days / gaps as f64;
        let nodes = (0..=gaps)
            .map(|at| node(first.after_hours(24.0 * node_days * at as f64), method))
            .collect::<Result<Vec<_>, _>>()?;
        let windows = nodes.windows(NODES).map(Window::new).collect();
        Ok(Curve {
            first: first.julian_days(),
            node_days,
            windows,
        })
    }

    /// Sine of the declination, and hour angle at Greenwich [rad].
    pub(super) fn overhead(&self, moment: Moment) -> (f64, f64) {
        let gaps = match self.node_days {
            0.0 => 0.0,
            days => (moment.julian_days() - self.first) / days,
        };
        // The middle gap of a window is its best; the first and the last window serve their ends.
        let index = ((gaps - 1.0).max(0.0) as usize).min(self.windows.len() - 1);
        let window = &self.windows[index];
        let along = gaps - index as f64;
        (
            cubic(&window.sine, along),
            cubic(&window.ahead, along) + clock_radians(moment),
        )
    }
}

impl Window {
    fn new(nodes: &[(f64, f64)]) -> Window {
        Window {
            sine: differences(nodes, |node| node.0),
            ahead: differences(nodes, |node| node.1),
        }
    }
}

/// Sine of the declination, and hour angle less the clock [rad], −π to π.
fn node(moment: Moment, method: Method) -> Result<(f64, f64), SunError> {
    let (declination, greenwich) = overhead(moment, method)?;
    let ahead = greenwich.to_radians() - clock_radians(moment) + TAU / 2.0;
    Ok((
        declination.to_radians().sin(),
        ahead.rem_euclid(TAU) - TAU / 2.0,
    ))
}

/// Turn of the mean sun since it was highest at Greenwich [rad], 0 to 2π.
fn clock_radians(moment: Moment) -> f64 {
    TAU * moment.julian_days().fract()
}

/// First value and first, second and third difference of evenly spaced nodes.
fn differences(nodes: &[(f64, f64)], of: impl Fn(&(f64, f64)) -> f64) -> [f64; NODES] {
    let mut row = [0.0; NODES];
    for (value, node) in row.iter_mut().zip(nodes) {
        *value = of(node);
    }
    for order in 1..NODES {
        for at in (order..NODES).rev() {
            row[at] -= row[at - 1];
        }
    }
    row
}

/// Newton's cubic, so many gaps after the first node.
fn cubic([value, first, second, third]: &[f64; NODES], along: f64) -> f64 {
    let bent = second + (along - 2.0) / 3.0 * third;
    value + along * (first + (along - 1.0) / 2.0 * bent)
}
