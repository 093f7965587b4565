//! Cutting sheets: which sheets to buy or take from the shed, and how to cut the wanted pieces
//! from them with cuts that go all the way through. Boards, cut to length only, are elsewhere.
//!
//! # Computes
//! The cheapest plan found for several kinds of sheets and offcuts at hand, a price that no plan
//! goes below, the numbered cuts of every sheet, what is left over; the same without rip cuts; and
//! the most valuable pieces that one single sheet can give.
//!
//! # Equation
//! - Kerf k: n pieces in a row need n − 1 cuts, Σ(w + k) ≤ W + k. So a sheet of W × H behaves as
//!   (W + k) × (H + k) and pieces as (w + k) × (h + k) without kerf, exactly, in whole grid steps.
//! - One sheet, unlimited pieces: F(x, y) = max(one piece, F(x′, y) + F(x − x′, y),
//!   F(x, y′) + F(x, y − y′)) where x′, y′ are sums of pieces and F grows.
//! - One sheet, limited pieces: blocks joined side by side or on top of each other, the highest
//!   value + u first, where u is the lesser of the most that F allows around the block,
//!   u(x, y) = max(u(x + d, y) + F(d, y), u(x, y + d) + F(x, d)), and the densest pieces that are
//!   left on the area that is left.
//! - Several sheets, from below: with prices π of the pieces and V the most a sheet of price c can
//!   hold, cost ≥ Σ dπ when V ≤ c; else π is divided by the largest V/c, and for kinds of which
//!   there are u, u·(V − c) is taken off. π from the linear program over the patterns so far. And
//!   the least price of sheets that have the area. Then up to the next price sheets can add up to.
//! - Several sheets, from above: sheets filled corner by corner, then some emptied and filled
//!   again; patterns of the linear program rounded; and all blocks that waste no more than the
//!   sheets can spare, put together to sheets: when that list is complete and no sheets cover all
//!   pieces, the next price is proven too low.
//! - Check: pieces + saw cuts + offcuts = sheet, every piece of its size, or no answer.
//!
//! # Assumptions and limits
//! - Every cut goes through the whole part it is made on. Any number of turns between cuts.
//! - A rip cut runs along the grain of its sheet. A saw that cannot rip makes no such cut of any
//!   length, trimming included.
//! - Budgets are counts of work. Where one ends a search, the plan says so and gives the bound.
//!
//! # Valid range
//! Sides up to 20 000 grid steps, 250 kinds of pieces, 1000 pieces, 60 kinds of sheets. Exact
//! covers need counts that fit in 128 bits (some 40 kinds of one to three pieces). Bounds use a
//! coarser grid where the table would get too large; they stay bounds.
//!
//! # Example
//! ```
//! use wainwright_engines::sheets::*;
//! use wainwright_units::Length;
//! let grid = Grid { step: Length::from_inches(1.0 / 16.0) };
//! let (wide, long) = (Length::from_inches(48.0), Length::from_inches(96.0));
//! let width = grid.down(wide).unwrap();
//! let height = grid.down(long).unwrap();
//! let job = Job {
//!     sheets: vec![Sheet {
//!         width,
//!         height,
//!         price: 6250,
//!         available: None,
//!         grain: Along::long_side(width, height),
//!         trim: Trim::default(),
//!     }],
//!     pieces: vec![Piece {
//!         width: grid.up(Length::from_inches(48.0)).unwrap(),
//!         height: grid.up(Length::from_inches(31.5)).unwrap(),
//!         wanted: 3,
//!         grain: None,
//!     }],
//!     saw: Saw { kerf: 2, can_rip: true, longest_cut: None },
//!     effort: Effort::default(),
//! };
//! let plan = cut(&job).unwrap();
//! assert_eq!((plan.price, plan.proof), (6250, Proof::Cheapest));
//! // Three pieces across the whole sheet: no rip cut is needed.
//! assert_eq!(rip_choice(&job).unwrap().costs_more, Some(0));
//! ```
//!
//! # Sources
//! - Unlimited pieces on reachable points: Beasley, J. Oper. Res. Soc. 36 (1985); fewer points:
//!   Scheithauer and Terno (memory).
//! - Blocks, best first: Wang, Oper. Res. 31 (1983); Viswanathan and Bagchi, Oper. Res. 41 (1993)
//!   (memory). The bound by area and density: derived.
//! - Column generation: Gilmore and Gomory, Oper. Res. 9 (1961), 13 (1965); the bound before its
//!   end: Farley, Oper. Res. 38 (1990) (memory).
//! - Emptying and filling again: textbooks of optimisation (memory). Exact covers by waste: derived.
//! - Largest rectangle first, then few settings: judgement.

mod blocks;
mod columns;
mod combos;
mod cover;
mod fill;
mod frame;
mod improve;
mod input;
mod lp;
mod measure;
mod one;
mod plan;
mod points;
mod result;
mod shape;
mod sides;
mod table;
mod tidy;

pub use input::{
    Along, Effort, Grid, HIGHEST_PRICE, Job, LONGEST_SIDE, MOST_KINDS, MOST_PIECES, MOST_STOCKS,
    OneSheet, Piece, Saw, Sheet, Trim, Valued,
};
pub use one::best_of_one;
pub use plan::{cut, rip_choice};
pub use result::{
    Areas, Cap, Cut, CutCount, CutSheet, CuttingPlan, Node, OneBest, Placement, Proof, Rectangle,
    RipChoice,
};
