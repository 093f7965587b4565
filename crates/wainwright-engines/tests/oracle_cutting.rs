//! Cutting plans against a search through all ways to share out a few pieces. Not here: larger jobs
//! (`oracle_cutting_milp`) and published ones (`proofs_cutting`).
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

mod bar_jobs;

use bar_jobs::{Dice, planks};
use wainwright_engines::cutting::*;

/// Jobs compared.
const CASES: u64 = 2_000;

#[test]
fn agrees_with_every_way_to_share_out_the_pieces() {
    let (mut short, mut credited, mut limited) = (0, 0, 0);
    for seed in 0..CASES {
        let job = tiny(seed);
        let expected = Shares::of(&job).best;
        match (plan(&job, &Budget::default()), expected) {
            (Ok(plan), Some(best)) => {
                assert!(plan.proven, "{seed}: {job:?}\n{plan:?}");
                let per = job.leftover.map_or(1, |leftover| i64::from(leftover.per));
                let cost = Cost {
                    numerator: best,
                    denominator: per,
                };
                assert_eq!(plan.cost, cost, "{seed}: {job:?}\n{plan:?}");
                assert_eq!(plan.bound, cost, "{seed}");
                assert!(plan.relaxation <= cost.cents() + 1e-9, "{seed}: {plan:?}");
                credited += u32::from(plan.layouts.iter().any(|one| one.credit.numerator > 0));
                limited += u32::from(job.stocks.iter().any(|stock| stock.available.is_some()));
            }
            (Err(CuttingError::NotEnough { proven }), None) => {
                assert!(proven, "{seed}: {job:?}");
                short += 1;
            }
            (Err(CuttingError::TooLong { .. }), None) => short += 1,
            (found, expected) => panic!("{seed}: {job:?}\n{found:?} against {expected:?}"),
        }
    }
    // The jobs are of all kinds.
    assert!(
        short > 20 && credited > 100 && limited > 300,
        "{short} {credited} {limited}"
    );
}

/// Every bar adds up, every piece is there, longest first, no stock is used oftener than there is,
/// and the cost is that of the bars: counted here again from the job.
#[test]
fn every_plan_adds_up() {
    let jobs = (0..300)
        .map(tiny)
        .chain((0..60).map(|seed| planks(seed, 12)));
    for (index, job) in jobs.enumerate() {
        let Ok(plan) = plan(&job, &Budget::default()) else {
            continue;
        };
        let mut made = vec![0; job.pieces.len()];
        let mut cost = 0.0;
        for layout in &plan.layouts {
            let stock = &job.stocks[layout.stock];
            let lengths: Vec<u32> = (layout.pieces.iter())
                .map(|&piece| job.pieces[piece].length)
                .collect();
            let sum: u32 = lengths.iter().sum();
            let lost = layout.kerf_lost + stock.trim + stock.defects;
            assert_eq!(
                sum + lost + layout.offcut,
                stock.length,
                "{index}: {layout:?}"
            );
            assert!(lengths.is_sorted_by(|a, b| a >= b), "{index}: {layout:?}");
            assert!(
                layout.kerf_lost <= job.kerf * layout.cuts,
                "{index}: {layout:?}"
            );
            for &piece in &layout.pieces {
                made[piece] += layout.times;
            }
            let worth = match job.leftover {
                Some(leftover) if layout.offcut >= leftover.least => {
                    f64::from(layout.offcut * leftover.cents) / f64::from(leftover.per)
                }
                _ => 0.0,
            };
            cost += (f64::from(stock.price) - worth) * f64::from(layout.times);
        }
        // Sums of some dozen numbers below 1e6 in 53 bits.
        assert!((cost - plan.cost.cents()).abs() < 1e-6, "{index}: {plan:?}");
        let wanted: Vec<u32> = job.pieces.iter().map(|piece| piece.count).collect();
        assert_eq!(made, wanted, "{index}");
        for (place, stock) in job.stocks.iter().enumerate() {
            assert!(
                stock
                    .available
                    .is_none_or(|most| plan.bars_of(place) <= most)
            );
        }
        assert_eq!(Ok(plan), again(&job), "{index}: not the same twice");
    }
}

