//! Cutting plans of sheets and foam: sizes on a grid, the engine, its sheets with the marks on them. Not here: planks.

use super::bars::cents;
use super::jobs::{Order, nothing_to_cut_from, priced};
use crate::result::lining::{
    CutFromSheet, JobPlan, JobStock, NoPlan, OtherPlan, PieceMark, PlannedSheet, Rect, SawCut,
    SheetPlan,
};
use std::collections::BTreeMap;
use wainwright_engines::refusal::Refusal;
use wainwright_engines::sheets::{
    Along, CutSheet, CuttingPlan, Effort, Grid, HIGHEST_PRICE, Job, Piece, Proof, Rectangle, Saw,
    Sheet, Trim, cut, rip_choice,
};
use wainwright_model::Goods;
use wainwright_units::{Area, Length, Ratio, System};

/// Work that one plan may take: a fraction of a second.
const EFFORT: Effort = Effort {
    blocks: 1_000,
    tries: 100,
    rounds: 15,
};

/// One entry of the engine's stock: which of the order's, and whether it is from the shed.
#[derive(Clone, Copy)]
struct Source {
    stock: usize,
    owned: bool,
}

/// Size on the grid, and whether the grain matters.
type Size = (u32, u32, bool);

/// The plan of an order, the other way to do it, rip cuts; the stocks learn what is used and bought.
pub(super) fn plan(
    order: &Order<'_>,
    stocks: &mut [JobStock],
) -> (JobPlan, Option<OtherPlan>, usize) {
    if let Some(none) = nothing_to_cut_from(order) {
        return (JobPlan::None(none), None, 0);
    }
    match attempt(order, stocks) {
        Ok(found) => found,
        Err(refusal) => {
            let none = NoPlan::Refused(refusal.to_string());
            (JobPlan::None(none), None, 0)
        }
    }
}

fn attempt(
    order: &Order<'_>,
    stocks: &mut [JobStock],
) -> Result<(JobPlan, Option<OtherPlan>, usize), Refusal> {
    let grid = grid(order);
    let kinds = kinds(order, grid)?;
    let (sources, sheets) = sources(order, grid)?;
    let job = Job {
        pieces: kinds.iter().map(wanted).collect(),
        sheets,
        saw: Saw {
            kerf: grid.up(order.inputs.tools.kerf)?,
            can_rip: order.can_rip,
            longest_cut: None,
        },
        effort: EFFORT,
    };
    let (found, other) = if order.wanted.goods == Goods::Sheet {
        let choice = rip_choice(&job)?;
        // What no saw at hand can cut is ripped in the shop: the plan says so by its rip cuts.
        let in_the_shop = !complete(&choice.without_rips) && complete(&choice.with_rips);
        if order.can_rip || in_the_shop {
            (choice.with_rips, Some((choice.without_rips, false)))
        } else {
            (choice.without_rips, Some((choice.with_rips, true)))
        }
    } else {
        (cut(&job)?, None)
    };
    let priced = priced(order);
    let other = other
        .filter(|(other, _)| complete(other) && other.count.rips != found.count.rips)
        .map(|(other, with_rips)| other_plan(&other, with_rips, &found, priced));
    let reader = Reader {
        order,
        grid,
        sources: &sources,
    };
    let rips = found.count.rips;
    let plan = reader.read(&found, kinds, stocks);
    if plan.sheets.is_empty() && !plan.missing.is_empty() {
        return Ok((JobPlan::None(reader.why_none(&found, plan)), other, 0));
    }
    Ok((JobPlan::Sheets(plan), other, rips))
}

fn grid(order: &Order<'_>) -> Grid {
    Grid {
        step: match order.inputs.system {
            System::Us => Length::from_inches(1.0 / 32.0),
            System::Metric => Length::from_millimetres(0.5),
        },
    }
}

fn kinds(order: &Order<'_>, grid: Grid) -> Result<Vec<(Size, Vec<PieceMark>)>, Refusal> {
    let mut kinds: BTreeMap<Size, Vec<PieceMark>> = BTreeMap::new();
    for piece in &order.pieces {
        let size = (grid.up(piece.length)?, grid.up(piece.width)?, piece.grained);
        kinds.entry(size).or_default().push(piece.mark);
    }
    let mut kinds: Vec<_> = kinds.into_iter().rev().collect();
    for (_, marks) in &mut kinds {
        // The first is taken from the back.
        marks.sort_by(|one, other| other.cmp(one));
    }
    Ok(kinds)
}

fn wanted(((length, width, grained), marks): &(Size, Vec<PieceMark>)) -> Piece {
    Piece {
        width: *length,
        height: *width,
        wanted: u32::try_from(marks.len()).unwrap_or(u32::MAX),
        grain: grained.then_some(Along::Width),
    }
}

/// Sheets lie with their length from left to right.
fn sources(order: &Order<'_>, grid: Grid) -> Result<(Vec<Source>, Vec<Sheet>), Refusal> {
    let priced = priced(order);
    let (mut sources, mut sheets) = (Vec::new(), Vec::new());
    for (index, stock) in order.stocks.iter().enumerate() {
        let width = grid.down(stock.length)?;
        let height = grid.down(stock.width.unwrap_or(stock.length))?;
        let area = u64::from(width) * u64::from(height);
        let price = if priced {
            u64::from(cents(stock))
        } else {
            area
        };
        for owned in [true, false] {
            let there = if owned {
                stock.owned > 0
            } else {
                stock.on_sale
            };
            if !there {
                continue;
            }
            sources.push(Source {
                stock: index,
                owned,
            });
            sheets.push(Sheet {
                width,
                height,
                price: if owned { 0 } else { price.min(HIGHEST_PRICE) },
                available: owned.then_some(stock.owned),
                grain: Along::long_side(width, height),
                trim: Trim::default(),
            });
        }
    }
    Ok((sources, sheets))
}

