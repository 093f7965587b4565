//! A trailer that stands alone with people in it: does the nose stay down?
//! Not here: rear stands, which carry whatever is missing.

use wainwright_units::{Length, Mass};

use super::input::{Chassis, Load};
use super::statics::Statics;
use crate::refusal::Refusal;

/// How an uncoupled trailer stands on its wheels and its jack.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Uncoupled {
    /// Load at the coupling with the people aboard \[kg\]; below zero the tail goes down.
    pub nose: Mass,
    /// Whether the tail goes down.
    pub tips: bool,
    /// Furthest back from the ball that all these people together may stand \[m\]; `None` when
    /// nobody is aboard.
    pub furthest_back: Option<Length>,
}

/// Load at the nose with people aboard. The axle group's middle is taken as the pivot, which is on
/// the careful side for two axles.
///
/// # Errors
/// A length or mass that cannot be.
pub fn uncoupled(
    chassis: &Chassis,
    standing: &Statics,
    people: &[Load],
) -> Result<Uncoupled, Refusal> {
    chassis.check()?;
    for (index, person) in people.iter().enumerate() {
        person
            .check()
            .map_err(|refusal| refusal.at("person", index))?;
    }
    let bodies: f64 = people.iter().map(Load::kilograms).sum();
    let moved: f64 = people.iter().map(|person| person.tongue(chassis)).sum();
    let nose = standing.tongue.kilograms() + moved;
    let furthest_back = (bodies > 0.0)
        .then(|| chassis.coupling_to_axle * (1.0 + standing.tongue.kilograms() / bodies));
    Ok(Uncoupled {
        nose: Mass::from_kilograms(nose),
        tips: nose < 0.0,
        furthest_back,
    })
}
