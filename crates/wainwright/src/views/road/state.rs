//! States of the laden trailer and what is left of each rating, as plain data.

use super::words;
use crate::views::basis::BasisView;
use serde::Serialize;
use wainwright_analysis::result::road::{RoadResult, RoadState, RoadStateKind, SwayResult};
use wainwright_model::Project;
use wainwright_units::Ratio;
use wainwright_units::frame::Point;

/// One state.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RoadStateView {
    /// `bare`, `fills` or `weighed`.
    pub kind: &'static str,
    /// In words.
    pub words: String,
    /// All mass [kg].
    pub kilograms: f64,
    /// Centre of gravity in the trailer frame [m].
    pub centre_metres: [f64; 3],
    /// Load on the ball [kg].
    pub tongue_kilograms: f64,
    /// The same as a share of all mass.
    pub tongue_share: f64,
    /// `far-too-low`, `too-low`, `good` or `too-high`.
    pub tongue_place: Option<&'static str>,
    /// Load of all axles [kg].
    pub axle_kilograms: f64,
    /// Load of the left wheels [kg].
    pub left_kilograms: f64,
    /// Load of the right wheels [kg].
    pub right_kilograms: f64,
    /// Yaw inertia about the centre of gravity [kg·m²].
    pub yaw_inertia_kilogram_metres2: f64,
    /// Nose up when towed [°].
    pub nose_up_degrees: Option<f64>,
    /// Side slope on which it tips [°].
    pub side_slope_degrees: Option<f64>,
    /// Front and rear axle of the tow vehicle once coupled [kg].
    pub vehicle_axles_kilograms: Option<[f64; 2]>,
}

/// A rating with the state that has least left.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RatingView {
    /// Where it is typed.
    pub path: String,
    /// What it limits.
    pub what: String,
    /// The limit in force [kg].
    pub limit_kilograms: f64,
    /// Where it came from.
    pub basis: BasisView,
    /// Most load [kg].
    pub most_kilograms: Option<f64>,
    /// Limit less load [kg].
    pub left_kilograms: Option<f64>,
    /// Index of that state.
    pub state: Option<usize>,
}

/// Damping of one state at one speed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SwayView {
    /// Index of the state.
    pub state: usize,
    /// Speed [m/s].
    pub metres_per_second: f64,
    /// Whether this is the planned speed.
    pub planned: bool,
    /// Damping of the worst swing.
    pub damping_share: Option<f64>,
    /// Whether anything about the tow vehicle stands in.
    pub vehicle_assumed: bool,
}

/// Every state.
pub fn states(road: &RoadResult, project: &Project) -> Vec<RoadStateView> {
    let all = road.states.iter().enumerate();
    all.map(|(index, state)| of(state, words::state(project, road, index)))
        .collect()
}

fn of(state: &RoadState, words: String) -> RoadStateView {
    let vehicle = |hitch: wainwright_analysis::result::road::HitchResult| {
        [hitch.front.kilograms(), hitch.rear.kilograms()]
    };
    RoadStateView {
        kind: match state.kind {
            RoadStateKind::Bare => "bare",
            RoadStateKind::Fills => "fills",
            RoadStateKind::Weighed(_) => "weighed",
        },
        words,
        kilograms: state.mass.kilograms(),
        centre_metres: metres(state.centre),
        tongue_kilograms: state.tongue.kilograms(),
        tongue_share: state.share.fraction(),
        tongue_place: state.share_place.map(words::place_id),
        axle_kilograms: state.axle.kilograms(),
        left_kilograms: state.left.kilograms(),
        right_kilograms: state.right.kilograms(),
        yaw_inertia_kilogram_metres2: state.yaw_inertia_kg_m2,
        nose_up_degrees: state.attitude.as_ref().map(|found| found.nose_up.degrees()),
        side_slope_degrees: state.tipping.map(|found| found.side_slope.degrees()),
        vehicle_axles_kilograms: state.hitch.map(vehicle),
    }
}

/// Every rating.
pub fn ratings(road: &RoadResult) -> Vec<RatingView> {
    let axles = road
        .trailer
        .axles
        .as_ref()
        .map_or(1, |known| known.value as usize);
    let all = road.ratings.iter();
    all.map(|rating| {
        let tightest = road.tightest(rating.kind);
        RatingView {
            path: rating.path.join("."),
            what: words::rating(rating.kind, axles),
            limit_kilograms: rating.limit.value.kilograms(),
            basis: BasisView::of(&rating.limit.basis),
            most_kilograms: tightest.map(|(_, margin)| margin.actual.kilograms()),
            left_kilograms: tightest.map(|(_, margin)| margin.left.kilograms()),
            state: tightest.map(|(state, _)| state),
        }
    })
    .collect()
}

/// A point of the trailer frame: backwards from the ball, left of the middle, up.
pub fn metres(point: Point) -> [f64; 3] {
    [point.x.metres(), point.y.metres(), point.z.metres()]
}

impl SwayView {
    /// The same as plain data.
    pub fn of(sway: &SwayResult) -> Self {
        Self {
            state: sway.state,
            metres_per_second: sway.speed.metres_per_second(),
            planned: sway.planned,
            damping_share: sway.damping.map(Ratio::fraction),
            vehicle_assumed: sway.vehicle_assumed,
        }
    }
}