fn again(job: &Job) -> Result<Plan, CuttingError> {
    plan(job, &Budget::default())
}

/// Up to eight pieces, up to four stocks, kerf, trim, faults, limits and worth of offcuts.
fn tiny(seed: u64) -> Job {
    let mut dice = Dice::new(seed);
    let mut draw = |low, high| dice.draw(low, high);
    let count = draw(1, 8);
    let pieces = (0..count).map(|_| Piece {
        // Every other job has few lengths, so that pieces are alike.
        length: if seed.is_multiple_of(2) {
            draw(3, 30)
        } else {
            3 * draw(1, 4)
        },
        count: 1,
    });
    let pieces: Vec<Piece> = pieces.collect();
    let kerf = draw(0, 3) * draw(0, 1);
    let stocks = (0..draw(1, 4)).map(|_| Stock {
        length: draw(20, 70),
        price: if draw(0, 3) == 0 { 0 } else { draw(40, 120) },
        available: (draw(0, 1) == 0).then(|| draw(0, 3)),
        trim: draw(0, 2) * draw(0, 1),
        defects: draw(0, 2) * draw(0, 1),
    });
    let mut stocks: Vec<Stock> = stocks.collect();
    let leftover = (draw(0, 1) == 0).then(|| Leftover {
        least: draw(0, 20),
        cents: draw(0, 4),
        per: draw(4, 9),
    });
    for stock in &mut stocks {
        // Free bars without end would make every plan free; and see what a whole bar is worth.
        if stock.price == 0 {
            stock.available = Some(draw(0, 3));
        } else if leftover.is_some() {
            stock.price += stock.length;
        }
    }
    Job {
        kerf,
        pieces,
        stocks,
        leftover,
    }
}

/// A search through all ways: each piece goes into a heap that is there or a new one; then each heap
/// gets a bar.
struct Shares<'j> {
    job: &'j Job,
    heaps: Vec<Vec<u32>>,
    best: Option<i64>,
}

impl<'j> Shares<'j> {
    fn of(job: &'j Job) -> Self {
        let mut shares = Self {
            job,
            heaps: Vec::new(),
            best: None,
        };
        shares.share_out(0);
        shares
    }

    fn share_out(&mut self, next: usize) {
        let Some(piece) = self.job.pieces.get(next) else {
            let mut used = vec![0; self.job.stocks.len()];
            return self.choose_bars(0, 0, &mut used);
        };
        for heap in 0..self.heaps.len() {
            self.heaps[heap].push(piece.length);
            self.share_out(next + 1);
            self.heaps[heap].pop();
        }
        self.heaps.push(vec![piece.length]);
        self.share_out(next + 1);
        self.heaps.pop();
    }

    fn choose_bars(&mut self, heap: usize, spent: i64, used: &mut [u32]) {
        let Some(pieces) = self.heaps.get(heap) else {
            self.best = Some(self.best.map_or(spent, |best| best.min(spent)));
            return;
        };
        let sum: i64 = pieces.iter().map(|&piece| i64::from(piece)).sum();
        let cuts_between = pieces.len() as i64 - 1;
        let kerf = i64::from(self.job.kerf);
        for (index, stock) in self.job.stocks.iter().enumerate() {
            let room = i64::from(stock.length) - i64::from(stock.trim) - i64::from(stock.defects);
            let rest = room - sum - kerf * cuts_between;
            if rest < 0 || stock.available == Some(used[index]) {
                continue;
            }
            let offcut = (rest - kerf).max(0);
            let mut cost = i64::from(stock.price);
            if let Some(leftover) = self.job.leftover {
                cost *= i64::from(leftover.per);
                if offcut >= i64::from(leftover.least) && rest >= kerf {
                    cost -= offcut * i64::from(leftover.cents);
                }
            }
            used[index] += 1;
            self.choose_bars(heap + 1, spent + cost, used);
            used[index] -= 1;
        }
    }
}
