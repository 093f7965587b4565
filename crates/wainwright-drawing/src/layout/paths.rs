//! From columns, heights and tracks to coordinates: the way of each wire and its labels.

use super::assemble::{Across, TRACK};
use super::channel::Turn;
use super::graph::Graph;
use super::heights::Heights;
use super::stage::Stage;
use super::{FONT, LabelBox, PlacedBlock, PlacedLink, Side, TerminalPlace};
use crate::diagram::Diagram;
use crate::geometry::{Point, Rect};
use crate::text::{fit, text_width};

/// Distance between a label and its wire's middle line [px].
const LABEL_GAP: f64 = 3.0;
/// Height of a label's box [px].
const LABEL_HEIGHT: f64 = 13.0;
/// Longest label [px]; the full text is in the title of the link.
const LABEL_CAP: f64 = 150.0;

/// Everything a wire needs to know to find its way.
pub(super) struct Sheet<'a> {
    pub diagram: &'a Diagram,
    pub graph: &'a Graph,
    pub stage: &'a Stage,
    pub heights: &'a Heights,
    pub across: &'a Across,
    pub turns: &'a [Turn],
    pub blocks: &'a [PlacedBlock],
}

impl Sheet<'_> {
    /// A wire with its path and labels; hops come later.
    pub fn link(&self, wire: usize) -> PlacedLink {
        let start = self.stage.start[wire];
        let finish = self.port(wire, 1 - start);
        let [label, value] = self.labels(wire, finish.y);
        let mut path = vec![self.port(wire, start)];
        for &net in &self.stage.route[wire] {
            self.add_turn(net, &mut path);
        }
        path.push(finish);
        let mut path = straightened(&path);
        if start == 1 {
            path.reverse();
        }
        PlacedLink {
            link: self.diagram.links[self.graph.wires[wire].link].clone(),
            path,
            hops: Vec::new(),
            label,
            value,
            ends: [self.words(wire, 0), self.words(wire, 1)],
        }
    }

    fn port(&self, wire: usize, end: usize) -> Point {
        let block = self.graph.wires[wire].ends[end].block;
        self.blocks[block].ports[self.stage.slot[wire][end]].at
    }

    fn add_turn(&self, net: usize, path: &mut Vec<Point>) {
        let first = self.across.tracks[self.stage.nets[net].channel];
        let from = self.heights.of(self.stage, self.stage.nets[net].ends[0].0);
        let mut uprights = self.turns[net].uprights.clone();
        // Tracks are found from the left wall's height; a route mostly starts there too.
        if uprights.first().is_some_and(|upright| upright.1 != from) {
            uprights.reverse();
            for upright in &mut uprights {
                *upright = (upright.0, upright.2, upright.1);
            }
        }
        for (track, a, b) in uprights {
            let x = first + track as f64 * TRACK;
            path.extend([Point::new(x, a), Point::new(x, b)]);
        }
    }

    fn words(&self, wire: usize, end: usize) -> TerminalPlace {
        let place = self.graph.wires[wire].ends[end];
        let block = &self.graph.blocks[place.block];
        let terminal = &block.terminals[place.terminal];
        let label = if terminal.label.is_empty() {
            &terminal.id
        } else {
            &terminal.label
        };
        TerminalPlace {
            title: block.title.clone(),
            terminal: label.clone(),
        }
    }

    /// Label and value at the height `y` of the end that carries them.
    fn labels(&self, wire: usize, y: f64) -> [Option<LabelBox>; 2] {
        let link = &self.diagram.links[self.graph.wires[wire].link];
        let Some((channel, wall)) = label_place(self.stage, wire) else {
            return [None, None];
        };
        let columns = &self.across.columns;
        let make = |text: &str, top: f64| {
            let text = fit(text, FONT, LABEL_CAP);
            let width = label_width(&text);
            let x = match wall {
                Side::Right => columns.get(channel).map_or(0.0, |c| c.0 - 8.0 - width),
                Side::Left => {
                    let before = columns.get(channel.wrapping_sub(1));
                    before.map_or(0.0, |c| c.0 + c.1 + 8.0)
                }
            };
            (!text.is_empty()).then(|| LabelBox {
                rect: Rect::new(x, top, width, LABEL_HEIGHT),
                text,
                side: wall,
            })
        };
        let value = link.value.as_deref().unwrap_or("");
        [
            make(&link.label, y - LABEL_GAP - LABEL_HEIGHT),
            make(value, y + LABEL_GAP),
        ]
    }
}

/// Room a label needs across [px].
pub(super) fn label_width(text: &str) -> f64 {
    match text.is_empty() {
        true => 0.0,
        false => (text_width(text, FONT).min(LABEL_CAP) + 4.0).ceil(),
    }
}

/// Channel and wall at which a wire's label stands.
pub(super) fn label_place(stage: &Stage, wire: usize) -> Option<(usize, Side)> {
    let net = &stage.nets[*stage.route[wire].last()?];
    Some((net.channel, net.ends[1].1))
}

/// Without repeated points and points in the middle of a straight run.
fn straightened(path: &[Point]) -> Vec<Point> {
    let mut short: Vec<Point> = Vec::with_capacity(path.len());
    for &point in path {
        if short.last() == Some(&point) {
            continue;
        }
        if let [.., a, b] = short[..] {
            let level = a.y == b.y && b.y == point.y;
            let upright = a.x == b.x && b.x == point.x;
            if level || upright {
                short.pop();
            }
        }
        short.push(point);
    }
    short
}
