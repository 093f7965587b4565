//! What the lining study rests on, lowered from the project with its stand-ins noted. Not here: shapes of the sides
//! (`surface`), laying (`lay`), cutting (`bars`, `boards`).

use super::layer::{LayerInputs, layer_inputs};
use super::stock::{StockInputs, stocks};
use super::surface::{Box, Ribs, SIDES, SideShape, side_shape};
use crate::circuit::Notes;
use crate::frame::BoxPlace;
use crate::known::{Assumption, Basis};
use crate::result::AssumedValue;
use crate::result::lining::{LiningMissing, LiningWanted};
use wainwright_model::{FieldExt, LayerKind, Project, Side, UnitSystem};
use wainwright_units::{Length, Ratio, System};

/// Width of a saw cut when nobody said (judgement): that of a common circular saw blade.
const KERF_MM: f64 = 3.0;
/// Shortest offcut that is kept when nobody said (judgement).
const KEEP_MM: f64 = 300.0;

/// Everything the lining study rests on: equal inputs give equal answers.
#[derive(Debug, Clone, PartialEq)]
pub struct LiningInputs {
    pub(super) inside: Option<Box>,
    pub(super) sides: Vec<SideInputs>,
    pub(super) tools: ToolsUsed,
    pub(super) stocks: Vec<StockInputs>,
    pub(super) place: Option<BoxPlace>,
    pub(super) system: System,
    pub(super) assumptions: Vec<AssumedValue>,
    pub(super) missing: Vec<LiningMissing>,
}

/// One side with its layers, the outermost first.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct SideInputs {
    pub(super) shape: SideShape,
    pub(super) layers: Vec<LayerInputs>,
}

/// What the work is done with.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct ToolsUsed {
    pub(super) can_rip: bool,
    pub(super) kerf: Length,
    pub(super) keep_from: Length,
    pub(super) end_trim: Length,
    pub(super) spoiled: Ratio,
}

/// Keeps account while a project is lowered.
pub(super) struct Desk<'a> {
    pub(super) project: &'a Project,
    pub(super) notes: Notes,
    missing: Vec<LiningMissing>,
}

impl Desk<'_> {
    /// Notes that a value is missing, once.
    pub(super) fn lack(&mut self, path: &[&str], wanted: LiningWanted) {
        let path = path.iter().map(|part| (*part).to_owned()).collect();
        let missing = LiningMissing { path, wanted };
        if !self.missing.contains(&missing) {
            self.missing.push(missing);
        }
    }

    /// Notes a stand-in that is no quantity.
    fn assume(&mut self, path: &[&str], shown: &str) {
        let basis = Basis::Assumed(Assumption::UsualForKind);
        self.notes.assume_text(path, shown.to_owned(), &basis);
    }
}

/// What the lining study of a project rests on. Total and quick.
pub fn inputs(project: &Project) -> LiningInputs {
    let mut desk = Desk {
        project,
        notes: Notes::new(project),
        missing: Vec::new(),
    };
    let mut inside = None;
    let mut sides = Vec::new();
    let mut tools = ToolsUsed::UNASKED;
    let mut stocks_found = Vec::new();
    if !project.layers.is_empty() {
        inside = Box::read(&project.trailer, &mut desk);
        stocks_found = stocks(&mut desk);
        tools = read_tools(&mut desk);
        let used = usual_lengths(&stocks_found, tools.end_trim);
        let layers = layer_inputs(&mut desk, &stocks_found, &tools, &used);
        if let Some(inside) = &inside {
            sides = read_sides(&mut desk, inside, &layers);
        }
    }
    LiningInputs {
        inside,
        sides,
        tools,
        stocks: stocks_found,
        place: place(project),
        system: system(project),
        assumptions: desk.notes.assumed,
        missing: desk.missing,
    }
}

