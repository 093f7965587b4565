//! Blocks of pieces as the searches build them, and how a block becomes a tree of cuts.
//! Not here: which pieces go together (`blocks`, `fill`), nor the list of cuts (`measure`).

use super::frame::{Frame, Position};
use super::input::Along;
use super::result::Node;

/// A block of pieces that guillotine cuts can take apart. Sizes with kerf.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Shape {
    pub width: u32,
    pub height: u32,
    pub make: Make,
}

/// What a block is made of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) enum Make {
    Piece { kind: usize, turned: bool },
    Beside(Vec<Shape>),
    Stacked(Vec<Shape>),
}

/// A tree of cuts and the area of the largest offcut in it.
type Emitted = (Node, u64);

impl Shape {
    pub const fn piece(at: &Position) -> Shape {
        Shape {
            width: at.width,
            height: at.height,
            make: Make::Piece {
                kind: at.kind,
                turned: at.turned,
            },
        }
    }

    /// Side by side.
    pub fn beside(left: Shape, right: Shape) -> Shape {
        let width = left.width + right.width;
        let height = left.height.max(right.height);
        let mut parts = left.parts_beside();
        parts.extend(right.parts_beside());
        Shape {
            width,
            height,
            make: Make::Beside(parts),
        }
    }

    /// One on top of the other.
    pub fn stacked(below: Shape, above: Shape) -> Shape {
        let width = below.width.max(above.width);
        let height = below.height + above.height;
        let mut parts = below.parts_stacked();
        parts.extend(above.parts_stacked());
        Shape {
            width,
            height,
            make: Make::Stacked(parts),
        }
    }

    fn parts_beside(self) -> Vec<Shape> {
        match self.make {
            Make::Beside(parts) => parts,
            make => vec![Shape { make, ..self }],
        }
    }

    fn parts_stacked(self) -> Vec<Shape> {
        match self.make {
            Make::Stacked(parts) => parts,
            make => vec![Shape { make, ..self }],
        }
    }

    /// Adds the pieces of each kind to `counts`.
    pub fn count(&self, counts: &mut [u32]) {
        match &self.make {
            Make::Piece { kind, .. } => {
                if let Some(count) = counts.get_mut(*kind) {
                    *count += 1;
                }
            }
            Make::Beside(parts) | Make::Stacked(parts) => {
                parts.iter().for_each(|part| part.count(counts));
            }
        }
    }

    /// The tree of cuts that takes a whole sheet apart, with the largest offcut kept in one
    /// piece; `None` when the saw cannot make them.
    pub fn cuts(&self, frame: &Frame) -> Option<Node> {
        self.emit(frame.width, frame.height, frame)
            .map(|(node, _)| node)
    }

    fn emit(&self, width: u32, height: u32, frame: &Frame) -> Option<Emitted> {
        if self.width > width || self.height > height {
            return None;
        }
        if self.width == width && self.height == height {
            return self.emit_exact(frame);
        }
        let mut ways = vec![
            self.trim_right(width, height, frame),
            self.trim_top(width, height, frame),
        ];
        if !frame.is_free() {
            ways.push(self.emit_parts(width, height, frame));
        }
        // The first of several equal ways.
        let ways = ways.into_iter().flatten();
        ways.reduce(|best, way| if way.1 > best.1 { way } else { best })
    }

    fn emit_exact(&self, frame: &Frame) -> Option<Emitted> {
        match self.make {
            Make::Piece { kind, turned } => Some((Node::Piece { kind, turned }, 0)),
            _ => self.emit_parts(self.width, self.height, frame),
        }
    }

    fn trim_right(&self, width: u32, height: u32, frame: &Frame) -> Option<Emitted> {
        if self.width == width || !frame.cuts_upward(height) {
            return None;
        }
        let inner = self.emit(self.width, height, frame)?;
        let left_over = real(width - self.width, frame) * real(height, frame);
        Some(keep(Along::Height, self.width, inner, left_over, frame))
    }

    fn trim_top(&self, width: u32, height: u32, frame: &Frame) -> Option<Emitted> {
        if self.height == height || !frame.cuts_sideways(width) {
            return None;
        }
        let inner = self.emit(width, self.height, frame)?;
        let left_over = real(width, frame) * real(height - self.height, frame);
        Some(keep(Along::Width, self.height, inner, left_over, frame))
    }

    /// Takes the parts of a rectangle apart at once, without trimming it first.
    fn emit_parts(&self, width: u32, height: u32, frame: &Frame) -> Option<Emitted> {
        let (parts, runs) = match &self.make {
            Make::Piece { .. } => return None,
            Make::Beside(parts) => (parts, Along::Height),
            Make::Stacked(parts) => (parts, Along::Width),
        };
        let can = match runs {
            Along::Height => frame.cuts_upward(height),
            Along::Width => frame.cuts_sideways(width),
        };
        if !can {
            return None;
        }
        let size = |part: &Shape| match runs {
            Along::Height => part.width,
            Along::Width => part.height,
        };
        let whole = if runs == Along::Height { width } else { height };
        let left_over = whole - parts.iter().map(size).sum::<u32>();
        let mut emitted = Vec::with_capacity(parts.len());
        for part in in_order_of_cutting(parts, &size, left_over == 0) {
            let inner = match runs {
                Along::Height => part.emit(part.width, height, frame)?,
                Along::Width => part.emit(width, part.height, frame)?,
            };
            emitted.push((size(part), inner));
        }
        let across = if runs == Along::Height { height } else { width };
        let rest = (left_over > 0).then(|| real(left_over, frame) * real(across, frame));
        chain(emitted, runs, rest, frame)
    }
}

/// Equal sizes one after the other, so that the fence stays; when nothing is left over, the last
/// part needs no setting of its own: it is the one whose size is rarest, the largest among those.
fn in_order_of_cutting<'s>(
    parts: &'s [Shape],
    size: &impl Fn(&Shape) -> u32,
    exact: bool,
) -> Vec<&'s Shape> {
    let alike = |one: &Shape| {
        parts
            .iter()
            .filter(|other| size(other) == size(one))
            .count()
    };
    let mut order: Vec<&Shape> = parts.iter().collect();
    order.sort_by_key(|part| (std::cmp::Reverse(alike(part)), size(part)));
    if exact {
        let rarest = order.iter().map(|part| alike(part)).min();
        let last = order.iter().rposition(|part| Some(alike(part)) == rarest);
        if let Some(last) = last {
            let part = order.remove(last);
            order.push(part);
        }
    }
    order
}

/// One cut after the other through a row of parts.
fn chain(
    parts: Vec<(u32, Emitted)>,
    runs: Along,
    rest: Option<u64>,
    frame: &Frame,
) -> Option<Emitted> {
    let mut after: Option<Emitted> = rest.map(|area| (Node::Offcut, area));
    for (size, (node, largest)) in parts.into_iter().rev() {
        after = Some(match after {
            None => (node, largest),
            Some((second, other)) => {
                let cut = Node::Cut {
                    runs,
                    at: size - frame.kerf,
                    first: Box::new(node),
                    second: Box::new(second),
                };
                (cut, largest.max(other))
            }
        });
    }
    after
}

fn keep(runs: Along, size: u32, inner: Emitted, left_over: u64, frame: &Frame) -> Emitted {
    let cut = Node::Cut {
        runs,
        at: size - frame.kerf,
        first: Box::new(inner.0),
        second: Box::new(Node::Offcut),
    };
    (cut, inner.1.max(left_over))
}

/// A size without the kerf that is lost with it.
fn real(size: u32, frame: &Frame) -> u64 {
    u64::from(size.saturating_sub(frame.kerf))
}
