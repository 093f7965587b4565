//! Cutting jobs: what is not in yet, by material and size, with what it can be cut from. Not here: the plans
//! (`bars`, `boards`) and the odds (`odds`).

use super::lay::planks_otherwise;
use super::lower::LiningInputs;
use super::stock::{StockInputs, Wanted};
use super::{bars, boards, odds};
use crate::result::lining::{
    CuttingJob, JobPlan, JobStock, LaidLayer, LaidPiece, LinedSurface, LiningMissing, LiningWanted,
    NoPlan, OtherPlan, PieceMark,
};
use wainwright_model::{Goods, Id};
use wainwright_units::Length;

/// Length of a plank that stands in while nothing is on sale (judgement) \[m\].
const PLANK_M: f64 = 2.44;

/// What is to be cut in one job.
pub(super) struct Order<'a> {
    pub(super) inputs: &'a LiningInputs,
    pub(super) wanted: Wanted,
    pub(super) pieces: Vec<ToCut>,
    pub(super) stocks: Vec<StockInputs>,
    pub(super) can_rip: bool,
}

/// One piece to cut.
#[derive(Clone)]
pub(super) struct ToCut {
    pub(super) mark: PieceMark,
    pub(super) length: Length,
    pub(super) width: Length,
    /// Its grain has to lie with that of the sheet.
    pub(super) grained: bool,
}

/// Which layers a job is for: surface, layer.
struct Group {
    wanted: Wanted,
    members: Vec<(usize, usize)>,
}

/// Every job, and where its layers are told its index.
pub(super) fn jobs(
    inputs: &LiningInputs,
    surfaces: &mut [LinedSurface],
    missing: &mut Vec<LiningMissing>,
) -> Vec<CuttingJob> {
    let groups = groups(inputs, surfaces);
    let mut left: Vec<u32> = inputs.stocks.iter().map(|stock| stock.owned).collect();
    let mut jobs = Vec::new();
    for group in groups {
        for &(surface, layer) in &group.members {
            let surface = surfaces.get_mut(surface);
            if let Some(laid) = surface.and_then(|surface| surface.layers.get_mut(layer)) {
                laid.job = Some(jobs.len());
            }
        }
        let laid = members(surfaces, &group);
        jobs.push(job(inputs, &group, &laid, &mut left, missing));
    }
    jobs
}

fn groups(inputs: &LiningInputs, surfaces: &[LinedSurface]) -> Vec<Group> {
    let mut groups: Vec<Group> = Vec::new();
    for (at, (side, surface)) in inputs.sides.iter().zip(surfaces).enumerate() {
        for (index, (layer, laid)) in side.layers.iter().zip(&surface.layers).enumerate() {
            let Some(wanted) = layer.wanted.as_ref().filter(|_| !laid.done) else {
                continue;
            };
            if laid.pieces.is_empty() {
                continue;
            }
            match groups.iter_mut().find(|group| group.wanted == *wanted) {
                Some(group) => group.members.push((at, index)),
                None => groups.push(Group {
                    wanted: wanted.clone(),
                    members: vec![(at, index)],
                }),
            }
        }
    }
    groups
}

fn members<'a>(
    surfaces: &'a [LinedSurface],
    group: &Group,
) -> Vec<(&'a LinedSurface, &'a LaidLayer)> {
    let found = group.members.iter().filter_map(|(surface, layer)| {
        let surface = surfaces.get(*surface)?;
        Some((surface, surface.layers.get(*layer)?))
    });
    found.collect()
}

fn job(
    inputs: &LiningInputs,
    group: &Group,
    laid: &[(&LinedSurface, &LaidLayer)],
    left: &mut [u32],
    missing: &mut Vec<LiningMissing>,
) -> CuttingJob {
    let wanted = &group.wanted;
    let pieces: Vec<&LaidPiece> = laid.iter().flat_map(|(_, layer)| &layer.pieces).collect();
    let to_cut = |piece: &&LaidPiece| ToCut {
        mark: piece.mark,
        length: piece.length,
        width: piece.width,
        grained: wanted.goods == Goods::Sheet,
    };
    let order = Order {
        inputs,
        wanted: wanted.clone(),
        pieces: pieces.iter().map(to_cut).collect(),
        stocks: stocks(inputs, wanted, laid, left, missing),
        can_rip: inputs.tools.can_rip || wanted.goods == Goods::Foam,
    };
    let mut stocks: Vec<JobStock> = order.stocks.iter().map(job_stock).collect();
    let bars_job = wanted.goods == Goods::Plank;
    let (plan, other, rips) = if bars_job {
        let plan = bars::plan(&order, &mut stocks);
        let other = other_bars(&order, group, laid, &plan);
        let rips = pieces.iter().filter(|piece| piece.ripped).count();
        (plan, other, rips)
    } else {
        boards::plan(&order, &mut stocks)
    };
    for (stock, inputs_of) in stocks.iter().zip(&order.stocks) {
        let index = inputs
            .stocks
            .iter()
            .position(|one| one.id == inputs_of.id && one.id.is_some());
        if let Some(left) = index.and_then(|index| left.get_mut(index)) {
            *left = left.saturating_sub(stock.used_owned);
        }
    }
    let short = match &plan {
        JobPlan::Bars(plan) => odds::odds(&order, plan),
        _ => None,
    };
    CuttingJob {
        goods: wanted.goods,
        material: wanted.material.clone(),
        width: wanted.width,
        thickness: wanted.thickness,
        layers: layers(laid),
        pieces: pieces.len(),
        stocks,
        plan,
        rips,
        other,
        short,
        can_rip: order.can_rip,
        kerf: inputs.tools.kerf,
        keep_from: inputs.tools.keep_from,
    }
}

