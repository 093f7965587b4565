//! Elimination order and the pattern of the factor that follows from it.
//!
//! The node with the fewest remaining neighbours is eliminated first, the lowest index among
//! equals. Leaves therefore go first, so that a tree costs one entry per node and never fills in;
//! what is left, the part with loops, is ordered by minimum degree.
//! Not here: numbers. The pattern depends on the wiring alone and serves any values.

use std::cmp::Reverse;
use std::collections::BinaryHeap;

/// The elimination order of a graph, and which nodes each one is coupled to when its turn comes.
#[derive(Debug, Clone, PartialEq)]
pub struct Structure {
    position_of: Vec<usize>,
    starts: Vec<usize>,
    rows: Vec<usize>,
}

impl Structure {
    /// Orders `node_count` nodes joined by `edges`; the nodes in `last` follow all others.
    ///
    /// Edges may repeat, and an edge from a node to itself is ignored. Each edge index must be
    /// below `node_count`. A node that has no neighbours left at its turn becomes the reference
    /// of its island, so naming a node in `last` makes it the reference.
    #[must_use]
    pub fn new(node_count: usize, edges: &[(usize, usize)], last: &[usize]) -> Self {
        let mut order = Order::new(node_count, edges, last);
        let mut columns = Vec::with_capacity(node_count);
        let mut position_of = vec![0; node_count];
        while let Some(node) = order.next() {
            position_of[node] = columns.len();
            columns.push(order.eliminate(node));
        }
        let mut starts = Vec::with_capacity(node_count + 1);
        let mut rows = Vec::new();
        starts.push(0);
        for column in columns {
            let first = rows.len();
            rows.extend(column.iter().map(|&node| position_of[node]));
            rows[first..].sort_unstable();
            starts.push(rows.len());
        }
        Self {
            position_of,
            starts,
            rows,
        }
    }

    /// Number of nodes.
    #[must_use]
    pub fn len(&self) -> usize {
        self.position_of.len()
    }

    /// Whether there are no nodes at all.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.position_of.is_empty()
    }

    /// Number of couplings in the factor, which is the length of every value vector.
    #[must_use]
    pub fn slot_count(&self) -> usize {
        self.rows.len()
    }

    /// Place of a node in the elimination order.
    #[must_use]
    pub fn position(&self, node: usize) -> usize {
        self.position_of[node]
    }

    /// The slot of the coupling between two *positions*; `None` when they are not coupled.
    #[must_use]
    pub fn slot(&self, one: usize, other: usize) -> Option<usize> {
        let (early, late) = (one.min(other), one.max(other));
        let column = self.column(early);
        let at = self.rows[column.clone()].binary_search(&late).ok()?;
        Some(column.start + at)
    }

    /// Slots of the couplings of one position to later ones.
    #[must_use]
    pub fn column(&self, position: usize) -> std::ops::Range<usize> {
        self.starts[position]..self.starts[position + 1]
    }

    /// The later position that each slot couples to.
    #[must_use]
    pub fn rows(&self) -> &[usize] {
        &self.rows
    }
}

/// The graph while it is being eliminated.
struct Order {
    /// Neighbours of each node, ascending; eliminated ones are skipped when the list is read.
    neighbours: Vec<Vec<usize>>,
    /// Neighbours that are not eliminated yet.
    degree: Vec<usize>,
    is_last: Vec<bool>,
    is_gone: Vec<bool>,
    /// Candidates by rank; entries whose degree has changed since are stale and skipped.
    queue: BinaryHeap<Reverse<(bool, usize, usize)>>,
}

impl Order {
    fn new(node_count: usize, edges: &[(usize, usize)], last: &[usize]) -> Self {
        let mut neighbours = vec![Vec::new(); node_count];
        for &(one, other) in edges.iter().filter(|(one, other)| one != other) {
            neighbours[one].push(other);
            neighbours[other].push(one);
        }
        for list in &mut neighbours {
            list.sort_unstable();
            list.dedup();
        }
        let mut is_last = vec![false; node_count];
        for &node in last {
            is_last[node] = true;
        }
        let degree: Vec<usize> = neighbours.iter().map(Vec::len).collect();
        let queue = (0..node_count)
            .map(|node| Reverse((is_last[node], degree[node], node)))
            .collect();
        Self {
            neighbours,
            degree,
            is_last,
            is_gone: vec![false; node_count],
            queue,
        }
    }

    fn next(&mut self) -> Option<usize> {
        while let Some(Reverse((_, degree, node))) = self.queue.pop() {
            if !self.is_gone[node] && degree == self.degree[node] {
                return Some(node);
            }
        }
        None
    }

    /// Removes a node and joins its remaining neighbours to each other, which is what a
    /// star-to-mesh transformation does to the graph. Returns these neighbours.
    fn eliminate(&mut self, node: usize) -> Vec<usize> {
        self.is_gone[node] = true;
        let mut around = std::mem::take(&mut self.neighbours[node]);
        around.retain(|&one| !self.is_gone[one]);
        for (index, &one) in around.iter().enumerate() {
            self.degree[one] -= 1;
            for &other in &around[index + 1..] {
                self.join(one, other);
            }
        }
        for &one in &around {
            self.queue
                .push(Reverse((self.is_last[one], self.degree[one], one)));
        }
        around
    }

    fn join(&mut self, one: usize, other: usize) {
        if let Err(at) = self.neighbours[one].binary_search(&other) {
            self.neighbours[one].insert(at, other);
            self.degree[one] += 1;
            // The lists mirror each other, so it is missing here as well.
            if let Err(at) = self.neighbours[other].binary_search(&one) {
                self.neighbours[other].insert(at, one);
                self.degree[other] += 1;
            }
        }
    }
}
