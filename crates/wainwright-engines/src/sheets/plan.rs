//! The plan for all sheets: quick plans from above, bounds from below, until they meet or the
//! work is spent. Not here: how each of them is found.

use super::columns::generate;
use super::combos::{Need, by_area, next_level};
use super::cover::{Covering, PAIRS_PER_BLOCK, cover};
use super::frame::{Stock, stocks};
use super::improve::{Filled, Pattern, Workshop};
use super::input::{Job, Saw};
use super::measure::count;
use super::result::{Cap, CuttingPlan, Proof, Rectangle, RipChoice};
use super::tidy::tidied;
use crate::refusal::Refusal;
use crate::weather::Randomness;

/// Prices that are tried by exact covers.
const MOST_LEVELS: usize = 400;
/// Kinds of pieces up to which pricing may keep that many.
const KINDS: usize = 40;
/// Looks at one kind of sheet in all rounds of column generation.
const PRICINGS: usize = 300;
/// Blocks that one pricing may keep, as a part of those the whole search may.
const SHARE_OF_PRICING: usize = 10;

/// The cheapest plan that was found, with what is proven about it.
///
/// # Errors
/// When a size is zero or too long, trimming leaves nothing, a price is too high, there is too
/// much of anything, or a finished plan does not pass its own checks.
pub fn cut(job: &Job) -> Result<CuttingPlan, Refusal> {
    job.check()?;
    let stocks = stocks(job);
    let kerf = job.saw.kerf;
    let area = |kind: usize| {
        let piece = &job.pieces[kind];
        u64::from(piece.width + kerf) * u64::from(piece.height + kerf)
    };
    let areas: Vec<u64> = (0..job.pieces.len()).map(area).collect();
    let mut wanted: Vec<u32> = job.pieces.iter().map(|piece| piece.wanted).collect();
    let mut hopeless = vec![0; wanted.len()];
    for (kind, count) in wanted.iter_mut().enumerate() {
        if stocks.iter().all(|stock| stock.positions[kind].is_empty()) {
            hopeless[kind] = std::mem::take(count);
        }
    }
    let mut solver = Solver::new(job, &stocks, &areas, &wanted);
    let found = solver.solve();
    finish(job, &stocks, found, &hopeless, &solver)
}

/// The plan with rip cuts and the plan without any, whatever the saw of the job can do.
///
/// # Errors
/// As [`cut`].
pub fn rip_choice(job: &Job) -> Result<RipChoice, Refusal> {
    let with = |can_rip: bool| {
        cut(&Job {
            saw: Saw { can_rip, ..job.saw },
            ..job.clone()
        })
    };
    let (with_rips, without_rips) = (with(true)?, with(false)?);
    let both = [&with_rips, &without_rips];
    let complete = both
        .iter()
        .all(|plan| plan.missing.iter().all(|count| *count == 0));
    // Doing without is one way of doing with: a plan that happens to be cheaper serves both.
    let costs_more = complete.then(|| without_rips.price.saturating_sub(with_rips.price));
    let with_rips = if complete && without_rips.price < with_rips.price {
        CuttingPlan {
            at_least: with_rips.at_least,
            proof: if with_rips.at_least == without_rips.price {
                Proof::Cheapest
            } else {
                Proof::Gap
            },
            caps: with_rips.caps,
            ..without_rips.clone()
        }
    } else {
        with_rips
    };
    Ok(RipChoice {
        with_rips,
        without_rips,
        costs_more,
    })
}

struct Solver<'s> {
    job: &'s Job,
    workshop: Workshop<'s>,
    wanted: &'s [u32],
    need: Need,
    at_least: u64,
    /// Whether not even all sheets together have room.
    too_few: bool,
    caps: Vec<Cap>,
    random: Randomness,
}

impl<'s> Solver<'s> {
    fn new(job: &'s Job, stocks: &'s [Stock], areas: &'s [u64], wanted: &'s [u32]) -> Self {
        let need = Need {
            area: areas
                .iter()
                .zip(wanted)
                .map(|(one, count)| one * u64::from(*count))
                .sum(),
            pieces: wanted.iter().map(|count| u64::from(*count)).sum(),
        };
        Solver {
            job,
            workshop: Workshop { stocks, areas },
            wanted,
            need,
            at_least: by_area(stocks, need.area),
            too_few: false,
            caps: vec![],
            random: Randomness::new(2, 0),
        }
    }

    fn solve(&mut self) -> Filled {
        let mut best = self.workshop.first(self.wanted, &mut self.random);
        self.raise(&best, self.at_least);
        let tries = self.job.effort.tries;
        best = self.try_more(best, tries / 10);
        if !self.is_done(&best) {
            best = self.cover(best, self.job.effort.blocks / 10);
        }
        if !self.is_done(&best) {
            best = self.generate(best);
        }
        if !self.is_done(&best) {
            best = self.try_more(best, tries);
        }
        if !self.is_done(&best) {
            best = self.cover(best, self.job.effort.blocks);
        }
        best
    }

    fn is_complete(plan: &Filled) -> bool {
        plan.missing.iter().all(|count| *count == 0)
    }

    fn is_done(&self, plan: &Filled) -> bool {
        let cheapest = self.workshop.price(&plan.patterns) <= self.at_least;
        self.too_few || (Self::is_complete(plan) && cheapest)
    }

    /// The price below which a plan would be better than this one.
    fn below(&self, plan: &Filled) -> u64 {
        if Self::is_complete(plan) {
            self.workshop.price(&plan.patterns)
        } else {
            u64::MAX
        }
    }

