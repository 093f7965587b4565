//! The search and its proof put together into an answer; and one layout looked at.

use wainwright_units::{Mass, Ratio};

use super::board::{Board, Ready, by_state, turned_size};
use super::bound::Relaxed;
use super::input::Problem;
use super::layout::{Layout as Standing, tally};
use super::proof::{Tried, prove};
use super::result::{Layout, Move, Place, Placing, Proof, Score};
use super::search::search;
use crate::balance::{LoadTable, Statics, over_states};
use crate::refusal::{Refusal, require};

/// Gap that counts as none, as a share of the cost.
const CLOSED: f64 = 1e-9;
/// Load that counts as none \[kg\].
const NO_LOAD: f64 = 1e-6;
/// Largest difference between the two ways to the yaw inertia, relative to its terms.
const ROUNDING: f64 = 1e-9;

/// Searches for better places and says what is proven about them.
///
/// # Errors
/// A value that cannot be, more of anything than the engine takes, an item without any free place,
/// a state without mass, two ways to the same inertia that do not agree, or a bound that does not
/// hold.
pub fn better_places(problem: &Problem) -> Result<Placing, Refusal> {
    let board = Board::new(problem)?;
    let found = search(&board, &problem.effort);
    let relaxed = Relaxed::new(&board);
    let tried = prove(
        &board,
        &relaxed,
        &found.layout,
        problem.effort.most_proof_steps,
    );
    let best = tried.as_ref().map_or(&found.layout, |tried| &tried.layout);
    let places: Vec<Place> = board
        .items
        .iter()
        .zip(&best.at)
        .filter_map(|(item, spot)| Some(item.spots.get(*spot)?.place))
        .collect();
    let after = look_at(problem, &places)?;
    let present: Option<Vec<Place>> = problem.items.iter().map(|item| item.at).collect();
    Ok(Placing {
        moves: moves(problem, &board, best),
        before: present
            .map(|places| look_at(problem, &places))
            .transpose()?,
        proof: proof(&relaxed, best, tried.as_ref())?,
        after,
        places,
        evaluations: found.evaluations,
        starts: found.starts,
        proof_steps: tried.map_or(0, |tried| tried.steps),
    })
}

/// One layout in every state: its score and its loads.
///
/// # Errors
/// As [`better_places`]; another number of places than of items.
pub fn look_at(problem: &Problem, places: &[Place]) -> Result<Layout, Refusal> {
    let mut board = Board::bare(problem)?;
    require(
        "number of places",
        places.len() as f64,
        places.len() == problem.items.len(),
        "one for every item",
    )?;
    let mut table = LoadTable::new(problem.states);
    for one in &problem.fixed {
        table.push(one.centre, one.extent, &one.masses)?;
    }
    for (item, place) in problem.items.iter().zip(places) {
        let size = turned_size(item.size, place.turned);
        table.push(place.corner + size * 0.5, size, &item.masses)?;
        let mut spots = vec![board.spot(item, *place)];
        let present = item.at.map(|at| {
            spots.push(board.spot(item, at));
            usize::from(at != *place)
        });
        let masses = by_state(&item.masses, problem.states);
        board.items.push(Ready {
            mean: masses.iter().sum::<f64>() / problem.states as f64,
            masses,
            spots,
            present,
        });
    }
    let standing = Standing::new(&board, &vec![0; places.len()]);
    let states = over_states(&problem.chassis, &table)?;
    check(&board, &standing, &states)?;
    Ok(Layout {
        score: score(&board, &standing),
        states,
    })
}

fn score(board: &Board, standing: &Standing) -> Score {
    let sums = &standing.sums;
    let tally = tally(board, |s| (sums.x[s], sums.y[s], sums.square[s], sums.z[s]));
    Score {
        collisions: standing.key.collisions,
        violation: Mass::from_kilograms(tally.violation),
        worst_violation: Mass::from_kilograms(tally.worst_violation),
        cost_kg_m2: standing.key.cost,
        yaw_inertia_kg_m2: tally.inertia,
    }
}

/// The sums of the search against the loads of every state: both are the same trailer.
fn check(board: &Board, standing: &Standing, states: &[Statics]) -> Result<(), Refusal> {
    let sums = &standing.sums;
    for (s, state) in states.iter().enumerate() {
        let moments = sums.x[s] * sums.x[s] + sums.y[s] * sums.y[s];
        let inertia = sums.square[s] - moments * board.per_mass[s];
        let off = (inertia - state.yaw_inertia_kg_m2).abs();
        require(
            "difference of two ways to the yaw inertia [kg·m²]",
            off,
            off <= ROUNDING * (1.0 + sums.square[s].abs()),
            "rounding alone",
        )
        .map_err(|refusal| refusal.at("fill state", s))?;
    }
    Ok(())
}

fn moves(problem: &Problem, board: &Board, best: &Standing) -> Vec<Move> {
    let places = board.items.iter().zip(&best.at).enumerate();
    places
        .filter(|(_, (ready, spot))| ready.present != Some(**spot))
        .filter_map(|(item, (ready, spot))| {
            Some(Move {
                item,
                from: problem.items.get(item)?.at,
                to: ready.spots.get(*spot)?.place,
            })
        })
        .collect()
}

fn proof(relaxed: &Relaxed<'_>, best: &Standing, tried: Option<&Tried>) -> Result<Proof, Refusal> {
    let kept = best.key.collisions == 0 && best.key.violation <= 0.0;
    let all = tried.is_some_and(|tried| tried.all);
    if kept && all {
        return Ok(Proof::Best);
    }
    if kept {
        return proof_of_cost(relaxed, best.key.cost, tried);
    }
    let least = relaxed.least_violation();
    let kilograms = Mass::from_kilograms;
    Ok(if all && best.key.collisions == 0 {
        Proof::NoneKeepsLimits {
            least_violation: kilograms(best.key.violation),
        }
    } else if all || least > NO_LOAD {
        Proof::NoneKeepsLimits {
            least_violation: kilograms(least),
        }
    } else {
        Proof::Unknown
    })
}

/// What is proven about a layout that keeps the limits. No bound may be above its cost: that would
/// be a bound that does not hold.
fn proof_of_cost(
    relaxed: &Relaxed<'_>,
    cost: f64,
    tried: Option<&Tried>,
) -> Result<Proof, Refusal> {
    let least = relaxed.least_cost(true).unwrap_or(f64::NEG_INFINITY);
    let slack = CLOSED * (1.0 + cost.abs());
    require(
        "bound above a cost that was reached [kg·m²]",
        least - cost,
        least <= cost + slack,
        "none",
    )?;
    let open = tried.map_or(f64::NEG_INFINITY, |tried| tried.open_cost);
    let least = least.max(open).min(cost);
    Ok(if cost - least <= slack {
        Proof::Best
    } else {
        Proof::CostsAtLeast {
            cost_kg_m2: least,
            gap: Ratio::from_fraction((cost - least) / cost),
        }
    })
}
