//! Bowed ceilings: the arc over a chord. Only geometry is here.

use wainwright_units::Length;

use crate::refusal::{Refusal, above_zero, require};

/// A ceiling bowed to an arc of a circle, up to a half circle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Bow {
    chord: f64,
    rise: f64,
}

impl Bow {
    /// From the straight width and how much the middle is higher.
    ///
    /// # Errors
    /// A width that is not above zero, a rise below zero or above half the width.
    pub fn from_rise(chord: Length, rise: Length) -> Result<Bow, Refusal> {
        let (chord, rise) = (chord.metres(), rise.metres());
        above_zero("straight width [m]", chord)?;
        require(
            "rise [m]",
            rise,
            (0.0..=0.5 * chord).contains(&rise),
            "from zero to half the straight width",
        )?;
        Ok(Bow { chord, rise })
    }

    /// From the straight width and the radius of the arc.
    ///
    /// # Errors
    /// A radius below half the straight width.
    pub fn from_radius(chord: Length, radius: Length) -> Result<Bow, Refusal> {
        let (half, radius) = (0.5 * chord.metres(), radius.metres());
        above_zero("straight width [m]", half)?;
        require(
            "radius [m]",
            radius,
            radius.is_finite() && radius >= half,
            "at least half the straight width",
        )?;
        // The plain difference would lose digits on a flat arc.
        let rise = half * half / (radius + (radius * radius - half * half).sqrt());
        Ok(Bow {
            chord: 2.0 * half,
            rise,
        })
    }

    /// The straight width \[m\].
    pub fn chord(&self) -> Length {
        Length::from_metres(self.chord)
    }

    /// How much the middle is higher than the edges \[m\].
    pub fn rise(&self) -> Length {
        Length::from_metres(self.rise)
    }

    /// Radius of the arc \[m\]; `None` when it is flat.
    pub fn radius(&self) -> Option<Length> {
        (self.rise > 0.0).then(|| {
            let half = 0.5 * self.chord;
            Length::from_metres((half * half + self.rise * self.rise) / (2.0 * self.rise))
        })
    }

    /// Width along the arc \[m\]: what a surface is laid out on.
    pub fn developed(&self) -> Length {
        let Some(radius) = self.radius() else {
            return self.chord();
        };
        radius * (2.0 * self.half_angle())
    }

    /// How much longer the arc is than the straight width \[m\].
    pub fn slack(&self) -> Length {
        self.developed() - self.chord()
    }

    /// Where a place along the arc is: distance from the first edge along the straight width, and
    /// height above the edges \[m\].
    pub fn point(&self, along: Length) -> (Length, Length) {
        let Some(radius) = self.radius() else {
            return (along, Length::ZERO);
        };
        let angle = along.metres() / radius.metres() - self.half_angle();
        let lowest = radius.metres() - self.rise;
        (
            Length::from_metres(0.5 * self.chord + radius.metres() * angle.sin()),
            Length::from_metres(radius.metres() * angle.cos() - lowest),
        )
    }

    /// Half of the angle of the arc [rad]: twice the angle between chord and its end's tangent.
    fn half_angle(&self) -> f64 {
        2.0 * (2.0 * self.rise / self.chord).atan()
    }
}
