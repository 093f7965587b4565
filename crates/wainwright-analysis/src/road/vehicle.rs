//! The tow vehicle: its figures, given or those of a usual one. Not here: what the trailer does to it (`outcome`).

use super::notes::{RoadNotes, usual};
use super::shelf::shelf;
use crate::known::Known;
use crate::result::road::{RoadVehicle, RoadWanted};
use wainwright_engines::balance::TowVehicle;
use wainwright_model::Project;
use wainwright_units::{Length, Mass, Ratio};

/// Whether anything at all is said of a tow vehicle.
pub(super) fn is_given(project: &Project) -> bool {
    project.vehicle != wainwright_model::Vehicle::default()
}

/// The tow vehicle's figures.
pub(super) fn vehicle(project: &Project, notes: &mut RoadNotes) -> RoadVehicle {
    let own = &project.vehicle;
    let given = (notes.given(&own.front_axle), notes.given(&own.rear_axle));
    let weighed = given.0.is_some() && given.1.is_some();
    if !weighed && is_given(project) {
        for (field, lacks) in [
            ("front_axle", given.0.is_none()),
            ("rear_axle", given.1.is_none()),
        ] {
            if lacks {
                notes.lack(&["vehicle", field], RoadWanted::Vehicle);
            }
        }
    }
    let class = shelf().vehicle;
    let path = |field| ["vehicle", field];
    let wheelbase = notes.given_or_row(
        &own.wheelbase,
        &path("wheelbase"),
        class.map(|row| row.map(|figures| figures.wheelbase)),
    );
    let overhang = notes.given_or_row(&own.ball_overhang, &path("ball_overhang"), shelf().overhang);
    let (front_axle, rear_axle) = match given {
        (Some(front), Some(rear)) => (Some(front), Some(rear)),
        _ => usual_axles(project, notes),
    };
    let yaw_inertia_kg_m2 = yaw_inertia(&front_axle, &rear_axle, &wheelbase);
    RoadVehicle {
        weighed,
        ball_height: notes.given(&own.ball_height),
        bars_restore: notes.given(&own.bars_restore),
        ball_overhang: overhang,
        front_axle,
        rear_axle,
        wheelbase,
        yaw_inertia_kg_m2,
    }
}

/// The vehicle as the balance takes it; `None` unless its axle loads were given.
pub(super) fn engine_vehicle(found: &RoadVehicle) -> Option<TowVehicle> {
    found
        .weighed
        .then(|| engine_vehicle_assumed(found))
        .flatten()
}

/// The same with whatever stands in.
pub(super) fn engine_vehicle_assumed(found: &RoadVehicle) -> Option<TowVehicle> {
    Some(TowVehicle {
        wheelbase: found.wheelbase.as_ref()?.value,
        overhang: found.ball_overhang.as_ref()?.value.max(Length::ZERO),
        front: found.front_axle.as_ref()?.value,
        rear: found.rear_axle.as_ref()?.value,
        aboard: Mass::ZERO,
    })
}

/// Share of the front axle's loss that bars bring back; none without bars.
pub(super) fn restored(found: &RoadVehicle) -> Ratio {
    found
        .bars_restore
        .as_ref()
        .map_or(Ratio::ZERO, |known| known.value)
}

type Axles = (Option<Known<Mass>>, Option<Known<Mass>>);

/// The axle loads of the usual vehicle, split where its centre of gravity is.
fn usual_axles(project: &Project, notes: &mut RoadNotes) -> Axles {
    let Some(class) = shelf().vehicle else {
        return (None, None);
    };
    let figures = class.value;
    let rear = figures.mass * (figures.centre_behind_front / figures.wheelbase);
    let front = figures.mass - rear;
    let own = &project.vehicle;
    let front_row = Some(class.map(|_| front));
    let rear_row = Some(class.map(|_| rear));
    (
        notes.given_or_row(&own.front_axle, &["vehicle", "front_axle"], front_row),
        notes.given_or_row(&own.rear_axle, &["vehicle", "rear_axle"], rear_row),
    )
}

/// From mass and wheelbase by the ratio of vehicles that were measured [kg·m²].
fn yaw_inertia(
    front: &Option<Known<Mass>>,
    rear: &Option<Known<Mass>>,
    wheelbase: &Option<Known<Length>>,
) -> Option<Known<f64>> {
    let (front, rear, wheelbase) = (front.as_ref()?, rear.as_ref()?, wheelbase.as_ref()?);
    let class = shelf().vehicle?;
    if front.is_assumed() && rear.is_assumed() && wheelbase.is_assumed() {
        return Some(usual(class.value.yaw_inertia));
    }
    let half = wheelbase.value.metres() / 2.0;
    let mass = (front.value + rear.value).kilograms();
    Some(usual(shelf().yaw_ratio?.value * mass * half * half))
}
