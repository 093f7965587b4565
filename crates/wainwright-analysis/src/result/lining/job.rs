//! One cutting job: a material in one size, what it can be cut from, the plan, what is to buy, the odds of running
//! short. Not here: surfaces and layers.

use super::{PieceMark, Rect};
use wainwright_model::{Goods, Id};
use wainwright_units::{Area, Length, Mass, Ratio};

/// Pieces of one material and size, and how they are cut.
#[derive(Debug, Clone, PartialEq)]
pub struct CuttingJob {
    /// Planks and battens, sheets, or foam.
    pub goods: Goods,
    /// Material as typed.
    pub material: String,
    /// Width of planks and battens; `None` for sheets and foam.
    pub width: Option<Length>,
    /// Thickness.
    pub thickness: Length,
    /// Layers it is for, in file order.
    pub layers: Vec<Id>,
    /// Number of pieces.
    pub pieces: usize,
    /// What it can be cut from.
    pub stocks: Vec<JobStock>,
    /// The plan.
    pub plan: JobPlan,
    /// Pieces that are ripped: cut along the grain to a width. For sheets the rip cuts of the plan. When the saw cannot
    /// rip and there are some nonetheless, nothing else would do: somebody else has to make them.
    pub rips: usize,
    /// The same work the other way, with or without rips, when there is one.
    pub other: Option<OtherPlan>,
    /// Odds that what the plan takes is not enough; only for planks and battens.
    pub short: Option<ShortageFound>,
    /// The saw that was reckoned with can rip. Foam is cut with a knife, which can.
    pub can_rip: bool,
    /// Width of the saw cut reckoned with.
    pub kerf: Length,
    /// Offcuts from this length on are kept.
    pub keep_from: Length,
}

/// Something to cut from: on sale or in the shed.
#[derive(Debug, Clone, PartialEq)]
pub struct JobStock {
    /// The entry in the project's stock; `None` for the size that stands in while nothing is on sale.
    pub stock: Option<Id>,
    /// Length of one.
    pub length: Length,
    /// Width of one.
    pub width: Option<Length>,
    /// Price of one, when it is on sale and the price is known.
    pub price: Option<f64>,
    /// Whether any number can be bought.
    pub on_sale: bool,
    /// How many are in the shed.
    pub owned: u32,
    /// Of these the plan takes so many.
    pub used_owned: u32,
    /// So many have to be bought for the plan.
    pub buy: u32,
    /// What these cost.
    pub cost: Option<f64>,
    /// Mass of one, when it was weighed.
    pub mass: Option<Mass>,
    /// Where in the shop it stands.
    pub aisle: Option<String>,
}

/// How a job is cut.
#[derive(Debug, Clone, PartialEq)]
pub enum JobPlan {
    /// Planks and battens, cut to length.
    Bars(BarPlan),
    /// Sheets and foam.
    Sheets(SheetPlan),
    /// There is none.
    None(NoPlan),
}

/// Why there is no plan.
#[derive(Debug, Clone, PartialEq)]
pub enum NoPlan {
    /// This piece is longer or wider than everything it could be cut from.
    TooLong {
        /// The piece.
        mark: PieceMark,
        /// Its length.
        length: Length,
        /// The longest that can be cut.
        longest: Length,
    },
    /// Nothing to cut from.
    NothingToCutFrom,
    /// What is in the shed is not enough and nothing is on sale.
    NotEnough,
    /// These pieces cannot be cut without ripping.
    NeedsRips(Vec<PieceMark>),
    /// The engine's sentence.
    Refused(String),
}

/// Bars in the order they are cut.
#[derive(Debug, Clone, PartialEq)]
pub struct BarPlan {
    /// Every bar, those from the shed first; alike ones next to each other.
    pub bars: Vec<CutBar>,
    /// Price of what has to be bought; `None` without prices: then the length bought is the least.
    pub cost: Option<f64>,
    /// No plan costs less than this; `None` without prices.
    pub at_least: Option<f64>,
    /// No plan is cheaper (without prices: shorter).
    pub proven: bool,
    /// How much cheaper another plan could be at most; zero when proven.
    pub gap: Ratio,
    /// Length of all bars used.
    pub taken: Length,
    /// Length of all pieces.
    pub pieces: Length,
    /// Lost in saw cuts and squared ends.
    pub lost: Length,
    /// Offcuts that are kept, the longest first.
    pub kept: Vec<Length>,
    /// Offcuts that are too short, together.
    pub waste: Length,
    /// Saw cuts, those that square ends left out.
    pub cuts: u32,
}

/// One bar. Pieces + saw cuts + squared ends + offcut = length.
#[derive(Debug, Clone, PartialEq)]
pub struct CutBar {
    /// Index in the job's stocks.
    pub stock: usize,
    /// Whether it is from the shed.
    pub owned: bool,
    /// Its length.
    pub length: Length,
    /// Cut off to square the ends, both together.
    pub trim: Length,
    /// Pieces in cutting order: mark, length as cut.
    pub pieces: Vec<(PieceMark, Length)>,
    /// Lost in saw cuts.
    pub kerf: Length,
    /// What is left in one piece.
    pub offcut: Length,
    /// Whether that is worth keeping.
    pub keep: bool,
}

