//! Which side of the two-conductor system each node is on, which pieces hang
//! together, and which gear is joined the wrong way round.

use super::banks::Bank;
use super::{Branch, Consumer, Demand, Part};
use crate::result::Side;

/// The side of each node: reached from plus terminals of sources, from minus
/// terminals, from both, or from neither, through anything but gear. A source
/// joined the wrong way round does not count.
pub(super) fn sides(islands: &[usize], consumers: &[Consumer], backwards: &[bool]) -> Vec<Side> {
    let mut plus = vec![false; islands.len()];
    let mut minus = vec![false; islands.len()];
    let sources = consumers.iter().zip(backwards);
    for (source, _) in sources.filter(|(c, wrong)| c.demand.is_source() && !**wrong) {
        plus[islands[source.nodes.0]] = true;
        minus[islands[source.nodes.1]] = true;
    }
    islands
        .iter()
        .map(|island| match (plus[*island], minus[*island]) {
            (true, false) => Side::Plus,
            (false, true) => Side::Minus,
            (true, true) => Side::Both,
            (false, false) => Side::Neither,
        })
        .collect()
}

/// Numbers the pieces that conductors hold together: per node, the smallest
/// node of its piece.
pub(super) fn islands(node_count: usize, branches: &[Branch]) -> Vec<usize> {
    let mut islands: Vec<usize> = (0..node_count).collect();
    for branch in branches {
        if !matches!(branch.part, Part::Consumer(_)) {
            let (one, other) = (
                root(&mut islands, branch.from),
                root(&mut islands, branch.to),
            );
            islands[one.max(other)] = one.min(other);
        }
    }
    (0..node_count)
        .map(|node| root(&mut islands, node))
        .collect()
}

fn root(islands: &mut [usize], node: usize) -> usize {
    let mut here = node;
    while islands[here] != here {
        islands[here] = islands[islands[here]];
        here = islands[here];
    }
    here
}

/// Per consumer: a source whose terminals sit on a battery's other poles. Of
/// two batteries joined crosswise, the later one in the file counts.
pub(super) fn backwards(consumers: &[Consumer], islands: &[usize], banks: &[Bank]) -> Vec<bool> {
    let ends = |(plus, minus): (usize, usize)| (islands[plus], islands[minus]);
    let crossed = |index: usize, consumer: &Consumer| {
        let (plus, minus) = ends(consumer.nodes);
        let battery = matches!(consumer.demand, Demand::Battery { .. });
        banks
            .iter()
            .filter(|bank| !bank.members.contains(&index) && (!battery || bank.top() < index))
            .map(|bank| ends((bank.plus, bank.minus)))
            .filter(|(high, low)| high != low && plus != minus)
            .any(|(high, low)| match battery {
                true => plus == low && minus == high,
                false => (plus == low && minus != low) || (minus == high && plus != high),
            })
    };
    let wrong = |(index, consumer): (usize, &Consumer)| match consumer.demand {
        Demand::Module { .. } => false,
        demand => demand.is_source() && crossed(index, consumer),
    };
    consumers.iter().enumerate().map(wrong).collect()
}
