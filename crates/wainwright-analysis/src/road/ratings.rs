//! The ratings that are given, and the margin of each in a state. Not here: what stands in for ratings (nothing does:
//! a plate is read, not guessed).

use super::notes::RoadNotes;
use super::shelf::shelf;
use super::trailer::axle_count;
use crate::known::{Basis, Known};
use crate::result::road::{
    HitchResult, RatingKind, RoadMargin, RoadRating, RoadTrailer, RoadVehicle, RoadWanted,
};
use wainwright_engines::balance::{HitchUp, Laden, Measure, Rating, Statics, margins};
use wainwright_engines::refusal::Refusal;
use wainwright_model::{Field, FieldExt, Project};
use wainwright_units::{Mass, Ratio};

/// Every rating that is given, those of the trailer first.
pub(super) fn ratings(
    project: &Project,
    trailer: &RoadTrailer,
    vehicle: &RoadVehicle,
    notes: &mut RoadNotes,
) -> Vec<RoadRating> {
    let own = &project.trailer;
    let car = &project.vehicle;
    let mut desk = Desk {
        notes,
        found: Vec::new(),
    };
    desk.wanted(
        RatingKind::TrailerGross,
        ["trailer", "gross_rating"],
        &own.gross_rating,
    );
    desk.given(
        RatingKind::Cargo,
        ["trailer", "cargo_rating"],
        &own.cargo_rating,
    );
    let axle = ["trailer", "axle_rating"];
    desk.wanted(RatingKind::Axle(0), axle, &own.axle_rating);
    for index in 1..axle_count(trailer) {
        desk.given(RatingKind::Axle(index), axle, &own.axle_rating);
    }
    desk.tyres(project);
    let coupling = ["trailer", "coupling_rating"];
    desk.given(RatingKind::CouplerPull, coupling, &own.coupling_rating);
    let carries = ["trailer", "coupling_tongue_rating"];
    desk.given(
        RatingKind::CouplerTongue,
        carries,
        &own.coupling_tongue_rating,
    );
    desk.given(
        RatingKind::HitchPull,
        ["vehicle", "hitch_rating"],
        &car.hitch_rating,
    );
    let carries = ["vehicle", "hitch_tongue_rating"];
    desk.given(RatingKind::HitchTongue, carries, &car.hitch_tongue_rating);
    if trailer.brakes.as_ref().is_some_and(|known| known.value) {
        desk.given(
            RatingKind::TowBraked,
            ["vehicle", "tow_rating"],
            &car.tow_rating,
        );
    } else {
        let field = ["vehicle", "unbraked_tow_rating"];
        desk.given(RatingKind::TowUnbraked, field, &car.unbraked_tow_rating);
    }
    desk.given(
        RatingKind::VehicleTongue,
        ["vehicle", "tongue_rating"],
        &car.tongue_rating,
    );
    let front = ["vehicle", "front_axle_rating"];
    desk.given(RatingKind::VehicleFrontAxle, front, &car.front_axle_rating);
    let rear = ["vehicle", "rear_axle_rating"];
    desk.given(RatingKind::VehicleRearAxle, rear, &car.rear_axle_rating);
    let gross = ["vehicle", "gross_rating"];
    desk.given(RatingKind::VehicleGross, gross, &car.gross_rating);
    desk.payload(project, vehicle);
    let both = ["vehicle", "combination_rating"];
    desk.given(RatingKind::Combination, both, &car.combination_rating);
    desk.found
}

/// The margin of each rating in a state, in the order of the ratings.
pub(super) fn state_margins(
    ratings: &[RoadRating],
    statics: &Statics,
    axles: &[Mass],
    hitch: Option<&HitchUp>,
    shell: Mass,
) -> Result<Vec<Option<RoadMargin>>, Refusal> {
    let laden = Laden {
        trailer: statics,
        axles,
        vehicle: hitch,
    };
    let measured: Vec<Rating> = ratings
        .iter()
        .filter_map(|rating| {
            Some(Rating {
                measure: measure(rating.kind)?,
                limit: rating.limit.value,
            })
        })
        .collect();
    let mut found = margins(&laden, &measured)?.into_iter();
    let margin = |rating: &RoadRating| match measure(rating.kind) {
        Some(_) => found.next().flatten().map(|margin| RoadMargin {
            actual: margin.actual,
            limit: margin.limit,
            left: margin.left,
            used: margin.used,
        }),
        // Everything added since the bare trailer was weighed.
        None => Some(margin_of(statics.mass - shell, rating.limit.value)),
    };
    Ok(ratings.iter().map(margin).collect())
}