fn complete(plan: &CuttingPlan) -> bool {
    plan.missing.iter().all(|count| *count == 0)
}

fn other_plan(
    other: &CuttingPlan,
    with_rips: bool,
    found: &CuttingPlan,
    priced: bool,
) -> OtherPlan {
    let money = |plan: &CuttingPlan| priced.then(|| plan.price as f64 / 100.0);
    let both = money(other).zip(money(found).filter(|_| complete(found)));
    OtherPlan {
        with_rips,
        rips: other.count.rips,
        used: u32::try_from(other.sheets.len()).unwrap_or(u32::MAX),
        cost: money(other),
        costs_more: both.map(|(other, own)| other - own),
    }
}

struct Reader<'a> {
    order: &'a Order<'a>,
    grid: Grid,
    sources: &'a [Source],
}

impl Reader<'_> {
    fn read(
        &self,
        found: &CuttingPlan,
        mut kinds: Vec<(Size, Vec<PieceMark>)>,
        stocks: &mut [JobStock],
    ) -> SheetPlan {
        let each = found.sheets.iter();
        let sheets: Vec<PlannedSheet> = each
            .filter_map(|sheet| self.sheet(sheet, &mut kinds))
            .collect();
        for sheet in &sheets {
            if let Some(stock) = stocks.get_mut(sheet.stock) {
                stock.used_owned += u32::from(sheet.owned);
                stock.buy += u32::from(!sheet.owned);
            }
        }
        for stock in stocks.iter_mut() {
            stock.cost = stock.price.map(|price| price * f64::from(stock.buy));
        }
        let mut missing: Vec<PieceMark> = kinds.into_iter().flat_map(|(_, marks)| marks).collect();
        missing.sort_unstable();
        let priced = priced(self.order);
        let money = |cents: u64| priced.then_some(cents as f64 / 100.0);
        let proven = found.proof == Proof::Cheapest;
        let (price, least) = (found.price as f64, found.at_least as f64);
        let gap = if proven || price <= 0.0 {
            0.0
        } else {
            ((price - least) / price).clamp(0.0, 1.0)
        };
        let area = |rect: &Rect| rect.area().square_metres();
        let placed = sheets.iter().flat_map(|sheet| &sheet.pieces);
        let pieces: f64 = placed.map(|piece| area(&piece.place)).sum();
        let taken: f64 = sheets
            .iter()
            .map(|sheet| sheet.width.metres() * sheet.height.metres())
            .sum();
        SheetPlan {
            cost: money(found.price),
            at_least: money(found.at_least),
            proven,
            gap: Ratio::from_fraction(gap),
            missing,
            cuts: found.count.cuts,
            rips: found.count.rips,
            taken: Area::from_square_metres(taken),
            pieces: Area::from_square_metres(pieces),
            sheets,
        }
    }

    fn sheet(
        &self,
        found: &CutSheet,
        kinds: &mut [(Size, Vec<PieceMark>)],
    ) -> Option<PlannedSheet> {
        let source = self.sources.get(found.sheet)?;
        let stock = self.order.stocks.get(source.stock)?;
        let mut pieces = Vec::new();
        for placement in &found.placements {
            let (_, marks) = kinds.get_mut(placement.kind)?;
            pieces.push(CutFromSheet {
                mark: marks.pop()?,
                place: self.rect(&placement.place),
                turned: placement.turned,
            });
        }
        let cuts = found.cuts.iter().map(|cut| SawCut {
            part: cut.part,
            of: self.rect(&cut.of),
            upright: cut.runs == Along::Height,
            setting: self.grid.length(cut.setting),
            length: self.grid.length(cut.length),
            rip: cut.rip,
        });
        Some(PlannedSheet {
            stock: source.stock,
            owned: source.owned,
            width: stock.length,
            height: stock.width.unwrap_or(stock.length),
            pieces,
            offcuts: found.offcuts.iter().map(|rest| self.rect(rest)).collect(),
            cuts: cuts.collect(),
        })
    }

    fn rect(&self, found: &Rectangle) -> Rect {
        Rect {
            x: self.grid.length(found.x),
            y: self.grid.length(found.y),
            width: self.grid.length(found.width),
            height: self.grid.length(found.height),
        }
    }

    fn why_none(&self, found: &CuttingPlan, plan: SheetPlan) -> NoPlan {
        if found.proof == Proof::CannotBeCut && !self.order.can_rip {
            return NoPlan::NeedsRips(plan.missing);
        }
        let largest = self.order.pieces.iter();
        let largest = largest.max_by(|one, other| one.length.total_cmp(&other.length));
        let longest = self.order.stocks.iter().map(|stock| stock.length);
        match (found.proof, largest, longest.reduce(Length::max)) {
            (Proof::CannotBeCut, Some(piece), Some(longest)) => NoPlan::TooLong {
                mark: piece.mark,
                length: piece.length,
                longest,
            },
            _ => NoPlan::NotEnough,
        }
    }
}
