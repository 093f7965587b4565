//! Layers of the project lowered to what the engine lays, with the stand-ins they need. Not here: on which side what
//! lies over what (`lay`).

use super::lower::{Desk, ToolsUsed};
use super::material::density_of;
use super::stock::{StockInputs, Wanted};
use crate::known::{Basis, Known};
use crate::result::lining::LiningWanted;
use wainwright_engines::lining::{
    Direction, FoamOptions, FurringOptions, Material, PlankOptions, SheetOptions, Spaced, Stagger,
    StockLength,
};
use wainwright_model::{Field, FieldExt, Goods, Id, Layer, LayerKind, Run, Side};
use wainwright_reference::Sourced;
use wainwright_reference::fastener::{FasteningRule, fasteners_per_crossing, fastening_rule};
use wainwright_reference::lumber::{
    LayingRule, courses_between_joints, laying_rule, pattern_widths, sheet_sizes,
};
use wainwright_units::{Length, Quantity};

/// Longest piece when neither the layer nor the stock says (judgement): what one person holds up.
const LONGEST_M: f64 = 2.44;
/// Narrowest strip of a plank as a share of its width when nobody said (judgement).
const NARROWEST_SHARE: f64 = 0.4;
/// Shortest piece of a plank or batten (judgement) \[mm\].
const LEAST_PIECE_MM: f64 = 150.0;
/// Narrowest strip of foam or sheet worth cutting (judgement) \[mm\].
const LEAST_STRIP_MM: f64 = 20.0;
/// Distance between beads of adhesive under foam (judgement) \[mm\].
const BEADS_MM: f64 = 400.0;
/// A joint must save so much board (judgement) \[mm\].
const JOINT_WORTH_MM: f64 = 300.0;
/// Joint patterns that are compared for each side: a twentieth of a second.
const EFFORT: usize = 400;
/// Standing in where mass is not known; the mass itself is then left out \[kg/m³\].
const ANY_DENSITY: f64 = 1.0;

/// A layer, ready to be laid on a side.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct LayerInputs {
    pub(super) id: Id,
    pub(super) kind: LayerKind,
    pub(super) order: u32,
    pub(super) on: Vec<Side>,
    pub(super) done_on: Vec<Side>,
    /// On the side it was put on.
    pub(super) done: bool,
    pub(super) material: Option<String>,
    pub(super) density: Option<Known<f64>>,
    pub(super) thickness: Option<Length>,
    pub(super) gap: Length,
    pub(super) runs: Option<Run>,
    /// How it is laid; `None` when something needed is missing, or nothing is laid.
    pub(super) how: Option<How>,
    /// What it is cut from.
    pub(super) wanted: Option<Wanted>,
}

/// How a layer is laid.
#[derive(Debug, Clone, PartialEq)]
pub(super) enum How {
    Battens(FurringOptions),
    Foam(FoamOptions),
    /// The direction is set on each side; see [`LayerInputs::direction`].
    Planks(Box<PlankOptions>),
    Sheets(SheetOptions),
}

/// All layers in file order.
pub(super) fn layer_inputs(
    desk: &mut Desk<'_>,
    stocks: &[StockInputs],
    tools: &ToolsUsed,
    lengths: &[Length],
) -> Vec<LayerInputs> {
    let project = desk.project;
    let mut found = Vec::new();
    for (id, layer) in project.layers.iter() {
        if let Some(kind) = layer.of.value().copied() {
            let mut reader = Reader {
                desk,
                id,
                layer,
                stocks,
                tools,
                lengths,
            };
            found.push(reader.read(kind));
        }
    }
    found
}

struct Reader<'a, 'p> {
    desk: &'a mut Desk<'p>,
    id: &'a Id,
    layer: &'p Layer,
    stocks: &'a [StockInputs],
    tools: &'a ToolsUsed,
    lengths: &'a [Length],
}

