//! What the lining adds: planks, sheets and foam by their cutting plans, screws, tape, adhesive, cover strips. Not here:
//! the plans themselves.

use super::Desk;
use super::lines::Lines;
use crate::known::{Assumption, Basis, Known};
use crate::result::lining::{
    CuttingJob, JobStock, LaidLayer, LiningResult, LiningWanted, PieceMark, Supplies,
};
use crate::result::{Amount, Asked, AskedFor, Line, TakeOff, Thing, Use};
use wainwright_model::{Goods, Id};
use wainwright_units::Length;

/// What is counted or measured and not cut by a plan, for each layer that is not in yet.
pub(super) fn supplies(lining: &LiningResult, lines: &mut Lines) {
    for (_, layer) in lining.layers().filter(|(_, layer)| !layer.done) {
        let own = own_supplies(layer);
        let screws = u32::try_from(own.fasteners).unwrap_or(u32::MAX);
        let of = ("layer", &layer.layer);
        if screws > 0 {
            let amount = Amount::Pieces(screws);
            lines.add(Thing::LiningScrew, amount, of, Basis::Computed);
        }
        for (thing, length) in [
            (Thing::FoamTape, own.tape),
            (Thing::FoamAdhesive, own.adhesive),
            (Thing::CoverStrip, own.trims),
        ] {
            if length > Length::ZERO {
                lines.add(thing, Amount::Length(length), of, Basis::Computed);
            }
        }
    }
}

/// Adhesive only where nothing else holds: foam.
fn own_supplies(layer: &LaidLayer) -> Supplies {
    let foam = layer.kind == wainwright_model::LayerKind::Foam;
    Supplies {
        fasteners: layer.fasteners,
        tape: layer.tape,
        adhesive: if foam { layer.adhesive } else { Length::ZERO },
        trims: layer.trims,
    }
}

/// Lines of what is cut by a plan, and what is asked for.
pub(super) fn add(desk: &Desk<'_>, lining: &LiningResult, takeoff: &mut TakeOff) {
    for job in &lining.jobs {
        for (index, stock) in job.stocks.iter().enumerate() {
            let Some(line) = line(desk, lining, job, index, stock) else {
                continue;
            };
            takeoff.cost += line.cost.unwrap_or(0.0);
            takeoff.unpriced += usize::from(line.cost.is_none() && line.buy.count() > 0.0);
            takeoff.lines.push(line);
        }
    }
    for missing in lining.missing.iter().filter(|one| one.path.len() == 3) {
        let asked = Asked {
            path: missing.path.clone(),
            why: match missing.wanted {
                LiningWanted::Price => AskedFor::Price,
                LiningWanted::StockSize => AskedFor::PieceSize,
                LiningWanted::Thickness | LiningWanted::Width => AskedFor::Layer,
                _ => continue,
            },
        };
        if !takeoff.asked.contains(&asked) {
            takeoff.asked.push(asked);
        }
    }
}

/// One size of one job; `None` when the plan takes none of it.
fn line(
    desk: &Desk<'_>,
    lining: &LiningResult,
    job: &CuttingJob,
    index: usize,
    stock: &JobStock,
) -> Option<Line> {
    let spares = job.spares().filter(|(of, _)| *of == index);
    let spares = spares.map_or(0, |(_, count)| u32::try_from(count).unwrap_or(u32::MAX));
    let needed = stock.buy.saturating_add(stock.used_owned);
    if needed == 0 && spares == 0 {
        return None;
    }
    let entry = stock.stock.as_ref();
    let entry = entry.and_then(|id| desk.project.stock.get(id.as_str()));
    let price: Option<Known<f64>> = entry.and_then(|entry| desk.notes.given(&entry.price));
    let buy = stock.buy.saturating_add(spares);
    let mut line = Line::new(thing(job, stock), Amount::Pieces(0), Basis::Computed);
    line.needed = Amount::Pieces(needed);
    line.more = Amount::Pieces(spares);
    line.more_basis = (spares > 0).then_some(Basis::Assumed(Assumption::UsualForKind));
    line.owned = Amount::Pieces(stock.used_owned);
    line.buy = Amount::Pieces(buy);
    line.cost = price.as_ref().map(|price| price.value * f64::from(buy));
    line.price = price;
    line.uses = uses(lining, job, index);
    line.aisle.clone_from(&stock.aisle);
    Some(line)
}

fn thing(job: &CuttingJob, stock: &JobStock) -> Thing {
    match job.goods {
        Goods::Sheet | Goods::Foam => Thing::Sheet {
            foam: job.goods == Goods::Foam,
            material: job.material.clone(),
            length: stock.length,
            width: stock.width.unwrap_or(stock.length),
            thickness: job.thickness,
        },
        _ => Thing::Plank {
            material: job.material.clone(),
            width: job.width,
            thickness: job.thickness,
            length: stock.length,
        },
    }
}

/// Pieces of each layer that are cut from one size.
fn uses(lining: &LiningResult, job: &CuttingJob, stock: usize) -> Vec<Use> {
    let mut uses: Vec<Use> = Vec::new();
    for mark in job.marks_of(stock) {
        let Some(layer) = layer_of(lining, mark) else {
            continue;
        };
        let of = ("layer", layer.clone());
        match uses.iter_mut().find(|known| known.of == of) {
            Some(known) => known.amount = known.amount.plus(Amount::Pieces(1)),
            None => uses.push(Use {
                of,
                amount: Amount::Pieces(1),
            }),
        }
    }
    uses
}

fn layer_of(lining: &LiningResult, mark: PieceMark) -> Option<&Id> {
    let layers = &lining.surface(mark.side)?.layers;
    let layer = layers.iter().find(|layer| layer.position == mark.layer)?;
    Some(&layer.layer)
}
