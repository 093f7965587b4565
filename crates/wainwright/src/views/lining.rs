//! The lining as plain data: surfaces, layers, pieces, cutting plans, what to buy, odds. Not here: laying and cutting
//! (the lining study), layout of any kind; words are in `words`.

pub mod words;

use super::system::{AssumptionView, MissingView, assumed};
use serde::Serialize;
use wainwright_analysis::result::lining::{
    BarPlan, CuttingJob, Direction, JobPlan, JobStock, LaidLayer, LaidPiece, LinedSurface,
    LiningResult, Rect, SheetPlan, ShortageFound,
};
use wainwright_model::Project;
use wainwright_units::System;

/// Version of [`LiningReport`].
pub const LINING_VERSION: u32 = 1;

/// The lining of one project, for machines.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LiningReport {
    /// [`LINING_VERSION`].
    pub lining: u32,
    /// Version of the program.
    pub program: &'static str,
    /// The file, when there is one.
    pub file: Option<String>,
    /// Sides of the box with their layers.
    pub surfaces: Vec<SurfaceView>,
    /// One for each material and size still to be cut.
    pub jobs: Vec<JobView>,
    /// Mass of what is not in yet [kg].
    pub to_come_kilograms: f64,
    /// Screws of what is not in yet.
    pub screws: usize,
    /// Tape over the seams of foam [m].
    pub tape_metres: f64,
    /// Beads of adhesive under foam [m].
    pub adhesive_metres: f64,
    /// Cover strips [m].
    pub strips_metres: f64,
    /// Values nobody gave, with the stand-ins used.
    pub assumptions: Vec<AssumptionView>,
    /// Values without which something is left out.
    pub missing: Vec<MissingView>,
    /// What could not be worked out, in words.
    pub refused: Vec<String>,
}

/// One side of the box. x is from the front wall or the left wall, y from the floor or the left wall.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SurfaceView {
    /// Which side.
    pub side: &'static str,
    /// Size along x [m].
    pub width_metres: f64,
    /// Size along y [m]; of a bowed ceiling along the bow.
    pub height_metres: f64,
    /// Seen from inside, x runs to the left.
    pub mirrored: bool,
    /// Middles of the ribs [m].
    pub ribs_metres: Vec<f64>,
    /// Its openings.
    pub openings: Vec<OpeningView>,
    /// Its layers, the outermost first.
    pub layers: Vec<LayerView>,
}

/// An opening on a side.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct OpeningView {
    /// Its id.
    pub id: String,
    /// Its outline.
    pub outline: RectView,
    /// Whether it is round.
    pub round: bool,
}

/// A rectangle [m].
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct RectView {
    /// Left edge.
    pub x: f64,
    /// Lower edge.
    pub y: f64,
    /// Size along x.
    pub width: f64,
    /// Size along y.
    pub height: f64,
}

/// A layer on a side.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LayerView {
    /// Its id.
    pub id: String,
    /// What kind it is.
    pub kind: &'static str,
    /// Its place on the side, 1 is the outermost.
    pub position: usize,
    /// Whether it is in already.
    pub done: bool,
    /// Its mass [kg].
    pub kilograms: Option<f64>,
    /// Screws.
    pub screws: usize,
    /// How runs fill the side, in words.
    pub fit: Option<String>,
    /// What the layout could not give, in words.
    pub shortfalls: Vec<String>,
    /// Its job, an index.
    pub job: Option<usize>,
    /// Its pieces.
    pub pieces: Vec<PieceView>,
}

/// A piece.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PieceView {
    /// What is written on it.
    pub mark: String,
    /// Its outline on the side.
    pub outline: RectView,
    /// Notches and holes on the side.
    pub cuts: Vec<RectView>,
    /// Length to cut [m].
    pub length_metres: f64,
    /// Its other size [m].
    pub width_metres: f64,
    /// Its length lies along `x` or `y`.
    pub along: &'static str,
    /// Run of planks, 0 for none.
    pub run: usize,
    /// Whether it is ripped.
    pub ripped: bool,
}

