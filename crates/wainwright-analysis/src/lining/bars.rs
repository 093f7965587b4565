//! Cutting plans of planks and battens: lengths on a grid, the engine, its bars with the marks on them. Not here:
//! sheets, odds.

use super::jobs::{Order, ToCut, nothing_to_cut_from, priced};
use super::stock::StockInputs;
use crate::result::lining::{BarPlan, CutBar, JobPlan, JobStock, NoPlan, PieceMark};
use std::collections::BTreeMap;
use wainwright_engines::cutting::{
    Budget, CuttingError, Grid, Job, Layout, Piece, Plan, Stock, plan as cut,
};
use wainwright_units::{Length, Ratio, System};

/// Work that one plan may take: a fraction of a second.
const BUDGET: Budget = Budget {
    nodes: 300,
    pivots: 20_000,
    patterns: 40_000,
    states: 20_000_000,
};

/// One entry of the engine's stock: which of the order's, and whether it is from the shed.
#[derive(Clone, Copy)]
struct Source {
    stock: usize,
    owned: bool,
}

/// The plan of an order; its stocks learn what is used and bought.
pub(super) fn plan(order: &Order<'_>, stocks: &mut [JobStock]) -> JobPlan {
    if let Some(none) = nothing_to_cut_from(order) {
        return JobPlan::None(none);
    }
    match attempt(order, stocks) {
        Ok(plan) => JobPlan::Bars(plan),
        Err(error) => JobPlan::None(why_none(order, error)),
    }
}

fn attempt(order: &Order<'_>, stocks: &mut [JobStock]) -> Result<BarPlan, CuttingError> {
    let grid = grid(order);
    let kinds = kinds(order, grid)?;
    let (sources, bars) = sources(order, grid)?;
    let job = Job {
        kerf: grid.up(order.inputs.tools.kerf)?,
        pieces: kinds
            .iter()
            .map(|(length, marks)| Piece {
                length: *length,
                count: u32::try_from(marks.len()).unwrap_or(u32::MAX),
            })
            .collect(),
        stocks: bars,
        leftover: None,
    };
    let found = cut(&job, &BUDGET)?;
    Ok(Reader {
        order,
        grid,
        job: &job,
        sources: &sources,
    }
    .read(&found, kinds, stocks))
}

/// Lengths are counted in thirty-seconds of an inch or half millimetres.
pub(super) fn grid(order: &Order<'_>) -> Grid {
    match order.inputs.system {
        System::Us => Grid::thirty_seconds_of_an_inch(),
        System::Metric => Grid::half_millimetres(),
    }
}

/// Pieces by length on the grid, the longest first.
fn kinds(order: &Order<'_>, grid: Grid) -> Result<Vec<(u32, Vec<PieceMark>)>, CuttingError> {
    let mut kinds: BTreeMap<u32, Vec<PieceMark>> = BTreeMap::new();
    for piece in &order.pieces {
        kinds
            .entry(grid.up(piece.length)?)
            .or_default()
            .push(piece.mark);
    }
    let mut kinds: Vec<_> = kinds.into_iter().rev().collect();
    for (_, marks) in &mut kinds {
        // The first is taken from the back.
        marks.sort_by(|one, other| other.cmp(one));
    }
    Ok(kinds)
}

/// What is in the shed costs nothing; what is on sale its price, or its length while prices are not known.
fn sources(order: &Order<'_>, grid: Grid) -> Result<(Vec<Source>, Vec<Stock>), CuttingError> {
    let priced = priced(order);
    let trim = grid.up(order.inputs.tools.end_trim * 2.0)?;
    let (mut sources, mut bars) = (Vec::new(), Vec::new());
    for (index, stock) in order.stocks.iter().enumerate() {
        let length = grid.down(stock.length)?;
        let bar = Stock {
            trim,
            ..Stock::new(length, 0)
        };
        if stock.owned > 0 {
            sources.push(Source {
                stock: index,
                owned: true,
            });
            bars.push(Stock {
                available: Some(stock.owned),
                ..bar
            });
        }
        if stock.on_sale {
            sources.push(Source {
                stock: index,
                owned: false,
            });
            let price = if priced { cents(stock) } else { length };
            bars.push(Stock { price, ..bar });
        }
    }
    Ok((sources, bars))
}

