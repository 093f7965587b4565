//! What a wall, roof or floor is made of, outside first, for heat and for damp alike. Not here: what
//! follows from it.

use wainwright_units::{Length, Ratio, Temperature, ThermalConductivity};

use super::air_layer::air_layer;
use crate::refusal::{Refusal, above_zero, finite, not_below_zero, require};

/// How far the shares of the sections may be from one together.
const SHARES_OPEN: f64 = 1e-6;

/// Which way the heat goes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Flow {
    /// Through a wall.
    Horizontal,
    /// Upwards, as through a roof in winter.
    Up,
    /// Downwards, as through a floor in winter and a roof in summer.
    Down,
}

/// Resistance between a surface and the air before it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Films {
    /// Inside [m²K/W], zero or above.
    pub inside: f64,
    /// Outside [m²K/W], zero or above.
    pub outside: f64,
}

/// What a layer is made of, as heat sees it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Matter {
    /// A solid or foam.
    Solid {
        /// Conductivity [W/(m·K)], above zero.
        conductivity: ThermalConductivity,
    },
    /// Something whose resistance is known.
    Known {
        /// Resistance [m²K/W], zero or above.
        m2_kelvin_per_watt: f64,
    },
    /// Air.
    Air {
        /// Emissivity of the surface on its outer side, above 0 to 1.
        outer_emissivity: Ratio,
        /// Emissivity of the surface on its inner side, above 0 to 1.
        inner_emissivity: Ratio,
        /// How freely outside air gets in.
        gaps: Gaps,
    },
}

/// How freely outside air gets into an air layer.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Gaps {
    /// Not at all.
    Closed,
    /// Through joints: half the resistance counts.
    Slight,
    /// Through more than 1500 mm² of openings per metre: what is outside of it does not count.
    Open,
}

/// One layer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Layer {
    /// Thickness [m], zero or above; above zero unless the resistance is known.
    pub thickness: Length,
    /// What it is made of.
    pub matter: Matter,
    /// Thickness of still air that lets as little vapour through, s_d = μ·d [m], zero or above.
    pub vapour_metres: f64,
}

/// One way through the build-up: between the ribs, or at a rib.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// Its share of the area.
    pub share: Ratio,
    /// Layers, outside first.
    pub layers: Vec<Layer>,
}

/// Metal ribs that bridge some layers: hat sections, tubes or channels.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MetalRibs {
    /// Middle of one to the middle of the next [m], above zero.
    pub spacing: Length,
    /// Width of the flange that touches the next layer [m], above zero.
    pub flange: Length,
    /// Thickness of the metal [m], above zero.
    pub sheet: Length,
    /// Webs from flange to flange: one for a channel, two for a tube or hat.
    pub webs: usize,
    /// Conductivity of the metal [W/(m·K)], above zero.
    pub conductivity: ThermalConductivity,
    /// s_d of the metal [m], zero or above; 1500 m counts as tight.
    pub vapour_metres: f64,
    /// First layer that the rib bridges, counted from 0 at the outside.
    pub first_layer: usize,
    /// Last layer that it bridges.
    pub last_layer: usize,
}

/// A wall, roof or floor.
#[derive(Debug, Clone, PartialEq)]
pub struct BuildUp {
    /// Which way the heat goes.
    pub flow: Flow,
    /// Mean temperature at which air layers are taken; 10 °C in the standard.
    pub air_layers_at: Temperature,
    /// Sections side by side, with equally many layers each; wood ribs are a section.
    pub sections: Vec<Section>,
    /// Metal ribs; then there is one section, the one between them.
    pub metal: Option<MetalRibs>,
}

/// A section in numbers.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Resolved {
    /// Resistance of each layer [m²K/W].
    pub resistances: Vec<f64>,
    /// s_d of each layer [m].
    pub vapour_metres: Vec<f64>,
    /// Films, the outer one that of still air when an open air layer stands before it.
    pub films: Films,
}

impl Films {
    pub(crate) fn check(self) -> Result<(), Refusal> {
        not_below_zero("inside film [m²K/W]", self.inside)?;
        not_below_zero("outside film [m²K/W]", self.outside)
    }
}

impl Layer {
    /// A solid of a thickness, a conductivity and a vapour resistance factor μ.
    #[must_use]
    pub fn solid(thickness: Length, conductivity: ThermalConductivity, mu: f64) -> Self {
        Self {
            thickness,
            matter: Matter::Solid { conductivity },
            vapour_metres: mu * thickness.metres(),
        }
    }

    /// Something of a known resistance [m²K/W] and s_d [m], such as a foil or a published layer.
    #[must_use]
    pub const fn known(m2_kelvin_per_watt: f64, vapour_metres: f64) -> Self {
        Self {
            thickness: Length::ZERO,
            matter: Matter::Known { m2_kelvin_per_watt },
            vapour_metres,
        }
    }