/// Sheets in the order they are cut.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetPlan {
    /// Every sheet.
    pub sheets: Vec<PlannedSheet>,
    /// Price of what has to be bought; `None` without prices.
    pub cost: Option<f64>,
    /// No plan costs less than this.
    pub at_least: Option<f64>,
    /// No plan is cheaper (without prices: takes less area).
    pub proven: bool,
    /// How much cheaper another plan could be at most.
    pub gap: Ratio,
    /// Pieces the plan has no room for or the saw cannot cut.
    pub missing: Vec<PieceMark>,
    /// All cuts, and those along the grain.
    pub cuts: usize,
    /// Cuts along the grain.
    pub rips: usize,
    /// Area of all sheets used.
    pub taken: Area,
    /// Area of all pieces.
    pub pieces: Area,
}

/// One sheet, its corner at the lower left.
#[derive(Debug, Clone, PartialEq)]
pub struct PlannedSheet {
    /// Index in the job's stocks.
    pub stock: usize,
    /// Whether it is from the shed.
    pub owned: bool,
    /// Size from left to right: its length.
    pub width: Length,
    /// Size from the bottom up.
    pub height: Length,
    /// Pieces on it.
    pub pieces: Vec<CutFromSheet>,
    /// What is left over, the largest first.
    pub offcuts: Vec<Rect>,
    /// Cuts in order; every one goes all the way through the part it is made on.
    pub cuts: Vec<SawCut>,
}

/// A piece on a sheet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CutFromSheet {
    /// Its mark.
    pub mark: PieceMark,
    /// Its place on the sheet.
    pub place: Rect,
    /// Its length lies from the bottom up.
    pub turned: bool,
}

/// One cut through a part of a sheet.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SawCut {
    /// The part that is cut: 0 is the whole sheet, the parts that cut n makes are 2n − 1 and 2n.
    pub part: usize,
    /// That part on the sheet.
    pub of: Rect,
    /// The cut runs from the bottom up; else from left to right.
    pub upright: bool,
    /// What the fence is set to: from the left or lower edge of the part; the saw cut lies beyond.
    pub setting: Length,
    /// Length of the cut.
    pub length: Length,
    /// Along the grain.
    pub rip: bool,
}

/// The other way to do the same work.
#[derive(Debug, Clone, PartialEq)]
pub struct OtherPlan {
    /// Whether it is the one with rips.
    pub with_rips: bool,
    /// Pieces ripped, for sheets rip cuts.
    pub rips: usize,
    /// Bars or sheets used.
    pub used: u32,
    /// What it costs; `None` without prices.
    pub cost: Option<f64>,
    /// Cost more than the plan above; below zero when it is cheaper.
    pub costs_more: Option<f64>,
}

/// Odds of running short, and what makes them small.
#[derive(Debug, Clone, PartialEq)]
pub struct ShortageFound {
    /// Cuttings that were simulated.
    pub runs: usize,
    /// Share of these in which it was not enough.
    pub share: Ratio,
    /// Lower end of the 95 % interval.
    pub low: Ratio,
    /// Upper end of it.
    pub high: Ratio,
    /// Odds that are accepted.
    pub accepted: Ratio,
    /// Spare bars that bring the odds below that, and the odds with them; `None` when a handful is not enough.
    pub spares: Option<(usize, Ratio)>,
    /// Index of the stock the spares are.
    pub spare_stock: Option<usize>,
    /// Share of pieces that are spoiled, as reckoned with.
    pub spoiled: Ratio,
    /// Share of bars with a fault, as reckoned with.
    pub faulty: Ratio,
}

impl CuttingJob {
    /// Spare bars to buy beyond the plan, with the stock they are; none without odds.
    pub fn spares(&self) -> Option<(usize, usize)> {
        let short = self.short.as_ref()?;
        let (count, _) = short.spares?;
        (count > 0).then_some((short.spare_stock?, count))
    }

    /// Marks on the plan, in cutting order.
    pub fn marks(&self) -> Vec<PieceMark> {
        self.marked(|_| true)
    }

    /// Marks cut from one of the stocks.
    pub fn marks_of(&self, stock: usize) -> Vec<PieceMark> {
        self.marked(|of| of == stock)
    }

    fn marked(&self, wanted: impl Fn(usize) -> bool) -> Vec<PieceMark> {
        match &self.plan {
            JobPlan::Bars(plan) => {
                let bars = plan.bars.iter().filter(|bar| wanted(bar.stock));
                let pieces = bars.flat_map(|bar| &bar.pieces);
                pieces.map(|(mark, _)| *mark).collect()
            }
            JobPlan::Sheets(plan) => {
                let sheets = plan.sheets.iter().filter(|sheet| wanted(sheet.stock));
                let pieces = sheets.flat_map(|sheet| &sheet.pieces);
                pieces.map(|piece| piece.mark).collect()
            }
            JobPlan::None(_) => Vec::new(),
        }
    }
}
