//! Elimination order and the pattern of the factor that follows from it.
//!
//! The node with the fewest remaining neighbours is eliminated first, the lowest index among
//! equals. Leaves therefore go first, so that a tree costs one entry per node and never fills in;
//! what is left, the part with loops, is ordered by minimum degree.
//! Not here: numbers. The pattern depends on the wiring alone and serves any values.

use std::collections::BTreeSet;

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
    neighbours: Vec<BTreeSet<usize>>,
    is_last: Vec<bool>,
    queue: BTreeSet<(bool, usize, usize)>,
}

impl Order {
    fn new(node_count: usize, edges: &[(usize, usize)], last: &[usize]) -> Self {
        let mut neighbours = vec![BTreeSet::new(); node_count];
        for &(one, other) in edges {
            if one != other {
                neighbours[one].insert(other);
                neighbours[other].insert(one);
            }
        }
        let mut is_last = vec![false; node_count];
        for &node in last {
            is_last[node] = true;
        }
        let queue = (0..node_count)
            .map(|node| (is_last[node], neighbours[node].len(), node))
            .collect();
        Self {
            neighbours,
            is_last,
            queue,
        }
    }

    fn next(&mut self) -> Option<usize> {
        self.queue.pop_first().map(|(_, _, node)| node)
    }

    /// Removes a node and joins its remaining neighbours to each other, which is what a
    /// star-to-mesh transformation does to the graph.
    fn eliminate(&mut self, node: usize) -> BTreeSet<usize> {
        let around = std::mem::take(&mut self.neighbours[node]);
        for &one in &around {
            let degree = self.neighbours[one].len();
            self.queue.remove(&(self.is_last[one], degree, one));
            self.neighbours[one].remove(&node);
        }
        for &one in &around {
            for &other in around.range(one + 1..) {
                self.neighbours[one].insert(other);
                self.neighbours[other].insert(one);
            }
        }
        for &one in &around {
            let degree = self.neighbours[one].len();
            self.queue.insert((self.is_last[one], degree, one));
        }
        around
    }
}
