//! Names resolved to indices: which wire ends at which terminal of which block.
//! Ends without a known block are dropped here; unknown terminals are added.

use crate::diagram::{Block, Diagram, End, Pole, Terminal};
use std::collections::BTreeMap;

/// One end of a wire, resolved.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Place {
    pub block: usize,
    pub terminal: usize,
}

/// A link with both ends resolved; `ends[0]` is its `from`.
#[derive(Debug, Clone)]
pub(super) struct Wire {
    pub link: usize,
    pub ends: [Place; 2],
    pub pole: Pole,
}

/// The diagram as indices.
#[derive(Debug, Clone)]
pub(super) struct Graph {
    /// Blocks, with terminals added that only a link knew.
    pub blocks: Vec<Block>,
    pub wires: Vec<Wire>,
    /// Links that could not be placed.
    pub dropped: Vec<usize>,
    /// Number of the connected piece each block belongs to.
    pub piece: Vec<usize>,
    /// Whether any wire ends at the block.
    pub wired: Vec<bool>,
}

impl Graph {
    /// Resolves every end of every link.
    pub fn new(diagram: &Diagram) -> Self {
        let mut blocks = diagram.blocks.clone();
        let mut index = BTreeMap::new();
        for (place, block) in diagram.blocks.iter().enumerate() {
            index.entry(block.id.as_str()).or_insert(place);
        }
        let mut wires = Vec::new();
        let mut dropped = Vec::new();
        for (link_index, link) in diagram.links.iter().enumerate() {
            let from = index.get(link.from.block.as_str());
            let to = index.get(link.to.block.as_str());
            match (from, to) {
                (Some(&from), Some(&to)) => wires.push(Wire {
                    link: link_index,
                    ends: [
                        place_of(&mut blocks, from, &link.from, link.pole),
                        place_of(&mut blocks, to, &link.to, link.pole),
                    ],
                    pole: link.pole,
                }),
                _ => dropped.push(link_index),
            }
        }
        let mut wired = vec![false; blocks.len()];
        for place in wires.iter().flat_map(|wire| wire.ends) {
            wired[place.block] = true;
        }
        let piece = pieces(blocks.len(), &wires);
        Self {
            blocks,
            wires,
            dropped,
            piece,
            wired,
        }
    }

    /// For each block, the blocks one wire away that `keep` lets through, with repeats.
    pub fn neighbours(&self, keep: impl Fn(&Wire) -> bool) -> Vec<Vec<usize>> {
        let mut near = vec![Vec::new(); self.blocks.len()];
        for wire in self.wires.iter().filter(|wire| keep(wire)) {
            let [a, b] = wire.ends.map(|place| place.block);
            if a != b {
                near[a].push(b);
                near[b].push(a);
            }
        }
        near
    }
}

fn place_of(blocks: &mut [Block], block: usize, end: &End, pole: Pole) -> Place {
    let terminals = &mut blocks[block].terminals;
    let found = terminals.iter().position(|known| known.id == end.terminal);
    let terminal = found.unwrap_or_else(|| {
        terminals.push(Terminal {
            id: end.terminal.clone(),
            label: end.terminal.clone(),
            pole,
            note: None,
        });
        terminals.len() - 1
    });
    Place { block, terminal }
}

/// Connected pieces, numbered in the order of their first block.
fn pieces(count: usize, wires: &[Wire]) -> Vec<usize> {
    let mut parent: Vec<usize> = (0..count).collect();
    for wire in wires {
        let a = root(&mut parent, wire.ends[0].block);
        let b = root(&mut parent, wire.ends[1].block);
        let (low, high) = (a.min(b), a.max(b));
        parent[high] = low;
    }
    (0..count).map(|block| root(&mut parent, block)).collect()
}

fn root(parent: &mut [usize], mut at: usize) -> usize {
    while parent[at] != at {
        parent[at] = parent[parent[at]];
        at = parent[at];
    }
    at
}
