//! Rounds the fractional plan bar by bar, making new patterns for what is left. Upper bounds only.

use super::greedy::{Fill, cost, greedy};
use super::master::{Asked, Master, Stop, jitter};
use super::meter::Meter;
use super::prepared::Pattern;
use super::simplex::{Lp, Role};

/// Most rounds of one rounding.
const ROUNDS: usize = 400;

/// Share of the way from the fractional to the least whole cost that new patterns leave unused.
const ROOM: f64 = 0.3;

/// How a rounding chooses.
#[derive(Debug, Clone, Copy)]
pub(super) struct Manner {
    /// Amounts above a whole number by at least this are rounded up at once.
    pub(super) up_from: f64,
    /// Weight of a full bar beside a large amount, in the choice of the one that must be rounded up.
    pub(super) for_full: f64,
    /// The so-manieth best choice in the first round.
    pub(super) skip: usize,
}

/// A plan cheaper than `under` \[parts of a cent\], if the rounding meets one; no plan costs less
/// than `bound`.
pub(super) fn dive(
    master: &mut Master,
    root: &Lp,
    asked: &Asked,
    manner: Manner,
    bound: i64,
    mut under: i64,
    meter: &mut Meter,
) -> Option<Vec<(Pattern, i64)>> {
    let mut best = None;
    // Short of the least whole cost by most of the room there is.
    let start = root.value() * master.prepared.unit as f64;
    let grain = master.prepared.grain as f64;
    let aim = start + ROOM * (bound as f64 - start).max(0.0);
    let mut lp = root.clone();
    let mut left = asked.clone();
    let mut fixed: Vec<(Pattern, i64)> = Vec::new();
    let mut spent = 0;
    for round in 0..ROUNDS {
        let chosen = choose(master, &lp, &left, manner, round);
        if chosen.is_empty() {
            break;
        }
        for (number, times) in chosen {
            let pattern = master.patterns[number].clone();
            take(&mut left, &pattern, times);
            spent += master.prepared.pattern_cost(&pattern) * times;
            fixed.push((pattern, times));
        }
        for fill in [Fill::LongestFirst, Fill::Fullest] {
            let rest = greedy(master.prepared, &left.demands, &left.limits, fill);
            let whole = spent + cost(master.prepared, &rest);
            if whole < under {
                under = whole;
                best = Some(fixed.iter().cloned().chain(rest).collect());
            }
        }
        if left.demands.iter().all(|&count| count == 0) {
            break;
        }
        let enough = (aim - spent as f64) / master.prepared.unit as f64;
        solve_rest(master, &mut lp, &left, enough, meter)?;
        let hope = spent as f64 + lp.value() * master.prepared.unit as f64;
        if hope > under as f64 - grain + 1e-3 * grain {
            break;
        }
    }
    best
}

fn take(left: &mut Asked, pattern: &Pattern, times: i64) {
    for &(item, each) in &pattern.items {
        left.demands[item as usize] -= i64::from(each) * times;
    }
    if let Some(limit) = &mut left.limits[pattern.bar] {
        *limit -= times;
    }
}

/// Patterns to be fixed now, each with how often.
fn choose(
    master: &Master,
    lp: &Lp,
    left: &Asked,
    manner: Manner,
    round: usize,
) -> Vec<(usize, i64)> {
    let mut left = left.clone();
    let mut chosen = Vec::new();
    let mut parts = Vec::new();
    for (_, number, amount) in master.amounts(lp) {
        let pattern = &master.patterns[number];
        let whole = (amount + 1.0 - manner.up_from).floor() as i64;
        let times = whole.min(fits(&left, pattern));
        if times > 0 {
            take(&mut left, pattern, times);
            chosen.push((number, times));
        } else if fits(&left, pattern) > 0 {
            let bar = &master.prepared.bars[pattern.bar];
            let full = master.prepared.weight(&pattern.items) as f64 / bar.capacity as f64;
            parts.push((amount + manner.for_full * full, number));
        }
    }
    if chosen.is_empty() || (round == 0 && manner.skip > 0) {
        parts.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
        let skip = if round == 0 { manner.skip } else { 0 };
        let pick = parts.get(skip.min(parts.len().saturating_sub(1)));
        if let Some(&(_, number)) = pick
            && fits(&left, &master.patterns[number]) > 0
        {
            chosen.push((number, 1));
        }
    }
    chosen
}

fn fits(left: &Asked, pattern: &Pattern) -> i64 {
    (pattern.items.iter())
        .map(|&(item, each)| left.demands[item as usize] / i64::from(each))
        .chain(left.limits[pattern.bar])
        .min()
        .unwrap_or(0)
}

/// The fractional plan of what is left.
fn solve_rest(
    master: &mut Master,
    lp: &mut Lp,
    left: &Asked,
    enough: f64,
    meter: &mut Meter,
) -> Option<()> {
    for (item, &demand) in left.demands.iter().enumerate() {
        let right = if demand > 0 {
            demand as f64 + jitter(item)
        } else {
            0.0
        };
        lp.set_right(item, right);
    }
    for (bar, limit) in left.limits.iter().enumerate() {
        if let (Some(row), Some(limit)) = (master.limit_row(bar), limit) {
            lp.set_right(row, *limit as f64);
        }
    }
    lp.settle();
    if !meter.pivot(lp, Lp::dual) {
        return None;
    }
    for column in 0..lp.columns() {
        if let Role::Pattern(number) = lp.role(column)
            && !lp.is_frozen(column)
            && fits(left, &master.patterns[number]) == 0
        {
            lp.freeze(column, 4.0);
        }
    }
    lp.settle();
    master.generate(lp, left, &mut None, Stop::Value(enough), meter)
}
