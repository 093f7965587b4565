//! The sheet as columns of nodes (blocks and passing wires) and nets between
//! neighbouring columns: what ordering, heights and tracks all work on.

use super::Side;
use super::columns::Columns;
use super::graph::Graph;
use super::shape::{BARE_ROOM, LABEL_ROOM, Lug, Reach, Shape, natural_side};
use crate::diagram::{Block, Diagram, Pole};

/// Where a net touches a node: a lug of a block, or a passing wire.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Stop {
    pub node: usize,
    /// Wire and its end, for a block; `None` for a passing wire.
    pub lug: Option<(usize, usize)>,
}

/// One wire's way through one channel. Channel `c` lies left of column `c`.
#[derive(Debug, Clone, Copy)]
pub(super) struct Net {
    pub channel: usize,
    /// The two stops and the wall of the channel at which each is.
    pub ends: [(Stop, Side); 2],
}

/// Everything between the graph and the coordinates.
#[derive(Debug, Clone)]
pub(super) struct Stage {
    /// Nodes of each column from top to bottom; numbers below the block count are blocks.
    pub columns: Vec<Vec<usize>>,
    pub column_of: Vec<usize>,
    pub piece: Vec<usize>,
    pub band: Vec<u8>,
    /// One per block; a passing wire has none.
    pub shapes: Vec<Shape>,
    /// The wire that passes, for nodes that are not blocks.
    pub passing: Vec<Option<usize>>,
    pub nets: Vec<Net>,
    /// For each node: nets that touch it, and with which end.
    pub touching: Vec<Vec<(usize, usize)>>,
    /// For each wire: lug numbers of both ends in their blocks' shapes.
    pub slot: Vec<[usize; 2]>,
    /// For each wire: its nets from the left end to the right end.
    pub route: Vec<Vec<usize>>,
    /// For each wire: the end (0 or 1) its route starts with, which is the left one.
    pub start: Vec<usize>,
    /// For each wire: the end that carries the label.
    pub label_end: Vec<usize>,
}

impl Stage {
    /// Splits long wires into steps and gives every wire end a lug.
    pub fn new(diagram: &Diagram, graph: &Graph, columns: &Columns) -> Self {
        let count = graph.blocks.len();
        let mut stage = Self {
            columns: vec![Vec::new(); columns.count],
            column_of: columns.of.clone(),
            piece: graph.piece.clone(),
            band: columns.band.clone(),
            shapes: Vec::with_capacity(count),
            passing: vec![None; count],
            nets: Vec::new(),
            touching: Vec::new(),
            slot: vec![[0; 2]; graph.wires.len()],
            route: vec![Vec::new(); graph.wires.len()],
            start: vec![0; graph.wires.len()],
            label_end: vec![1; graph.wires.len()],
        };
        for block in (0..count).filter(|&block| graph.wired[block]) {
            stage.columns[columns.of[block]].push(block);
        }
        let lugs = stage.route_all(diagram, graph);
        for (block, lugs) in graph.blocks.iter().zip(lugs) {
            stage.shapes.push(Shape::new(block, lugs));
        }
        stage.find_slots();
        stage.touching = vec![Vec::new(); stage.passing.len()];
        for (index, net) in stage.nets.iter().enumerate() {
            for (end, (stop, _)) in net.ends.iter().enumerate() {
                stage.touching[stop.node].push((index, end));
            }
        }
        for column in &mut stage.columns {
            column.sort_by_key(|&node| (stage.piece[node], stage.band[node]));
        }
        stage
    }

    /// Re-stacks the lugs of a block after their wishes changed.
    pub fn arrange(&mut self, node: usize, block: &Block) {
        self.shapes[node].arrange(block);
        for (place, lug) in self.shapes[node].lugs.iter().enumerate() {
            if let Some((wire, end)) = lug.wire {
                self.slot[wire][end] = place;
            }
        }
    }

    /// The lug at a stop, unless a wire merely passes there.
    pub fn lug(&self, stop: Stop) -> Option<&Lug> {
        let (wire, end) = stop.lug?;
        self.shapes.get(stop.node)?.lugs.get(self.slot[wire][end])
    }

