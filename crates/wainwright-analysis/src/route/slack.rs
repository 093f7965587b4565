//! What a wire needs beyond its bare route.

use crate::known::{Basis, Known};
use crate::result::Slack;
use wainwright_engines::routes::{self, cut_length};
use wainwright_reference::Sourced;
use wainwright_reference::plan::{Allowance, allowance, drop_loop, termination_allowance};
use wainwright_units::{Length, Ratio, WireSize};

/// The published allowances, read once for all wires.
pub(super) struct Allowances {
    bends: Known<Ratio>,
    drop_loop: Known<Length>,
    /// Per size met so far, for one end.
    ends: Vec<(WireSize, Option<Sourced<Length>>)>,
}

impl Allowances {
    pub(super) fn new() -> Self {
        Self {
            bends: known(allowance(Allowance::BendShare), Ratio::from_fraction(0.0)),
            drop_loop: known(drop_loop(), Length::ZERO),
            ends: Vec::new(),
        }
    }

    /// The slack of a route and the length to cut. Without a size nothing is
    /// added for the terminations.
    pub(super) fn slack(&mut self, bare: Length, size: Option<WireSize>) -> (Slack, Length) {
        let bends = &self.bends;
        // A wire from terminal to terminal of one thing needs no loop.
        let drop_loop = match bare.metres() > 0.0 {
            true => self.drop_loop.clone(),
            false => Known::computed(Length::ZERO),
        };
        let bends = Known::new(bare * bends.value.fraction(), bends.basis.clone());
        let share = self.bends.value;
        let end = size.and_then(|size| self.end(size));
        let one_end = end.as_ref().map_or(Length::ZERO, |found| found.value);
        let wanted = routes::Allowance {
            bend_slack: share,
            drop_loop: drop_loop.value,
            terminations: [one_end; 2],
        };
        let cut = cut_length(bare, &wanted);
        let both =
            |found: Sourced<Length>| Known::new(found.value * 2.0, Basis::Table(found.source));
        let slack = Slack {
            bends,
            drop_loop,
            terminations: end.map(both),
        };
        (slack, cut.map_or(bare, |cut| cut.total))
    }

    fn end(&mut self, size: WireSize) -> Option<Sourced<Length>> {
        if let Some((_, found)) = self.ends.iter().find(|(known, _)| *known == size) {
            return *found;
        }
        let found = termination_allowance(size);
        self.ends.push((size, found));
        found
    }
}

fn known<T>(found: Option<Sourced<T>>, nothing: T) -> Known<T> {
    match found {
        Some(found) => Known::new(found.value, Basis::Table(found.source)),
        None => Known::computed(nothing),
    }
}
