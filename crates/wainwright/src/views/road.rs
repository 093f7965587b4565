//! Weights, towing, placing and tie-down, as plain data. Numbers are in the
//! unit their name ends with; loads are masses. Not here: words for pages
//! (`words`), judgement.

mod found;
mod state;
pub mod words;

use super::basis::BasisView;
use super::system::{AssumptionView, MissingView};
use found::{
    BlockedView, BrakeView, FuelView, HoldView, OutsideView, OverlapView, ShellView, WeighedView,
};
use serde::Serialize;
use state::{RatingView, RoadStateView, SwayView};
use wainwright_analysis::known::Known;
use wainwright_analysis::result::road::{Filling, RoadResult};
use wainwright_model::Project;
use wainwright_units::Ratio;

/// Everything the road study finds.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RoadView {
    /// Whether the person has begun this job; before, nothing here is judged.
    pub begun: bool,
    /// The band the tongue's share should be in.
    pub tongue: Option<TongueView>,
    /// Items with mass and place.
    pub loads: Vec<LoadView>,
    /// Items without mass or place.
    pub unsettled: Vec<UnsettledView>,
    /// What changes on the road.
    pub fills: Vec<FillView>,
    /// The bare trailer, each state of the fills, each weighing.
    pub states: Vec<RoadStateView>,
    /// Whether every corner of the fills is among the states.
    pub every_corner: bool,
    /// Ratings that are known, with their worst state.
    pub ratings: Vec<RatingView>,
    /// Damping, for comparing layouts only.
    pub sway: Vec<SwayView>,
    /// Steepest ramp the tail clears [°].
    pub departure_degrees: Option<f64>,
    /// Brake laws of the place.
    pub brakes: Vec<BrakeView>,
    /// How each item is held.
    pub holds: Vec<HoldView>,
    /// What the weighings say.
    pub weighings: Vec<WeighedView>,
    /// The bare trailer from all weighings.
    pub shell_found: Option<ShellView>,
    /// Pairs of items in the same place.
    pub overlaps: Vec<OverlapView>,
    /// Items that stick out of the box.
    pub outside: Vec<OutsideView>,
    /// Doors and free rooms with something in them.
    pub blocked: Vec<BlockedView>,
    /// Fuel alone and with the trailer, an estimate.
    pub fuel: Option<FuelView>,
    /// Share of the mass of all items ahead of the middle of the box.
    pub front_share: Option<f64>,
    /// Values nobody gave, with the stand-ins used.
    pub assumptions: Vec<AssumptionView>,
    /// Values without which something is left out.
    pub missing: Vec<MissingView>,
    /// What a solver refused.
    pub refused: Vec<String>,
}

/// The band of the tongue's share.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TongueView {
    /// Below this the trailer should not leave.
    pub stop_below_share: Option<f64>,
    /// Lowest good share.
    pub low_share: f64,
    /// Where it came from.
    pub low_basis: BasisView,
    /// Highest good share.
    pub high_share: f64,
    /// Where it came from.
    pub high_basis: BasisView,
}

/// An item with mass and place.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LoadView {
    /// Its id.
    pub item: String,
    /// Its own mass [kg]; of a tank, empty.
    pub kilograms: f64,
    /// Where the mass came from.
    pub basis: BasisView,
    /// The most it weighs [kg].
    pub most_kilograms: f64,
    /// Its centre in the trailer frame [m].
    pub centre_metres: [f64; 3],
    /// What one kilogram of it puts on the ball.
    pub tongue_influence: f64,
    /// Aboard when parked only.
    pub parked_only: bool,
}

/// An item of which too little is known.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct UnsettledView {
    /// Its id.
    pub item: String,
    /// Its mass is not given.
    pub unweighed: bool,
    /// Its place is not given.
    pub unplaced: bool,
}

/// Something that changes on the road.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FillView {
    /// The tank, or every cargo that is used up.
    pub items: Vec<String>,
    /// Mass of the empty tank, or of the cargo at the start [kg].
    pub first_kilograms: f64,
    /// Mass of the full tank, or of the cargo at the end [kg].
    pub second_kilograms: f64,
}

impl RoadView {
    /// The same as plain data.
    pub fn of(road: &RoadResult, project: &Project) -> Self {
        Self {
            begun: road.begun,
            tongue: tongue(road),
            loads: loads(road),
            unsettled: unsettled(road),
            fills: fills(road),
            states: state::states(road, project),
            every_corner: road.every_corner,
            ratings: state::ratings(road),
            sway: road.sway.iter().map(SwayView::of).collect(),
            departure_degrees: road.departure.as_ref().map(|found| found.angle.degrees()),
            brakes: road.brakes.iter().map(BrakeView::of).collect(),
            holds: road.holds.iter().map(HoldView::of).collect(),
            weighings: road.weighings.iter().map(WeighedView::of).collect(),
            shell_found: road.shell_found.as_ref().map(ShellView::of),
            overlaps: road.overlaps.iter().map(OverlapView::of).collect(),
            outside: road.outside.iter().map(OutsideView::of).collect(),
            blocked: road.blocked.iter().map(BlockedView::of).collect(),
            fuel: road.fuel.as_ref().map(FuelView::of),
            front_share: road.front_share.map(Ratio::fraction),
            assumptions: super::system::assumed(&road.assumptions),
            missing: missing(road),
            refused: road.refused.clone(),
        }
    }
}

fn tongue(road: &RoadResult) -> Option<TongueView> {
    let limits = road.aims.tongue.as_ref()?;
    let share = |known: &Known<Ratio>| known.value.fraction();
    Some(TongueView {
        stop_below_share: limits.stop_below.as_ref().map(share),
        low_share: share(&limits.low),
        low_basis: BasisView::of(&limits.low.basis),
        high_share: share(&limits.high),
        high_basis: BasisView::of(&limits.high.basis),
    })
}

fn loads(road: &RoadResult) -> Vec<LoadView> {
    let all = road.loads.iter();
    all.map(|load| LoadView {
        item: load.item.to_string(),
        kilograms: load.mass.value.kilograms(),
        basis: BasisView::of(&load.mass.basis),
        most_kilograms: load.most.kilograms(),
        centre_metres: state::metres(load.centre),
        tongue_influence: load.tongue_influence,
        parked_only: load.parked_only,
    })
    .collect()
}

fn unsettled(road: &RoadResult) -> Vec<UnsettledView> {
    let all = road.unsettled.iter();
    all.map(|found| UnsettledView {
        item: found.item.to_string(),
        unweighed: found.unweighed,
        unplaced: found.unplaced,
    })
    .collect()
}

fn fills(road: &RoadResult) -> Vec<FillView> {
    let all = road.fills.iter();
    all.map(|fill| FillView {
        items: match &fill.what {
            Filling::Tank(id, _) => vec![id.to_string()],
            Filling::Cargo(ids) => ids.iter().map(ToString::to_string).collect(),
        },
        first_kilograms: fill.first.kilograms(),
        second_kilograms: fill.second.kilograms(),
    })
    .collect()
}

fn missing(road: &RoadResult) -> Vec<MissingView> {
    let all = road.missing.iter();
    all.map(|missing| MissingView {
        path: missing.path.join("."),
        wanted: words::wanted(missing.wanted),
    })
    .collect()
}
