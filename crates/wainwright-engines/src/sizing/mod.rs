//! Least-cost choice of wire sizes and fuses for a whole plant. Not here: which choices are fit by
//! themselves (temperature, current, the fuse for the wire): the caller leaves the others out; prices.
//!
//! # Computes
//! For each section of the leads one choice of wire and device, so that the sum of costs is least and,
//! among equals, the mass; a proof of that or the gap to it; why there is none. The same figures for
//! given choices.
//!
//! # Equation
//! Choose c(s) for each section s so that Σ cost is least, then Σ mass, with
//! - for each limit: Σ drop ≤ highest drop, and Σ resistance ≤ table(rating of the nearest device);
//! - for each device: own rating · ratio ≤ rating of the nearest device further up;
//! - the same index for all sections of a group.
//!
//! Dynamic programming: from the leaves up, for each rating further up, the front of part plans that no
//! other one beats in price and in the drop and resistance they leave for the sections above. What is
//! left is rounded down to the next sum that can occur above, which keeps fronts short.
//!
//! # Assumptions and limits
//! - Drops are given, at the currents the sections are designed for: they do not depend on one another.
//! - Limits may join several trees (plus and minus leads). Sections are then settled in an order in
//!   which those of many limits come first; any set of limits is solved, tree or not.
//! - Whole numbers inside: 10⁻⁹ V, 10⁻⁹ Ω, millionths of a cost, milligrams. A limit counts as kept to
//!   within half a unit for each section.
//! - Where ways cross (circuits of one fuse block that go back to several minus bars) the shared sections
//!   are searched by branch and bound, up to 30 000 part plans of them.
//! - A front that grows beyond 4000 plans (100 when more than two amounts are left over) is cut; branch
//!   and bound then halves the choices, up to 300 rounds or 2 million part plans.
//! - What a cap leaves open is the gap between the plan and the lower bound.
//!
//! # Valid range
//! Up to 2000 sections, 500 choices each, 100 sections in a limit; costs 0 to 10⁹.
//!
//! # Example
//! ```
//! use wainwright_engines::sizing::{Choice, Limit, Problem, Section, least_cost};
//! use wainwright_units::*;
//! let choice = |cost, millivolts: f64| Choice {
//!     cost,
//!     mass: Mass::ZERO,
//!     drop: Voltage::from_volts(millivolts / 1e3),
//!     resistance: Resistance::ZERO,
//!     device: None,
//! };
//! let section = |parent, choices| Section { parent, choices, upstream_ratio: Ratio::ZERO };
//! let problem = Problem {
//!     sections: vec![
//!         section(None, vec![choice(4.0, 300.0), choice(9.0, 100.0)]),
//!         section(Some(0), vec![choice(2.0, 200.0), choice(5.0, 80.0)]),
//!     ],
//!     limits: vec![Limit {
//!         sections: vec![0, 1],
//!         most_drop: Some(Voltage::from_volts(0.4)),
//!         fault: None,
//!     }],
//!     alike: vec![],
//! };
//! // 300 + 80 mV for 9 beats 100 + 200 mV for 11.
//! let plan = least_cost(&problem).unwrap();
//! assert_eq!((plan.chosen, plan.proven), (vec![0, 1], true));
//! ```
//!
//! # Sources
//! - Dynamic programming: R. Bellman, "Dynamic Programming", 1957 (memory).
//! - Elimination tree: J. W. H. Liu, "The role of elimination trees in sparse factorization", SIAM
//!   Journal on Matrix Analysis and Applications 11, 1990 (memory).
//! - Branch and bound: A. H. Land and A. G. Doig, Econometrica 28, 1960 (memory).

mod appraise;
mod climb;
mod forest;
mod front;
mod hanging;
mod input;
mod knot;
mod result;
mod search;
mod whole;
mod why;

pub use appraise::appraise;
pub use input::{
    Choice, FaultLimit, HIGHEST_COST, Limit, MOST_CHOICES, MOST_IN_LIMIT, MOST_RATINGS,
    MOST_SECTIONS, Problem, Section,
};
pub use result::{Appraisal, Effort, Kept, NotSelective, Obstacle, Plan, SizingError};

use crate::refusal::require;

/// The choices of least cost, and among those of least mass.
///
/// # Errors
/// [`SizingError`]: a malformed problem, no plan that keeps everything (with the reasons), or nothing
/// found within the caps.
pub fn least_cost(problem: &Problem) -> Result<Plan, SizingError> {
    input::check(problem)?;
    let whole = whole::Whole::new(problem);
    let ended = search::search(&whole);
    require(
        "groups",
        problem.alike.len() as f64,
        ended.is_some(),
        "groups whose devices do not feed one another crosswise",
    )?;
    let Some(search::Ended {
        best,
        bound,
        effort,
    }) = ended
    else {
        return Err(SizingError::Impossible(Vec::new()));
    };
    let bound_cost = bound.map_or(0.0, whole::Price::currency);
    let Some(best) = best else {
        return Err(match bound {
            Some(_) => SizingError::NotFound {
                lower_bound: bound_cost,
            },
            None => SizingError::Impossible(why::obstacles(problem, &whole)),
        });
    };
    let mut chosen = vec![0; problem.sections.len()];
    for (variable, &option) in whole.variables.iter().zip(&best.options) {
        for &member in &variable.members {
            chosen[member] = variable.options[option].index;
        }
    }
    let appraisal = appraise::plain_sums(problem, &chosen);
    let found = best.price.currency();
    let slip = 1e-6 * (problem.sections.len() + 1) as f64;
    let holds = appraisal.holds() && (appraisal.cost - found).abs() <= slip;
    require(
        "cost of the plan",
        appraisal.cost,
        holds,
        "the cost the search found, with every limit kept",
    )?;
    Ok(Plan {
        proven: bound == Some(best.price),
        lower_bound: bound_cost,
        gap: found - bound_cost,
        chosen,
        appraisal,
        effort,
    })
}
