//! Layers laid on one side, the outermost first: pieces with their marks, masses, screws. Not here: what they are cut
//! from.

use super::layer::{How, LayerInputs};
use super::lower::{LiningInputs, SideInputs};
use super::surface::mirrored;
use crate::frame::trailer_from_box;
use crate::result::lining::{
    LaidLayer, LaidPiece, LinedSurface, LiningRefused, PieceMark, SurfaceOpening,
};
use wainwright_engines::lining::{
    Backing, Direction, FoamOptions, Furring, Load, Material, Piece, PlankOptions, Rect,
    SheetOptions, Side as Edge, Surface, foam, furring, planks, sheets_on, totals, trims,
};
use wainwright_engines::refusal::Refusal;
use wainwright_model::{LayerKind, Side};
use wainwright_units::Length;

/// Stands for a sheet as large as any side \[m\].
const ENDLESS_M: f64 = 99.0;

/// One side, laid.
pub(super) fn lay_side(
    inputs: &LiningInputs,
    side: &SideInputs,
    refused: &mut Vec<LiningRefused>,
) -> LinedSurface {
    let shape = &side.shape;
    let mut stack = Stack::new(&shape.surface);
    let mut layers = Vec::new();
    let innermost = innermost(&side.layers);
    for (index, layer) in side.layers.iter().enumerate() {
        let mut laid = blank(layer, index + 1);
        let mut outcome = stack.lay(layer, shape.side, &mut laid);
        if outcome.is_ok() && Some(index) == innermost {
            outcome = trims_of(&shape.surface).map(|length| laid.trims = length);
        }
        if let Err(refusal) = outcome {
            refused.push(LiningRefused {
                side: Some(shape.side),
                layer: Some(layer.id.clone()),
                sentence: refusal.to_string(),
            });
        }
        place(inputs, shape.side, &mut laid);
        layers.push(laid);
    }
    let surface = &shape.surface;
    let openings = shape.openings.iter().zip(&surface.openings);
    LinedSurface {
        side: shape.side,
        width: surface.width,
        height: surface.height,
        mirrored: mirrored(shape.side),
        bow: inputs
            .inside
            .and_then(|inside| inside.bow_found(shape.side)),
        ribs_run: surface.ribs_run,
        ribs: surface.ribs.clone(),
        openings: openings
            .map(|(id, opening)| SurfaceOpening {
                id: id.clone(),
                rect: opening.rect,
                round: opening.round,
            })
            .collect(),
        layers,
    }
}

/// Planks of a layer on a side as they would be with or without rips.
pub(super) fn planks_otherwise(
    side: &SideInputs,
    position: usize,
    can_rip: bool,
) -> Option<Vec<(Length, bool)>> {
    let mut stack = Stack::new(&side.shape.surface);
    for (index, layer) in side.layers.iter().enumerate() {
        let Some(How::Planks(options)) = layer.how.as_ref().filter(|_| index + 1 == position)
        else {
            stack.pass(layer);
            continue;
        };
        let options = PlankOptions {
            runs: layer.direction(side.shape.side),
            can_rip,
            ..(**options).clone()
        };
        let laid = planks(&side.shape.surface, &stack.backing, &options).ok()?;
        let each = laid.planks.iter();
        return Some(each.map(|plank| (plank.length, plank.ripped)).collect());
    }
    None
}

/// What lies under the next layer.
struct Stack<'s> {
    surface: &'s Surface,
    backing: Backing,
    between: Vec<Rect>,
}

impl<'s> Stack<'s> {
    fn new(surface: &'s Surface) -> Self {
        Self {
            surface,
            backing: if surface.ribs.is_empty() {
                Backing::Whole
            } else {
                surface.rib_backing()
            },
            between: surface.rib_rects(),
        }
    }

    /// Lays a layer and makes it what the next one lies on.
    fn lay(
        &mut self,
        layer: &LayerInputs,
        side: Side,
        laid: &mut LaidLayer,
    ) -> Result<(), Refusal> {
        match &layer.how {
            None => self.cover(layer, laid),
            Some(How::Battens(options)) => {
                let furring = furring(self.surface, options)?;
                self.battens(layer, side, &furring, laid);
                self.on_battens(&furring);
                Ok(())
            }
            Some(How::Foam(options)) => self.foam(layer, side, options, laid),
            Some(How::Planks(options)) => self.planks(layer, side, options, laid),
            Some(How::Sheets(options)) => self.sheets(layer, side, options, laid),
        }
    }