/// Price in hundredths.
pub(super) fn cents(stock: &StockInputs) -> u32 {
    let cents = (stock.price.unwrap_or(0.0) * 100.0).round();
    cents.clamp(0.0, f64::from(u32::MAX)) as u32
}

struct Reader<'a> {
    order: &'a Order<'a>,
    grid: Grid,
    job: &'a Job,
    sources: &'a [Source],
}

impl Reader<'_> {
    fn read(
        &self,
        found: &Plan,
        mut kinds: Vec<(u32, Vec<PieceMark>)>,
        stocks: &mut [JobStock],
    ) -> BarPlan {
        let mut bars = Vec::new();
        for layout in &found.layouts {
            for _ in 0..layout.times {
                bars.extend(self.bar(layout, &mut kinds));
            }
        }
        bars.sort_by_key(|bar| !bar.owned);
        for bar in &bars {
            if let Some(stock) = stocks.get_mut(bar.stock) {
                stock.used_owned += u32::from(bar.owned);
                stock.buy += u32::from(!bar.owned);
            }
        }
        for stock in stocks.iter_mut() {
            stock.cost = stock.price.map(|price| price * f64::from(stock.buy));
        }
        self.sums(found, bars)
    }

    fn bar(&self, layout: &Layout, kinds: &mut [(u32, Vec<PieceMark>)]) -> Option<CutBar> {
        let source = self.sources.get(layout.stock)?;
        let stock = self.order.stocks.get(source.stock)?;
        let steps = self.job.stocks.get(layout.stock)?;
        let mut pieces = Vec::new();
        for kind in &layout.pieces {
            let (length, marks) = kinds.get_mut(*kind)?;
            pieces.push((marks.pop()?, self.grid.length(*length)));
        }
        let offcut = self.grid.length(layout.offcut);
        // What the grid leaves of the bar goes to the offcut, so that all adds up.
        let rest = stock.length - self.grid.length(steps.length);
        Some(CutBar {
            stock: source.stock,
            owned: source.owned,
            length: stock.length,
            trim: self.grid.length(steps.trim),
            pieces,
            kerf: self.grid.length(layout.kerf_lost),
            offcut: offcut + rest,
            keep: layout.offcut > 0 && offcut >= self.order.inputs.tools.keep_from,
        })
    }

    fn sums(&self, found: &Plan, bars: Vec<CutBar>) -> BarPlan {
        let sum = |each: &dyn Fn(&CutBar) -> Length| {
            bars.iter().fold(Length::ZERO, |sum, bar| sum + each(bar))
        };
        let pieces = sum(&|bar| {
            let lengths = bar.pieces.iter().map(|(_, length)| *length);
            lengths.fold(Length::ZERO, |sum, one| sum + one)
        });
        let mut kept: Vec<Length> = bars
            .iter()
            .filter(|bar| bar.keep)
            .map(|bar| bar.offcut)
            .collect();
        kept.sort_by(|one, other| other.total_cmp(one));
        let priced = priced(self.order);
        let money = |cents: f64| priced.then_some(cents / 100.0);
        BarPlan {
            cost: money(found.cost.cents()),
            at_least: money(found.bound.cents()),
            proven: found.proven,
            gap: if found.proven {
                Ratio::ZERO
            } else {
                found.gap()
            },
            taken: sum(&|bar| bar.length),
            pieces,
            lost: sum(&|bar| bar.kerf + bar.trim),
            waste: sum(&|bar| if bar.keep { Length::ZERO } else { bar.offcut }),
            kept,
            cuts: found.cuts(),
            bars,
        }
    }
}

fn why_none(order: &Order<'_>, error: CuttingError) -> NoPlan {
    match error {
        CuttingError::TooLong { longest, .. } => too_long(order, longest),
        CuttingError::NotEnough { .. } => NoPlan::NotEnough,
        other => NoPlan::Refused(other.to_string()),
    }
}

fn too_long(order: &Order<'_>, longest: u32) -> NoPlan {
    let longer = |one: &&ToCut, other: &&ToCut| one.length.total_cmp(&other.length);
    match order.pieces.iter().max_by(longer) {
        Some(piece) => NoPlan::TooLong {
            mark: piece.mark,
            length: piece.length,
            longest: grid(order).length(longest),
        },
        None => NoPlan::NothingToCutFrom,
    }
}
