//! One piece of any layer: outline, what is cut out of it, mass and centre. How it came about is
//! not here.

use wainwright_units::{Area, Length, Mass};

use super::plane::{Patch, parts};
use super::surface::{Direction, Rect};
use crate::refusal::{Refusal, above_zero};

/// What a layer is made of.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Material {
    /// Its thickness \[m\], above zero.
    pub thickness: Length,
    /// Its density [kg/m³], above zero.
    pub density_kg_m3: f64,
}

/// One numbered piece.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece {
    /// Number within its layer, from 1.
    pub number: usize,
    /// Its outline on the surface.
    pub rect: Rect,
    /// Notches and holes in it, on the surface, apart from one another.
    pub cuts: Vec<Rect>,
    /// What it covers \[m²\].
    pub area: Area,
    /// Its mass \[kg\].
    pub mass: Mass,
    /// Its centre of gravity along the width and along the height \[m\].
    pub centre: (Length, Length),
}

/// Mass and centre of many pieces.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Load {
    /// Their mass \[kg\].
    pub mass: Mass,
    /// Their common centre of gravity on the surface \[m\]; zero without pieces.
    pub centre: (Length, Length),
}

/// Mass of a layer over its area [kg/m²].
///
/// # Errors
/// A thickness or density that is not above zero.
pub fn areal_mass(material: &Material) -> Result<f64, Refusal> {
    above_zero("thickness [m]", material.thickness.metres())?;
    above_zero("density [kg/m³]", material.density_kg_m3)?;
    Ok(material.thickness.metres() * material.density_kg_m3)
}

/// Mass and common centre of pieces.
pub fn totals<'p>(pieces: impl IntoIterator<Item = &'p Piece>) -> Load {
    let (mut kilograms, mut x, mut y) = (0.0, 0.0, 0.0);
    for piece in pieces {
        let mass = piece.mass.kilograms();
        kilograms += mass;
        x += mass * piece.centre.0.metres();
        y += mass * piece.centre.1.metres();
    }
    let over = if kilograms > 0.0 { kilograms } else { 1.0 };
    Load {
        mass: Mass::from_kilograms(kilograms),
        centre: (Length::from_metres(x / over), Length::from_metres(y / over)),
    }
}

impl Piece {
    /// A piece without a number from its outline and what blocks it.
    ///
    /// `area_for_mass` is what a board has beyond its outline \[m²\].
    pub(super) fn cut(
        outline: &Patch,
        blocks: &[Patch],
        runs: Direction,
        kg_m2: f64,
        area_for_mass: f64,
    ) -> Piece {
        let cuts = parts(outline, blocks, false);
        let moment = |patch: &Patch| {
            let area = patch.area();
            let middle = (0.5 * (patch.u0 + patch.u1), 0.5 * (patch.v0 + patch.v1));
            (area, area * middle.0, area * middle.1)
        };
        let (mut area, mut u, mut v) = moment(outline);
        for cut in &cuts {
            let (less, less_u, less_v) = moment(cut);
            (area, u, v) = (area - less, u - less_u, v - less_v);
        }
        let over = if area > 0.0 { area } else { 1.0 };
        let centre = (Length::from_metres(u / over), Length::from_metres(v / over));
        Piece {
            number: 0,
            rect: outline.rect(runs),
            cuts: cuts.iter().map(|cut| cut.rect(runs)).collect(),
            area: Area::from_square_metres(area),
            mass: Mass::from_kilograms(kg_m2 * (area + area_for_mass)),
            centre: match runs {
                Direction::Width => centre,
                Direction::Height => (centre.1, centre.0),
            },
        }
    }
}

/// Sum of the areas of pieces [m²].
pub(super) fn area_of<'p>(pieces: impl IntoIterator<Item = &'p Piece>) -> f64 {
    let pieces = pieces.into_iter();
    pieces.map(|piece| piece.area.square_metres()).sum()
}