    /// Row and height within the row at which a stop is.
    pub fn row_and_offset(&self, stop: Stop) -> (usize, f64) {
        self.lug(stop).map_or((0, 0.0), |lug| (lug.row, lug.offset))
    }

    /// Rows of a node.
    pub fn rows(&self, node: usize) -> &[Reach] {
        const PASSING: &[Reach] = &[Reach {
            above: 7.0,
            below: 7.0,
        }];
        self.shapes.get(node).map_or(PASSING, |shape| &shape.rows)
    }

    fn find_slots(&mut self) {
        for shape in &self.shapes {
            for (place, lug) in shape.lugs.iter().enumerate() {
                if let Some((wire, end)) = lug.wire {
                    self.slot[wire][end] = place;
                }
            }
        }
    }

    fn route_all(&mut self, diagram: &Diagram, graph: &Graph) -> Vec<Vec<Lug>> {
        let mut lugs: Vec<Vec<Lug>> = vec![Vec::new(); graph.blocks.len()];
        for (index, wire) in graph.wires.iter().enumerate() {
            let [from, to] = wire.ends;
            let place = |end: usize| self.column_of[wire.ends[end].block];
            let same = place(0) == place(1);
            let start = usize::from(place(0) > place(1));
            let finish = 1 - start;
            let mut sides = [Side::Right, Side::Left];
            sides.swap(0, start);
            if same {
                sides = [shared_side(graph, from, to, wire.pole); 2];
            }
            self.start[index] = start;
            self.label_end[index] = finish;
            let returning =
                wire.pole != Pole::Plus && wire.ends.iter().any(|end| self.band[end.block] > 0);
            let band = if returning { 2 } else { 0 };
            self.route_one(index, wire.ends.map(|end| end.block), start, sides, band);
            let link = &diagram.links[wire.link];
            for end in 0..2 {
                let labelled = end == finish;
                let room = |shown: bool| {
                    if labelled && shown {
                        LABEL_ROOM
                    } else {
                        BARE_ROOM
                    }
                };
                lugs[wire.ends[end].block].push(Lug {
                    terminal: wire.ends[end].terminal,
                    side: sides[end],
                    wire: Some((index, end)),
                    above: room(!link.label.is_empty()),
                    below: room(link.value.is_some()),
                    row: 0,
                    offset: 0.0,
                    wish: index as f64,
                });
            }
        }
        lugs
    }

    /// `band` is the height class of the wire where it passes columns: only the way
    /// back along the bottom is held there; others run where they cross least.
    fn route_one(
        &mut self,
        wire: usize,
        blocks: [usize; 2],
        start: usize,
        sides: [Side; 2],
        band: u8,
    ) {
        let finish = 1 - start;
        let stop = |end: usize| Stop {
            node: blocks[end],
            lug: Some((wire, end)),
        };
        let (first, last) = (
            self.column_of[blocks[start]],
            self.column_of[blocks[finish]],
        );
        if first == last {
            let channel = if sides[0] == Side::Right {
                first + 1
            } else {
                first
            };
            let wall = sides[0].facing();
            self.push_net(wire, channel, [(stop(start), wall), (stop(finish), wall)]);
            return;
        }
        let mut here = stop(start);
        for column in first + 1..=last {
            let next = if column == last {
                stop(finish)
            } else {
                let node = self.passing.len();
                self.passing.push(Some(wire));
                self.column_of.push(column);
                self.piece.push(self.piece[blocks[0]]);
                self.band.push(band);
                self.columns[column].push(node);
                Stop { node, lug: None }
            };
            self.push_net(wire, column, [(here, Side::Left), (next, Side::Right)]);
            here = next;
        }
    }

    fn push_net(&mut self, wire: usize, channel: usize, ends: [(Stop, Side); 2]) {
        self.route[wire].push(self.nets.len());
        self.nets.push(Net { channel, ends });
    }
}

/// The side on which a wire between two blocks of one column runs.
fn shared_side(
    graph: &Graph,
    from: super::graph::Place,
    to: super::graph::Place,
    pole: Pole,
) -> Side {
    let wishes = [from, to].map(|end| natural_side(&graph.blocks[end.block], end.terminal));
    match wishes {
        [a, b] if a == b => a,
        _ if pole == Pole::Plus => Side::Left,
        _ => Side::Right,
    }
}
