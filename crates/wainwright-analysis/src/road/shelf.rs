//! Rows of the reference tables that the road study uses, read once: a drag asks for them at every move of the hand.
//! Not here: what is done with them.

use std::sync::OnceLock;
use wainwright_engines::tie_down::{BoltMetal, Profile};
use wainwright_model::{Ground, HoldAgainst, TongueAdvice};
use wainwright_reference::box_trailer::{BoxTrailer, box_trailers};
use wainwright_reference::brake_law::{BrakeLaw, brake_laws};
use wainwright_reference::road::{self, DragShape, FuelKind, FuelLine, Rolling};
use wainwright_reference::securing::{
    self, BoltClass, BoltSize, Contact, Hold, HoldProfile, Wood, bolt_sizes,
};
use wainwright_reference::tow_vehicle::{
    self, Loading, VehicleClass, VehicleFigures, vehicle_class,
};
use wainwright_reference::towing::{
    SwayDamping, TongueBand, TowLimit, TowProfile, sway_damping, tongue_band, tow_limit,
};
use wainwright_reference::tyre::{self, TyreKind};
use wainwright_reference::{Sourced, water};
use wainwright_units::{Area, Force, Length, Ratio};

/// The rows. Each is `None` when its table lacks it, which the tests of the reference rule out.
pub(crate) struct Shelf {
    pub(crate) boxes: Vec<Sourced<BoxTrailer>>,
    pub(crate) laws: Vec<Sourced<BrakeLaw>>,
    bands: Vec<(TowProfile, TongueBand)>,
    profiles: Vec<(HoldAgainst, Sourced<Hold>)>,
    woods: Vec<(Ground, Sourced<Ratio>)>,
    bolts: Vec<Sourced<BoltSize>>,
    pub(crate) bolt_metal: Option<Sourced<BoltMetal>>,
    pub(crate) plywood: Option<Sourced<Ratio>>,
    pub(crate) friction: Option<Sourced<f64>>,
    pub(crate) safety_forward: Option<Sourced<f64>>,
    pub(crate) safety_sideways: Option<Sourced<f64>>,
    pub(crate) vehicle: Option<Sourced<VehicleFigures>>,
    pub(crate) yaw_ratio: Option<Sourced<f64>>,
    pub(crate) overhang: Option<Sourced<Length>>,
    pub(crate) sway: Option<SwayDamping>,
    pub(crate) cornering: Option<Sourced<Ratio>>,
    pub(crate) relaxation: Option<Sourced<Length>>,
    pub(crate) front_axle: Option<Sourced<Ratio>>,
    pub(crate) passenger_tyre: Option<Sourced<f64>>,
    pub(crate) softness: Option<Sourced<Ratio>>,
    pub(crate) water: Option<Sourced<f64>>,
    pub(crate) rolling_car: Option<Sourced<Ratio>>,
    pub(crate) rolling_trailer: Option<Sourced<Ratio>>,
    pub(crate) drag_car: Option<Sourced<Area>>,
    pub(crate) drag_small: Option<Sourced<Area>>,
    pub(crate) drag_tall: Option<Sourced<Area>>,
    pub(crate) heat: Option<Sourced<f64>>,
    pub(crate) engine: Option<Sourced<FuelLine>>,
    pub(crate) air: Option<Sourced<f64>>,
}

/// The rows, read at the first call.
pub(crate) fn shelf() -> &'static Shelf {
    static SHELF: OnceLock<Shelf> = OnceLock::new();
    SHELF.get_or_init(read)
}

impl Shelf {
    /// The band of an adviser.
    pub(crate) fn band(&self, advice: TongueAdvice) -> Option<&TongueBand> {
        let wanted = profile_of(advice);
        let found = self.bands.iter().find(|(profile, _)| *profile == wanted);
        found.map(|(_, band)| band)
    }

    /// The accelerations of a profile.
    pub(crate) fn profile(&self, against: HoldAgainst) -> Option<Sourced<Hold>> {
        let found = self.profiles.iter().find(|(own, _)| *own == against);
        found.map(|(_, hold)| *hold)
    }

    /// Specific gravity of what screws go into; `None` for metal.
    pub(crate) fn wood(&self, ground: Ground) -> Option<Sourced<Ratio>> {
        let found = self.woods.iter().find(|(own, _)| *own == ground);
        found.map(|(_, gravity)| *gravity)
    }

    /// The bolt of a diameter, to a tenth of a millimetre.
    pub(crate) fn bolt(&self, diameter: Length) -> Option<Sourced<BoltSize>> {
        let near = |size: &&Sourced<BoltSize>| {
            (size.value.diameter - diameter).abs() < Length::from_millimetres(0.1)
        };
        self.bolts.iter().find(near).copied()
    }
}