/// The tow vehicle as shown.
pub(super) fn hitch_result(hitch: &HitchUp, axle: Mass) -> HitchResult {
    HitchResult {
        front: hitch.front,
        rear: hitch.rear,
        front_change: hitch.front_change,
        rear_change: hitch.rear_change,
        trailer_axle_change: hitch.trailer_axle_change,
        ball: hitch.ball,
        combination: hitch.front + hitch.rear + axle + hitch.trailer_axle_change,
    }
}

fn margin_of(actual: Mass, limit: Mass) -> RoadMargin {
    RoadMargin {
        actual,
        limit,
        left: limit - actual,
        used: Ratio::from_fraction(actual / limit),
    }
}

/// The load that the engine holds against a rating; `None` for the cargo, which is the study's own difference.
const fn measure(kind: RatingKind) -> Option<Measure> {
    Some(match kind {
        RatingKind::TrailerGross
        | RatingKind::CouplerPull
        | RatingKind::HitchPull
        | RatingKind::TowBraked
        | RatingKind::TowUnbraked => Measure::TrailerMass,
        RatingKind::Cargo => return None,
        RatingKind::Axle(index) => Measure::Axle(index),
        RatingKind::LeftTyre => Measure::LeftTyre,
        RatingKind::RightTyre => Measure::RightTyre,
        RatingKind::CouplerTongue | RatingKind::HitchTongue | RatingKind::VehicleTongue => {
            Measure::Tongue
        }
        RatingKind::VehicleFrontAxle => Measure::VehicleFront,
        RatingKind::VehicleRearAxle => Measure::VehicleRear,
        RatingKind::VehicleGross => Measure::VehicleMass,
        RatingKind::VehiclePayload => Measure::VehiclePayload,
        RatingKind::Combination => Measure::Combination,
    })
}

struct Desk<'a> {
    notes: &'a mut RoadNotes,
    found: Vec<RoadRating>,
}

impl Desk<'_> {
    /// A rating of nothing limits nothing that can be computed with, and is left out.
    fn given(&mut self, kind: RatingKind, path: [&'static str; 2], field: &Field<Mass>) {
        let Some(limit) = self.notes.given(field) else {
            return;
        };
        if limit.value > Mass::ZERO {
            self.found.push(RoadRating {
                kind,
                path,
                limit,
                printed: None,
            });
        }
    }

    /// A rating that every trailer has on its plate.
    fn wanted(&mut self, kind: RatingKind, path: [&'static str; 2], field: &Field<Mass>) {
        if field.is_none() {
            self.notes.lack(&path, RoadWanted::Rating);
        }
        self.given(kind, path, field);
    }

    /// Both sides; the rating of a passenger car tyre counts less on a trailer.
    fn tyres(&mut self, project: &Project) {
        let own = &project.trailer;
        let path = ["trailer", "tyre_rating"];
        let passenger = own.passenger_tyres.value() == Some(&true);
        for kind in [RatingKind::LeftTyre, RatingKind::RightTyre] {
            if kind == RatingKind::LeftTyre {
                self.wanted(kind, path, &own.tyre_rating);
            } else {
                self.given(kind, path, &own.tyre_rating);
            }
            let factor = shelf().passenger_tyre.filter(|_| passenger);
            let Some(rating) = self.found.last_mut().filter(|rating| rating.kind == kind) else {
                continue;
            };
            if let Some(factor) = factor {
                rating.printed = Some(rating.limit.value);
                rating.limit = Known::new(
                    rating.limit.value / factor.value,
                    Basis::Table(factor.source),
                );
            }
        }
    }

    /// What the vehicle has left to carry before it is coupled.
    fn payload(&mut self, project: &Project, vehicle: &RoadVehicle) {
        let Some(gross) = project.vehicle.gross_rating.value() else {
            return;
        };
        let (Some(front), Some(rear)) = (&vehicle.front_axle, &vehicle.rear_axle) else {
            return;
        };
        let left = *gross - front.value - rear.value;
        if vehicle.weighed && left > Mass::ZERO {
            self.found.push(RoadRating {
                kind: RatingKind::VehiclePayload,
                path: ["vehicle", "gross_rating"],
                limit: Known::computed(left),
                printed: None,
            });
        }
    }
}