    /// Raises the bound to a price that sheets can have together.
    fn raise(&mut self, best: &Filled, bound: u64) {
        self.at_least = self.at_least.max(bound);
        let below = self.below(best);
        match next_level(self.workshop.stocks, self.need, self.at_least, below) {
            Ok(Some(level)) => self.at_least = level.price,
            Ok(None) if below < u64::MAX => self.at_least = below,
            Ok(None) => self.too_few = true,
            Err(bound) => self.at_least = self.at_least.max(bound),
        }
    }

    fn try_more(&mut self, best: Filled, tries: usize) -> Filled {
        self.workshop
            .improve(best, tries, self.at_least, &mut self.random)
    }

    /// Tries the prices from the bound upwards until one is reached or not decided.
    fn cover(&mut self, best: Filled, budget: usize) -> Filled {
        let mut pairs = budget.saturating_mul(PAIRS_PER_BLOCK);
        for _ in 0..MOST_LEVELS {
            let below = self.below(&best);
            let level = next_level(self.workshop.stocks, self.need, self.at_least, below);
            let level = match level {
                Ok(Some(level)) => level,
                Ok(None) => {
                    self.too_few |= below == u64::MAX;
                    self.at_least = if self.too_few { self.at_least } else { below };
                    return best;
                }
                Err(_) => return best,
            };
            self.at_least = level.price;
            let workshop = self.workshop;
            let covering = cover(
                workshop.stocks,
                self.wanted,
                workshop.areas,
                &level.choices,
                budget,
                &mut pairs,
            );
            match covering {
                Covering::Found(sheets) => {
                    let pattern = |(stock, shape)| Pattern::new(stock, shape, workshop.areas);
                    return Filled {
                        patterns: sheets.into_iter().map(pattern).collect(),
                        missing: vec![0; self.wanted.len()],
                    };
                }
                Covering::Impossible if level.complete => self.at_least = level.price + 1,
                _ => {
                    self.cap(Cap::Blocks);
                    return best;
                }
            }
        }
        best
    }

    fn cap(&mut self, cap: Cap) {
        self.caps.push(cap);
    }

    /// Column generation: a better bound, and plans that start from its patterns.
    fn generate(&mut self, best: Filled) -> Filled {
        let effort = self.job.effort;
        let below = self.below(&best);
        let generated = generate(
            &self.workshop,
            self.wanted,
            &best.patterns,
            below,
            effort
                .rounds
                .min(PRICINGS / self.workshop.stocks.len().max(1)),
            effort.blocks / SHARE_OF_PRICING * KINDS / self.wanted.len().max(KINDS),
        );
        self.caps.extend(generated.caps);
        self.raise(&best, generated.at_least.min(below));
        let rounded = self.rounded(&generated.used);
        let rounded = self.try_more(rounded, effort.tries / 10);
        if self.workshop.rank(&rounded) < self.workshop.rank(&best) {
            rounded
        } else {
            best
        }
    }

    /// Patterns of the linear program, those used most first, as long as their pieces are wanted.
    fn rounded(&mut self, used: &[(Pattern, f64)]) -> Filled {
        let mut order: Vec<&(Pattern, f64)> = used.iter().collect();
        order.sort_by(|one, other| other.1.total_cmp(&one.1));
        let mut missing = self.wanted.to_vec();
        let mut patterns: Vec<Pattern> = Vec::new();
        for (pattern, times) in order {
            let stock = &self.workshop.stocks[pattern.stock];
            for _ in 0..(times + 0.5) as usize {
                let taken = patterns
                    .iter()
                    .filter(|one| one.stock == pattern.stock)
                    .count();
                let fits = pattern
                    .counts
                    .iter()
                    .zip(&missing)
                    .all(|(one, left)| one <= left);
                let sheets = stock.available.map_or(usize::MAX, |count| count as usize);
                if !fits || taken >= sheets {
                    break;
                }
                for (left, one) in missing.iter_mut().zip(&pattern.counts) {
                    *left -= one;
                }
                patterns.push(pattern.clone());
            }
        }
        self.workshop
            .fill_all(patterns, missing, 12, &mut self.random)
    }
}

fn finish(
    job: &Job,
    stocks: &[Stock],
    found: Filled,
    hopeless: &[u32],
    solver: &Solver,
) -> Result<CuttingPlan, Refusal> {
    let mut sheets = Vec::with_capacity(found.patterns.len());
    let mut random = Randomness::new(3, 0);
    for pattern in &found.patterns {
        let stock = &stocks[pattern.stock];
        let areas = solver.workshop.areas;
        sheets.push(tidied(job, stock, pattern, areas, &mut random)?);
    }
    sheets.sort_by_key(|sheet| (sheet.sheet, sheet.offcuts.first().map(Rectangle::area)));
    let missing: Vec<u32> = found
        .missing
        .iter()
        .zip(hopeless)
        .map(|(a, b)| a + b)
        .collect();
    let price = solver.workshop.price(&found.patterns);
    let proof = if hopeless.iter().any(|count| *count > 0) {
        Proof::CannotBeCut
    } else if solver.too_few {
        Proof::TooFewSheets
    } else if found.missing.iter().any(|count| *count > 0) {
        Proof::OutOfSheets
    } else if price <= solver.at_least {
        Proof::Cheapest
    } else {
        Proof::Gap
    };
    let mut caps = solver.caps.clone();
    if proof == Proof::Cheapest {
        caps.clear();
    }
    caps.sort_unstable();
    caps.dedup();
    Ok(CuttingPlan {
        count: count(&sheets),
        sheets,
        price,
        at_least: solver.at_least,
        proof,
        missing,
        caps,
    })
}