/// The reference's name of an adviser.
pub(crate) const fn profile_of(advice: TongueAdvice) -> TowProfile {
    match advice {
        TongueAdvice::Us => TowProfile::Us,
        TongueAdvice::Eu => TowProfile::Eu,
        TongueAdvice::Uk => TowProfile::Uk,
        TongueAdvice::Au => TowProfile::Au,
    }
}

/// The accelerations as the engine takes them.
pub(crate) const fn engine_profile(hold: Hold) -> Profile {
    Profile {
        forward: hold.forward,
        rearward: hold.rearward,
        sideways: hold.sideways,
        upward: hold.upward,
    }
}

/// Most force a profile asks of one thing.
pub(crate) const fn most_of(hold: Hold) -> Option<Force> {
    hold.most
}

fn read() -> Shelf {
    let bands = TowProfile::ALL.iter();
    let against = HoldAgainst::ALL.iter();
    Shelf {
        boxes: box_trailers(),
        laws: brake_laws(),
        bands: bands
            .filter_map(|profile| Some((*profile, tongue_band(*profile)?)))
            .collect(),
        profiles: against
            .filter_map(|own| Some((*own, securing::hold_profile(hold_profile_of(*own))?)))
            .collect(),
        woods: Ground::ALL
            .iter()
            .filter_map(|ground| Some((*ground, securing::wood_gravity(wood_of(*ground)?)?)))
            .collect(),
        bolts: bolt_sizes(),
        bolt_metal: weakest_bolt(),
        plywood: securing::plywood_derate(),
        friction: securing::friction(Contact::Smooth),
        safety_forward: securing::lashing_safety(true),
        safety_sideways: securing::lashing_safety(false),
        vehicle: vehicle_class(VehicleClass::MidSuv, Loading::DriverOnly),
        yaw_ratio: tow_vehicle::yaw_inertia_ratio().map(|row| row.map(|span| span.usual)),
        overhang: tow_vehicle::ball_overhang().map(|row| row.map(|span| span.usual)),
        sway: sway_damping(),
        cornering: tyre::cornering_stiffness(TyreKind::Radial).map(|row| row.map(|s| s.usual)),
        relaxation: tyre::relaxation_length().map(|row| row.map(|span| span.usual)),
        front_axle: tyre::front_axle_factor(),
        passenger_tyre: tyre::passenger_tyre_factor(),
        softness: tow_limit(TowLimit::TiltShare),
        water: water::water_density(),
        rolling_car: road::rolling_coefficient(Rolling::Car).map(|row| row.map(|s| s.usual)),
        rolling_trailer: road::rolling_coefficient(Rolling::Trailer)
            .map(|row| row.map(|s| s.usual)),
        drag_car: road::drag_area(DragShape::MidSuv).map(|row| row.map(|s| s.usual)),
        drag_small: road::drag_area(DragShape::SmallBox).map(|row| row.map(|s| s.usual)),
        drag_tall: road::drag_area(DragShape::FullHeightBox).map(|row| row.map(|s| s.usual)),
        heat: road::heating_value(FuelKind::Gasoline).map(|row| row.map(|s| s.usual)),
        engine: road::fuel_line(),
        air: road::air_density(),
    }
}

/// The weakest listed metal: nobody marks in a project what is stamped on a bolt's head.
fn weakest_bolt() -> Option<Sourced<BoltMetal>> {
    let found = BoltClass::ALL
        .iter()
        .filter_map(|c| securing::bolt_class(*c));
    let weakest = found.min_by(|one, other| {
        let proof = |row: &Sourced<securing::BoltFigures>| row.value.proof_newtons_per_mm2;
        proof(one).total_cmp(&proof(other))
    })?;
    Some(weakest.map(|figures| BoltMetal {
        proof_newtons_per_mm2: figures.proof_newtons_per_mm2,
        tensile_newtons_per_mm2: figures.tensile_newtons_per_mm2,
        shear_share: figures.shear_share,
    }))
}

const fn hold_profile_of(against: HoldAgainst) -> HoldProfile {
    match against {
        HoldAgainst::Road => HoldProfile::UsBreaking,
        HoldAgainst::Van => HoldProfile::EuVan,
        HoldAgainst::Boat => HoldProfile::Boat,
        HoldAgainst::ThreeG => HoldProfile::Own,
    }
}

const fn wood_of(ground: Ground) -> Option<Wood> {
    match ground {
        Ground::Frame => None,
        Ground::Plywood => Some(Wood::Plywood),
        Ground::Softwood => Some(Wood::Softwood),
        Ground::Hardwood => Some(Wood::Hardwood),
    }
}
