//! The same pieces on the same sheet, easier to cut and with more left in one piece: the largest
//! rectangle is kept, then few settings of the fence for rip cuts, then few cuts.
//! Not here: which pieces share a sheet (`improve`).

use std::cmp::Reverse;

use super::fill::{Filler, MANNERS, shaken};
use super::frame::Stock;
use super::improve::Pattern;
use super::input::Job;
use super::measure::{count, cut_sheet, with_trimming};
use super::result::{CutSheet, Rectangle};
use super::shape::Shape;
use crate::refusal::Refusal;
use crate::weather::Randomness;

/// Other arrangements of one sheet that are looked at.
const ARRANGEMENTS: usize = 96;

/// What is made small.
type Trouble = (Reverse<u64>, usize, usize);

/// The sheet of a pattern, arranged as well as was found.
pub(super) fn tidied(
    job: &Job,
    stock: &Stock,
    pattern: &Pattern,
    areas: &[u64],
    random: &mut Randomness,
) -> Result<CutSheet, Refusal> {
    let Some(mut best) = arranged(job, stock, &pattern.shape)? else {
        let found = stock.sheet as f64;
        return Err(Refusal::new("sheet", found, "cuts that the saw can make"));
    };
    let mut least = trouble(&best);
    for number in 0..ARRANGEMENTS {
        let ranks = if number < MANNERS.len() {
            areas.to_vec()
        } else {
            shaken(areas, random)
        };
        let filler = Filler {
            frame: &stock.frame,
            positions: &stock.positions,
            ranks: &ranks,
        };
        let mut left = pattern.counts.clone();
        let shape = filler.fill(MANNERS[number % MANNERS.len()], &mut left);
        let Some(shape) = shape.filter(|_| left.iter().all(|count| *count == 0)) else {
            continue;
        };
        if let Some(other) = arranged(job, stock, &shape)? {
            let other_trouble = trouble(&other);
            if other_trouble < least {
                best = other;
                least = other_trouble;
            }
        }
    }
    Ok(best)
}

fn arranged(job: &Job, stock: &Stock, shape: &Shape) -> Result<Option<CutSheet>, Refusal> {
    let Some(tree) = shape.cuts(&stock.frame) else {
        return Ok(None);
    };
    let tree = with_trimming(&job.sheets[stock.sheet], job.saw.kerf, tree);
    cut_sheet(job, stock.sheet, tree).map(Some)
}

fn trouble(sheet: &CutSheet) -> Trouble {
    let count = count(std::slice::from_ref(sheet));
    let kept = sheet.offcuts.first().map_or(0, Rectangle::area);
    (Reverse(kept), count.rip_settings, count.cuts)
}
