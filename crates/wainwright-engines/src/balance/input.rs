//! What the balance engine is told: the chassis and the things that press on it.
//! No equation is here.

use wainwright_units::Length;
use wainwright_units::Mass;
use wainwright_units::frame::{Point, Vector};

use crate::refusal::{Refusal, above_zero, finite, not_below_zero};

/// Lengths of the trailer that decide where weight goes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Chassis {
    /// Ball centre to the middle of the axle group [m], above zero.
    pub coupling_to_axle: Length,
    /// Middle of the left tyres to the middle of the right tyres [m], above zero.
    pub track: Length,
    /// How many axles there are and whether they share their load.
    pub suspension: Suspension,
}

/// How the axles are hung.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Suspension {
    /// One axle.
    Single,
    /// Two axles that an equaliser keeps at the same load.
    Equalised {
        /// Axle to axle [m], above zero.
        spacing: Length,
    },
    /// Two axles that do not know of each other, as torsion axles.
    Independent {
        /// Axle to axle [m], above zero.
        spacing: Length,
        /// Spring rate of one axle, both wheels together [N/m], above zero.
        newtons_per_metre: f64,
    },
}

/// Something with mass at a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Load {
    /// Mass \[kg\], zero or above.
    pub mass: Mass,
    /// Its centre of gravity in the trailer frame \[m\].
    pub centre: Point,
    /// Size of the box it fills evenly \[m\]; zero for a point. Counts for yaw inertia only.
    pub extent: Vector,
}

impl Load {
    /// A load without size.
    #[must_use]
    pub const fn point(mass: Mass, centre: Point) -> Self {
        Self {
            mass,
            centre,
            extent: Vector::ZERO,
        }
    }

    pub(super) const fn kilograms(&self) -> f64 {
        self.mass.kilograms()
    }

    /// What it adds to the tongue \[kg\]: all of it at the ball, none over the axle.
    pub(super) fn tongue(&self, chassis: &Chassis) -> f64 {
        self.kilograms() - self.axle(chassis)
    }

    /// What it adds to the axle group \[kg\].
    pub(super) fn axle(&self, chassis: &Chassis) -> f64 {
        self.kilograms() * self.centre.x.metres() / chassis.coupling_to_axle.metres()
    }

    /// What its sideways place moves from the right wheels to the left ones \[kg\].
    pub(super) fn sideways(&self, chassis: &Chassis) -> f64 {
        self.kilograms() * self.centre.y.metres() / chassis.track.metres()
    }

    pub(super) fn check(&self) -> Result<(), Refusal> {
        not_below_zero("mass [kg]", self.kilograms())?;
        finite("place backwards from the ball [m]", self.centre.x.metres())?;
        finite("place to the left [m]", self.centre.y.metres())?;
        finite("height [m]", self.centre.z.metres())?;
        finite("size [m]", self.extent.length().metres())
    }
}

impl Chassis {
    /// Axles on each side.
    pub(super) const fn axle_count(&self) -> usize {
        match self.suspension {
            Suspension::Single => 1,
            Suspension::Equalised { .. } | Suspension::Independent { .. } => 2,
        }
    }

    pub(crate) fn check(&self) -> Result<(), Refusal> {
        above_zero("ball to axle [m]", self.coupling_to_axle.metres())?;
        above_zero("track [m]", self.track.metres())?;
        match self.suspension {
            Suspension::Single => Ok(()),
            Suspension::Equalised { spacing } => above_zero("axle spacing [m]", spacing.metres()),
            Suspension::Independent {
                spacing,
                newtons_per_metre,
            } => {
                above_zero("axle spacing [m]", spacing.metres())?;
                above_zero("axle spring rate [N/m]", newtons_per_metre)
            }
        }
    }
}
