//! What one state means: axles, tilt, tow vehicle, people, tipping, margins. Not here: which states there are
//! (`states`).

use super::ratings::{hitch_result, state_margins};
use super::shelf::shelf;
use super::{trailer, vehicle};
use crate::result::road::{
    AttitudeResult, Level, Parked, RoadRating, RoadState, RoadStateKind, RoadTrailer, RoadVehicle,
    Tipping, TongueLimits,
};
use wainwright_engines::balance::{
    Attitude, Chassis, Heights, HitchUp, Load, Statics, TowVehicle, at_attitude, hitch_up,
    nose_up_at, restoring_torque, uncoupled,
};
use wainwright_engines::refusal::Refusal;
use wainwright_engines::rollover::{Stance, side_slope, stability_factor, threshold};
use wainwright_units::frame::Point;
use wainwright_units::{Angle, Length, Mass, Ratio, Torque};

/// What all states share.
pub(super) struct Outfit {
    pub(super) chassis: Chassis,
    pub(super) shell: Mass,
    axles: usize,
    heights: Option<(Heights, Angle)>,
    vehicle: Option<TowVehicle>,
    restored: Ratio,
    /// Everybody who has a place, and everybody at the rear wall.
    people: Vec<Load>,
    people_at_rear: Option<Vec<Load>>,
    band: Option<TongueLimits>,
    ratings: Vec<RoadRating>,
    /// Whether the height of the bare trailer's centre of gravity is known.
    height_known: bool,
}

impl Outfit {
    pub(super) fn new(
        chassis: Chassis,
        shell: &Load,
        found: &RoadTrailer,
        car: &RoadVehicle,
        band: Option<TongueLimits>,
        ratings: Vec<RoadRating>,
    ) -> Self {
        let heights = trailer::heights(found).zip(car.ball_height.as_ref());
        let heights = heights.and_then(|(heights, ball)| {
            let tilt = nose_up_at(&chassis, &heights, ball.value).ok()?;
            Some((heights, tilt))
        });
        Self {
            axles: trailer::axle_count(found),
            vehicle: vehicle::engine_vehicle(car),
            restored: vehicle::restored(car),
            people: Vec::new(),
            people_at_rear: None,
            shell: shell.mass,
            height_known: found.empty_centre_height.is_some(),
            chassis,
            heights,
            band,
            ratings,
        }
    }

    /// Adds the people who may be aboard when parked.
    pub(super) fn with_people(
        mut self,
        placed: Vec<Load>,
        all: &[Mass],
        rear_wall: Option<Length>,
    ) -> Self {
        self.people = placed;
        self.people_at_rear = rear_wall.filter(|_| !all.is_empty()).map(|rear| {
            let there = Point::new(rear, Length::ZERO, Length::ZERO);
            all.iter().map(|mass| Load::point(*mass, there)).collect()
        });
        self
    }

    /// Everything about one state.
    ///
    /// # Errors
    /// A value beyond all measure.
    pub(super) fn state(
        &self,
        kind: RoadStateKind,
        levels: Vec<Level>,
        statics: &Statics,
    ) -> Result<RoadState, Refusal> {
        let attitude = self.attitude(statics)?;
        let axles = self.axles(statics, attitude.as_ref());
        let hitch = self.hitch(statics)?;
        let judged = kind == RoadStateKind::Fills;
        Ok(RoadState {
            share_place: self
                .band
                .as_ref()
                .filter(|_| judged)
                .map(|band| band.place(statics.share)),
            margins: state_margins(&self.ratings, statics, &axles, hitch.as_ref(), self.shell)?,
            hitch: hitch.map(|hitch| hitch_result(&hitch, statics.axle)),
            parked: self.parked(statics)?,
            tipping: self.tipping(statics),
            attitude: attitude
                .zip(self.heights)
                .map(|(found, (_, tilt))| AttitudeResult {
                    nose_up: tilt,
                    tongue: found.tongue,
                    change: found.tongue - statics.tongue,
                    share: Ratio::from_fraction(found.tongue / statics.mass),
                    per_degree: found.tongue_per_degree,
                }),
            kind,
            levels,
            mass: statics.mass,
            centre: statics.centre,
            tongue: statics.tongue,
            share: statics.share,
            axle: statics.axle,
            axles,
            left: statics.left,
            right: statics.right,
            yaw_inertia_kg_m2: statics.yaw_inertia_kg_m2,
            yaw_radius: statics.yaw_radius,
        })
    }

    fn attitude(&self, statics: &Statics) -> Result<Option<Attitude>, Refusal> {
        let Some((heights, tilt)) = &self.heights else {
            return Ok(None);
        };
        // Beyond what the equations hold for, nothing is said; the heights themselves are then shown.
        Ok(at_attitude(&self.chassis, statics, heights, *tilt).ok())
    }

    /// As towed where axles on their own springs tilt, else alike.
    fn axles(&self, statics: &Statics, attitude: Option<&Attitude>) -> Vec<Mass> {
        match attitude {
            Some(found) if self.axles == 2 && found.axles.len() == 2 => found.axles.clone(),
            _ => vec![statics.axle / self.axles as f64; self.axles],
        }
    }

    fn hitch(&self, statics: &Statics) -> Result<Option<HitchUp>, Refusal> {
        let Some(car) = &self.vehicle else {
            return Ok(None);
        };
        let length = self.chassis.coupling_to_axle;
        let torque = if self.restored > Ratio::ZERO {
            restoring_torque(car, statics.tongue, length, self.restored)?
        } else {
            Torque::ZERO
        };
        hitch_up(car, statics.tongue, length, torque).map(Some)
    }

    fn parked(&self, statics: &Statics) -> Result<Option<Parked>, Refusal> {
        if self.people.is_empty() && self.people_at_rear.is_none() {
            return Ok(None);
        }
        let standing = uncoupled(&self.chassis, statics, &self.people)?;
        let at_rear = match &self.people_at_rear {
            Some(people) => Some(uncoupled(&self.chassis, statics, people)?),
            None => None,
        };
        Ok(Some(Parked {
            nose: standing.nose,
            nose_all_at_rear: at_rear.map(|found| found.nose),
            furthest_back: at_rear.map_or(standing.furthest_back, |found| found.furthest_back),
        }))
    }

    /// `None` when the height of the centre of gravity is not known or is not above the ground.
    fn tipping(&self, statics: &Statics) -> Option<Tipping> {
        let stance = Stance {
            track: self.chassis.track,
            height: statics.centre.z,
            sideways: statics.centre.y,
            softness: shelf().softness?.value,
        };
        let known = self.height_known.then_some(&stance)?;
        Some(Tipping {
            stability_factor: stability_factor(known).ok()?,
            threshold: threshold(known).ok()?,
            side_slope: side_slope(known).ok()?,
        })
    }
}
