//! Sources whose plus terminals meet before any protective device. Shared by
//! `shared-charger-protection` and `parallel-batteries-unprotected`. Not
//! here: judgement.

use crate::view::{Graph, Link};
use wainwright_analysis::result::{Assessment, ConsumerResult};

/// Groups of at least two of the chosen sources, each group joined by
/// conductors, contacts and bars only, in file order.
pub(crate) fn joined_without_device<'a>(
    assessment: &'a Assessment,
    graph: &Graph,
    choose: impl Fn(&ConsumerResult) -> bool,
) -> Vec<Vec<&'a ConsumerResult>> {
    let mut left: Vec<&ConsumerResult> = assessment
        .consumers
        .iter()
        .filter(|c| c.nodes.is_some() && choose(c))
        .collect();
    let mut groups = Vec::new();
    while let Some(first) = left.first().copied() {
        let Some((plus, _)) = first.nodes else { break };
        let near = graph.reach(plus, |link| !matches!(link, Link::Device(_)));
        let (group, rest): (Vec<_>, Vec<_>) = left
            .into_iter()
            .partition(|c| c.nodes.is_some_and(|(plus, _)| near.contains(&plus)));
        left = rest;
        if group.len() >= 2 {
            groups.push(group);
        }
    }
    groups
}
