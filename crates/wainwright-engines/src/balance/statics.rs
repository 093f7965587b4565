//! Tongue, axle, left, right, centre of gravity and yaw inertia of a level trailer.
//! Not here: tilt (`attitude`), choices of fill (`states`).

use wainwright_units::frame::Point;
use wainwright_units::{Length, Mass, Ratio};

use super::input::{Chassis, Load};
use crate::refusal::{Refusal, above_zero, require};

/// Largest share of all mass that may be left over between supports and loads: rounding alone.
pub(super) const ROUNDING: f64 = 1e-9;

/// Where the weight of a level, standing trailer goes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Statics {
    /// All mass \[kg\].
    pub mass: Mass,
    /// Centre of gravity in the trailer frame \[m\].
    pub centre: Point,
    /// Load on the ball \[kg\]; below zero when the coupling pulls up.
    pub tongue: Mass,
    /// Load of the axle group on the ground \[kg\].
    pub axle: Mass,
    /// Load of the left wheels together \[kg\].
    pub left: Mass,
    /// Load of the right wheels together \[kg\].
    pub right: Mass,
    /// Tongue load as a share of all mass.
    pub share: Ratio,
    /// Moment of inertia about the upright axis through the centre of gravity [kg·m²].
    pub yaw_inertia_kg_m2: f64,
    /// Distance at which all mass would have that inertia \[m\].
    pub yaw_radius: Length,
    /// Largest of the three imbalances left over: of forces, of pitching and of rolling moments,
    /// the moments divided by L and by the track \[kg\].
    pub residual_kilograms: f64,
}

/// Loads of a level trailer from the things that make it up.
///
/// # Errors
/// A length or mass that cannot be, no mass at all, or supports that do not carry the loads.
pub fn statics(chassis: &Chassis, loads: &[Load]) -> Result<Statics, Refusal> {
    chassis.check()?;
    for (index, load) in loads.iter().enumerate() {
        load.check().map_err(|refusal| refusal.at("item", index))?;
    }
    let sum = |term: &dyn Fn(&Load) -> f64| loads.iter().map(term).sum::<f64>();
    let mass = sum(&Load::kilograms);
    above_zero("mass of all items together [kg]", mass)?;
    let mean = |along: &dyn Fn(&Load) -> f64| sum(&|load| load.kilograms() * along(load)) / mass;
    let centre = Point::from_metres(
        mean(&|load| load.centre.x.metres()),
        mean(&|load| load.centre.y.metres()),
        mean(&|load| load.centre.z.metres()),
    );
    let tongue = sum(&|load| load.tongue(chassis));
    let axle = sum(&|load| load.axle(chassis));
    let to_left = sum(&|load| load.sideways(chassis));
    let yaw_inertia_kg_m2 = sum(&|load| yaw_inertia(load, centre));
    let mut found = Statics {
        mass: Mass::from_kilograms(mass),
        centre,
        tongue: Mass::from_kilograms(tongue),
        axle: Mass::from_kilograms(axle),
        left: Mass::from_kilograms(0.5 * axle + to_left),
        right: Mass::from_kilograms(0.5 * axle - to_left),
        share: Ratio::from_fraction(tongue / mass),
        yaw_inertia_kg_m2,
        yaw_radius: Length::from_metres((yaw_inertia_kg_m2 / mass).sqrt()),
        residual_kilograms: 0.0,
    };
    found.residual_kilograms = found.residual(chassis);
    require(
        "load that no support carries [kg]",
        found.residual_kilograms,
        found.residual_kilograms <= ROUNDING * scale(chassis, loads),
        "none",
    )?;
    Ok(found)
}

/// Tongue load that one kilogram brings at a place: +1 at the ball, 0 over the axle, below zero
/// behind it. Moving a mass forwards by a distance adds mass · distance / L.
#[must_use]
pub fn tongue_influence(chassis: &Chassis, backwards: Length) -> f64 {
    1.0 - backwards / chassis.coupling_to_axle
}

/// Inertia of one even box about the upright axis through a point [kg·m²].
fn yaw_inertia(load: &Load, centre: Point) -> f64 {
    let away = load.centre - centre;
    let (x, y) = (away.x.metres(), away.y.metres());
    let (long, wide) = (load.extent.x.metres(), load.extent.y.metres());
    load.kilograms() * (x * x + y * y + (long * long + wide * wide) / 12.0)
}

impl Statics {
    /// Supports against the one resultant at the centre of gravity.
    pub(super) fn residual(&self, chassis: &Chassis) -> f64 {
        let mass = self.mass.kilograms();
        let (left, right) = (self.left.kilograms(), self.right.kilograms());
        let forces = self.tongue.kilograms() + left + right - mass;
        let pitching = left + right - mass * (self.centre.x / chassis.coupling_to_axle);
        let rolling = 0.5 * (left - right) - mass * (self.centre.y / chassis.track);
        forces.abs().max(pitching.abs()).max(rolling.abs())
    }
}

/// Size of the terms that were added \[kg\], against which rounding is judged.
fn scale(chassis: &Chassis, loads: &[Load]) -> f64 {
    loads
        .iter()
        .map(|load| load.kilograms() + load.axle(chassis).abs() + load.sideways(chassis).abs())
        .sum()
}
