//! Where the weight of a trailer goes: tongue, axles, left and right, and the tow vehicle.
//! Measured weights are in `weigh_in`; how the trailer moves is in `sway`. Recommended tongue
//! shares and printed ratings are the caller's.
//!
//! # Computes
//! Loads on coupling, axles and wheels; centre of gravity and yaw inertia; the same tilted, with a
//! weight-distribution hitch, and with people aboard uncoupled; the worst of all fill states, or all
//! of many loads in many states at once; where an item may stand so that tongue share and sides keep
//! their limits in every state; margins to ratings.
//!
//! # Equation
//! With x backwards from the ball, L from the ball to the middle of the axle group, track t:
//! - W = Σm, T = Σ m(1 − x/L), A = Σ m x/L, left and right = A/2 ± Σ m y/t.
//! - Yaw inertia Σ m[(x − x̄)² + (y − ȳ)² + (a² + b²)/12], each load a box a · b.
//! - Tilted by θ, nose up: T = W(u cosθ − v sinθ)/(L cosθ − w sinθ), u = L − x̄, v and w the heights
//!   of centre and coupling above the wheel centre. Independent tandem of rate k and spacing s:
//!   front minus rear axle = −k s θ, tongue + k s² θ/(2L).
//! - Tow vehicle of wheelbase l and overhang o, distribution torque M:
//!   front −T o/l + M(L + o)/(lL), rear T(l + o)/l − M(l + o + L)/(lL), trailer axles +M/L.
//! - Worst share over states: the root s of max Σ(Tᵢ − s Wᵢ) = 0, found exactly.
//! - An item of mass m keeps the share in [s₁, s₂] in every state where
//!   L(1 − s₂ + max(T − s₂W)/m) ≤ x ≤ L(1 − s₁ + min(T − s₁W)/m), T and W those of the rest.
//! - From side to side the difference 2(Σ m y + m y)/t and the heavier side A/2 + |Σ m y|/t, worst of
//!   all states of the rest, keep their limits between two ends that follow in closed form.
//! - D = g·T·C/(T + C).
//!
//! # Assumptions and limits
//! - Rigid trailer on level ground. A ball passes no roll moment, so all side moment goes to the
//!   wheels wherever the item stands.
//! - An equalised tandem shares its load evenly and acts as one axle at its middle. An independent
//!   one does so only when level.
//! - Masses stand for the weights they press with. No air force, no braking.
//!
//! # Valid range
//! Any positive masses and lengths; tilt to ±30°; at most 4096 states when all are listed.
//!
//! # Example
//! ```
//! use wainwright_engines::balance::{Chassis, Load, Suspension, statics};
//! use wainwright_units::frame::Point;
//! use wainwright_units::*;
//! let chassis = Chassis {
//!     coupling_to_axle: Length::from_metres(2.9),
//!     track: Length::from_metres(1.6),
//!     suspension: Suspension::Single,
//! };
//! let shell = Load::point(Mass::from_kilograms(430.0), Point::from_metres(2.61, 0.0, 0.7));
//! let bare = statics(&chassis, &[shell]).unwrap();
//! assert!((bare.share.percent() - 10.0).abs() < 1e-9);
//! ```
//!
//! # Sources
//! - Statics of a rigid body on three supports (any textbook; memory).
//! - Weight distribution and pitch: derived, checked by brute-force sums of forces and moments.
//! - D-value: UN Regulation No. 55 (read in quotation).

mod attitude;
mod d_value;
mod frontal;
mod hitch;
mod input;
mod placement;
mod ratings;
mod sideways;
mod states;
mod statics;
mod table;
mod tail;

pub use attitude::{Attitude, Heights, at_attitude, nose_up_at};
pub use d_value::{d_value, heaviest_trailer};
pub use frontal::{AreaMargin, frontal_area_margin};
pub use hitch::{HitchUp, TowVehicle, hitch_up, restoring_torque};
pub use input::{Chassis, Load, Suspension};
pub use placement::{Allowed, Band, Interval, Movable, allowed_along_floor, axle_for_share};
pub use ratings::{Laden, Margin, Measure, Rating, margins};
pub use sideways::{
    AllowedSideways, SideInterval, SideItem, SideLimits, Zone, allowed_sideways, allowed_zone,
};
pub use states::{Case, Extremes, MOST_STATES, Varying, every_state, extremes};
pub use statics::{Statics, statics, tongue_influence};
pub use table::{LoadTable, over_states, over_states_into};
pub use tail::{Uncoupled, uncoupled};
