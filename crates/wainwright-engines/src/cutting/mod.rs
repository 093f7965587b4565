//! Cutting plans: which bars to buy and how to cut each, at the least cost. Which pieces are wanted
//! and what a bar costs is the caller's; sheets are not here.
//!
//! # Computes
//! For pieces by length and number, and bars of several lengths with prices, numbers and offcuts at
//! hand: how each bar is cut, the cost, a bound below which no plan can cost, and whether the two
//! meet. Then, on the same kinds of bars at the same cost, fewer different layouts.
//!
//! # Equation
//! - Kerf k: pieces l₁…lₙ fit a bar of usable length U when Σ l + k(n − 1) ≤ U, which is
//!   Σ (l + k) ≤ U + k. What is left in one piece is U − Σ (l + k), and nothing when that is below 0.
//!   U is the length less trim and what is allowed for defects.
//! - Least Σ cₚ xₚ over patterns p with Σ aᵢₚ xₚ ≥ dᵢ, x whole, bars of a kind at most as many as there
//!   are; cₚ is the price less the worth of the offcut; aᵢₚ ≤ dᵢ.
//! - Bound: whole-number prices π of pieces and μ ≥ 0 of limited bars give
//!   Σ πᵢ dᵢ − Σ μₖ uₖ − (bars) · (largest excess of a pattern's worth over its cost), whatever π and μ
//!   are. The excess comes from an exact knapsack over whole numbers. Prices are found by column
//!   generation, in rounded numbers, which can make the bound worse but never wrong.
//! - Proof: a plan cheaper than the one known holds no pattern whose cost exceeds its worth by more than
//!   the distance between bound and plan. All others are listed; over them branch and bound with cuts
//!   Σ ⌈Σ aᵢ/2⌉ x ≥ ⌈Σ dᵢ/2⌉ over one to three items, each node bounded as above.
//! - A bound is rounded up to the next multiple of what divides all costs.
//!
//! # Assumptions and limits
//! - One piece after the other from one end; a cut takes the same everywhere; bars of a kind are alike.
//! - Trim and defects take a length from every bar, wherever that is.
//! - An offcut at hand is used like any other bar; to keep it from being cut for the sake of the worth
//!   of what it leaves, give it that worth as its price.
//! - Work is counted, never timed. When a cap is hit, the plan is the best found, and the bound says
//!   how far from the best it can be.
//! - Fewer layouts: two give way to one, three to two, while some do; nothing is proven about it.
//!
//! # Valid range
//! Up to 500 kinds of pieces, 20 000 pieces, 200 kinds of bars, a million steps of the grid. Proofs are
//! likely up to some 200 pieces; long bars of small pieces are harder.
//!
//! # Example
//! ```
//! use wainwright_engines::cutting::*;
//! // Sixteenths of an inch: bars of 96 in at 8.99, 20 pieces of 24 in and 4 of 48 in, kerf 1/8 in.
//! let job = Job {
//!     kerf: 2,
//!     pieces: vec![Piece { length: 384, count: 20 }, Piece { length: 768, count: 4 }],
//!     stocks: vec![Stock::new(1536, 899)],
//!     leftover: None,
//! };
//! let plan = plan(&job, &Budget::default()).unwrap();
//! assert!(plan.proven);
//! assert_eq!(plan.bars(), 10);
//! assert_eq!(plan.cost.cents(), 8990.0);
//! ```
//!
//! # Sources
//! - P. C. Gilmore, R. E. Gomory, Oper. Res. 9 (1961) and 11 (1963): patterns, column generation
//!   (memory). Proper patterns and rounding of the bound: textbooks (memory).
//! - Cuts of halves of rows: V. Chvátal's rounding (memory); the list of all patterns near the bound:
//!   reduced-cost fixing (textbooks, memory). Kerf as l + k and U + k: derived.
//! - Two patterns for one, three for two: H. Foerster, G. Waescher, Int. J. Prod. Res. 38 (2000)
//!   (memory).

mod alike;
mod dive;
mod finish;
mod greedy;
mod input;
mod master;
mod meter;
mod node;
mod pool;
mod prepared;
mod price;
mod result;
mod rows;
mod simplex;
mod solve;
mod tree;

pub use input::{
    Budget, DEAREST, Grid, Job, LONGEST, Leftover, MOST_KINDS, MOST_PIECES, MOST_STOCKS, Piece,
    Stock,
};
pub use result::{Cap, Cost, CuttingError, Layout, Plan, Work};
pub use solve::plan;
