//! How it follows, stands on a slope and clears a ramp. Figures to compare layouts by; none is a safe speed.

use crate::known::Known;
use wainwright_units::{Angle, Length, Ratio, Speed};

/// Damping of one state at one speed.
#[derive(Debug, Clone, PartialEq)]
pub struct SwayResult {
    /// Index of the state.
    pub state: usize,
    /// The speed it was computed at.
    pub speed: Speed,
    /// Whether this is the planned speed; otherwise it is the one tests are made at.
    pub planned: bool,
    /// Damping of the worst swing: below zero it grows; `None` when nothing swings.
    pub damping: Option<Ratio>,
    /// Swings per second \[Hz\].
    pub hertz: Option<f64>,
    /// Damping less that of the bare trailer behind the same vehicle at the same speed \[1\].
    pub against_bare: Option<f64>,
    /// The vehicle turns away without swinging.
    pub diverges: bool,
    /// Below this a test of the trade fails; for the test speed only.
    pub caution_below: Option<Known<Ratio>>,
    /// Below this it should not leave; for the test speed only.
    pub stop_below: Option<Known<Ratio>>,
    /// Whether anything about the tow vehicle stands in.
    pub vehicle_assumed: bool,
}

/// When it tips sideways, standing or in a steady bend.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tipping {
    /// Half the track over the height of the centre of gravity \[1\].
    pub stability_factor: Ratio,
    /// Sideways acceleration at which the inner wheels lift, as a share of free fall.
    pub threshold: Ratio,
    /// Side slope on which it tips when it stands.
    pub side_slope: Angle,
}

/// The ramp the tail clears.
#[derive(Debug, Clone, PartialEq)]
pub struct Departure {
    /// Steepest ramp.
    pub angle: Angle,
    /// Height of the tail's lowest point.
    pub clearance: Known<Length>,
    /// How far the tail is behind the last wheels.
    pub overhang: Length,
}
