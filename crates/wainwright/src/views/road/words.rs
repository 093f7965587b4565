//! What the road study's figures are called by people. Not here: the figures.

use wainwright_analysis::result::road::{
    Blocker, Filling, Level, RatingKind, RoadResult, RoadStateKind, RoadWanted, SharePlace,
};
use wainwright_model::{Ground, Hold, HoldAgainst, Holds, Project, TongueAdvice, WeighedBy};

/// What people call an item.
pub fn item(project: &Project, id: &str) -> String {
    project.label_or_id("item", id).to_owned()
}

/// What people call an opening.
pub fn opening(project: &Project, id: &str) -> String {
    project.label_or_id("opening", id).to_owned()
}

/// What people call a weighing.
pub fn weighing(project: &Project, id: &str) -> String {
    project.label_or_id("weighing", id).to_owned()
}

/// Whose room something stands in.
pub fn blocker(project: &Project, owner: &Blocker) -> String {
    match owner {
        Blocker::Opening(id) => opening(project, id.as_str()),
        Blocker::Item(id) => item(project, id.as_str()),
    }
}

/// A state as people say it: "fresh tank empty, grey tank full, supplies used up".
pub fn state(project: &Project, road: &RoadResult, index: usize) -> String {
    let Some(state) = road.states.get(index) else {
        return String::new();
    };
    match &state.kind {
        RoadStateKind::Bare => "bare trailer".into(),
        RoadStateKind::Weighed(id) => format!("as weighed: {}", weighing(project, id.as_str())),
        RoadStateKind::Fills => {
            let fills = road.fills.iter().zip(&state.levels);
            let words: Vec<String> = fills
                .map(|(fill, level)| filling(project, road, &fill.what, *level))
                .collect();
            if words.is_empty() {
                "ready to leave".into()
            } else {
                words.join(", ")
            }
        }
    }
}

fn filling(project: &Project, road: &RoadResult, what: &Filling, level: Level) -> String {
    match (what, level) {
        (Filling::Tank(id, holds), level) => {
            let alike = |fill: &&wainwright_analysis::result::road::Fill| matches!(&fill.what, Filling::Tank(_, other) if other == holds);
            let name = if road.fills.iter().filter(alike).count() > 1 {
                item(project, id.as_str())
            } else {
                tank(*holds).into()
            };
            let full = matches!(level, Level::Full);
            format!("{name} {}", if full { "full" } else { "empty" })
        }
        (Filling::Cargo(_), Level::End | Level::Empty) => "supplies used up".into(),
        (Filling::Cargo(_), Level::Start | Level::Full) => "supplies aboard".into(),
    }
}

fn tank(holds: Holds) -> &'static str {
    match holds {
        Holds::Fresh => "fresh tank",
        Holds::Grey => "grey tank",
        Holds::Black => "waste tank",
        Holds::Fuel => "fuel tank",
    }
}

/// What a rating limits.
pub fn rating(kind: RatingKind, axles: usize) -> String {
    match kind {
        RatingKind::TrailerGross => "Trailer, laden".into(),
        RatingKind::Cargo => "Load in the trailer".into(),
        RatingKind::Axle(_) if axles <= 1 => "Trailer axle".into(),
        RatingKind::Axle(number) => format!("Trailer axle {}", number + 1),
        RatingKind::LeftTyre => "Each left tyre".into(),
        RatingKind::RightTyre => "Each right tyre".into(),
        RatingKind::CouplerPull => "Coupler: trailer".into(),
        RatingKind::CouplerTongue => "Coupler: tongue load".into(),
        RatingKind::HitchPull => "Hitch: trailer".into(),
        RatingKind::HitchTongue => "Hitch: tongue load".into(),
        RatingKind::TowBraked => "Tow vehicle: trailer with brakes".into(),
        RatingKind::TowUnbraked => "Tow vehicle: trailer without brakes".into(),
        RatingKind::VehicleTongue => "Tow vehicle: tongue load".into(),
        RatingKind::VehicleFrontAxle => "Tow vehicle: front axle".into(),
        RatingKind::VehicleRearAxle => "Tow vehicle: rear axle".into(),
        RatingKind::VehicleGross => "Tow vehicle, laden".into(),
        RatingKind::VehiclePayload => "Tow vehicle: what it may still carry".into(),
        RatingKind::Combination => "Vehicle and trailer together".into(),
    }
}

