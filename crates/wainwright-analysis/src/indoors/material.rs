//! What a layer is made of, as heat and vapour see it: by its name in the list of materials, or the usual one of its
//! kind. Not here: where in the wall it lies (`stack`).

use super::desk::Desk;
use crate::known::{Assumption, Basis, Known};
use wainwright_model::{Id, Layer, LayerKind};
use wainwright_reference::Sourced;
use wainwright_reference::lumber::LiningMaterial;
use wainwright_reference::material::{self, Material, Sheet};
use wainwright_units::ThermalConductivity;

/// What a layer is made of.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Made {
    pub(super) name: Known<String>,
    /// Conductivity; `None` for a film.
    pub(super) conductivity: Option<Known<f64>>,
    /// Vapour resistance for each metre of it; metal and glass are tight whatever their thickness.
    pub(super) vapour: Vapour,
    /// Heat it stores [J/(m³·K)].
    pub(super) stores: f64,
}

/// How a material holds vapour back.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) enum Vapour {
    /// Times still air.
    Factor(f64),
    /// As much as so many metres of still air, whatever its thickness.
    Sheet(f64),
}

impl Vapour {
    /// Still air that holds back as much [m].
    pub(super) fn metres(self, thickness_metres: f64) -> f64 {
        match self {
            Self::Factor(factor) => factor * thickness_metres,
            Self::Sheet(metres) => metres,
        }
    }
}

/// s_d of a sheet [m]; none is as open as air.
pub(super) fn sheet(sheet: Sheet) -> f64 {
    material::sheet_vapour(sheet).map_or(0.0, |row| row.value.metres())
}

/// What a layer is made of; what nobody said is noted.
pub(super) fn made(desk: &mut Desk<'_>, id: &Id, layer: &Layer, of: LayerKind) -> Made {
    let typed = desk.notes.given(&layer.material);
    if let Some(name) = &typed {
        if let Some(film) = Sheet::from_id(&name.value) {
            return film_of(name.clone(), film);
        }
        if let Some(known) = known(&name.value) {
            return solid(desk, id, name.clone(), known, of);
        }
    }
    let usual = usual(of);
    let basis = Basis::Assumed(Assumption::UsualForKind);
    let path = ["layer", id.as_str(), "material"];
    match usual {
        Usual::Film(film) => {
            desk.notes.assume_text(&path, film.id().to_owned(), &basis);
            film_of(Known::new(film.id().to_owned(), basis), film)
        }
        Usual::Solid(known) => {
            desk.notes.assume_text(&path, known.id().to_owned(), &basis);
            let name = Known::new(known.id().to_owned(), basis);
            solid(desk, id, name, known, of)
        }
    }
}

/// The material of a name, in the words of the lining.
fn known(name: &str) -> Option<Material> {
    let lining = crate::lining::material(name, false);
    lining.map_or_else(
        || Material::from_id(name),
        |lining| {
            Some(match lining {
                LiningMaterial::SprucePineFir => Material::Softwood,
                LiningMaterial::EasternWhitePine => Material::WhitePine,
                LiningMaterial::WesternRedcedar => Material::Cedar,
                LiningMaterial::SouthernYellowPine => Material::SouthernPine,
                LiningMaterial::DouglasFirLarch => Material::DouglasFir,
                LiningMaterial::OrientedStrandBoard => Material::Osb,
                LiningMaterial::GypsumBoard => Material::Gypsum,
                other => Material::from_id(other.id())?,
            })
        },
    )
}

enum Usual {
    Film(Sheet),
    Solid(Material),
}

/// What stands in for a layer of which nobody said the material: of those in use the one that does least.
fn usual(of: LayerKind) -> Usual {
    match of {
        LayerKind::Skin => Usual::Solid(Material::Aluminium),
        LayerKind::Foam => Usual::Solid(Material::Eps),
        LayerKind::Planks | LayerKind::Battens => Usual::Solid(Material::Softwood),
        LayerKind::Sheets => Usual::Solid(Material::Plywood),
        LayerKind::Film | LayerKind::Air => Usual::Film(Sheet::LatexPaint),
    }
}

fn film_of(name: Known<String>, film: Sheet) -> Made {
    Made {
        name,
        conductivity: None,
        vapour: Vapour::Sheet(sheet(film)),
        stores: 0.0,
    }
}

fn solid(
    desk: &mut Desk<'_>,
    id: &Id,
    name: Known<String>,
    known: Material,
    of: LayerKind,
) -> Made {
    let table = |row: Sourced<ThermalConductivity>| {
        Known::new(row.value.watts_per_kelvin_metre(), Basis::Table(row.source))
    };
    let conductivity = material::conductivity(known).map(table).or_else(|| {
        // No table has this one: the usual of its kind stands in.
        let other = match usual(of) {
            Usual::Solid(other) => material::conductivity(other)?,
            Usual::Film(_) => return None,
        };
        let value = other.value.watts_per_kelvin_metre();
        let basis = Basis::Assumed(Assumption::UsualForKind);
        let path = ["layer", id.as_str(), "material"];
        let text = format!("conductivity {value} W/(m K)");
        desk.notes.assume_text(&path, text, &basis);
        Some(Known::new(value, basis))
    });
    let vapour = material::vapour_factor(known).map_or_else(
        || Vapour::Sheet(sheet(Sheet::MetalSkin)),
        |row| Vapour::Factor(row.value),
    );
    let density = material::density(known).map_or(0.0, |row| row.value);
    let heat = material::specific_heat(known).map_or(0.0, |row| row.value);
    Made {
        name,
        conductivity,
        vapour,
        stores: density * heat,
    }
}
