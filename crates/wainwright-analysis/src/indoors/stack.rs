//! The layers of a side as the heat engine takes them: what lies between ribs and battens, what bridges it, which
//! air gaps follow. Not here: how large the side is, what passes through it.

use super::desk::{Desk, films};
use super::material::{self, Made};
use super::plies::Plies;
use crate::known::{Assumption, Known};
use crate::result::indoors::{RibsFound, SideLayer};
use wainwright_engines::heat_loss::{BuildUp, Gaps, Layer as Ply, Matter};
use wainwright_model::{FieldExt, Id, Layer, LayerKind, Side};
use wainwright_reference::material::{Radiating, emissivity};
use wainwright_units::{Length, Ratio, ThermalConductivity};

/// What stands in for ribs and battens nobody measured: those of common box trailers (judgement).
const USUAL_SPACING: Length = Length::from_metres(0.4064);
const USUAL_WIDTH: Length = Length::from_metres(0.0254);
const USUAL_SHEET: Length = Length::from_metres(0.0015);
const USUAL_BATTEN: Length = Length::from_metres(0.0381);
/// Layers thinner than this are nothing \[m\].
const NOTHING: f64 = 1e-6;

/// A side as the engines take it.
pub(super) struct Stack {
    pub(super) layers: Vec<SideLayer>,
    pub(super) build_up: BuildUp,
    /// For each layer of the engine the layer of the side it is part of.
    pub(super) of: Vec<usize>,
    /// Heat stored in each layer of the side for each square metre [J/(m²·K)].
    pub(super) stores: Vec<f64>,
    /// What bridges it, its share still open.
    pub(super) ribs: Option<RibsFound>,
}

/// The layers of a side; `None` when none is described.
pub(super) fn stack(desk: &mut Desk<'_>, side: Side) -> Option<Stack> {
    let project = desk.project;
    let here = |layer: &Layer| layer.on.value().is_some_and(|on| on.contains(&side));
    let mut own: Vec<(&Id, &Layer)> = project.layers.iter().filter(|(_, l)| here(l)).collect();
    own.sort_by_key(|(_, layer)| layer.order.value().copied().unwrap_or(u32::MAX));
    if own.is_empty() {
        return None;
    }
    let cavity = cavity(desk, side, &own);
    let mut pile = Pile {
        planes: Vec::new(),
        first_battens: None,
        ribs_left: cavity
            .as_ref()
            .map_or(0.0, |ribs| ribs.depth.value.metres()),
        battens: None,
    };
    for (id, layer) in &own {
        pile.lay(desk, id, layer);
    }
    (!pile.planes.is_empty()).then(|| pile.finish(side, cavity))
}

/// Ribs of the trailer behind the lining of a side.
struct Cavity {
    spacing: Known<Length>,
    width: Known<Length>,
    depth: Known<Length>,
    sheet: Known<Length>,
}

/// The floor lies on its beams; all other sides have ribs once anything but the skin is on them, unless the first of
/// it are battens and no rib is known.
fn cavity(desk: &mut Desk<'_>, side: Side, own: &[(&Id, &Layer)]) -> Option<Cavity> {
    let trailer = &desk.project.trailer;
    let inner = own
        .iter()
        .filter_map(|(_, layer)| Some((layer.of.value()?, *layer)))
        .find(|(of, _)| **of != LayerKind::Skin);
    let (first, layer) = inner?;
    let known = trailer.rib_depth.is_some() || trailer.rib_spacing.is_some();
    if side == Side::Floor || (!known && *first != LayerKind::Foam) {
        return None;
    }
    let usual_depth = layer.thickness.value().copied().unwrap_or(USUAL_WIDTH);
    let usual = Assumption::UsualForKind;
    let mut given = |field, name: &str, stand_in| {
        let path = ["trailer", name];
        let told = desk.notes.assumed.iter().any(|one| one.path == path);
        match desk.notes.given(field) {
            Some(known) => known,
            None if told => Known::assumed(stand_in, usual),
            None => desk.notes.assume(&path, stand_in, usual),
        }
    };
    Some(Cavity {
        depth: given(&trailer.rib_depth, "rib_depth", usual_depth),
        spacing: given(&trailer.rib_spacing, "rib_spacing", USUAL_SPACING),
        width: given(&trailer.rib_width, "rib_width", USUAL_WIDTH),
        sheet: given(&trailer.rib_metal, "rib_metal", USUAL_SHEET),
    })
}

/// One plane of the side.
pub(super) struct Plane {
    layer: SideLayer,
    pub(super) ply: Ply,
    /// Foil on its inner face.
    pub(super) foil: bool,
    /// Battens beside it: their share, and themselves.
    pub(super) beside: Option<(Ratio, Ply)>,
    /// Within the depth of the metal ribs.
    bridged: bool,
    stores: f64,
}

/// Battens whose plane is being filled.
struct Battens {
    left: f64,
    share: Ratio,
    conductivity: ThermalConductivity,
    vapour: material::Vapour,
}

