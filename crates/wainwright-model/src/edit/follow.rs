//! Keeping an outline true to its text while the text changes, without reading all of it again.
//!
//! A statement that was read without a fault was read from its own bytes alone: scanning it never looked past its
//! last line ending, and what follows it starts afresh at the next line. So in a text without faults it is enough to
//! read those sections again that a change touches, and to move the others. As soon as a fault is in the text, old or
//! new, the whole of it is read. The tests hold both ways against each other.
//!
//! Not here: what to change.

use super::EditProblem;
use super::outline::{Outline, Section, gather};
use super::patch::Patch;
use crate::syntax::{self, Body};
use std::ops::Range;

/// Sections that are read again, and where they stand in the new text.
struct Stretch {
    sections: Range<usize>,
    start: usize,
    end: usize,
    /// How much longer the text before its end has become.
    grown: isize,
}

impl Outline {
    /// Makes the patches, which come last place first.
    pub fn change(&mut self, patches: &[Patch]) -> Result<(), EditProblem> {
        let length = self.text.len();
        for patch in patches {
            patch.put(&mut self.text)?;
        }
        if !(self.faults.is_empty() && apart(patches) && self.follow(patches, length)) {
            *self = Self::new(std::mem::take(&mut self.text));
        }
        Ok(())
    }

    /// Reads what the patches touch; `false` when that is not enough, and the outline must be made anew.
    fn follow(&mut self, patches: &[Patch], former_length: usize) -> bool {
        let stretches = self.stretches(patches, former_length);
        let mut old = std::mem::take(&mut self.sections).into_iter();
        let (mut done, mut grown) = (0, 0);
        for stretch in stretches {
            let kept = old.by_ref().take(stretch.sections.start - done);
            self.sections
                .extend(kept.map(|section| section.moved(grown)));
            old.by_ref().take(stretch.sections.len()).for_each(drop);
            if !self.read_again(&stretch) {
                return false;
            }
            (done, grown) = (stretch.sections.end, stretch.grown);
        }
        self.sections
            .extend(old.map(|section| section.moved(grown)));
        true
    }

    fn read_again(&mut self, stretch: &Stretch) -> bool {
        let script = syntax::read_part(&self.text, stretch.start..stretch.end);
        let above = stretch.sections.start == 0;
        let first = script.statements.first();
        let starts = first.is_none_or(|first| matches!(first.body, Body::Header { .. }));
        if above {
            self.sections.push(Section::above());
        }
        gather(&mut self.sections, script.statements);
        script.faults.is_empty() && (above || starts)
    }

    /// The sections the patches touch, in order; what only ends or starts where a patch does counts as touched.
    fn stretches(&self, patches: &[Patch], former_length: usize) -> Vec<Stretch> {
        let start_of = |number: usize| {
            let section = self.sections.get(number);
            section.map_or(former_length, Section::start)
        };
        let mut found: Vec<Stretch> = Vec::new();
        let mut grown = 0;
        for patch in patches.iter().rev() {
            let end = patch.at + patch.removed.len();
            let first = self
                .sections
                .partition_point(|section| section.start() < patch.at)
                .saturating_sub(1);
            let next = self
                .sections
                .partition_point(|section| section.start() <= end);
            let by = patch.inserted.len() as isize - patch.removed.len() as isize;
            match found.last_mut() {
                Some(last) if first < last.sections.end => {
                    last.sections.end = last.sections.end.max(next);
                    last.grown += by;
                }
                _ => found.push(Stretch {
                    sections: first..next,
                    start: start_of(first).wrapping_add_signed(grown),
                    end: 0,
                    grown: grown + by,
                }),
            }
            grown += by;
        }
        for stretch in &mut found {
            stretch.end = start_of(stretch.sections.end).wrapping_add_signed(stretch.grown);
        }
        found
    }
}

impl Section {
    /// The section after the text before it has grown.
    fn moved(mut self, by: isize) -> Self {
        if by != 0 {
            self.rows.iter_mut().for_each(|row| row.statement.shift(by));
        }
        self
    }
}

/// Whether the patches, last place first, stand apart, so that each place is one of the text before all of them.
fn apart(patches: &[Patch]) -> bool {
    let pairs = patches.iter().zip(patches.iter().skip(1));
    pairs
        .into_iter()
        .all(|(later, earlier)| earlier.at + earlier.removed.len() <= later.at)
}