/// Where a share lies.
pub fn place(place: SharePlace) -> &'static str {
    match place {
        SharePlace::FarTooLow => "far too low",
        SharePlace::TooLow => "too low",
        SharePlace::Good => "good",
        SharePlace::TooHigh => "too high",
    }
}

/// The same for machines.
pub fn place_id(place: SharePlace) -> &'static str {
    match place {
        SharePlace::FarTooLow => "far-too-low",
        SharePlace::TooLow => "too-low",
        SharePlace::Good => "good",
        SharePlace::TooHigh => "too-high",
    }
}

/// Where the advice is from.
pub fn advice(advice: TongueAdvice) -> &'static str {
    match advice {
        TongueAdvice::Us => "American advice",
        TongueAdvice::Eu => "European advice",
        TongueAdvice::Uk => "British advice",
        TongueAdvice::Au => "Australian advice",
    }
}

/// What things are held against.
pub fn against(against: HoldAgainst) -> &'static str {
    match against {
        HoldAgainst::Road => "Driving, rule for lorries (49 CFR 393.102)",
        HoldAgainst::Van => "Driving, rule for light vans (EN 12195-1)",
        HoldAgainst::Boat => "Rule for batteries in boats (33 CFR 183.420)",
        HoldAgainst::ThreeG => "Three times its weight in every direction",
    }
}

/// How a thing is fastened.
pub fn hold(hold: Hold) -> &'static str {
    match hold {
        Hold::Bolted => "bolts",
        Hold::Lagged => "lag screws",
        Hold::Screwed => "wood screws",
        Hold::Strapped => "straps",
        Hold::Loose => "loose",
    }
}

/// What fasteners go into.
pub fn ground(ground: Ground) -> &'static str {
    match ground {
        Ground::Frame => "the metal frame",
        Ground::Plywood => "plywood",
        Ground::Softwood => "softwood",
        Ground::Hardwood => "hardwood",
    }
}

/// How a weight was taken.
pub fn weighed_by(by: WeighedBy) -> &'static str {
    match by {
        WeighedBy::Tongue => "scale under the coupler",
        WeighedBy::Beam => "beam on a bathroom scale",
        WeighedBy::Jack => "scale under the jack",
        WeighedBy::Axle => "scale under all wheels",
        WeighedBy::LeftWheels => "scale under the left wheels",
        WeighedBy::RightWheels => "scale under the right wheels",
        WeighedBy::Whole => "whole trailer on a scale",
        WeighedBy::PublicScale => "public scale, axle by axle",
    }
}

/// What is missing.
pub fn wanted(wanted: RoadWanted) -> &'static str {
    match wanted {
        RoadWanted::Trailer => "sizes and weights of the trailer",
        RoadWanted::Vehicle => "the axle loads of the tow vehicle",
        RoadWanted::Mass => "a mass",
        RoadWanted::Spot => "a place",
        RoadWanted::Size => "a size",
        RoadWanted::Height => "a height",
        RoadWanted::Capacity => "what the tank holds when full",
        RoadWanted::Contents => "what the tank holds",
        RoadWanted::Hold => "how it is fastened",
        RoadWanted::Fasteners => "number, size or ground of its fasteners",
        RoadWanted::Rating => "a rating from a plate",
        RoadWanted::Stiffness => "the stiffness of the springs",
        RoadWanted::Reading => "what the scale said",
        RoadWanted::SetUp => "a length of how it was weighed",
    }
}