    /// The same without looking at what comes out.
    fn pass(&mut self, layer: &LayerInputs) {
        match &layer.how {
            Some(How::Battens(options)) => {
                if let Ok(furring) = furring(self.surface, options) {
                    self.on_battens(&furring);
                }
            }
            Some(How::Sheets(_)) => self.backing = Backing::Whole,
            _ => {}
        }
    }

    fn on_battens(&mut self, furring: &Furring) {
        self.backing = furring.backing();
        self.between = furring.rects();
    }

    /// Skin, film: all but the openings.
    fn cover(&self, layer: &LayerInputs, laid: &mut LaidLayer) -> Result<(), Refusal> {
        let known = layer.density.as_ref().zip(layer.thickness);
        let Some((density, thickness)) = known else {
            return Ok(());
        };
        let material = Material {
            thickness,
            density_kg_m3: density.value,
        };
        let load = net_load(self.surface, &[], material, Length::ZERO)?;
        weigh(laid, &load);
        Ok(())
    }

    fn battens(&self, layer: &LayerInputs, side: Side, furring: &Furring, laid: &mut LaidLayer) {
        laid.fasteners = furring.fasteners;
        laid.areas = Some(furring.areas);
        let known = layer.density.is_some();
        laid.pieces = furring
            .battens
            .iter()
            .map(|batten| LaidPiece {
                runs: batten.runs,
                length: batten.length,
                fasteners: batten.ribs_crossed,
                ..piece(&batten.piece, side, laid.position, known)
            })
            .collect();
        let load = totals(furring.battens.iter().map(|batten| &batten.piece));
        weigh_if(layer, laid, &load);
    }

    fn foam(
        &self,
        layer: &LayerInputs,
        side: Side,
        options: &FoamOptions,
        laid: &mut LaidLayer,
    ) -> Result<(), Refusal> {
        let found = foam(self.surface, &self.between, options)?;
        laid.areas = Some(found.areas);
        laid.tape = found.tape;
        laid.adhesive = found.adhesive;
        self.plain(layer, side, &found.pieces, None, laid);
        Ok(())
    }

    fn sheets(
        &mut self,
        layer: &LayerInputs,
        side: Side,
        options: &SheetOptions,
        laid: &mut LaidLayer,
    ) -> Result<(), Refusal> {
        let found = sheets_on(self.surface, &self.backing, options)?;
        laid.areas = Some(found.areas);
        laid.fasteners = found.fasteners;
        laid.adhesive = found.adhesive;
        laid.shortfalls = found.shortfalls;
        self.plain(layer, side, &found.pieces, Some(found.grain), laid);
        laid.notches = notched(&laid.pieces);
        self.backing = Backing::Whole;
        Ok(())
    }

    /// Pieces of foam and sheets.
    fn plain(
        &self,
        layer: &LayerInputs,
        side: Side,
        pieces: &[Piece],
        grain: Option<Direction>,
        laid: &mut LaidLayer,
    ) {
        let known = layer.density.is_some();
        let one = |found: &Piece| {
            let rect = &found.rect;
            let longer = if rect.width >= rect.height {
                Direction::Width
            } else {
                Direction::Height
            };
            let runs = grain.unwrap_or(longer);
            let (length, width) = along(rect, runs);
            LaidPiece {
                length,
                width,
                runs,
                ..piece(found, side, laid.position, known)
            }
        };
        laid.pieces = pieces.iter().map(one).collect();
        weigh_if(layer, laid, &totals(pieces));
    }

    fn planks(
        &self,
        layer: &LayerInputs,
        side: Side,
        options: &PlankOptions,
        laid: &mut LaidLayer,
    ) -> Result<(), Refusal> {
        let options = PlankOptions {
            runs: layer.direction(side),
            ..options.clone()
        };
        let found = planks(self.surface, &self.backing, &options)?;
        let known = layer.density.is_some();
        laid.areas = Some(found.areas);
        laid.fasteners = found.fasteners;
        laid.adhesive = found.adhesive;
        laid.fit = Some(found.fit);
        laid.courses = found.courses.edges.len().saturating_sub(1);
        laid.rips = found.rips;
        laid.notches = found.notches;
        laid.other = found.other.is_some();
        laid.shortfalls = found.shortfalls;
        laid.pieces = found
            .planks
            .iter()
            .map(|plank| LaidPiece {
                length: plank.length,
                width: plank.width,
                runs: options.runs,
                run: plank.run,
                ripped: plank.ripped,
                fasteners: plank.fasteners,
                ..piece(&plank.piece, side, laid.position, known)
            })
            .collect();
        let load = totals(found.planks.iter().map(|plank| &plank.piece));
        weigh_if(layer, laid, &load);
        Ok(())
    }
}

