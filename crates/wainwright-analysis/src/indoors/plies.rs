//! Planes of a side as sections of the heat engine: between the battens and at them, or between metal ribs. Not here:
//! which planes there are (`stack`).

use super::material;
use super::stack::Plane;
use crate::result::indoors::RibsFound;
use wainwright_engines::heat_loss::{BuildUp, Flow, Layer as Ply, Matter, MetalRibs, Section};
use wainwright_reference::material::{Material, Sheet, conductivity};
use wainwright_units::{Ratio, Temperature, ThermalConductivity};

/// Mean temperature at which air layers are taken (ISO 6946).
const AIR_AT: Temperature = Temperature::from_celsius(10.0);
/// Webs of a rib that is a tube or a hat.
const WEBS: usize = 2;

/// Layers of the engine, in both sections.
pub(super) struct Plies {
    /// Whether battens are a section of their own: no metal ribs are there.
    apart: bool,
    share: Ratio,
    clear: Vec<Ply>,
    wood: Vec<Ply>,
    /// For each layer the plane it is part of.
    pub(super) of: Vec<usize>,
}

impl Plies {
    pub(super) const fn new(apart: bool) -> Self {
        Self {
            apart,
            share: Ratio::ZERO,
            clear: Vec::new(),
            wood: Vec::new(),
            of: Vec::new(),
        }
    }

    pub(super) fn add(&mut self, index: usize, plane: &Plane) {
        let (clear, wood) = match plane.beside {
            Some((share, wood)) if self.apart => {
                self.share = share;
                (plane.ply, wood)
            }
            Some((share, wood)) => {
                let mean = mean(plane.ply, wood, share);
                (mean, mean)
            }
            None => (plane.ply, plane.ply),
        };
        self.push(index, clear, wood);
        if plane.foil {
            let foil = Ply::known(0.0, material::sheet(Sheet::AluminiumFoil));
            let at_wood = if plane.beside.is_some() {
                Ply::known(0.0, 0.0)
            } else {
                foil
            };
            self.push(index, foil, at_wood);
        }
    }

    fn push(&mut self, index: usize, clear: Ply, wood: Ply) {
        self.clear.push(clear);
        self.wood.push(wood);
        self.of.push(index);
    }

    pub(super) fn build_up(&self, flow: Flow, ribs: Option<&RibsFound>) -> BuildUp {
        let section = |share, layers: &[Ply]| Section {
            share,
            layers: layers.to_vec(),
        };
        let sections = if self.share > Ratio::ZERO {
            let rest = Ratio::from_fraction(1.0 - self.share.fraction());
            vec![section(rest, &self.clear), section(self.share, &self.wood)]
        } else {
            vec![section(Ratio::ONE, &self.clear)]
        };
        BuildUp {
            flow,
            air_layers_at: AIR_AT,
            sections,
            metal: ribs.and_then(|ribs| self.metal(ribs)),
        }
    }

    fn metal(&self, ribs: &RibsFound) -> Option<MetalRibs> {
        let sheet = ribs.sheet.as_ref().filter(|_| ribs.metal)?;
        let steel = conductivity(Material::Steel)?.value;
        let first = |plane| self.of.iter().position(|of| *of == plane);
        let last = |plane| self.of.iter().rposition(|of| *of == plane);
        Some(MetalRibs {
            spacing: ribs.spacing.value,
            flange: ribs.width.value,
            sheet: sheet.value,
            webs: WEBS,
            conductivity: steel,
            vapour_metres: material::sheet(Sheet::MetalSkin),
            first_layer: first(ribs.bridges.0)?,
            last_layer: last(ribs.bridges.1)?,
        })
    }
}

/// A plane of fill and wood as one layer: metal ribs leave room for one section only.
fn mean(fill: Ply, wood: Ply, share: Ratio) -> Ply {
    let (Matter::Solid { conductivity: a }, Matter::Solid { conductivity: b }) =
        (fill.matter, wood.matter)
    else {
        return fill;
    };
    let part = share.fraction();
    let both = (1.0 - part) * a.watts_per_kelvin_metre() + part * b.watts_per_kelvin_metre();
    Ply {
        matter: Matter::Solid {
            conductivity: ThermalConductivity::from_watts_per_kelvin_metre(both),
        },
        ..fill
    }
}
