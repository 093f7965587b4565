//! What pulling the trailer asks: coupler, front area, brakes by law, fuel. Not here: whether a law applies to this
//! person (rules say to check).

use super::shelf::{profile_of, shelf};
use crate::known::Known;
use crate::result::road::{
    Aims, BrakeCheck, FrontalCheck, FuelCompared, FuelFigures, FuelResult, PullCheck, RoadResult,
    RoadTrailer, RoadVehicle,
};
use crate::road::notes::RoadNotes;
use wainwright_engines::balance::{d_value, frontal_area_margin};
use wainwright_engines::road_load::{Engine, Fuel, Road, Vehicle, compare, fuel};
use wainwright_model::{FieldExt, Project};
use wainwright_units::{Length, Mass, Ratio, Speed};

/// From this height of the roof lining over the ground on a box stands clear above its tow vehicle \[m\] (judgement).
const ABOVE_THE_VEHICLE_METRES: f64 = 2.0;
/// Slowest speed fuel is estimated for [m/s]; the estimate holds from 10 km/h on.
const SLOWEST: f64 = 10.0 / 3.6;

/// The D value, from the masses that both may have.
pub(super) fn d_value_check(
    project: &Project,
    heaviest: Option<Mass>,
    notes: &RoadNotes,
) -> Option<PullCheck> {
    let rated = notes.given(&project.trailer.d_value)?;
    let vehicle = *project.vehicle.gross_rating.value()?;
    let trailer = project.trailer.gross_rating.value().copied().or(heaviest)?;
    Some(PullCheck {
        asked: d_value(vehicle, trailer).ok()?,
        rated,
        vehicle,
        trailer,
    })
}

/// The front of the box, walls counted where their thickness is given, against the vehicle's limit.
pub(super) fn frontal(
    project: &Project,
    found: &RoadTrailer,
    notes: &RoadNotes,
) -> Option<FrontalCheck> {
    let limit = notes.given(&project.vehicle.frontal_area)?;
    let wall = project.trailer.wall_thickness.value().copied();
    let walls = wall.unwrap_or(Length::ZERO) * 2.0;
    let (width, height) = (
        found.inside_width.as_ref()?.value + walls,
        found.inside_height.as_ref()?.value + walls,
    );
    let margin = frontal_area_margin(width, height, limit.value).ok()?;
    Some(FrontalCheck {
        actual: margin.actual,
        left: margin.left,
        used: margin.used,
        limit,
    })
}

/// Every brake law of the region.
pub(super) fn brakes(
    project: &Project,
    aims: &Aims,
    heaviest: Option<Mass>,
    bare: Option<Mass>,
) -> Vec<BrakeCheck> {
    let Some(advice) = &aims.advice else {
        return Vec::new();
    };
    let profile = profile_of(advice.value);
    let rating = project.trailer.gross_rating.value().copied();
    let laws = shelf().laws.iter();
    laws.filter(|row| row.value.profile == profile)
        .map(|row| {
            let asks = |mass: Option<Mass>| mass.map(|mass| row.value.asks_brakes(mass));
            BrakeCheck {
                by_rating: asks(rating),
                by_load: asks(heaviest),
                by_bare: asks(bare),
                law: row.value,
                source: row.source,
            }
        })
        .collect()
}

/// Fuel alone and with the trailer, at the planned speed or the one tests are made at.
pub(super) fn fuel_result(
    trailer: &RoadTrailer,
    vehicle: &RoadVehicle,
    aims: &Aims,
    heaviest: Mass,
) -> Option<FuelResult> {
    let speed = speed_of(aims)?;
    let car = car(vehicle)?;
    let both = [car, box_trailer(trailer, heaviest)?];
    let (engine, road) = (engine()?, road()?);
    let figures = |vehicles: &[Vehicle]| {
        fuel(vehicles, &engine, &road, speed.metres_per_second())
            .ok()
            .map(figures)
    };
    Some(FuelResult {
        speed,
        alone: figures(&[car])?,
        towing: figures(&both)?,
    })
}

/// Fuel of two projects' outfits over a distance, each with its own vehicle and heaviest state, at the speed of the
/// first. An estimate.
pub fn fuel_compared(
    first: &RoadResult,
    second: &RoadResult,
    kilometres: f64,
) -> Option<FuelCompared> {
    let speed = speed_of(&first.aims)?;
    let outfit = |found: &RoadResult| {
        let heaviest = found
            .worst
            .and_then(|worst| found.states.get(worst.most_mass))?
            .mass;
        Some([car(&found.vehicle)?, box_trailer(&found.trailer, heaviest)?])
    };
    let (one, other) = (outfit(first)?, outfit(second)?);
    let found = compare(
        [&one, &other],
        &engine()?,
        &road()?,
        speed.metres_per_second(),
        kilometres,
    )
    .ok()?;
    Some(FuelCompared {
        speed,
        first: figures(found.first),
        second: figures(found.second),
        more: found.more_over_distance,
        ratio: found.ratio,
    })
}

fn speed_of(aims: &Aims) -> Option<Speed> {
    let planned = aims.speed.as_ref().map(|known| known.value);
    let planned = planned.filter(|speed| speed.metres_per_second() >= SLOWEST);
    let test = shelf().sway.map(|sway| sway.at_metres_per_second.value);
    planned.or(test.map(Speed::from_metres_per_second))
}

fn car(found: &RoadVehicle) -> Option<Vehicle> {
    let mass = found.front_axle.as_ref()?.value + found.rear_axle.as_ref()?.value;
    Some(Vehicle {
        mass,
        rolling: shelf().rolling_car?.value,
        drag_area: shelf().drag_car?.value,
    })
}

fn box_trailer(found: &RoadTrailer, mass: Mass) -> Option<Vehicle> {
    let value = |known: &Option<Known<Length>>| known.as_ref().map(|known| known.value);
    let roof = value(&found.floor_height)? + value(&found.inside_height)?;
    let drag = if roof.metres() < ABOVE_THE_VEHICLE_METRES {
        shelf().drag_small
    } else {
        shelf().drag_tall
    };
    Some(Vehicle {
        mass,
        rolling: shelf().rolling_trailer?.value,
        drag_area: drag?.value,
    })
}

fn engine() -> Option<Engine> {
    let line = shelf().engine?.value;
    Some(Engine {
        idle_power: line.idle_power,
        idle_speed: line.idle_speed,
        marginal_efficiency: line.marginal_efficiency,
        megajoules_per_litre: shelf().heat?.value,
    })
}

fn road() -> Option<Road> {
    Some(Road {
        air_kg_per_m3: shelf().air?.value,
        headwind: 0.0,
        grade: Ratio::ZERO,
    })
}

const fn figures(found: Fuel) -> FuelFigures {
    FuelFigures {
        force: found.force,
        litres_per_100_km: found.litres_per_100_km,
        miles_per_gallon: found.miles_per_gallon,
    }
}