struct Pile {
    planes: Vec<Plane>,
    /// Spacing and width of the first battens.
    first_battens: Option<(Known<Length>, Known<Length>)>,
    /// Depth of the ribs that is not filled yet \[m\].
    ribs_left: f64,
    battens: Option<Battens>,
}

impl Pile {
    fn lay(&mut self, desk: &mut Desk<'_>, id: &Id, layer: &Layer) {
        let name = id.as_str();
        let Some(of) = layer.of.value().copied() else {
            desk.lack(&["layer", name, "of"], "a kind of layer");
            return;
        };
        if of == LayerKind::Film {
            self.close();
            let made = material::made(desk, id, layer, of);
            self.film(desk, id, layer, made);
            return;
        }
        let Some(thickness) = desk.notes.given(&layer.thickness) else {
            desk.lack(&["layer", name, "thickness"], "a thickness");
            return;
        };
        match of {
            LayerKind::Battens => self.battens(desk, id, layer, thickness.value),
            LayerKind::Air => self.between(desk, id, layer, &thickness, None),
            LayerKind::Foam => {
                let made = material::made(desk, id, layer, of);
                self.between(desk, id, layer, &thickness, Some(made));
            }
            LayerKind::Planks | LayerKind::Sheets => {
                self.close();
                let made = material::made(desk, id, layer, of);
                self.push(desk, id, layer, &thickness, Some(&made), false);
            }
            LayerKind::Skin | LayerKind::Film => {
                let made = material::made(desk, id, layer, of);
                self.push(desk, id, layer, &thickness, Some(&made), false);
            }
        }
    }

    fn battens(&mut self, desk: &mut Desk<'_>, id: &Id, layer: &Layer, thickness: Length) {
        self.close();
        let made = material::made(desk, id, layer, LayerKind::Battens);
        let usual = Assumption::UsualForKind;
        let path = |field| ["layer", id.as_str(), field];
        let width = desk
            .notes
            .given_or(&layer.width, &path("width"), USUAL_BATTEN, usual);
        let spacing = desk
            .notes
            .given_or(&layer.spacing, &path("spacing"), USUAL_SPACING, usual);
        let share = (width.value.metres() / spacing.value.metres().max(NOTHING)).clamp(0.0, 1.0);
        let watts = made.conductivity.map_or(0.12, |known| known.value);
        if self.first_battens.is_none() {
            self.first_battens = Some((spacing, width));
        }
        self.battens = Some(Battens {
            left: thickness.metres(),
            share: Ratio::from_fraction(share),
            conductivity: ThermalConductivity::from_watts_per_kelvin_metre(watts),
            vapour: made.vapour,
        });
    }

    /// What goes between battens or ribs as far as they reach, and goes on beyond them.
    fn between(
        &mut self,
        desk: &mut Desk<'_>,
        id: &Id,
        layer: &Layer,
        thickness: &Known<Length>,
        made: Option<Made>,
    ) {
        let mut left = thickness.value.metres();
        let room = self
            .battens
            .as_ref()
            .map_or(self.ribs_left, |battens| battens.left);
        let within = left.min(room);
        if within > NOTHING {
            let part = Known::new(Length::from_metres(within), thickness.basis.clone());
            self.push(desk, id, layer, &part, made.as_ref(), true);
            left -= within;
        }
        if left > NOTHING {
            let part = Known::new(Length::from_metres(left), thickness.basis.clone());
            self.push(desk, id, layer, &part, made.as_ref(), false);
        }
    }

    /// One plane. `within` is between the battens or ribs.
    fn push(
        &mut self,
        desk: &mut Desk<'_>,
        id: &Id,
        layer: &Layer,
        thickness: &Known<Length>,
        made: Option<&Made>,
        within: bool,
    ) {
        let label = desk.project.label_or_id("layer", id.as_str()).to_owned();
        let foil = layer.foil.value() == Some(&true);
        let of = layer.of.value().copied().unwrap_or(LayerKind::Air);
        let metres = thickness.value.metres();
        let watts = made.and_then(|made| made.conductivity.as_ref());
        let matter = match watts {
            Some(known) => Matter::Solid {
                conductivity: ThermalConductivity::from_watts_per_kelvin_metre(known.value),
            },
            None if made.is_some() => Matter::Known {
                m2_kelvin_per_watt: 0.0,
            },
            None => self.air(),
        };
        let vapour = made.map_or(metres, |made| made.vapour.metres(metres));
        let shown = SideLayer {
            layer: Some(id.clone()),
            label,
            of,
            material: made.map(|made| made.name.clone()),
            thickness: thickness.clone(),
            conductivity: watts.cloned(),
            resistance: 0.0,
            vapour_metres: vapour,
            foil,
            battens: None,
            faces: None,
        };
        let ply = Ply {
            thickness: thickness.value,
            matter,
            vapour_metres: vapour,
        };
        let stores = made.map_or(0.0, |made| made.stores * metres);
        self.place(shown, ply, stores, within);
    }