/// A cutting job.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct JobView {
    /// `plank`, `sheet` or `foam`.
    pub goods: &'static str,
    /// What it is, in words.
    pub name: String,
    /// Pieces to cut.
    pub pieces: usize,
    /// What they are cut from.
    pub stocks: Vec<StockView>,
    /// Why there is no plan, in words.
    pub why_none: Option<String>,
    /// Boards or sheets in cutting order.
    pub cut: Vec<BoardView>,
    /// Price of what is to buy.
    pub cost: Option<f64>,
    /// No plan costs less.
    pub at_least: Option<f64>,
    /// Whether no plan is cheaper.
    pub proven: bool,
    /// Pieces ripped, for sheets rip cuts.
    pub rips: usize,
    /// The other way, with or without rips, in words.
    pub other: Option<String>,
    /// Odds of running short.
    pub short: Option<ShortView>,
}

/// Something to cut from.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct StockView {
    /// The entry of the stock.
    pub stock: Option<String>,
    /// Length of one [m].
    pub length_metres: f64,
    /// So many from the shed.
    pub used_owned: u32,
    /// So many to buy for the plan.
    pub buy: u32,
    /// So many more as spares.
    pub spares: usize,
    /// Price of one.
    pub price: Option<f64>,
    /// Where in the shop.
    pub aisle: Option<String>,
}

/// One board or sheet.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct BoardView {
    /// Index of its stock.
    pub stock: usize,
    /// Whether it is from the shed.
    pub owned: bool,
    /// Its length [m].
    pub length_metres: f64,
    /// Pieces in cutting order.
    pub pieces: Vec<CutView>,
    /// Offcut of a board [m].
    pub offcut_metres: Option<f64>,
    /// Whether that is worth keeping.
    pub keep: bool,
}

/// A piece on a board or sheet.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CutView {
    /// Its mark.
    pub mark: String,
    /// Its length as cut [m]; on a sheet its size from left to right.
    pub length_metres: f64,
    /// Its place on a sheet.
    pub place: Option<RectView>,
}

/// Odds of running short.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ShortView {
    /// Share of the cuttings tried.
    pub share: f64,
    /// Lower end of the 95 % interval.
    pub low: f64,
    /// Upper end of it.
    pub high: f64,
    /// Spares that make it small; null when a handful is not enough.
    pub spares: Option<usize>,
    /// The odds with them.
    pub share_with_spares: Option<f64>,
}

impl LiningReport {
    /// The report of a project.
    pub fn of(found: &LiningResult, project: &Project, units: System, file: Option<&str>) -> Self {
        let surface = |surface| SurfaceView::of(surface, units);
        let missing = found.missing.iter().map(|missing| MissingView {
            path: missing.path.join("."),
            wanted: words::wanted(missing.wanted),
        });
        Self {
            lining: LINING_VERSION,
            program: env!("CARGO_PKG_VERSION"),
            file: file.map(str::to_owned),
            surfaces: found.surfaces.iter().map(surface).collect(),
            jobs: found
                .jobs
                .iter()
                .map(|job| JobView::of(job, project, units))
                .collect(),
            to_come_kilograms: found.mass_to_come.kilograms(),
            screws: found.supplies.fasteners,
            tape_metres: found.supplies.tape.metres(),
            adhesive_metres: found.supplies.adhesive.metres(),
            strips_metres: found.supplies.trims.metres(),
            assumptions: assumed(&found.assumptions),
            missing: missing.collect(),
            refused: found
                .refused
                .iter()
                .map(|refused| refused.sentence.clone())
                .collect(),
        }
    }
}

impl SurfaceView {
    fn of(surface: &LinedSurface, units: System) -> Self {
        let openings = surface.openings.iter().map(|opening| OpeningView {
            id: opening.id.to_string(),
            outline: RectView::of(&opening.rect),
            round: opening.round,
        });
        let layer = |layer| LayerView::of(layer, units);
        Self {
            side: surface.side.as_str(),
            width_metres: surface.width.metres(),
            height_metres: surface.height.metres(),
            mirrored: surface.mirrored,
            ribs_metres: surface.ribs.iter().map(|rib| rib.at.metres()).collect(),
            openings: openings.collect(),
            layers: surface.layers.iter().map(layer).collect(),
        }
    }
}

impl RectView {
    fn of(rect: &Rect) -> Self {
        Self {
            x: rect.x.metres(),
            y: rect.y.metres(),
            width: rect.width.metres(),
            height: rect.height.metres(),
        }
    }
}