/// Mass and middle of a layer that fills everything but openings, what lies between, and a gap round both.
pub(super) fn net_load(
    surface: &Surface,
    between: &[Rect],
    material: Material,
    gap: Length,
) -> Result<Load, Refusal> {
    let endless = Length::from_metres(ENDLESS_M);
    let inner = shrunk(surface, gap);
    let options = FoamOptions {
        material,
        clearance: Length::ZERO,
        sheet: (endless, endless),
        least_piece: Length::ZERO,
        bead_spacing: endless,
    };
    let found = foam(&inner, between, &options)?;
    let mut load = totals(&found.pieces);
    load.centre = (load.centre.0 + gap, load.centre.1 + gap);
    Ok(load)
}

/// The surface without a gap at its edges and round its openings.
fn shrunk(surface: &Surface, gap: Length) -> Surface {
    let mut inner = surface.clone();
    inner.width = surface.width - gap * 2.0;
    inner.height = surface.height - gap * 2.0;
    for opening in &mut inner.openings {
        opening.rect = Rect {
            x: opening.rect.x - gap * 2.0,
            y: opening.rect.y - gap * 2.0,
            width: opening.rect.width + gap * 2.0,
            height: opening.rect.height + gap * 2.0,
        };
    }
    inner
}

fn blank(layer: &LayerInputs, position: usize) -> LaidLayer {
    LaidLayer {
        layer: layer.id.clone(),
        kind: layer.kind,
        position,
        done: layer.done,
        material: layer.material.clone(),
        density: layer.density.clone(),
        thickness: layer.thickness,
        runs: layer.runs,
        pieces: Vec::new(),
        areas: None,
        mass: None,
        centre: None,
        at: None,
        fasteners: 0,
        tape: Length::ZERO,
        adhesive: Length::ZERO,
        trims: Length::ZERO,
        fit: None,
        courses: 0,
        rips: 0,
        notches: 0,
        other: false,
        shortfalls: Vec::new(),
        job: None,
    }
}

/// What all kinds of pieces share.
fn piece(found: &Piece, side: Side, layer: usize, known: bool) -> LaidPiece {
    let rect = found.rect;
    let (length, width) = if rect.width >= rect.height {
        (rect.width, rect.height)
    } else {
        (rect.height, rect.width)
    };
    LaidPiece {
        mark: PieceMark {
            side,
            layer,
            number: found.number,
        },
        rect,
        cuts: found.cuts.clone(),
        length,
        width,
        runs: Direction::Width,
        run: 0,
        ripped: false,
        mass: known.then_some(found.mass),
        fasteners: 0,
    }
}

/// Sizes along and across a direction.
fn along(rect: &Rect, runs: Direction) -> (Length, Length) {
    match runs {
        Direction::Width => (rect.width, rect.height),
        Direction::Height => (rect.height, rect.width),
    }
}

fn notched(pieces: &[LaidPiece]) -> usize {
    pieces.iter().filter(|piece| !piece.cuts.is_empty()).count()
}

fn weigh_if(layer: &LayerInputs, laid: &mut LaidLayer, load: &Load) {
    if layer.density.is_some() {
        weigh(laid, load);
    }
}

fn weigh(laid: &mut LaidLayer, load: &Load) {
    laid.mass = Some(load.mass);
    laid.centre = Some(load.centre);
}

/// Where the middle of a layer is in the trailer.
fn place(inputs: &LiningInputs, side: Side, laid: &mut LaidLayer) {
    let known = inputs.inside.zip(inputs.place).zip(laid.centre);
    laid.at =
        known.map(|((inside, place), (x, y))| trailer_from_box(&place, inside.spot(side, x, y)));
}

/// The innermost layer that gets cover strips.
fn innermost(layers: &[LayerInputs]) -> Option<usize> {
    let covers = |layer: &LayerInputs| matches!(layer.kind, LayerKind::Planks | LayerKind::Sheets);
    layers.iter().rposition(covers)
}

/// Length of strips at all edges and round openings.
fn trims_of(surface: &Surface) -> Result<Length, Refusal> {
    let strips = trims(surface, Length::ZERO, &Edge::ALL, true)?;
    let lengths = strips.iter().map(|strip| strip.length);
    Ok(lengths.fold(Length::ZERO, |sum, one| sum + one))
}