impl<'a> Reader<'a, '_> {
    fn read(&mut self, kind: LayerKind) -> LayerInputs {
        let layer = self.layer;
        let thickness = layer.thickness.value().copied();
        let air = kind == LayerKind::Air;
        if thickness.is_none() && !matches!(kind, LayerKind::Film | LayerKind::Air) {
            self.lack("thickness", LiningWanted::Thickness);
        }
        let material = layer.material.value().cloned();
        if material.is_none() && !matches!(kind, LayerKind::Film | LayerKind::Air) {
            self.lack("material", LiningWanted::Material);
        }
        let wanted = self.wanted(kind, thickness);
        let density = self.density(kind, wanted.as_ref()).filter(|_| !air);
        let laid = !matches!(kind, LayerKind::Skin | LayerKind::Film | LayerKind::Air);
        let gap = if laid { self.gap() } else { Length::ZERO };
        let board = thickness.map(|thickness| Material {
            thickness,
            density_kg_m3: density.as_ref().map_or(ANY_DENSITY, |known| known.value),
        });
        let how = board.and_then(|board| match kind {
            LayerKind::Battens => self.battens(board).map(How::Battens),
            LayerKind::Foam => Some(How::Foam(self.foam(board, gap))),
            LayerKind::Planks => {
                let planks = self.planks(board, gap, wanted.as_ref());
                planks.map(|planks| How::Planks(std::boxed::Box::new(planks)))
            }
            LayerKind::Sheets => Some(How::Sheets(self.sheets(board, gap))),
            LayerKind::Skin | LayerKind::Film | LayerKind::Air => None,
        });
        let mut on = layer.on.value().cloned().unwrap_or_default();
        on.dedup();
        LayerInputs {
            id: self.id.clone(),
            kind,
            order: layer.order.value().copied().unwrap_or(u32::MAX),
            on,
            done_on: layer.done.value().cloned().unwrap_or_default(),
            done: false,
            material,
            density,
            thickness,
            gap,
            runs: layer.runs.value().copied(),
            how,
            wanted,
        }
    }

    /// What it is cut from, when it is cut.
    fn wanted(&self, kind: LayerKind, thickness: Option<Length>) -> Option<Wanted> {
        let goods = match kind {
            LayerKind::Battens | LayerKind::Planks => Goods::Plank,
            LayerKind::Sheets => Goods::Sheet,
            LayerKind::Foam => Goods::Foam,
            LayerKind::Skin | LayerKind::Film | LayerKind::Air => return None,
        };
        let width = self.layer.width.value().copied();
        Some(Wanted {
            goods,
            material: self.layer.material.value().cloned().unwrap_or_default(),
            width: width.filter(|_| goods == Goods::Plank),
            thickness: thickness?,
        })
    }

    /// Density as weighed, else that of the material.
    fn density(&mut self, kind: LayerKind, wanted: Option<&Wanted>) -> Option<Known<f64>> {
        let weighed = wanted.and_then(|wanted| {
            let mut alike = self.stocks.iter().filter(|stock| stock.is(wanted));
            alike.find_map(|stock| stock.density(wanted))
        });
        if let Some(weighed) = weighed {
            return Some(Known::computed(weighed));
        }
        let name = self.layer.material.value()?;
        let foil = self.layer.foil.value().copied().unwrap_or(false);
        let found = density_of(name, foil);
        if found.is_none() && !matches!(kind, LayerKind::Film | LayerKind::Air) {
            self.lack("material", LiningWanted::KnownMaterial);
        }
        found
    }

    fn battens(&mut self, material: Material) -> Option<FurringOptions> {
        let layer = self.layer;
        let Some(width) = layer.width.value().copied() else {
            self.lack("width", LiningWanted::Width);
            return None;
        };
        let level = fastening_rule(FasteningRule::Level);
        let spacing = self.given_or_row(&layer.spacing, "spacing", level)?;
        Some(FurringOptions {
            width,
            material,
            spacing,
            spaced: Spaced::Even,
            close_ends: true,
            round_openings: true,
            longest: self.longest(),
            least_piece: Length::from_millimetres(LEAST_PIECE_MM),
        })
    }

    fn foam(&mut self, material: Material, gap: Length) -> FoamOptions {
        let (length, width) = self.sheet_size("foam");
        FoamOptions {
            material,
            clearance: gap,
            sheet: (length, width),
            least_piece: Length::from_millimetres(LEAST_STRIP_MM),
            bead_spacing: Length::from_millimetres(BEADS_MM),
        }
    }

    fn sheets(&mut self, material: Material, gap: Length) -> SheetOptions {
        let (length, width) = self.sheet_size("plywood");
        let rule = |rule, otherwise: f64| {
            let row = fastening_rule(rule);
            row.map_or(Length::from_inches(otherwise), |row| row.value)
        };
        SheetOptions {
            sheet: (length, width),
            grain: None,
            material,
            edge_gap: gap,
            joint_gap: gap,
            opening_gap: gap,
            least_piece: Length::from_millimetres(LEAST_STRIP_MM),
            fastener_edge: rule(FasteningRule::PanelEdge, 6.0),
            fastener_field: rule(FasteningRule::PanelField, 12.0),
        }
    }

    fn planks(
        &mut self,
        material: Material,
        gap: Length,
        wanted: Option<&Wanted>,
    ) -> Option<PlankOptions> {
        let layer = self.layer;
        let Some(face) = layer.width.value().copied() else {
            self.lack("width", LiningWanted::Width);
            return None;
        };
        let stagger = laying_rule(LayingRule::LiningJointsApart);
        let apart = self.given_or_row(&layer.stagger, "stagger", stagger)?;
        let narrow = face * NARROWEST_SHARE;
        let path = self.path("narrowest");
        let usual = crate::known::Assumption::UsualForKind;
        let notes = &mut self.desk.notes;
        let least_rip = notes.given_or(&layer.narrowest, &path, narrow, usual).value;
        let length_of = |rule| laying_rule(rule).map_or(Length::ZERO, |row| row.value);
        let level = fastening_rule(FasteningRule::Level);
        let stock = self.stock_lengths(wanted);
        Some(PlankOptions {
            runs: Direction::Width,
            face,
            material,
            edge_gap: gap,
            end_gap: gap,
            opening_gap: gap,
            least_rip,
            least_piece: Length::from_millimetres(LEAST_PIECE_MM),
            longest: self.longest(),
            stock,
            kerf: self.tools.kerf,
            stagger: Stagger {
                apart,
                in_line: length_of(LayingRule::InLineWithin),
                courses_between: courses_between_joints().map_or(0, |row| row.value),
            },
            can_rip: self.tools.can_rip,
            hidden_edge: Length::ZERO,
            hidden_opening: Length::ZERO,
            loosen: length_of(LayingRule::CourseClearance),
            may_lap: false,
            joint_worth: Length::from_millimetres(JOINT_WORTH_MM),
            fasteners_per_crossing: fasteners_per_crossing(nominal(face))
                .map_or(1, |row| row.value),
            fastener_spacing: level.map_or(Length::from_inches(16.0), |row| row.value),
            effort: EFFORT,
        })
    }

    /// Lengths of planks that can be had, ends squared; with prices only when all have one.
    fn stock_lengths(&self, wanted: Option<&Wanted>) -> Vec<StockLength> {
        let fits = |stock: &&StockInputs| wanted.is_some_and(|wanted| stock.is(wanted));
        let alike: Vec<&StockInputs> = self.stocks.iter().filter(fits).collect();
        let priced = alike
            .iter()
            .all(|stock| stock.price.is_some_and(|price| price > 0.0));
        let lengths = alike.iter().map(|stock| StockLength {
            length: stock.length - self.tools.end_trim * 2.0,
            price: stock.price.filter(|_| priced).unwrap_or(0.0),
        });
        lengths
            .filter(|stock| stock.length.metres() >= 0.1)
            .collect()
    }

    /// Longest piece: as typed, else the longest that can be had.
    fn longest(&mut self) -> Length {
        let had = self.lengths.iter().copied();
        let had = had.reduce(Length::max);
        let stand_in = had.unwrap_or(Length::from_metres(LONGEST_M));
        let path = self.path("longest");
        let usual = crate::known::Assumption::UsualForKind;
        let notes = &mut self.desk.notes;
        notes
            .given_or(&self.layer.longest, &path, stand_in, usual)
            .value
    }

    /// Length and width of a sheet.
    fn sheet_size(&mut self, kind: &str) -> (Length, Length) {
        let rows = sheet_sizes();
        let row = rows.into_iter().find(|row| row.value.kind == kind);
        let of = |pick: fn(&wainwright_reference::lumber::SheetSize) -> Length| {
            row.as_ref().map(|row| Sourced {
                value: pick(&row.value),
                source: row.source,
                mark: row.mark,
            })
        };
        let layer = self.layer;
        let length = self.given_or_row(&layer.length, "length", of(|size| size.length));
        let width = self.given_or_row(&layer.width, "width", of(|size| size.width));
        let metre = |size: Option<Length>, metres| size.unwrap_or(Length::from_metres(metres));
        (metre(length, 2.44), metre(width, 1.22))
    }

    fn gap(&mut self) -> Length {
        let row = laying_rule(LayingRule::PanelGap);
        let gap = self.given_or_row(&self.layer.gap, "gap", row);
        gap.unwrap_or(Length::ZERO)
    }

    fn given_or_row(
        &mut self,
        field: &Field<Length>,
        name: &'static str,
        row: Option<Sourced<Length>>,
    ) -> Option<Length> {
        if let Some(given) = field.value() {
            return Some(*given);
        }
        let row = row?;
        let shown = row.value.show(self.desk.notes.system());
        let path = self.path(name);
        let basis = Basis::Table(row.source);
        self.desk.notes.assume_text(&path, shown, &basis);
        Some(row.value)
    }

    fn path(&self, name: &'static str) -> [&'a str; 3] {
        ["layer", self.id.as_str(), name]
    }

    fn lack(&mut self, name: &'static str, wanted: LiningWanted) {
        let path = ["layer", self.id.as_str(), name];
        self.desk.lack(&path, wanted);
    }
}

/// The width a board is sold by, when its covering width is that of a listed pattern.
fn nominal(face: Length) -> Length {
    let near = |exposed: Length| (exposed - face).millimetres().abs() <= 3.0;
    let mut rows = pattern_widths().into_iter();
    let row = rows.find(|row| near(row.value.exposed));
    row.map_or(face, |row| row.value.nominal)
}

impl LayerInputs {
    /// Which way planks run on a side.
    pub(super) fn direction(&self, side: Side) -> Direction {
        match (side, self.runs) {
            (Side::Roof | Side::Floor, Some(Run::Across)) => Direction::Height,
            (Side::Front | Side::Rear | Side::Left | Side::Right, Some(Run::Up)) => {
                Direction::Height
            }
            _ => Direction::Width,
        }
    }

    /// Length and width of the sheet it is laid with.
    pub(super) fn sheet(&self) -> Option<(Length, Length)> {
        match self.how.as_ref()? {
            How::Foam(options) => Some(options.sheet),
            How::Sheets(options) => Some(options.sheet),
            How::Battens(_) | How::Planks(_) => None,
        }
    }
}
