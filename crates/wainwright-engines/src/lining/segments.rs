//! What openings leave of one course: the stretches that are boarded and the rests that are not.
//! Joints are not here.

use super::plane::{NOTHING, Patch, SAME, Slab, slabs};

/// A stretch of one course without interruption.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Segment {
    /// The band it fills, from end to end [m].
    pub patch: Patch,
    /// Stretches along it with a notch or a hole [m].
    pub cut: Vec<(f64, f64)>,
}

/// One course, cut up.
#[derive(Debug, Clone, Default, PartialEq)]
pub(super) struct Course {
    pub segments: Vec<Segment>,
    /// Strips along openings that their trims hide.
    pub hidden: Vec<Patch>,
    /// Stretches too short for a piece.
    pub short: Vec<Patch>,
}

/// Cuts a band at the openings.
///
/// Where no more than `hide` of its width is left beside an opening it is left away, and the trim
/// of the opening covers that; where more is left, the board gets a notch.
pub(super) fn course(band: &Patch, blocks: &[Patch], hide: f64, least_piece: f64) -> Course {
    let mut course = Course::default();
    let mut run: Vec<Slab> = Vec::new();
    let mut before: Vec<(f64, f64)> = Vec::new();
    let hide = hide.max(NOTHING);
    for slab in slabs(band, blocks) {
        let free = slab.free(band.v0, band.v1);
        if widest(&free) <= hide + SAME {
            course.end(&mut run, band, least_piece);
            course.hidden.extend(patches(&slab, &free));
            before.clear();
            continue;
        }
        if !run.is_empty() && neck(&before, &free) <= hide {
            course.end(&mut run, band, least_piece);
        }
        before = free;
        run.push(slab);
    }
    course.end(&mut run, band, least_piece);
    course
}

impl Course {
    fn end(&mut self, run: &mut Vec<Slab>, band: &Patch, least_piece: f64) {
        let (Some(first), Some(last)) = (run.first(), run.last()) else {
            return;
        };
        let patch = Patch {
            u0: first.u0,
            u1: last.u1,
            ..*band
        };
        if patch.long() < least_piece.max(NOTHING) {
            let rests = run
                .iter()
                .flat_map(|slab| patches(slab, &slab.free(band.v0, band.v1)));
            self.short.extend(rests);
        } else {
            let notched = run.iter().filter(|slab| !slab.blocked.is_empty());
            self.segments.push(Segment {
                patch,
                cut: notched.map(|slab| (slab.u0, slab.u1)).collect(),
            });
        }
        run.clear();
    }
}

fn patches(slab: &Slab, free: &[(f64, f64)]) -> Vec<Patch> {
    let patch = |&(v0, v1): &(f64, f64)| Patch {
        u0: slab.u0,
        u1: slab.u1,
        v0,
        v1,
    };
    free.iter().map(patch).collect()
}

fn widest(free: &[(f64, f64)]) -> f64 {
    free.iter()
        .map(|(low, high)| high - low)
        .fold(0.0, f64::max)
}

/// Widest strip that two neighbouring stretches share.
fn neck(one: &[(f64, f64)], other: &[(f64, f64)]) -> f64 {
    let shared = |a: &(f64, f64), b: &(f64, f64)| a.1.min(b.1) - a.0.max(b.0);
    let pairs = one
        .iter()
        .flat_map(|a| other.iter().map(move |b| shared(a, b)));
    pairs.fold(0.0, f64::max)
}
