//! Layer upon layer on one surface. How a layer is laid is in the module of its kind.

use wainwright_units::{Length, Mass};

use super::foam::{Foam, FoamOptions, foam};
use super::furring::{Furring, FurringOptions, furring};
use super::piece::{Load, Material, Piece, totals};
use super::planks::{PlankOptions, Planks, planks};
use super::sheets::{SheetOptions, Sheets, sheets_on};
use super::surface::{Backing, Surface, most};
use crate::refusal::Refusal;

/// Most layers of a surface.
const MOST_LAYERS: usize = 20;

/// One layer to lay, from the outside inwards.
#[derive(Debug, Clone, PartialEq)]
pub enum Layer {
    /// Battens across the ribs.
    Furring(FurringOptions),
    /// Foam between the ribs, or between the battens when they come before it.
    Foam(FoamOptions),
    /// Planks on the ribs, battens or a carrying sheet.
    Planks(Box<PlankOptions>),
    /// Sheets on the ribs or battens.
    Sheets {
        /// How to lay them.
        options: SheetOptions,
        /// Whether the next layer can be fixed to them anywhere.
        carries: bool,
    },
}

/// One layer, laid.
#[derive(Debug, Clone, PartialEq)]
pub enum Laid {
    /// Battens.
    Furring(Furring),
    /// Foam.
    Foam(Foam),
    /// Planks.
    Planks(Box<Planks>),
    /// Sheets.
    Sheets(Sheets),
}

/// All layers of a surface.
#[derive(Debug, Clone, PartialEq)]
pub struct Lining {
    /// The layers, as they were asked for.
    pub layers: Vec<Laid>,
    /// Mass and centre of all of them.
    pub load: Load,
    /// That mass over the whole surface [kg/m²].
    pub kg_m2: f64,
    /// How far the lining stands off the ribs: all layers but foam \[m\].
    pub depth: Length,
}

/// Lays all layers of a surface.
///
/// A surface without ribs is taken as solid everywhere.
///
/// # Errors
/// As every layer; the place says which one.
pub fn line(surface: &Surface, layers: &[Layer]) -> Result<Lining, Refusal> {
    surface.check()?;
    most("layers", layers.len(), MOST_LAYERS)?;
    let mut backing = if surface.ribs.is_empty() {
        Backing::Whole
    } else {
        surface.rib_backing()
    };
    let mut between = surface.rib_rects();
    let mut laid = Vec::new();
    let mut depth_metres = 0.0;
    for (index, layer) in layers.iter().enumerate() {
        let at_layer = |refusal: Refusal| match refusal.place {
            None => refusal.at("layer", index),
            Some(_) => refusal,
        };
        let one = layer.lay(surface, &backing, &between).map_err(at_layer)?;
        depth_metres += layer.depth();
        match (&one, layer) {
            (Laid::Furring(furring), _) => {
                backing = furring.backing();
                between = furring.rects();
            }
            (Laid::Sheets(_), Layer::Sheets { carries: true, .. }) => backing = Backing::Whole,
            _ => {}
        }
        laid.push(one);
    }
    let load = totals(laid.iter().flat_map(Laid::pieces));
    let area = surface.width.metres() * surface.height.metres();
    Ok(Lining {
        layers: laid,
        kg_m2: load.mass.kilograms() / area,
        load,
        depth: Length::from_metres(depth_metres),
    })
}

impl Layer {
    fn lay(
        &self,
        surface: &Surface,
        backing: &Backing,
        between: &[super::surface::Rect],
    ) -> Result<Laid, Refusal> {
        Ok(match self {
            Layer::Furring(options) => Laid::Furring(furring(surface, options)?),
            Layer::Foam(options) => Laid::Foam(foam(surface, between, options)?),
            Layer::Planks(options) => Laid::Planks(Box::new(planks(surface, backing, options)?)),
            Layer::Sheets { options, .. } => Laid::Sheets(sheets_on(surface, backing, options)?),
        })
    }

    /// What it adds to the depth [m].
    fn depth(&self) -> f64 {
        let metres = |material: &Material| material.thickness.metres();
        match self {
            Layer::Foam(_) => 0.0,
            Layer::Furring(options) => metres(&options.material),
            Layer::Planks(options) => metres(&options.material),
            Layer::Sheets { options, .. } => metres(&options.material),
        }
    }
}

impl Laid {
    /// Its pieces, in order of number.
    pub fn pieces(&self) -> Vec<&Piece> {
        match self {
            Laid::Furring(furring) => furring.battens.iter().map(|one| &one.piece).collect(),
            Laid::Foam(foam) => foam.pieces.iter().collect(),
            Laid::Planks(planks) => planks.planks.iter().map(|one| &one.piece).collect(),
            Laid::Sheets(sheets) => sheets.pieces.iter().collect(),
        }
    }

    /// Its mass \[kg\].
    pub fn mass(&self) -> Mass {
        totals(self.pieces()).mass
    }
}
