//! What a box is lined and insulated with: conductivity, density, how much vapour it holds back,
//! emissivity.
//!
//! Not here: foam around wires with its range (`surroundings`), what screws hold in wood
//! (`securing`), heat and damp (engines).

use wainwright_units::{Length, Ratio, ThermalConductivity};

use crate::id::ids;
use crate::mark::Sourced;
use crate::store::{Topic, find};

ids! {
    /// A material of walls, roof and floor.
    Material {
        /// Softwood, taken as spruce, pine or fir.
        Softwood = "softwood",
        /// Eastern white pine.
        WhitePine = "white-pine",
        /// Western red cedar.
        Cedar = "cedar",
        /// Douglas fir and larch.
        DouglasFir = "douglas-fir",
        /// Southern yellow pine.
        SouthernPine = "southern-pine",
        /// Oak.
        Oak = "oak",
        /// Softwood plywood.
        Plywood = "plywood",
        /// Oriented strand board.
        Osb = "osb",
        /// Gypsum board.
        Gypsum = "gypsum",
        /// Polyisocyanurate board without facing.
        Polyiso = "polyiso",
        /// Polyisocyanurate board with foil on its faces; the foil is a [`Sheet`].
        PolyisoFaced = "polyiso-faced",
        /// Extruded polystyrene.
        Xps = "xps",
        /// Expanded polystyrene.
        Eps = "eps",
        /// Sprayed polyurethane foam; its conductivity is not in the tables.
        SprayFoam = "spray-foam",
        /// Batt of glass fibre.
        GlassFibre = "glass-fibre",
        /// Steel.
        Steel = "steel",
        /// Stainless steel.
        Stainless = "stainless",
        /// Aluminium alloy.
        Aluminium = "aluminium",
        /// PVC.
        Pvc = "pvc",
        /// Polyethylene of high density.
        Hdpe = "hdpe",
        /// Rubber.
        Rubber = "rubber",
        /// Glass.
        Glass = "glass",
    }
}

ids! {
    /// A thin sheet that holds vapour back.
    Sheet {
        /// Aluminium foil.
        AluminiumFoil = "aluminium-foil",
        /// Polyethylene film.
        Polyethylene = "polyethylene",
        /// Skin of metal without open joints.
        MetalSkin = "metal-skin",
        /// Latex paint.
        LatexPaint = "latex-paint",
    }
}

ids! {
    /// A surface that radiates.
    Radiating {
        /// Wood, paint, foam: nearly everything.
        Common = "common",
        /// Bright foil.
        Foil = "foil",
    }
}

/// Thermal conductivity of a material across its thickness.
pub fn conductivity(material: Material) -> Option<Sourced<ThermalConductivity>> {
    find(Topic::MaterialHeat, "material", material.id())?
        .quantity("value", ThermalConductivity::from_watts_per_kelvin_metre)
}

/// Density of a material [kg/m³].
pub fn density(material: Material) -> Option<Sourced<f64>> {
    find(Topic::MaterialDensity, "material", material.id())?.quantity("value", |value| value)
}

/// Heat that a kilogram of a material takes up with each kelvin [J/(kg·K)].
pub fn specific_heat(material: Material) -> Option<Sourced<f64>> {
    find(Topic::MaterialWarmth, "material", material.id())?.quantity("value", |value| value)
}

/// Vapour resistance factor μ of a material: how many times that of still air; none for metal and
/// glass, which count as tight ([`Sheet::MetalSkin`]).
pub fn vapour_factor(material: Material) -> Option<Sourced<f64>> {
    find(Topic::MaterialVapour, "material", material.id())?.quantity("value", |value| value)
}

/// Thickness of still air that holds back as much vapour as a sheet, s_d.
///
/// It may be longer than any length a person types, so it is no length to show.
pub fn sheet_vapour(sheet: Sheet) -> Option<Sourced<Length>> {
    find(Topic::MaterialSheet, "sheet", sheet.id())?.quantity("value", Length::from_metres)
}

/// Emissivity of a surface.
pub fn emissivity(surface: Radiating) -> Option<Sourced<Ratio>> {
    find(Topic::MaterialEmissivity, "surface", surface.id())?
        .quantity("value", Ratio::from_fraction)
}
