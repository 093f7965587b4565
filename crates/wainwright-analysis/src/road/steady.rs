//! How the outfit follows: damping of the worst states; and the ramp its tail clears. Not here: which damping is
//! enough (rules). A stand-in vehicle is said to be one; no speed is ever called safe.

use super::shelf::shelf;
use super::{aims, trailer, vehicle};
use crate::result::road::{
    Aims, Departure, RoadState, RoadTrailer, RoadVehicle, SwayResult, WorstStates,
};
use crate::road::notes::RoadNotes;
use wainwright_engines::balance::{Chassis, HitchUp, hitch_up, restoring_torque};
use wainwright_engines::refusal::Refusal;
use wainwright_engines::rollover::departure_angle;
use wainwright_engines::sway::{
    Axle, Car, Motion, Rig, Trailer, TrailerAxle, cornering_stiffness, motion,
};
use wainwright_model::{FieldExt, Project};
use wainwright_units::{Length, Mass, Ratio, Speed, Torque};

/// Slowest planned speed the sway is computed for [m/s]; the model divides by it.
const SLOWEST: f64 = 1.0;

/// Damping of the worst states at the planned speed and at the test speed. `bare` is the bare trailer's state.
///
/// # Errors
/// A value beyond all measure.
pub(super) fn sway(
    sides: &Sides<'_>,
    states: &[RoadState],
    bare: Option<&RoadState>,
    worst: &WorstStates,
) -> Result<Vec<SwayResult>, Refusal> {
    let Some(thresholds) = shelf().sway else {
        return Ok(Vec::new());
    };
    let test = Speed::from_metres_per_second(thresholds.at_metres_per_second.value);
    let planned = sides.aims.speed.as_ref().map(|known| known.value);
    let planned = planned.filter(|speed| speed.metres_per_second() >= SLOWEST);
    let speeds = planned
        .map(|speed| (speed, true))
        .into_iter()
        .chain([(test, false)]);
    let mut chosen = vec![
        worst.lowest_share,
        worst.highest_share,
        worst.most_mass,
        worst.most_yaw_radius,
    ];
    chosen.sort_unstable();
    chosen.dedup();
    let mut found = Vec::new();
    for (speed, is_planned) in speeds {
        let plain = match bare {
            Some(state) => sides.motion(state, speed)?.and_then(|m| damping(&m)),
            None => None,
        };
        for index in &chosen {
            let Some(motion) = states
                .get(*index)
                .map_or(Ok(None), |state| sides.motion(state, speed))?
            else {
                continue;
            };
            let own = damping(&motion);
            let limit = |row| (!is_planned).then(|| aims::table(row));
            found.push(SwayResult {
                state: *index,
                speed,
                planned: is_planned,
                damping: own,
                hertz: motion.sway.map(|sway| sway.hertz),
                against_bare: own.zip(plain).map(|(own, bare)| (own - bare).fraction()),
                diverges: motion.diverges,
                caution_below: limit(thresholds.caution_below),
                stop_below: limit(thresholds.stop_below),
                vehicle_assumed: sides.vehicle_assumed(),
            });
        }
    }
    Ok(found)
}

/// Trailer and vehicle as the sway needs them.
pub(super) struct Sides<'a> {
    pub(super) chassis: &'a Chassis,
    pub(super) trailer: &'a RoadTrailer,
    pub(super) vehicle: &'a RoadVehicle,
    pub(super) aims: &'a Aims,
}

