//! The plan as it is handed over: pieces by their entries of the job, parts that add up. Not here:
//! the search for the least cost, and fewer different layouts (`alike`).

use super::input::Job;
use super::prepared::{Pattern, Prepared};
use super::result::{Cost, Layout};

/// Layouts of a plan: by stock, then longest pieces first.
pub(super) fn layouts(job: &Job, prepared: &Prepared, plan: &[(Pattern, i64)]) -> Vec<Layout> {
    let mut supply: Vec<Vec<(usize, u32)>> = (prepared.items.iter())
        .map(|item| item.from.iter().rev().copied().collect())
        .collect();
    let mut order: Vec<&(Pattern, i64)> = plan.iter().collect();
    order.sort_by(|a, b| key(prepared, a).cmp(&key(prepared, b)));
    let mut layouts: Vec<Layout> = Vec::new();
    for (pattern, times) in order {
        let mut left = *times as u32;
        while left > 0 {
            // As many alike as the job's own entries allow.
            let (pieces, alike) = draw(&mut supply, pattern, left);
            left -= alike;
            layouts.push(layout(job, prepared, pattern, pieces, alike));
        }
    }
    layouts
}

fn key<'k>(prepared: &Prepared, entry: &'k (Pattern, i64)) -> (Option<usize>, &'k [(u32, u32)]) {
    (prepared.bars[entry.0.bar].stock, &entry.0.items)
}

/// Entries of the job for one pattern, and for how many bars the same entries serve.
fn draw(supply: &mut [Vec<(usize, u32)>], pattern: &Pattern, most: u32) -> (Vec<usize>, u32) {
    let mut alike = most;
    let mut parts: Vec<(usize, usize, u32)> = Vec::new();
    for &(item, times) in &pattern.items {
        let from = &supply[item as usize];
        let mut wanted = times;
        for &(piece, count) in from.iter().rev() {
            let taken = wanted.min(count);
            if let Some(bars) = count.checked_div(taken) {
                alike = alike.min(bars);
                parts.push((item as usize, piece, taken));
                wanted -= taken;
            }
            if wanted == 0 {
                break;
            }
        }
    }
    let mut pieces = Vec::new();
    for (item, piece, taken) in parts {
        pieces.extend(std::iter::repeat_n(piece, taken as usize));
        for entry in supply[item].iter_mut().filter(|entry| entry.0 == piece) {
            entry.1 -= taken * alike;
        }
        supply[item].retain(|entry| entry.1 > 0);
    }
    (pieces, alike)
}

fn layout(
    job: &Job,
    prepared: &Prepared,
    pattern: &Pattern,
    pieces: Vec<usize>,
    times: u32,
) -> Layout {
    let stock = prepared.bars[pattern.bar].stock.unwrap_or(0);
    let used: u32 = pieces.iter().map(|&piece| job.pieces[piece].length).sum();
    let usable = job.stocks[stock].usable();
    let count = pieces.len() as u32;
    // After the last piece there is a cut unless it ends with the bar.
    let rest = usable - used - job.kerf * (count - 1);
    let kerf_lost = job.kerf * (count - 1) + rest.min(job.kerf);
    let left = prepared.bars[pattern.bar].capacity - prepared.weight(&pattern.items);
    Layout {
        stock,
        times,
        pieces,
        cuts: count - 1 + u32::from(rest > 0),
        kerf_lost,
        offcut: usable - used - kerf_lost,
        credit: Cost {
            numerator: prepared.worth(left),
            denominator: prepared.parts,
        },
    }
}
