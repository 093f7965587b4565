//! One state of the trailer: loads, margins, attitude, what it does to the tow vehicle.

use super::SharePlace;
use super::steady::Tipping;
use crate::known::Known;
use wainwright_model::Id;
use wainwright_units::frame::Point;
use wainwright_units::{Angle, Length, Mass, Ratio};

/// One state.
#[derive(Debug, Clone, PartialEq)]
pub struct RoadState {
    /// What sort of state.
    pub kind: RoadStateKind,
    /// Level of each fill, in the order of [`super::RoadResult::fills`]; empty for the bare trailer and weighings.
    pub levels: Vec<Level>,
    /// All mass \[kg\].
    pub mass: Mass,
    /// Centre of gravity in the trailer frame.
    pub centre: Point,
    /// Load on the ball, level \[kg\]; below zero the coupler pulls up.
    pub tongue: Mass,
    /// The same as a share of all mass.
    pub share: Ratio,
    /// Where that share lies in the band; `None` for the bare trailer and weighings.
    pub share_place: Option<SharePlace>,
    /// Load of all axles \[kg\].
    pub axle: Mass,
    /// Load of each axle from the front, as towed where that is known \[kg\].
    pub axles: Vec<Mass>,
    /// Load of the left wheels together \[kg\].
    pub left: Mass,
    /// Load of the right wheels together \[kg\].
    pub right: Mass,
    /// Yaw inertia about the centre of gravity [kg·m²].
    pub yaw_inertia_kg_m2: f64,
    /// Distance at which all mass would have that inertia.
    pub yaw_radius: Length,
    /// How the ball's height tilts it and moves its weight.
    pub attitude: Option<AttitudeResult>,
    /// The tow vehicle once coupled.
    pub hitch: Option<HitchResult>,
    /// Uncoupled with people aboard; `None` when there are none.
    pub parked: Option<Parked>,
    /// When it tips sideways.
    pub tipping: Option<Tipping>,
    /// Margin of each rating, in the order of [`super::RoadResult::ratings`]; `None` where the load is not known.
    pub margins: Vec<Option<RoadMargin>>,
}

/// What sort of state.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum RoadStateKind {
    /// The trailer with nothing in it.
    Bare,
    /// Ready to leave or on the way: each fill at its level.
    Fills,
    /// With what was aboard at this weighing.
    Weighed(Id),
}

/// Level of a fill.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Level {
    /// Tank empty.
    Empty,
    /// Tank full.
    Full,
    /// Cargo as at the start.
    Start,
    /// Cargo as at the end.
    End,
}

/// Towed nose up or nose down.
#[derive(Debug, Clone, PartialEq)]
pub struct AttitudeResult {
    /// Tilt, nose up above zero.
    pub nose_up: Angle,
    /// Load on the ball at that tilt \[kg\].
    pub tongue: Mass,
    /// Change of it by the tilt \[kg\].
    pub change: Mass,
    /// Its share of all mass.
    pub share: Ratio,
    /// Change of the tongue load for one more degree nose up \[kg\].
    pub per_degree: Mass,
}

/// The tow vehicle once coupled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct HitchResult {
    /// Front axle \[kg\].
    pub front: Mass,
    /// Rear axle \[kg\].
    pub rear: Mass,
    /// Change of the front axle by coupling \[kg\].
    pub front_change: Mass,
    /// Change of the rear axle by coupling \[kg\].
    pub rear_change: Mass,
    /// What bars add to the trailer's axles \[kg\].
    pub trailer_axle_change: Mass,
    /// Load that remains on the ball \[kg\].
    pub ball: Mass,
    /// Vehicle and trailer together, the tongue counted once \[kg\].
    pub combination: Mass,
}

/// Uncoupled, standing on its wheels and its jack, with everybody aboard.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Parked {
    /// Load at the coupler with everybody where they are said to be \[kg\]; below zero the tail goes down.
    pub nose: Mass,
    /// The same with everybody at the rear wall \[kg\].
    pub nose_all_at_rear: Option<Mass>,
    /// Furthest behind the ball that everybody together may stand.
    pub furthest_back: Option<Length>,
}

/// What a rating limits.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum RatingKind {
    /// All of the trailer.
    TrailerGross,
    /// Everything added to the bare trailer.
    Cargo,
    /// One axle, counted from 0 at the front: its load, or twice its heavier side.
    Axle(usize),
    /// Each left tyre.
    LeftTyre,
    /// Each right tyre.
    RightTyre,
    /// What the coupler pulls.
    CouplerPull,
    /// What the coupler carries.
    CouplerTongue,
    /// What receiver, mount and ball pull.
    HitchPull,
    /// What receiver, mount and ball carry.
    HitchTongue,
    /// Heaviest trailer for the vehicle, with brakes.
    TowBraked,
    /// Heaviest trailer for the vehicle, without brakes.
    TowUnbraked,
    /// Most load on the ball for the vehicle.
    VehicleTongue,
    /// Front axle of the vehicle.
    VehicleFrontAxle,
    /// Rear axle of the vehicle.
    VehicleRearAxle,
    /// All of the vehicle with the load on its ball.
    VehicleGross,
    /// What the vehicle has left to carry before coupling, against the load on its ball.
    VehiclePayload,
    /// Vehicle and trailer together.
    Combination,
}

/// A rating that is known.
#[derive(Debug, Clone, PartialEq)]
pub struct RoadRating {
    /// What it limits.
    pub kind: RatingKind,
    /// Path of its field in the project file.
    pub path: [&'static str; 2],
    /// The limit in force \[kg\], after the division for passenger car tyres.
    pub limit: Known<Mass>,
    /// As printed \[kg\], where that is something else.
    pub printed: Option<Mass>,
}

/// How much of a rating is left.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct RoadMargin {
    /// The load \[kg\].
    pub actual: Mass,
    /// The limit \[kg\].
    pub limit: Mass,
    /// Limit minus load \[kg\]; below zero it is over.
    pub left: Mass,
    /// Share of the limit that is used.
    pub used: Ratio,
}

/// Indices of the worst fill states.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct WorstStates {
    /// Lowest share of the tongue.
    pub lowest_share: usize,
    /// Highest share of the tongue.
    pub highest_share: usize,
    /// Least load on the ball.
    pub least_tongue: usize,
    /// Most load on the ball.
    pub most_tongue: usize,
    /// Most load on the axles.
    pub most_axle: usize,
    /// Most mass.
    pub most_mass: usize,
    /// Most load on the left wheels.
    pub most_left: usize,
    /// Most load on the right wheels.
    pub most_right: usize,
    /// Largest difference of left and right among the states computed.
    pub most_difference: usize,
    /// Largest yaw radius among the states computed.
    pub most_yaw_radius: usize,
    /// Highest centre of gravity among the states computed.
    pub highest_centre: usize,
}

impl RoadState {
    /// Load of the left wheels less that of the right wheels \[kg\].
    pub fn side_difference(&self) -> Mass {
        self.left - self.right
    }
}

impl WorstStates {
    /// Each of them once, in order.
    pub fn distinct(&self) -> Vec<usize> {
        let mut all = vec![
            self.lowest_share,
            self.highest_share,
            self.least_tongue,
            self.most_tongue,
            self.most_axle,
            self.most_mass,
            self.most_left,
            self.most_right,
            self.most_difference,
            self.most_yaw_radius,
            self.highest_centre,
        ];
        all.sort_unstable();
        all.dedup();
        all
    }
}
