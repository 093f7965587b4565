//! The figures the road study starts from, and what it holds the design against.

use crate::known::Known;
use wainwright_engines::tie_down::Profile;
use wainwright_model::{HoldAgainst, Suspension, TongueAdvice};
use wainwright_units::{Force, Length, Mass, Ratio, Speed, Stiffness};

/// The bare trailer. A figure is `None` when nobody gave it and nothing stands in.
#[derive(Debug, Clone, Default, PartialEq)]
#[allow(missing_docs, reason = "the fields are those of the project file")]
pub struct RoadTrailer {
    pub inside_length: Option<Known<Length>>,
    pub inside_width: Option<Known<Length>>,
    pub inside_height: Option<Known<Length>>,
    pub ball_to_front: Option<Known<Length>>,
    pub ball_to_axle: Option<Known<Length>>,
    pub axles: Option<Known<u32>>,
    pub axle_spacing: Option<Known<Length>>,
    pub suspension: Option<Known<Suspension>>,
    pub axle_stiffness: Option<Known<Stiffness>>,
    pub track: Option<Known<Length>>,
    pub floor_height: Option<Known<Length>>,
    pub wheel_radius: Option<Known<Length>>,
    pub coupling_height: Option<Known<Length>>,
    pub empty_mass: Option<Known<Mass>>,
    pub empty_tongue: Option<Known<Mass>>,
    pub empty_centre_height: Option<Known<Length>>,
    pub brakes: Option<Known<bool>>,
    /// Id of the usual box trailer whose figures stand in, when one does.
    pub stands_in: Option<&'static str>,
}

/// The tow vehicle.
#[derive(Debug, Clone, Default, PartialEq)]
#[allow(missing_docs, reason = "the fields are those of the project file")]
pub struct RoadVehicle {
    /// Whether its axle loads were given; otherwise nothing is computed about it but the sway.
    pub weighed: bool,
    pub front_axle: Option<Known<Mass>>,
    pub rear_axle: Option<Known<Mass>>,
    pub wheelbase: Option<Known<Length>>,
    pub ball_overhang: Option<Known<Length>>,
    pub ball_height: Option<Known<Length>>,
    pub bars_restore: Option<Known<Ratio>>,
    /// Moment of inertia about its upright axis [kg·m²].
    pub yaw_inertia_kg_m2: Option<Known<f64>>,
}

/// What the design is held against.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Aims {
    /// Whose advice is followed.
    pub advice: Option<Known<TongueAdvice>>,
    /// Shares of the tongue that are good.
    pub tongue: Option<TongueLimits>,
    /// Most that left and right wheels may differ by; `None` when nobody set a limit.
    pub side_difference: Option<Known<Mass>>,
    /// Speed the journey is planned at.
    pub speed: Option<Known<Speed>>,
    /// What things are held against.
    pub hold_against: Option<Known<HoldAgainst>>,
    /// The accelerations of that.
    pub hold_profile: Option<Known<Profile>>,
    /// Most force that profile asks of one thing; `None` when it asks the whole.
    pub hold_most: Option<Force>,
}

/// The band of the tongue's share.
#[derive(Debug, Clone, PartialEq)]
pub struct TongueLimits {
    /// Below this the trailer should not leave; `None` with limits of one's own.
    pub stop_below: Option<Known<Ratio>>,
    /// Lowest good share.
    pub low: Known<Ratio>,
    /// Highest good share.
    pub high: Known<Ratio>,
    /// What else the advice says.
    pub advice: Option<&'static str>,
}

/// Where a share lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum SharePlace {
    /// So low that the trailer should not leave.
    FarTooLow,
    /// Below the band.
    TooLow,
    /// In the band.
    Good,
    /// Above the band.
    TooHigh,
}

/// A value without which something is left out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RoadMissing {
    /// Path in the project file where it can be typed.
    pub path: Vec<String>,
    /// What is wanted.
    pub wanted: RoadWanted,
}

/// What is wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum RoadWanted {
    /// Sizes and weights of the trailer: without them there is nothing to compute.
    Trailer,
    /// The axle loads of the tow vehicle.
    Vehicle,
    /// A mass.
    Mass,
    /// A spot.
    Spot,
    /// A size.
    Size,
    /// A height.
    Height,
    /// What a tank holds when full.
    Capacity,
    /// What a tank holds: water, waste or fuel.
    Contents,
    /// How a thing is fastened.
    Hold,
    /// The count, size or ground of its fasteners.
    Fasteners,
    /// A rating printed on a plate.
    Rating,
    /// The springs of one axle.
    Stiffness,
    /// A reading of a scale.
    Reading,
    /// A length of the set-up a scale was used in.
    SetUp,
}

impl TongueLimits {
    /// Where a share lies in the band.
    pub fn place(&self, share: Ratio) -> SharePlace {
        let far_below = |stop: &Known<Ratio>| share < stop.value;
        if self.stop_below.as_ref().is_some_and(far_below) {
            SharePlace::FarTooLow
        } else if share < self.low.value {
            SharePlace::TooLow
        } else if share > self.high.value {
            SharePlace::TooHigh
        } else {
            SharePlace::Good
        }
    }
}
