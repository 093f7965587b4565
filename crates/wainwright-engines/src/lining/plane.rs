//! Rectangles on a surface as bare numbers [m]: slabs, what is blocked in them, areas. Which layer
//! they belong to is not here.

use wainwright_units::Length;

use super::surface::{Direction, Rect};

/// Two edges nearer than this are one [m].
pub(super) const SAME: f64 = 1e-12;
/// Lengths below this are nothing to cut [m].
pub(super) const NOTHING: f64 = 1e-9;

/// A rectangle: `u` along the runs, `v` across them [m].
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Patch {
    pub u0: f64,
    pub u1: f64,
    pub v0: f64,
    pub v1: f64,
}

/// A stretch of `u` over which the same parts of `v` are blocked.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Slab {
    pub u0: f64,
    pub u1: f64,
    /// Ascending and apart from one another.
    pub blocked: Vec<(f64, f64)>,
}

impl Patch {
    pub fn of(rect: &Rect, runs: Direction) -> Self {
        let (x, y) = (rect.x.metres(), rect.y.metres());
        let (width, height) = (rect.width.metres(), rect.height.metres());
        match runs {
            Direction::Width => Self {
                u0: x,
                u1: x + width,
                v0: y,
                v1: y + height,
            },
            Direction::Height => Self {
                u0: y,
                u1: y + height,
                v0: x,
                v1: x + width,
            },
        }
    }

    pub fn rect(&self, runs: Direction) -> Rect {
        let length = Length::from_metres;
        let (u, v) = (length(self.u1 - self.u0), length(self.v1 - self.v0));
        match runs {
            Direction::Width => Rect {
                x: length(self.u0),
                y: length(self.v0),
                width: u,
                height: v,
            },
            Direction::Height => Rect {
                x: length(self.v0),
                y: length(self.u0),
                width: v,
                height: u,
            },
        }
    }

    pub fn area(&self) -> f64 {
        (self.u1 - self.u0) * (self.v1 - self.v0)
    }

    pub fn long(&self) -> f64 {
        self.u1 - self.u0
    }

    pub fn wide(&self) -> f64 {
        self.v1 - self.v0
    }

    pub fn grown(&self, by: f64) -> Self {
        Self {
            u0: self.u0 - by,
            u1: self.u1 + by,
            v0: self.v0 - by,
            v1: self.v1 + by,
        }
    }

    /// The part inside another patch, if any.
    pub fn clip(&self, within: &Patch) -> Option<Patch> {
        let part = Patch {
            u0: self.u0.max(within.u0),
            u1: self.u1.min(within.u1),
            v0: self.v0.max(within.v0),
            v1: self.v1.min(within.v1),
        };
        (part.u1 - part.u0 > SAME && part.v1 - part.v0 > SAME).then_some(part)
    }

    /// With both directions exchanged.
    pub fn turned(&self) -> Patch {
        Patch {
            u0: self.v0,
            u1: self.v1,
            v0: self.u0,
            v1: self.u1,
        }
    }
}

impl Slab {
    /// What is free between the blocked parts of a band.
    pub fn free(&self, v0: f64, v1: f64) -> Vec<(f64, f64)> {
        let mut from = v0;
        let mut free = Vec::new();
        for &(low, high) in &self.blocked {
            if low - from > SAME {
                free.push((from, low));
            }
            from = from.max(high);
        }
        if v1 - from > SAME {
            free.push((from, v1));
        }
        free
    }
}

/// Cuts a patch along `u` at every edge of what blocks it.
pub(super) fn slabs(within: &Patch, blocks: &[Patch]) -> Vec<Slab> {
    let blocks: Vec<Patch> = blocks
        .iter()
        .filter_map(|block| block.clip(within))
        .collect();
    let mut edges = vec![within.u0, within.u1];
    edges.extend(blocks.iter().flat_map(|block| [block.u0, block.u1]));
    edges.sort_by(f64::total_cmp);
    edges.dedup_by(|next, kept| *next - *kept <= SAME);
    let pairs = edges.iter().zip(edges.iter().skip(1));
    pairs
        .map(|(&u0, &u1)| {
            let middle = 0.5 * (u0 + u1);
            let here = blocks
                .iter()
                .filter(|block| block.u0 < middle && middle < block.u1);
            Slab {
                u0,
                u1,
                blocked: merged(here.map(|block| (block.v0, block.v1)).collect()),
            }
        })
        .collect()
}

/// Intervals joined where they touch or overlap, ascending.
pub(super) fn merged(mut intervals: Vec<(f64, f64)>) -> Vec<(f64, f64)> {
    intervals.sort_by(|one, other| one.0.total_cmp(&other.0));
    let mut joined: Vec<(f64, f64)> = Vec::new();
    for (low, high) in intervals {
        match joined.last_mut() {
            Some(last) if low <= last.1 + SAME => last.1 = last.1.max(high),
            _ => joined.push((low, high)),
        }
    }
    joined
}

/// Area that patches cover of another one, counted once [m²].
pub(super) fn covered(within: &Patch, patches: &[Patch]) -> f64 {
    let slabs = slabs(within, patches);
    let height = |slab: &Slab| -> f64 { slab.blocked.iter().map(|(low, high)| high - low).sum() };
    slabs
        .iter()
        .map(|slab| (slab.u1 - slab.u0) * height(slab))
        .sum()
}

/// Disjoint rectangles that make up what is blocked (or free) of a patch, as long along `u` as
/// they can be.
pub(super) fn parts(within: &Patch, blocks: &[Patch], free: bool) -> Vec<Patch> {
    let mut done: Vec<Patch> = Vec::new();
    let mut open: Vec<Patch> = Vec::new();
    for slab in slabs(within, blocks) {
        let here = if free {
            slab.free(within.v0, within.v1)
        } else {
            slab.blocked
        };
        let mut next = Vec::new();
        for (v0, v1) in here {
            let same = |one: &Patch| (one.v0 - v0).abs() <= SAME && (one.v1 - v1).abs() <= SAME;
            let u0 = match open.iter().position(same) {
                Some(index) => open.swap_remove(index).u0,
                None => slab.u0,
            };
            next.push(Patch {
                u0,
                u1: slab.u1,
                v0,
                v1,
            });
        }
        done.append(&mut open);
        open = next;
    }
    done.append(&mut open);
    done.sort_by(|one, other| (one.v0.total_cmp(&other.v0)).then(one.u0.total_cmp(&other.u0)));
    done
}