/// Lengths of planks that can be had, ends squared.
fn usual_lengths(stocks: &[StockInputs], end_trim: Length) -> Vec<Length> {
    let lengths = stocks.iter().map(|stock| stock.length - end_trim * 2.0);
    lengths.filter(|length| *length > Length::ZERO).collect()
}

fn read_sides(desk: &mut Desk<'_>, inside: &Box, layers: &[LayerInputs]) -> Vec<SideInputs> {
    let on = |side: Side| {
        let mut on: Vec<LayerInputs> = Vec::new();
        for layer in layers.iter().filter(|layer| layer.on.contains(&side)) {
            on.push(LayerInputs {
                done: layer.done_on.contains(&side),
                ..layer.clone()
            });
        }
        on.sort_by_key(|layer| layer.order);
        on
    };
    let sides: Vec<(Side, Vec<LayerInputs>)> = SIDES
        .into_iter()
        .map(|side| (side, on(side)))
        .filter(|(_, layers)| !layers.is_empty())
        .collect();
    let ribbed = |side: Side| side != Side::Floor;
    let built = |layers: &[LayerInputs]| layers.iter().any(|layer| layer.kind_is_laid());
    let needs = sides
        .iter()
        .any(|(side, layers)| ribbed(*side) && built(layers));
    let ribs = needs
        .then(|| Ribs::read(&desk.project.trailer, inside, desk))
        .flatten();
    let ends = sides
        .iter()
        .any(|(side, layers)| matches!(side, Side::Front | Side::Rear) && built(layers));
    if let Some(ribs) = ribs.filter(|_| ends) {
        ribs.note_ends(inside, desk);
    }
    let sides = sides.into_iter().map(|(side, layers)| SideInputs {
        shape: side_shape(inside, ribs.as_ref(), side, desk),
        layers,
    });
    sides.collect()
}

impl LayerInputs {
    /// Whether it is laid in pieces.
    fn kind_is_laid(&self) -> bool {
        !matches!(
            self.kind,
            LayerKind::Skin | LayerKind::Film | LayerKind::Air
        )
    }
}

impl ToolsUsed {
    /// Without a layer nobody asks.
    const UNASKED: Self = Self {
        can_rip: true,
        kerf: Length::ZERO,
        keep_from: Length::ZERO,
        end_trim: Length::ZERO,
        spoiled: Ratio::ZERO,
    };
}

fn read_tools(desk: &mut Desk<'_>) -> ToolsUsed {
    let tools = &desk.project.tools;
    let usual = Assumption::UsualForKind;
    let kerf = Length::from_millimetres(KERF_MM);
    let keep = Length::from_millimetres(KEEP_MM);
    let can_rip = tools.can_rip.value().copied();
    if can_rip.is_none() {
        desk.assume(&["tools", "can_rip"], "true");
    }
    let notes = &mut desk.notes;
    ToolsUsed {
        can_rip: can_rip.unwrap_or(true),
        kerf: notes
            .given_or(&tools.kerf, &["tools", "kerf"], kerf, usual)
            .value,
        keep_from: notes
            .given_or(&tools.keep_from, &["tools", "keep_from"], keep, usual)
            .value,
        end_trim: tools.end_trim.value().copied().unwrap_or(Length::ZERO),
        spoiled: tools.spoiled.value().copied().unwrap_or(Ratio::ZERO),
    }
}

/// Units that lengths are counted in, and shown.
pub(super) fn system(project: &Project) -> System {
    project
        .head
        .units
        .value()
        .map_or(System::Metric, |units: &UnitSystem| (*units).into())
}

/// Where the box is, as far as it is typed.
fn place(project: &Project) -> Option<BoxPlace> {
    let own = &project.trailer;
    Some(BoxPlace {
        ball_to_front: *own.ball_to_front.value()?,
        inside_width: *own.inside_width.value()?,
        floor_height: *own.floor_height.value()?,
    })
}

impl LiningInputs {
    /// Whether nothing has been said about lining.
    pub fn is_empty(&self) -> bool {
        self.sides.is_empty() && self.missing.is_empty()
    }
}