impl Sides<'_> {
    /// The motion of a state at a speed; `None` when the vehicle cannot even be assumed.
    pub(super) fn motion(
        &self,
        state: &RoadState,
        speed: Speed,
    ) -> Result<Option<Motion>, Refusal> {
        let Some(rig) = self.rig(state)? else {
            return Ok(None);
        };
        motion(&rig, speed.metres_per_second()).map(Some)
    }

    /// Car and trailer in a state. An axle that carries nothing has no grip; then there is no rig.
    pub(super) fn rig(&self, state: &RoadState) -> Result<Option<Rig>, Refusal> {
        let Some((car, coupled)) = self.car(state)? else {
            return Ok(None);
        };
        let (Some(per_degree), Some(relaxation)) = (shelf().cornering, shelf().relaxation) else {
            return Ok(None);
        };
        let axle_load = (state.axle + coupled.trailer_axle_change) / state.axles.len() as f64;
        let tyres = Axle {
            newtons_per_radian: cornering_stiffness(axle_load, per_degree.value),
            relaxation: relaxation.value,
        };
        let axles = self.axle_places(state.axles.len());
        let trailer = Trailer {
            mass: state.mass,
            yaw_inertia_kg_m2: state.yaw_inertia_kg_m2,
            ball_to_centre: state.centre.x,
            axles: axles
                .into_iter()
                .map(|from_ball| TrailerAxle { from_ball, tyres })
                .collect(),
        };
        let stiff = [
            car.front.newtons_per_radian,
            car.rear.newtons_per_radian,
            tyres.newtons_per_radian,
        ];
        let stands = stiff.iter().all(|value| *value > 0.0) && state.yaw_inertia_kg_m2 > 0.0;
        Ok(stands.then_some(Rig {
            car,
            trailer,
            hitch_damping: 0.0,
        }))
    }

    pub(super) fn vehicle_assumed(&self) -> bool {
        let car = self.vehicle;
        let mass = [&car.front_axle, &car.rear_axle];
        let lengths = [&car.wheelbase, &car.ball_overhang];
        mass.iter()
            .any(|known| known.as_ref().is_none_or(|k| k.is_assumed()))
            || lengths
                .iter()
                .any(|known| known.as_ref().is_none_or(|k| k.is_assumed()))
    }

    fn car(&self, state: &RoadState) -> Result<Option<(Car, HitchUp)>, Refusal> {
        let Some(standing) = vehicle::engine_vehicle_assumed(self.vehicle) else {
            return Ok(None);
        };
        let (Some(inertia), Some(factor)) = (&self.vehicle.yaw_inertia_kg_m2, shelf().front_axle)
        else {
            return Ok(None);
        };
        let mass = standing.front + standing.rear;
        if mass <= Mass::ZERO {
            return Ok(None);
        }
        let length = self.chassis.coupling_to_axle;
        let share = vehicle::restored(self.vehicle);
        let torque = if share > Ratio::ZERO {
            restoring_torque(&standing, state.tongue, length, share)?
        } else {
            Torque::ZERO
        };
        let coupled = hitch_up(&standing, state.tongue, length, torque)?;
        let behind_front = standing.wheelbase * (standing.rear / mass);
        let (Some(per_degree), Some(relaxation)) = (shelf().cornering, shelf().relaxation) else {
            return Ok(None);
        };
        let axle = |load: Mass, share: Ratio| Axle {
            newtons_per_radian: cornering_stiffness(load, per_degree.value) * share.fraction(),
            relaxation: relaxation.value,
        };
        let car = Car {
            mass,
            yaw_inertia_kg_m2: inertia.value,
            front_to_centre: behind_front,
            centre_to_rear: standing.wheelbase - behind_front,
            centre_to_ball: standing.wheelbase - behind_front + standing.overhang,
            front: axle(coupled.front, factor.value),
            rear: axle(coupled.rear, Ratio::from_fraction(1.0)),
        };
        Ok(Some((car, coupled)))
    }

    /// Each axle behind the ball, spread evenly about their middle.
    fn axle_places(&self, count: usize) -> Vec<Length> {
        let middle = self.chassis.coupling_to_axle;
        let spacing = self.trailer.axle_spacing.as_ref();
        let spacing = spacing.map_or(Length::ZERO, |known| known.value);
        let first = (count as f64 - 1.0) / 2.0;
        (0..count)
            .map(|index| middle + spacing * (index as f64 - first))
            .collect()
    }
}

/// The ramp the tail clears: from the height of its lowest point, taken at the rear wall.
pub(super) fn departure(
    project: &Project,
    found: &RoadTrailer,
    notes: &RoadNotes,
) -> Option<Departure> {
    let clearance = notes.given(&project.trailer.rear_clearance)?;
    let wall = project.trailer.wall_thickness.value();
    let tail = found.ball_to_front.as_ref()?.value
        + found.inside_length.as_ref()?.value
        + wall.copied().unwrap_or(Length::ZERO);
    let spacing = found.axle_spacing.as_ref();
    let behind_middle = spacing.map_or(Length::ZERO, |known| known.value)
        * ((trailer::axle_count(found) as f64 - 1.0) / 2.0);
    let overhang = tail - found.ball_to_axle.as_ref()?.value - behind_middle;
    Some(Departure {
        angle: departure_angle(clearance.value.max(Length::ZERO), overhang).ok()?,
        clearance,
        overhang,
    })
}

fn damping(motion: &Motion) -> Option<Ratio> {
    motion.sway.map(|sway| sway.damping)
}
