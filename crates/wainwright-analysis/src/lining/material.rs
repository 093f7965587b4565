//! Materials of layers by the names people type. Not here: their figures (a table), anything about heat.

use crate::known::{Basis, Known};
use wainwright_reference::lumber::{LiningMaterial, density};

/// Every name that is understood, in lower case, with the row it stands for.
const NAMES: [(&str, LiningMaterial); 36] = [
    ("spruce", LiningMaterial::SprucePineFir),
    ("pine", LiningMaterial::SprucePineFir),
    ("fir", LiningMaterial::SprucePineFir),
    ("softwood", LiningMaterial::SprucePineFir),
    ("spruce-pine-fir", LiningMaterial::SprucePineFir),
    ("white-pine", LiningMaterial::EasternWhitePine),
    ("eastern-white-pine", LiningMaterial::EasternWhitePine),
    ("cedar", LiningMaterial::WesternRedcedar),
    ("western-redcedar", LiningMaterial::WesternRedcedar),
    ("southern-pine", LiningMaterial::SouthernYellowPine),
    ("southern-yellow-pine", LiningMaterial::SouthernYellowPine),
    ("larch", LiningMaterial::DouglasFirLarch),
    ("douglas-fir", LiningMaterial::DouglasFirLarch),
    ("douglas-fir-larch", LiningMaterial::DouglasFirLarch),
    ("oak", LiningMaterial::Oak),
    ("plywood", LiningMaterial::Plywood),
    ("osb", LiningMaterial::OrientedStrandBoard),
    ("oriented-strand-board", LiningMaterial::OrientedStrandBoard),
    ("particleboard", LiningMaterial::Particleboard),
    ("hardboard", LiningMaterial::Hardboard),
    ("gypsum", LiningMaterial::GypsumBoard),
    ("gypsum-board", LiningMaterial::GypsumBoard),
    ("xps", LiningMaterial::Xps),
    ("eps", LiningMaterial::Eps),
    ("polyiso", LiningMaterial::Polyiso),
    ("polyiso-faced", LiningMaterial::PolyisoFaced),
    ("spray-foam", LiningMaterial::SprayFoam),
    ("steel", LiningMaterial::Steel),
    ("aluminium", LiningMaterial::Aluminium),
    ("aluminum", LiningMaterial::Aluminium),
    ("glass", LiningMaterial::Glass),
    ("pvc", LiningMaterial::Pvc),
    ("hdpe", LiningMaterial::Hdpe),
    ("acrylic", LiningMaterial::Acrylic),
    ("rubber", LiningMaterial::Rubber),
    ("foam-sealant", LiningMaterial::FoamSealant),
];

/// The material of a name; foam boards of polyiso with a bright face are the heavier row.
pub fn material(name: &str, foil: bool) -> Option<LiningMaterial> {
    let name = name.trim().to_lowercase().replace([' ', '_'], "-");
    let found = NAMES.iter().find(|(known, _)| *known == name)?.1;
    Some(match found {
        LiningMaterial::Polyiso if foil => LiningMaterial::PolyisoFaced,
        other => other,
    })
}

/// Names that people may type for a material.
pub fn materials() -> impl Iterator<Item = &'static str> {
    NAMES.iter().map(|(name, _)| *name)
}

/// Whether two names stand for the same material; unknown ones when they are spelled alike.
pub(super) fn same(one: &str, other: &str) -> bool {
    match (material(one, false), material(other, false)) {
        (Some(one), Some(other)) => one == other,
        _ => one.trim().eq_ignore_ascii_case(other.trim()),
    }
}

/// Density of a material by its name \[kg/m³\].
pub(super) fn density_of(name: &str, foil: bool) -> Option<Known<f64>> {
    let row = density(material(name, foil)?)?;
    Some(Known::new(row.value.usual, Basis::Table(row.source)))
}
