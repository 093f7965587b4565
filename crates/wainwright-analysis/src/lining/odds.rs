//! Odds that the planks of a plan are not enough, because some have a fault and some pieces are spoiled. Not here: the
//! plan.

use super::jobs::Order;
use super::stock::StockInputs;
use crate::result::lining::{BarPlan, ShortageFound};
use wainwright_engines::lining::{BoardPlan, Remaining, shortage, spares_for};
use wainwright_units::{Length, Ratio};

/// Odds that are accepted (judgement): one time in twenty.
const ACCEPTED: Ratio = Ratio::from_fraction(0.05);
/// Cuttings that are simulated: odds within two points.
const RUNS: usize = 2_000;
/// Most spare planks that are tried.
const MOST_SPARES: usize = 12;
/// The same chances for all, so that answers can be compared.
const SEED: u64 = 2027;

/// The odds; `None` when nothing is said of faults and spoiled pieces.
pub(super) fn odds(order: &Order<'_>, plan: &BarPlan) -> Option<ShortageFound> {
    let used = |index: usize| plan.bars.iter().any(|bar| bar.stock == index);
    let stocks = order.stocks.iter().enumerate();
    let faulty = stocks
        .filter(|(index, _)| used(*index))
        .map(|(_, stock)| stock.faulty)
        .fold(Ratio::ZERO, Ratio::max);
    let spoiled = order.inputs.tools.spoiled;
    if faulty <= Ratio::ZERO && spoiled <= Ratio::ZERO {
        return None;
    }
    let remaining = remaining(order, plan, spoiled, faulty);
    let found = shortage(&remaining, RUNS, SEED).ok()?;
    let spare = spare(order, plan);
    let spares = spare.and_then(|(_, length)| {
        let ask = spares_for(&remaining, length, ACCEPTED, MOST_SPARES, RUNS, SEED);
        ask.ok().flatten()
    });
    Some(ShortageFound {
        runs: found.runs,
        share: found.share,
        low: found.low,
        high: found.high,
        accepted: ACCEPTED,
        spares: spares.map(|(count, odds)| (count, odds.share)),
        spare_stock: spare.map(|(index, _)| index),
        spoiled,
        faulty,
    })
}

/// The bars of the plan less their squared ends, and those in the shed that it leaves.
fn remaining(order: &Order<'_>, plan: &BarPlan, spoil: Ratio, defect: Ratio) -> Remaining {
    let boards = plan.bars.iter().map(|bar| BoardPlan {
        length: bar.length - bar.trim,
        pieces: bar.pieces.iter().map(|(_, length)| *length).collect(),
    });
    let mut spare = Vec::new();
    for (index, stock) in order.stocks.iter().enumerate() {
        let taken = plan.bars.iter();
        let taken = taken.filter(|bar| bar.owned && bar.stock == index).count();
        let left = (stock.owned as usize).saturating_sub(taken).min(100);
        spare.extend(std::iter::repeat_n(usable(order, stock), left));
    }
    Remaining {
        boards: boards.collect(),
        spare,
        kerf: order.inputs.tools.kerf,
        spoil,
        defect,
    }
}

/// The cheapest on sale that holds the longest piece.
fn spare(order: &Order<'_>, plan: &BarPlan) -> Option<(usize, Length)> {
    let pieces = plan.bars.iter().flat_map(|bar| &bar.pieces);
    let longest = pieces.map(|(_, length)| *length).reduce(Length::max)?;
    let on_sale = order.stocks.iter().enumerate();
    let holding = on_sale.filter(|(_, stock)| stock.on_sale && usable(order, stock) >= longest);
    let cost = |stock: &StockInputs| stock.price.unwrap_or(stock.length.metres());
    holding
        .min_by(|(_, one), (_, other)| cost(one).total_cmp(&cost(other)))
        .map(|(index, stock)| (index, usable(order, stock)))
}

fn usable(order: &Order<'_>, stock: &StockInputs) -> Length {
    stock.length - order.inputs.tools.end_trim * 2.0
}
