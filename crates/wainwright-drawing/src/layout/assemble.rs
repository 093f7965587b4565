//! From columns, heights and tracks to coordinates: outlines and the size of the sheet.

use super::channel::{Demand, Turn, tracks};
use super::graph::Graph;
use super::heights::Heights;
use super::paths::{Sheet, label_place, label_width};
use super::shape::{Class, Shape};
use super::stage::Stage;
use super::{Layout, PlacedBlock, Port, Row, Side};
use crate::diagram::{Block, Diagram};
use crate::geometry::{Point, Rect};

/// Empty border around the drawing [px].
pub(super) const MARGIN: f64 = 24.0;
/// Distance between tracks [px].
pub(super) const TRACK: f64 = 12.0;
/// Least room between a column and the first track, or between columns [px].
const WALL: f64 = 14.0;

/// Horizontal places of columns and channels.
pub(super) struct Across {
    /// Left edge and width of each column.
    pub columns: Vec<(f64, f64)>,
    /// For each channel, x of its first track.
    pub tracks: Vec<f64>,
    width: f64,
}

/// Puts everything on the sheet except blocks without wires.
pub(super) fn assemble(
    diagram: &Diagram,
    graph: &Graph,
    stage: &Stage,
    heights: &Heights,
) -> Layout {
    let (turns, counts) = all_tracks(stage, heights);
    let widths = block_widths(graph, stage);
    let zones = label_zones(diagram, graph, stage);
    let across = across(stage, &widths, &zones, &counts);
    let mut layout = Layout {
        width: across.width,
        dropped: graph.dropped.clone(),
        ..Layout::default()
    };
    for (index, block) in graph.blocks.iter().enumerate() {
        let placed = match graph.wired[index] {
            true => {
                let (left, column_width) = across.columns[stage.column_of[index]];
                let x = left + ((column_width - widths[index]) / 2.0).floor();
                place(
                    block,
                    &stage.shapes[index],
                    x,
                    widths[index],
                    &heights.rows[index],
                )
            }
            false => place(
                block,
                &stage.shapes[index],
                0.0,
                widths[index],
                &heights.rows[index],
            ),
        };
        layout.blocks.push(placed);
    }
    let sheet = Sheet {
        diagram,
        graph,
        stage,
        heights,
        across: &across,
        turns: &turns,
        blocks: &layout.blocks,
    };
    layout.links = (0..graph.wires.len())
        .map(|wire| sheet.link(wire))
        .collect();
    settle_frame(&mut layout, graph);
    layout.crossings = super::hops::add(&mut layout.links);
    layout
}

/// Moves everything down so that nothing is above the margin; sets the height.
fn settle_frame(layout: &mut Layout, graph: &Graph) {
    let wired = |index: usize| graph.wired.get(index).copied().unwrap_or(false);
    let blocks = layout
        .blocks
        .iter()
        .enumerate()
        .filter(|(index, _)| wired(*index));
    let mut ys: Vec<f64> = blocks
        .flat_map(|(_, b)| [b.rect.y, b.rect.bottom()])
        .collect();
    for link in &layout.links {
        ys.extend(link.path.iter().map(|point| point.y));
        let boxes = link.label.iter().chain(&link.value);
        ys.extend(boxes.flat_map(|text| [text.rect.y, text.rect.bottom()]));
    }
    let top = ys.iter().copied().fold(f64::INFINITY, f64::min);
    if !top.is_finite() {
        layout.height = MARGIN;
        return;
    }
    let shift = MARGIN - top;
    let bottom = ys.iter().copied().fold(f64::NEG_INFINITY, f64::max);
    layout.height = bottom + shift + MARGIN;
    layout
        .blocks
        .iter_mut()
        .for_each(|block| shift_block(block, 0.0, shift));
    for link in &mut layout.links {
        link.path.iter_mut().for_each(|point| point.y += shift);
        let boxes = link.label.iter_mut().chain(&mut link.value);
        boxes.for_each(|text| text.rect.y += shift);
    }
}

/// Moves a block with everything on it.
pub(super) fn shift_block(block: &mut PlacedBlock, right: f64, down: f64) {
    block.rect.x += right;
    block.rect.y += down;
    block.rows.iter_mut().for_each(|row| row.y += down);
    for port in &mut block.ports {
        port.at.x += right;
        port.at.y += down;
    }
}

