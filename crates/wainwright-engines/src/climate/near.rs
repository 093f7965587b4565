//! Distance over the earth, and the nearest of some places. Not here: what is known of them.

use crate::sun::Place;
use wainwright_units::Length;

/// Mean radius of the earth [m].
const EARTH_METRES: f64 = 6_371_008.8;

/// A place that may stand in for another.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Near {
    /// Its number in the list.
    pub index: usize,
    /// How far it is.
    pub distance: Length,
    /// How much higher it lies; below zero when it lies lower.
    pub higher: Length,
}

/// Distance along the great circle [m].
pub fn distance(from: Place, to: Place) -> Length {
    let half_sine = |angle: f64| (angle / 2.0).sin().powi(2);
    let (north, other) = (from.latitude.radians(), to.latitude.radians());
    let turn = to.longitude.radians() - from.longitude.radians();
    let chord = half_sine(other - north) + north.cos() * other.cos() * half_sine(turn);
    Length::from_metres(2.0 * EARTH_METRES * chord.clamp(0.0, 1.0).sqrt().asin())
}

/// The nearest of the listed places whose altitude differs by less than `most_climb`.
///
/// `None` when there is none, or the place is no place.
pub fn nearest(place: Place, listed: &[Place], most_climb: Length) -> Option<Near> {
    let near = |(index, other): (usize, &Place)| Near {
        index,
        distance: distance(place, *other),
        higher: other.altitude - place.altitude,
    };
    listed
        .iter()
        .enumerate()
        .map(near)
        .filter(|near| near.higher.abs() < most_climb && near.distance.is_finite())
        .min_by(|one, other| one.distance.total_cmp(&other.distance))
}
