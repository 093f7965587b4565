//! Loads against printed ratings: how much is left of each. Passing or failing, and what each
//! rating is called, is the caller's; so are the ratings.

use wainwright_units::{Mass, Ratio};

use super::hitch::HitchUp;
use super::statics::Statics;
use crate::refusal::{Refusal, above_zero};

/// The load that a rating limits.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Measure {
    /// All of the trailer.
    TrailerMass,
    /// Load of the trailer's axle group.
    AxleGroup,
    /// Load of one axle from the front: its own, or twice its heavier side when that is more.
    Axle(usize),
    /// Load of each left tyre, the axles sharing evenly.
    LeftTyre,
    /// Load of each right tyre, the axles sharing evenly.
    RightTyre,
    /// Load on the ball, with distribution slack.
    Tongue,
    /// Front axle of the tow vehicle.
    VehicleFront,
    /// Rear axle of the tow vehicle.
    VehicleRear,
    /// Both axles of the tow vehicle.
    VehicleMass,
    /// What is aboard the tow vehicle and the ball load.
    VehiclePayload,
    /// Both axles of the tow vehicle and the trailer's axles: the tongue counts once.
    Combination,
}

/// A printed limit.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rating {
    /// What it limits.
    pub measure: Measure,
    /// The limit [kg], above zero.
    pub limit: Mass,
}

/// A laden outfit.
#[derive(Debug, Clone, PartialEq)]
pub struct Laden<'a> {
    /// The trailer by itself.
    pub trailer: &'a Statics,
    /// Load of each trailer axle from the front, before distribution \[kg\].
    pub axles: &'a [Mass],
    /// The tow vehicle once coupled; `None` when it is not known.
    pub vehicle: Option<&'a HitchUp>,
}

/// How much of a rating is left.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Margin {
    /// The load \[kg\].
    pub actual: Mass,
    /// The limit \[kg\].
    pub limit: Mass,
    /// Limit minus load \[kg\]; below zero when overloaded.
    pub left: Mass,
    /// Share of the limit that is used.
    pub used: Ratio,
}

/// The margin of every rating, in the order given; `None` where the load is not known because the
/// tow vehicle or that axle is missing.
///
/// # Errors
/// A limit that is not above zero.
pub fn margins(laden: &Laden<'_>, ratings: &[Rating]) -> Result<Vec<Option<Margin>>, Refusal> {
    ratings
        .iter()
        .enumerate()
        .map(|(index, rating)| {
            above_zero("limit [kg]", rating.limit.kilograms())
                .map_err(|refusal| refusal.at("rating", index))?;
            Ok(laden.load(rating.measure).map(|actual| Margin {
                actual,
                limit: rating.limit,
                left: rating.limit - actual,
                used: Ratio::from_fraction(actual / rating.limit),
            }))
        })
        .collect()
}

impl Laden<'_> {
    fn load(&self, measure: Measure) -> Option<Mass> {
        let added = self
            .vehicle
            .map_or(Mass::ZERO, |vehicle| vehicle.trailer_axle_change);
        let group = self.trailer.axle + added;
        match measure {
            Measure::TrailerMass => Some(self.trailer.mass),
            Measure::AxleGroup => Some(group),
            Measure::Axle(index) => {
                let own = *self.axles.get(index)? + self.per_axle(added);
                Some(own.max(own * self.heavier_side()))
            }
            Measure::LeftTyre => Some(self.per_axle(self.trailer.left + added * 0.5)),
            Measure::RightTyre => Some(self.per_axle(self.trailer.right + added * 0.5)),
            Measure::Tongue => Some(self.trailer.tongue),
            Measure::VehicleFront => self.vehicle.map(|vehicle| vehicle.front),
            Measure::VehicleRear => self.vehicle.map(|vehicle| vehicle.rear),
            Measure::VehicleMass => self.vehicle.map(|vehicle| vehicle.front + vehicle.rear),
            Measure::VehiclePayload => self.vehicle.map(|vehicle| vehicle.payload),
            Measure::Combination => self
                .vehicle
                .map(|vehicle| vehicle.front + vehicle.rear + group),
        }
    }

    /// Heavier side of the trailer over half its axle load, at least 1.
    fn heavier_side(&self) -> f64 {
        let heavier = self.trailer.left.max(self.trailer.right);
        if self.trailer.axle.kilograms() > 0.0 {
            (2.0 * (heavier / self.trailer.axle)).max(1.0)
        } else {
            1.0
        }
    }

    fn per_axle(&self, load: Mass) -> Mass {
        load / self.axles.len().max(1) as f64
    }
}