fn layers(laid: &[(&LinedSurface, &LaidLayer)]) -> Vec<Id> {
    let mut ids: Vec<Id> = Vec::new();
    for (_, layer) in laid {
        if !ids.contains(&layer.layer) {
            ids.push(layer.layer.clone());
        }
    }
    ids
}

/// What the job can be cut from; a stand-in while nothing is on sale.
fn stocks(
    inputs: &LiningInputs,
    wanted: &Wanted,
    laid: &[(&LinedSurface, &LaidLayer)],
    left: &[u32],
    missing: &mut Vec<LiningMissing>,
) -> Vec<StockInputs> {
    let all = inputs.stocks.iter().zip(left);
    let mut found: Vec<StockInputs> = all
        .filter(|(stock, _)| stock.is(wanted))
        .map(|(stock, left)| StockInputs {
            owned: *left,
            ..stock.clone()
        })
        .collect();
    if !found.iter().any(|stock| stock.on_sale) {
        missing.push(LiningMissing {
            path: vec!["stock".to_owned()],
            wanted: LiningWanted::OnSale,
        });
        found.push(stand_in(inputs, wanted, laid));
    }
    found
}

/// A size that is usual, or the one the layer is laid with.
fn stand_in(
    inputs: &LiningInputs,
    wanted: &Wanted,
    laid: &[(&LinedSurface, &LaidLayer)],
) -> StockInputs {
    let ids = layers(laid);
    let sides = inputs.sides.iter().flat_map(|side| &side.layers);
    let mut layers = sides.filter(|layer| ids.contains(&layer.id));
    let sheet = layers.find_map(super::layer::LayerInputs::sheet);
    let longest = laid.iter().flat_map(|(_, layer)| &layer.pieces);
    let longest = longest.map(|piece| piece.length).reduce(Length::max);
    let ends = inputs.tools.end_trim * 2.0;
    let plank = Length::from_metres(PLANK_M);
    let (length, width) = match sheet.filter(|_| wanted.goods != Goods::Plank) {
        Some((length, width)) => (length, Some(width)),
        None => {
            let needed = longest.map_or(plank, |longest| plank.max(longest + ends));
            (needed, wanted.width)
        }
    };
    StockInputs {
        id: None,
        goods: wanted.goods,
        material: Some(wanted.material.clone()),
        length,
        width,
        thickness: Some(wanted.thickness),
        owned: 0,
        price: None,
        on_sale: true,
        mass: None,
        faulty: wainwright_units::Ratio::ZERO,
        aisle: None,
    }
}

fn job_stock(stock: &StockInputs) -> JobStock {
    JobStock {
        stock: stock.id.clone(),
        length: stock.length,
        width: stock.width,
        price: stock.price,
        on_sale: stock.on_sale,
        owned: stock.owned,
        used_owned: 0,
        buy: 0,
        cost: None,
        mass: stock.mass,
        aisle: stock.aisle.clone(),
    }
}

/// The same planks the other way, with or without rips, cut and priced.
fn other_bars(
    order: &Order<'_>,
    group: &Group,
    laid: &[(&LinedSurface, &LaidLayer)],
    plan: &JobPlan,
) -> Option<OtherPlan> {
    let JobPlan::Bars(plan) = plan else {
        return None;
    };
    if !laid.iter().any(|(_, layer)| layer.other) {
        return None;
    }
    let with_rips = !order.can_rip;
    let (mut pieces, mut rips) = (Vec::new(), 0);
    for ((surface, _), (_, layer)) in group.members.iter().zip(laid) {
        let side = order.inputs.sides.get(*surface)?;
        let otherwise = layer
            .other
            .then(|| planks_otherwise(side, layer.position, with_rips));
        let lengths: Vec<(Length, bool)> = match otherwise {
            Some(otherwise) => otherwise?,
            None => {
                let kept = layer.pieces.iter();
                kept.map(|piece| (piece.length, piece.ripped)).collect()
            }
        };
        for (index, (length, ripped)) in lengths.into_iter().enumerate() {
            rips += usize::from(ripped);
            pieces.push(ToCut {
                mark: PieceMark {
                    side: side.shape.side,
                    layer: layer.position,
                    number: index + 1,
                },
                length,
                width: order.wanted.width.unwrap_or(length),
                grained: false,
            });
        }
    }
    let other = Order {
        inputs: order.inputs,
        wanted: order.wanted.clone(),
        pieces,
        stocks: order.stocks.clone(),
        can_rip: with_rips,
    };
    let mut stocks: Vec<JobStock> = order.stocks.iter().map(job_stock).collect();
    let JobPlan::Bars(found) = bars::plan(&other, &mut stocks) else {
        return None;
    };
    Some(OtherPlan {
        with_rips,
        rips,
        used: u32::try_from(found.bars.len()).unwrap_or(u32::MAX),
        cost: found.cost,
        costs_more: found.cost.zip(plan.cost).map(|(other, own)| other - own),
    })
}

/// Why nothing could be planned, before an engine is asked.
pub(super) fn nothing_to_cut_from(order: &Order<'_>) -> Option<NoPlan> {
    let any = order
        .stocks
        .iter()
        .any(|stock| stock.on_sale || stock.owned > 0);
    (!any).then_some(NoPlan::NothingToCutFrom)
}

/// Whether everything on sale has a price: then cost counts, else length or area.
pub(super) fn priced(order: &Order<'_>) -> bool {
    let mut on_sale = order.stocks.iter().filter(|stock| stock.on_sale);
    on_sale.all(|stock| stock.price.is_some())
}
