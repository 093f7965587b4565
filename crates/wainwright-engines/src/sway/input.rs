//! What the sway engine is told: car, trailer, tyres.
//! No equation is here but that of cornering stiffness from load.

use wainwright_units::{Length, Mass, Ratio, STANDARD_GRAVITY};

use crate::refusal::{Refusal, above_zero, finite, not_below_zero, require};

/// Most trailer axles.
const MOST_AXLES: usize = 6;

/// Both tyres of one axle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Axle {
    /// Side force per slip angle of the whole axle [N/rad], above zero.
    pub newtons_per_radian: f64,
    /// Distance rolled until the force has followed a new slip by 63 % [m]; zero follows at once.
    pub relaxation: Length,
}

/// The tow vehicle.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Car {
    /// Mass [kg], above zero.
    pub mass: Mass,
    /// Moment of inertia about its upright axis [kg·m²], above zero.
    pub yaw_inertia_kg_m2: f64,
    /// Front axle to centre of gravity \[m\].
    pub front_to_centre: Length,
    /// Centre of gravity to rear axle \[m\].
    pub centre_to_rear: Length,
    /// Centre of gravity to ball \[m\].
    pub centre_to_ball: Length,
    /// Front tyres, the compliance of the steering included.
    pub front: Axle,
    /// Rear tyres.
    pub rear: Axle,
}

/// One axle of the trailer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TrailerAxle {
    /// Ball to axle [m], above zero.
    pub from_ball: Length,
    /// Its tyres.
    pub tyres: Axle,
}

/// The trailer.
#[derive(Debug, Clone, PartialEq)]
pub struct Trailer {
    /// Mass [kg], above zero.
    pub mass: Mass,
    /// Moment of inertia about the upright axis through its own centre of gravity [kg·m²], above
    /// zero.
    pub yaw_inertia_kg_m2: f64,
    /// Ball to centre of gravity \[m\].
    pub ball_to_centre: Length,
    /// At least one axle.
    pub axles: Vec<TrailerAxle>,
}

/// Car and trailer coupled.
#[derive(Debug, Clone, PartialEq)]
pub struct Rig {
    /// The tow vehicle.
    pub car: Car,
    /// The trailer.
    pub trailer: Trailer,
    /// Viscous damper in the hitch [N·m·s/rad], zero or above.
    pub hitch_damping: f64,
}

/// Cornering stiffness of an axle from its load and the side force per degree of slip, as a share of
/// that load [N/rad].
#[must_use]
pub fn cornering_stiffness(load: Mass, share_per_degree: Ratio) -> f64 {
    load.kilograms() * STANDARD_GRAVITY * share_per_degree.fraction() * 180.0 / std::f64::consts::PI
}

impl Rig {
    pub(super) fn check(&self) -> Result<(), Refusal> {
        self.check_car()?;
        above_zero("mass of the trailer [kg]", self.trailer.mass.kilograms())?;
        above_zero(
            "yaw inertia of the trailer [kg·m²]",
            self.trailer.yaw_inertia_kg_m2,
        )?;
        finite(
            "ball to centre of gravity of the trailer [m]",
            self.trailer.ball_to_centre.metres(),
        )?;
        not_below_zero("hitch damper [N·m·s/rad]", self.hitch_damping)?;
        let count = self.trailer.axles.len();
        require(
            "number of trailer axles",
            count as f64,
            (1..=MOST_AXLES).contains(&count),
            "1 to 6",
        )?;
        for (index, axle) in self.trailer.axles.iter().enumerate() {
            above_zero("ball to axle [m]", axle.from_ball.metres())
                .and_then(|()| axle.tyres.check())
                .map_err(|refusal| refusal.at("trailer axle", index))?;
        }
        Ok(())
    }

    fn check_car(&self) -> Result<(), Refusal> {
        let car = &self.car;
        above_zero("mass of the car [kg]", car.mass.kilograms())?;
        above_zero("yaw inertia of the car [kg·m²]", car.yaw_inertia_kg_m2)?;
        finite(
            "front axle to centre of gravity [m]",
            car.front_to_centre.metres(),
        )?;
        finite(
            "centre of gravity to rear axle [m]",
            car.centre_to_rear.metres(),
        )?;
        above_zero(
            "wheelbase [m]",
            (car.front_to_centre + car.centre_to_rear).metres(),
        )?;
        finite("centre of gravity to ball [m]", car.centre_to_ball.metres())?;
        car.front
            .check()
            .map_err(|refusal| refusal.at("car axle", 0))?;
        car.rear
            .check()
            .map_err(|refusal| refusal.at("car axle", 1))
    }
}

impl Axle {
    fn check(&self) -> Result<(), Refusal> {
        above_zero("cornering stiffness [N/rad]", self.newtons_per_radian)?;
        not_below_zero("relaxation length [m]", self.relaxation.metres())
    }
}
