//! Many loads in many fill states at once, fast enough to follow a drag. The same numbers as
//! `statics`, which is given one state at a time; not here: choices of states (`states`).

use wainwright_units::frame::{Point, Vector};
use wainwright_units::{Length, Mass, Ratio};

use super::input::{Chassis, Load};
use super::statics::{ROUNDING, Statics};
use crate::refusal::{Refusal, above_zero, not_below_zero, require};

/// Loads in rows, fill states in columns; states of different things go together here.
#[derive(Debug, Clone, PartialEq)]
pub struct LoadTable {
    states: usize,
    places: Vec<(Point, f64)>,
    /// Mass of each load in each state \[kg\], row by row.
    masses: Vec<f64>,
}

/// Sums of one state: mass, moments along (from the axle), across, up, squares, and the sizes of the
/// terms along and across.
#[derive(Clone, Copy, Default)]
struct Sum {
    mass: f64,
    x: f64,
    y: f64,
    z: f64,
    square: f64,
    size: f64,
}

impl LoadTable {
    /// A table without loads.
    #[must_use]
    pub const fn new(states: usize) -> Self {
        Self {
            states,
            places: Vec::new(),
            masses: Vec::new(),
        }
    }

    /// Adds a load with its mass in every state, or one mass for all; gives its index.
    ///
    /// # Errors
    /// A mass, place or size that cannot be; another number of masses.
    pub fn push(
        &mut self,
        centre: Point,
        extent: Vector,
        masses: &[Mass],
    ) -> Result<usize, Refusal> {
        let index = self.places.len();
        require(
            "number of masses",
            masses.len() as f64,
            masses.len() == 1 || masses.len() == self.states,
            "one, or one for every state",
        )
        .and_then(|()| {
            let mass = Mass::ZERO;
            Load {
                mass,
                centre,
                extent,
            }
            .check()
        })
        .and_then(|()| {
            masses
                .iter()
                .try_for_each(|mass| not_below_zero("mass [kg]", mass.kilograms()))
        })
        .map_err(|refusal| refusal.at("item", index))?;
        let (long, wide) = (extent.x.metres(), extent.y.metres());
        self.places
            .push((centre, (long * long + wide * wide) / 12.0));
        match masses {
            [one] => self
                .masses
                .extend(std::iter::repeat_n(one.kilograms(), self.states)),
            many => self.masses.extend(many.iter().map(|mass| mass.kilograms())),
        }
        Ok(index)
    }

    /// Puts one load somewhere else, as while it is dragged.
    ///
    /// # Errors
    /// A place that cannot be, or an index that no load has.
    pub fn put(&mut self, index: usize, centre: Point) -> Result<(), Refusal> {
        Load::point(Mass::ZERO, centre)
            .check()
            .map_err(|refusal| refusal.at("item", index))?;
        let Some(place) = self.places.get_mut(index) else {
            return Err(Refusal::new(
                "index of the load",
                index as f64,
                "one of the table",
            ));
        };
        place.0 = centre;
        Ok(())
    }

    /// Number of fill states.
    #[must_use]
    pub const fn states(&self) -> usize {
        self.states
    }

    /// Number of loads.
    #[must_use]
    pub fn len(&self) -> usize {
        self.places.len()
    }

    /// Whether there is no load.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.places.is_empty()
    }
}

/// Loads of a level trailer in every fill state, in one pass.
///
/// # Errors
/// As `statics`, with the state.
pub fn over_states(chassis: &Chassis, table: &LoadTable) -> Result<Vec<Statics>, Refusal> {
    let mut found = Vec::new();
    over_states_into(chassis, table, &mut found)?;
    Ok(found)
}

/// The same into a list that is used again, whatever it held before.
///
/// # Errors
/// As [`over_states`].
pub fn over_states_into(
    chassis: &Chassis,
    table: &LoadTable,
    found: &mut Vec<Statics>,
) -> Result<(), Refusal> {
    chassis.check()?;
    let length = chassis.coupling_to_axle.metres();
    let mut sums = vec![Sum::default(); table.states];
    let rows = table.masses.chunks_exact(table.states.max(1));
    for ((centre, own), row) in table.places.iter().zip(rows) {
        let x = centre.x.metres() - length;
        let (y, z) = (centre.y.metres(), centre.z.metres());
        let square = x * x + y * y + own;
        let size = 1.0 + centre.x.metres().abs() / length + y.abs() / chassis.track.metres();
        for (sum, mass) in sums.iter_mut().zip(row) {
            sum.mass += mass;
            sum.x += mass * x;
            sum.y += mass * y;
            sum.z += mass * z;
            sum.square += mass * square;
            sum.size += mass * size;
        }
    }
    found.clear();
    found.reserve(table.states);
    for (state, sum) in sums.iter().enumerate() {
        let one = sum
            .statics(chassis)
            .map_err(|refusal| refusal.at("fill state", state))?;
        found.push(one);
    }
    Ok(())
}

impl Sum {
    fn statics(&self, chassis: &Chassis) -> Result<Statics, Refusal> {
        let (length, track) = (chassis.coupling_to_axle.metres(), chassis.track.metres());
        let mass = self.mass;
        above_zero("mass of all items together [kg]", mass)?;
        let (behind, left) = (self.x / mass, self.y / mass);
        let tongue = -self.x / length;
        let axle = mass - tongue;
        let aside = self.y / track;
        // Rounding may leave a trailer of one point just below zero.
        let inertia = (self.square - self.x * behind - self.y * left).max(0.0);
        let mut found = Statics {
            mass: Mass::from_kilograms(mass),
            centre: Point::from_metres(length + behind, left, self.z / mass),
            tongue: Mass::from_kilograms(tongue),
            axle: Mass::from_kilograms(axle),
            left: Mass::from_kilograms(0.5 * axle + aside),
            right: Mass::from_kilograms(0.5 * axle - aside),
            share: Ratio::from_fraction(tongue / mass),
            yaw_inertia_kg_m2: inertia,
            yaw_radius: Length::from_metres((inertia / mass).sqrt()),
            residual_kilograms: 0.0,
        };
        found.residual_kilograms = found.residual(chassis);
        require(
            "load that no support carries [kg]",
            found.residual_kilograms,
            found.residual_kilograms <= ROUNDING * self.size,
            "none",
        )?;
        Ok(found)
    }
}