    /// Resistance [m²K/W]; nothing is said of what lies outside an open air layer.
    fn resistance(&self, flow: Flow, air_at: Temperature) -> Result<f64, Refusal> {
        let metres = self.thickness.metres();
        not_below_zero("thickness of the layer [m]", metres)?;
        not_below_zero("s_d of the layer [m]", self.vapour_metres)?;
        match self.matter {
            Matter::Solid { conductivity } => {
                let watts = conductivity.watts_per_kelvin_metre();
                above_zero("conductivity [W/(m·K)]", watts)?;
                above_zero("thickness of the layer [m]", metres)?;
                Ok(metres / watts)
            }
            Matter::Known { m2_kelvin_per_watt } => {
                not_below_zero("resistance of the layer [m²K/W]", m2_kelvin_per_watt)?;
                Ok(m2_kelvin_per_watt)
            }
            Matter::Air {
                outer_emissivity,
                inner_emissivity,
                gaps,
            } => {
                let still = air_layer(
                    self.thickness,
                    flow,
                    air_at,
                    outer_emissivity,
                    inner_emissivity,
                )?;
                Ok(match gaps {
                    Gaps::Closed => still,
                    Gaps::Slight => 0.5 * still,
                    Gaps::Open => 0.0,
                })
            }
        }
    }

    /// Whether outside air moves freely in it.
    fn is_open(&self) -> bool {
        matches!(
            self.matter,
            Matter::Air {
                gaps: Gaps::Open,
                ..
            }
        )
    }
}

impl Section {
    /// The section in numbers.
    pub(crate) fn resolve(
        &self,
        flow: Flow,
        air_at: Temperature,
        films: Films,
    ) -> Result<Resolved, Refusal> {
        films.check()?;
        let mut resistances = Vec::with_capacity(self.layers.len());
        for (index, layer) in self.layers.iter().enumerate() {
            let found = layer.resistance(flow, air_at);
            resistances.push(found.map_err(|refusal| refusal.at("layer", index))?);
        }
        let mut vapour_metres: Vec<f64> = self
            .layers
            .iter()
            .map(|layer| layer.vapour_metres)
            .collect();
        let Some(open) = self.layers.iter().rposition(Layer::is_open) else {
            return Ok(Resolved {
                resistances,
                vapour_metres,
                films,
            });
        };
        resistances
            .iter_mut()
            .take(open + 1)
            .for_each(|value| *value = 0.0);
        vapour_metres
            .iter_mut()
            .take(open + 1)
            .for_each(|value| *value = 0.0);
        Ok(Resolved {
            resistances,
            vapour_metres,
            films: Films {
                inside: films.inside,
                outside: films.inside,
            },
        })
    }
}

impl Resolved {
    /// Inside air to outside air [m²K/W].
    pub(crate) fn total(&self) -> f64 {
        self.films.outside + self.resistances.iter().sum::<f64>() + self.films.inside
    }
}

impl BuildUp {
    /// The same with one layer of another thickness in every section; its s_d follows.
    ///
    /// # Errors
    /// No such layer, a thickness that is not above zero, or a layer of known resistance.
    pub fn with_thickness(&self, layer: usize, thickness: Length) -> Result<Self, Refusal> {
        above_zero("thickness of the layer [m]", thickness.metres())?;
        let mut changed = self.clone();
        for section in &mut changed.sections {
            let count = section.layers.len();
            let Some(found) = section.layers.get_mut(layer) else {
                return Err(Refusal::new(
                    "layer, counted from 0",
                    layer as f64,
                    if count == 0 {
                        "a section with layers"
                    } else {
                        "one of the layers"
                    },
                ));
            };
            let before = found.thickness.metres();
            let solid = !matches!(found.matter, Matter::Known { .. });
            require(
                "thickness of the layer [m]",
                before,
                solid && before > 0.0,
                "a layer with a thickness, not one of known resistance",
            )?;
            found.vapour_metres *= thickness.metres() / before;
            found.thickness = thickness;
        }
        Ok(changed)
    }

    /// Every section in numbers, after a check of shares and counts.
    pub(crate) fn resolve(&self, films: Films) -> Result<Vec<Resolved>, Refusal> {
        let count = self
            .sections
            .first()
            .map_or(0, |section| section.layers.len());
        require("number of layers", count as f64, count > 0, "one or more")?;
        let mut shares = 0.0;
        let mut resolved = Vec::with_capacity(self.sections.len());
        for (index, section) in self.sections.iter().enumerate() {
            let at = |refusal: Refusal| refusal.at("section", index);
            let own = section.layers.len();
            require(
                "number of layers",
                own as f64,
                own == count,
                "as many as in the others",
            )
            .map_err(at)?;
            finite("share of the area", section.share.fraction()).map_err(at)?;
            not_below_zero("share of the area", section.share.fraction()).map_err(at)?;
            shares += section.share.fraction();
            resolved.push(section.resolve(self.flow, self.air_layers_at, films)?);
        }
        require(
            "shares of the sections together",
            shares,
            (shares - 1.0).abs() <= SHARES_OPEN,
            "1",
        )?;
        let lone = self.metal.is_none() || self.sections.len() == 1;
        require(
            "number of sections",
            self.sections.len() as f64,
            lone,
            "one beside metal ribs",
        )?;
        Ok(resolved)
    }
}