/// A block at this place with these row heights.
pub(super) fn place(block: &Block, shape: &Shape, x: f64, width: f64, rows: &[f64]) -> PlacedBlock {
    let top = rows
        .first()
        .zip(shape.rows.first())
        .map_or(0.0, |(y, reach)| y - reach.above);
    let bottom = rows
        .last()
        .zip(shape.rows.last())
        .map_or(0.0, |(y, reach)| y + reach.below);
    let ports = shape.lugs.iter().map(|lug| Port {
        terminal: lug.terminal,
        at: Point::new(
            if lug.side == Side::Left { x } else { x + width },
            rows.get(lug.row).copied().unwrap_or(top) + lug.offset,
        ),
        side: lug.side,
        link: lug.wire.map(|(wire, _)| wire),
        pole: block.terminals[lug.terminal].pole,
    });
    let row = |(index, &y): (usize, &f64)| Row {
        y,
        terminals: shape.row_terminals.get(index).cloned().unwrap_or_default(),
    };
    PlacedBlock {
        block: block.clone(),
        rect: Rect::new(x, top, width, bottom - top),
        head: shape.head,
        rows: rows.iter().enumerate().map(row).collect(),
        ports: ports.collect(),
    }
}

/// Turns of every net, and the number of tracks of every channel.
fn all_tracks(stage: &Stage, heights: &Heights) -> (Vec<Turn>, Vec<usize>) {
    let mut members: Vec<Vec<usize>> = vec![Vec::new(); stage.columns.len() + 1];
    for (index, net) in stage.nets.iter().enumerate() {
        members[net.channel].push(index);
    }
    let mut turns = vec![Turn::default(); stage.nets.len()];
    let mut counts = Vec::with_capacity(members.len());
    for nets in &members {
        let demands: Vec<Demand> = nets
            .iter()
            .map(|&net| {
                let at = |side: Side| {
                    let ends = stage.nets[net].ends.iter().filter(|end| end.1 == side);
                    ends.map(|end| heights.of(stage, end.0)).collect()
                };
                Demand {
                    left: at(Side::Left),
                    right: at(Side::Right),
                }
            })
            .collect();
        let (found, count) = tracks(&demands);
        counts.push(count);
        for (&net, turn) in nets.iter().zip(found) {
            turns[net] = turn;
        }
    }
    (turns, counts)
}

/// Blocks drawn in the same way in the same column are equally wide.
fn block_widths(graph: &Graph, stage: &Stage) -> Vec<f64> {
    let key = |index: usize| (stage.column_of[index], stage.shapes[index].class);
    let mut widest = std::collections::BTreeMap::<(usize, Class), f64>::new();
    for index in (0..graph.blocks.len()).filter(|&index| graph.wired[index]) {
        let entry = widest.entry(key(index)).or_default();
        *entry = entry.max(stage.shapes[index].width);
    }
    (0..graph.blocks.len())
        .map(|index| match graph.wired[index] {
            true => widest
                .get(&key(index))
                .copied()
                .unwrap_or(stage.shapes[index].width),
            false => stage.shapes[index].width,
        })
        .collect()
}

/// The widest label at the left and at the right wall of each channel [px].
fn label_zones(diagram: &Diagram, graph: &Graph, stage: &Stage) -> Vec<[f64; 2]> {
    let mut zones = vec![[0.0f64; 2]; stage.columns.len() + 1];
    for (index, wire) in graph.wires.iter().enumerate() {
        let link = &diagram.links[wire.link];
        let value = link.value.as_deref().unwrap_or("");
        let width = label_width(&link.label).max(label_width(value));
        let Some((channel, wall)) = label_place(stage, index) else {
            continue;
        };
        let zone = &mut zones[channel][usize::from(wall == Side::Right)];
        *zone = zone.max(width);
    }
    zones
}

fn across(stage: &Stage, widths: &[f64], zones: &[[f64; 2]], counts: &[usize]) -> Across {
    let mut across = Across {
        columns: Vec::new(),
        tracks: Vec::new(),
        width: 0.0,
    };
    let mut x = MARGIN;
    for channel in 0..=stage.columns.len() {
        let [left, right] = zones[channel];
        let outer = channel == 0 || channel == stage.columns.len();
        let busy = counts[channel] > 0 || left + right > 0.0;
        if busy || !outer {
            x += WALL + left;
            across.tracks.push(x);
            x += counts[channel].saturating_sub(1) as f64 * TRACK + right + WALL;
        } else {
            across.tracks.push(x);
        }
        if let Some(column) = stage.columns.get(channel) {
            let blocks = column.iter().filter_map(|&node| widths.get(node));
            let width = blocks.copied().fold(0.0, f64::max);
            across.columns.push((x, width));
            x += width;
        }
    }
    across.width = x + MARGIN;
    across
}