    /// Puts a plane in, beside battens or within the ribs where it lies between them.
    fn place(&mut self, mut shown: SideLayer, ply: Ply, stores: f64, within: bool) {
        let metres = ply.thickness.metres();
        let (mut beside, mut bridged) = (None, false);
        match &mut self.battens {
            Some(battens) if within => {
                battens.left -= metres;
                let wood = Ply {
                    thickness: ply.thickness,
                    matter: Matter::Solid {
                        conductivity: battens.conductivity,
                    },
                    vapour_metres: battens.vapour.metres(metres),
                };
                beside = Some((battens.share, wood));
                shown.battens = Some(battens.share);
            }
            None if within => {
                self.ribs_left -= metres;
                bridged = true;
            }
            _ => {}
        }
        let foil = shown.foil;
        self.planes.push(Plane {
            layer: shown,
            ply,
            foil,
            beside,
            bridged,
            stores,
        });
    }

    fn film(&mut self, desk: &Desk<'_>, id: &Id, layer: &Layer, made: Made) {
        let metres = made.vapour.metres(0.0);
        let shown = SideLayer {
            layer: Some(id.clone()),
            label: desk.project.label_or_id("layer", id.as_str()).to_owned(),
            of: LayerKind::Film,
            thickness: desk
                .notes
                .given(&layer.thickness)
                .unwrap_or(Known::computed(Length::ZERO)),
            material: Some(made.name),
            conductivity: None,
            resistance: 0.0,
            vapour_metres: metres,
            foil: false,
            battens: None,
            faces: None,
        };
        self.place(shown, Ply::known(0.0, metres), 0.0, false);
    }

    /// Fills what battens or ribs leave open with still air: something closes it.
    fn close(&mut self) {
        for _ in 0..2 {
            let left = match &self.battens {
                Some(battens) => battens.left,
                None => self.ribs_left,
            };
            if left > NOTHING {
                let thickness = Length::from_metres(left);
                let ply = Ply {
                    thickness,
                    matter: self.air(),
                    vapour_metres: left,
                };
                let shown = SideLayer {
                    layer: None,
                    label: "Air".into(),
                    of: LayerKind::Air,
                    material: None,
                    thickness: Known::computed(thickness),
                    conductivity: None,
                    resistance: 0.0,
                    vapour_metres: left,
                    foil: false,
                    battens: None,
                    faces: None,
                };
                self.place(shown, ply, 0.0, true);
            }
            if self.battens.take().is_none() {
                break;
            }
        }
    }

    /// Still air behind what was laid last.
    fn air(&self) -> Matter {
        let of = |surface, otherwise| {
            emissivity(surface).map_or(Ratio::from_fraction(otherwise), |row| row.value)
        };
        let bright = self.planes.last().is_some_and(|plane| plane.foil);
        let common = of(Radiating::Common, 0.9);
        Matter::Air {
            outer_emissivity: if bright {
                of(Radiating::Foil, 0.05)
            } else {
                common
            },
            inner_emissivity: common,
            gaps: Gaps::Closed,
        }
    }

    fn finish(self, side: Side, cavity: Option<Cavity>) -> Stack {
        let bridged = ends(&self.planes, |plane| plane.bridged);
        let ribs = match bridged.zip(cavity) {
            Some((bridges, cavity)) => Some(RibsFound {
                metal: true,
                spacing: cavity.spacing,
                width: cavity.width,
                depth: cavity.depth,
                sheet: Some(cavity.sheet),
                bridges,
                share: Ratio::ZERO,
            }),
            None => self.battens_found(),
        };
        let mut plies = Plies::new(!ribs.as_ref().is_some_and(|ribs| ribs.metal));
        for (index, plane) in self.planes.iter().enumerate() {
            plies.add(index, plane);
        }
        Stack {
            build_up: plies.build_up(films(side).0, ribs.as_ref()),
            stores: self.planes.iter().map(|plane| plane.stores).collect(),
            layers: self.planes.into_iter().map(|plane| plane.layer).collect(),
            of: plies.of,
            ribs,
        }
    }

    /// Battens as what bridges the side, where no metal does.
    fn battens_found(&self) -> Option<RibsFound> {
        let bridges = ends(&self.planes, |plane| plane.beside.is_some())?;
        let beside = |plane: &&Plane| plane.beside.is_some();
        let (share, _) = self.planes.get(bridges.0)?.beside?;
        let depth: Length = self
            .planes
            .iter()
            .filter(beside)
            .map(|plane| plane.ply.thickness)
            .sum();
        let (spacing, width) = self.first_battens.clone()?;
        Some(RibsFound {
            metal: false,
            spacing,
            width,
            depth: Known::computed(depth),
            sheet: None,
            bridges,
            share,
        })
    }
}

/// First and last plane of a sort.
fn ends(planes: &[Plane], is: impl Fn(&Plane) -> bool) -> Option<(usize, usize)> {
    Some((planes.iter().position(&is)?, planes.iter().rposition(&is)?))
}
