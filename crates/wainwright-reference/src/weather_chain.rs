//! Chances of a day's clearness after the day before, by the mean clearness of the month.
//!
//! Not here: climate of places (`climate`) and the drawing of days (engines).

use crate::mark::{Mark, Sourced};
use crate::store::{Topic, rows};
use crate::table::Row;

/// States of a chain.
const STATES: usize = 10;

/// Transition shares for months of a range of mean clearness.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Chain {
    /// Months of a mean clearness above this use the chain.
    pub from: f64,
    /// And up to this.
    pub up_to: f64,
    /// Lower edge of the first of ten equal states.
    pub lowest: f64,
    /// Upper edge of the last state.
    pub highest: f64,
    /// Share of each next state, by the present state; as printed, to be taken over their sum.
    pub rows: [[f64; STATES]; STATES],
}

/// The ten chains in rising clearness; one that is not complete is left out.
pub fn chains() -> Vec<Sourced<Chain>> {
    let all: Vec<Row> = rows(Topic::WeatherChains).collect();
    all.chunks(STATES).filter_map(chain_of).collect()
}

fn chain_of(tens: &[Row]) -> Option<Sourced<Chain>> {
    let first = tens.first()?;
    let mut chain = Chain {
        from: first.number("from_clearness")?,
        up_to: first.number("up_to_clearness")?,
        lowest: first.number("lowest")?,
        highest: first.number("highest")?,
        rows: [[0.0; STATES]; STATES],
    };
    let mut weakest = Mark::Read;
    for (at, shares) in chain.rows.iter_mut().enumerate() {
        let row = tens.get(at)?;
        if row.number("chain") != first.number("chain") {
            return None;
        }
        for (to, share) in shares.iter_mut().enumerate() {
            *share = row.number(&format!("to_{}", to + 1))?;
        }
        weakest = weakest.weaker(row.mark());
    }
    Some(first.sourced(chain).no_better_than(weakest))
}