impl LayerView {
    fn of(layer: &LaidLayer, units: System) -> Self {
        let shortfalls = layer.shortfalls.iter();
        Self {
            id: layer.layer.to_string(),
            kind: layer.kind.as_str(),
            position: layer.position,
            done: layer.done,
            kilograms: layer.mass.map(|mass| mass.kilograms()),
            screws: layer.fasteners,
            fit: layer.fit.map(|fit| words::fit(fit, units)),
            shortfalls: shortfalls
                .map(|found| words::shortfall(found, units))
                .collect(),
            job: layer.job,
            pieces: layer.pieces.iter().map(PieceView::of).collect(),
        }
    }
}

impl PieceView {
    fn of(piece: &LaidPiece) -> Self {
        Self {
            mark: piece.mark.to_string(),
            outline: RectView::of(&piece.rect),
            cuts: piece.cuts.iter().map(RectView::of).collect(),
            length_metres: piece.length.metres(),
            width_metres: piece.width.metres(),
            along: match piece.runs {
                Direction::Width => "x",
                Direction::Height => "y",
            },
            run: piece.run,
            ripped: piece.ripped,
        }
    }
}

impl JobView {
    fn of(job: &CuttingJob, project: &Project, units: System) -> Self {
        let (cut, cost, at_least, proven) = match &job.plan {
            JobPlan::Bars(plan) => (bars(plan), plan.cost, plan.at_least, plan.proven),
            JobPlan::Sheets(plan) => (sheets(plan), plan.cost, plan.at_least, plan.proven),
            JobPlan::None(_) => (Vec::new(), None, None, false),
        };
        let why_none = match &job.plan {
            JobPlan::None(why) => Some(words::no_plan(why, units)),
            _ => None,
        };
        let stocks = job.stocks.iter().enumerate();
        Self {
            goods: job.goods.as_str(),
            name: words::job(job, units),
            pieces: job.pieces,
            stocks: stocks
                .map(|(index, stock)| StockView::of(stock, spares(job, index)))
                .collect(),
            why_none,
            cut,
            cost,
            at_least,
            proven,
            rips: job.rips,
            other: job
                .other
                .as_ref()
                .map(|other| words::other(other, job, project)),
            short: job.short.as_ref().map(ShortView::of),
        }
    }
}

/// Spares of one stock.
pub fn spares(job: &CuttingJob, stock: usize) -> usize {
    let spares = job.spares().filter(|(of, _)| *of == stock);
    spares.map_or(0, |(_, count)| count)
}

impl StockView {
    fn of(stock: &JobStock, spares: usize) -> Self {
        Self {
            stock: stock.stock.as_ref().map(ToString::to_string),
            length_metres: stock.length.metres(),
            used_owned: stock.used_owned,
            buy: stock.buy,
            spares,
            price: stock.price,
            aisle: stock.aisle.clone(),
        }
    }
}

impl ShortView {
    fn of(short: &ShortageFound) -> Self {
        Self {
            share: short.share.fraction(),
            low: short.low.fraction(),
            high: short.high.fraction(),
            spares: short.spares.map(|(count, _)| count),
            share_with_spares: short.spares.map(|(_, share)| share.fraction()),
        }
    }
}

fn bars(plan: &BarPlan) -> Vec<BoardView> {
    let bar = plan.bars.iter().map(|bar| BoardView {
        stock: bar.stock,
        owned: bar.owned,
        length_metres: bar.length.metres(),
        pieces: bar
            .pieces
            .iter()
            .map(|(mark, length)| CutView {
                mark: mark.to_string(),
                length_metres: length.metres(),
                place: None,
            })
            .collect(),
        offcut_metres: Some(bar.offcut.metres()),
        keep: bar.keep,
    });
    bar.collect()
}

fn sheets(plan: &SheetPlan) -> Vec<BoardView> {
    let sheet = plan.sheets.iter().map(|sheet| BoardView {
        stock: sheet.stock,
        owned: sheet.owned,
        length_metres: sheet.width.metres(),
        pieces: sheet
            .pieces
            .iter()
            .map(|piece| CutView {
                mark: piece.mark.to_string(),
                length_metres: piece.place.width.metres(),
                place: Some(RectView::of(&piece.place)),
            })
            .collect(),
        offcut_metres: None,
        keep: false,
    });
    sheet.collect()
}
