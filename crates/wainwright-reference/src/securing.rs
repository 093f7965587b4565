//! Securing: accelerations to hold against, bolts, screws, wood, webbing, friction.
//!
//! Not here: forces and what a fastener holds (engines), whether an item is held well enough (rules).

use wainwright_units::{Area, Force, Length, Mass, Quantity, Ratio};

use crate::id::ids;
use crate::mark::Sourced;
use crate::store::{Topic, find, rows};

ids! {
    /// A set of accelerations to hold cargo against.
    HoldProfile {
        /// United States, against the breaking strength of what holds.
        UsBreaking = "us-breaking",
        /// United States, against its working load limit.
        UsWorking = "us-working",
        /// Guidance for vans up to 3.5 t in Europe.
        EuVan = "eu-van",
        /// Batteries of boats.
        Boat = "boat",
        /// Design target of this project.
        Own = "own",
        /// Low end of what holding in a crash asks for.
        Crash = "crash",
    }
}

ids! {
    /// Strength class of a bolt.
    BoltClass {
        /// Metric 8.8.
        C88 = "8.8",
        /// Stainless A2-70.
        A270 = "a2-70",
        /// Inch grade 2.
        Grade2 = "grade-2",
        /// Inch grade 5.
        Grade5 = "grade-5",
    }
}

ids! {
    /// What a screw holds in.
    Wood {
        /// Softwood of unknown kind.
        Softwood = "softwood",
        /// Hardwood of unknown kind.
        Hardwood = "hardwood",
        /// Plywood: what a formula for solid wood gives is to be lowered by [`plywood_derate`].
        Plywood = "plywood",
        /// Spruce, pine and fir mixed.
        SprucePineFir = "spruce-pine-fir",
        /// Hemlock and fir mixed.
        HemFir = "hem-fir",
        /// Douglas fir and larch.
        DouglasFirLarch = "douglas-fir-larch",
        /// Southern pine.
        SouthernPine = "southern-pine",
        /// Red oak.
        RedOak = "red-oak",
    }
}

ids! {
    /// What lies on what.
    Contact {
        /// Unknown, taken as smooth.
        Smooth = "smooth",
        /// Wood on plywood.
        Wood = "wood",
        /// Plastic on plywood.
        Plastic = "plastic",
        /// Anti-slip mat between.
        RubberMat = "rubber-mat",
    }
}

/// Accelerations to hold against, in multiples of the item's weight.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Hold {
    /// Towards the front.
    pub forward: f64,
    /// Towards the rear.
    pub rearward: f64,
    /// To either side.
    pub sideways: f64,
    /// Upwards, beyond lifting its own weight.
    pub upward: f64,
    /// Largest force asked for whatever the mass; none: no cap.
    pub most: Option<Force>,
}

/// Strength of a class of bolts.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoltFigures {
    /// Stress without lasting stretch [N/mm²].
    pub proof_newtons_per_mm2: f64,
    /// Stress at which it breaks [N/mm²].
    pub tensile_newtons_per_mm2: f64,
    /// Shear strength as a share of that.
    pub shear_share: Ratio,
}

/// A bolt size.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BoltSize {
    /// Name, such as `M8` or `5/16 in`.
    pub name: &'static str,
    /// Nominal diameter.
    pub diameter: Length,
    /// Stress area of the coarse thread.
    pub area: Area,
}

/// Accelerations of a profile.
pub fn hold_profile(profile: HoldProfile) -> Option<Sourced<Hold>> {
    let row = find(Topic::SecuringProfiles, "profile", profile.id())?;
    let pounds = |pounds: f64| Force::parse(&format!("{pounds} lbf")).ok();
    Some(row.sourced(Hold {
        forward: row.number("forward")?,
        rearward: row.number("rearward")?,
        sideways: row.number("sideways")?,
        upward: row.number("upward")?,
        most: row.number("most_lbf").and_then(pounds),
    }))
}

/// Sum of the working load limits over the weight of the cargo, at least.
pub fn lashing_share() -> Option<Sourced<Ratio>> {
    share("lashing-share")
}

/// Safety factor of over-top lashing (dimensionless).
pub fn lashing_safety(forward: bool) -> Option<Sourced<f64>> {
    let id = if forward {
        "lashing-safety-forward"
    } else {
        "lashing-safety-other"
    };
    find(Topic::SecuringShares, "id", id)?.quantity("value", |value| value)
}

/// Strength of a class of bolts.
pub fn bolt_class(class: BoltClass) -> Option<Sourced<BoltFigures>> {
    let row = find(Topic::SecuringBolts, "class", class.id())?;
    Some(row.sourced(BoltFigures {
        proof_newtons_per_mm2: row.number("proof")?,
        tensile_newtons_per_mm2: row.number("tensile")?,
        shear_share: Ratio::from_fraction(row.number("shear_share")?),
    }))
}

/// Every bolt size, metric ones first.
pub fn bolt_sizes() -> Vec<Sourced<BoltSize>> {
    rows(Topic::SecuringStressArea)
        .filter_map(|row| {
            Some(row.sourced(BoltSize {
                name: row.text("name")?,
                diameter: Length::from_millimetres(row.number("diameter_mm")?),
                area: Area::from_square_metres(row.number("area_mm2")? * 1e-6),
            }))
        })
        .collect()
}

/// The listed bolt of this nominal diameter, to a tenth of a millimetre; none for other diameters.
pub fn bolt_size(diameter: Length) -> Option<Sourced<BoltSize>> {
    let wanted = diameter.millimetres();
    bolt_sizes()
        .into_iter()
        .find(|size| (size.value.diameter.millimetres() - wanted).abs() < 0.1)
}

/// Specific gravity of a wood.
pub fn wood_gravity(wood: Wood) -> Option<Sourced<Ratio>> {
    find(Topic::SecuringWood, "wood", wood.id())?.quantity("gravity", Ratio::from_fraction)
}

/// What to multiply a withdrawal formula of solid wood with for plywood.
pub fn plywood_derate() -> Option<Sourced<Ratio>> {
    share("plywood-derate")
}

/// Diameter of a wood screw by its number, such as 10 for #10.
pub fn screw_diameter(number: u32) -> Option<Sourced<Length>> {
    rows(Topic::SecuringScrews)
        .find(|row| row.number("number") == Some(f64::from(number)))?
        .quantity("inches", Length::from_inches)
}

/// Working load limit of webbing without a label; none if narrower than the table.
pub fn webbing_limit(width: Length) -> Option<Sourced<Mass>> {
    let wanted = width.millimetres();
    rows(Topic::SecuringWebbing)
        .filter(|row| {
            row.number("width_mm")
                .is_some_and(|least| least <= wanted + 1e-9)
        })
        .last()?
        .quantity("kg", Mass::from_kilograms)
}

/// Friction between an item and what it stands on (dimensionless).
pub fn friction(contact: Contact) -> Option<Sourced<f64>> {
    find(Topic::SecuringFriction, "contact", contact.id())?.quantity("value", |value| value)
}

fn share(id: &str) -> Option<Sourced<Ratio>> {
    find(Topic::SecuringShares, "id", id)?.quantity("value", Ratio::from_fraction)
}
