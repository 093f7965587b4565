//! Course lines across a surface: which boards are full, which are ripped, and ways to need no rip.
//! Joints within a course are not here.

use wainwright_units::Length;

use super::plane::NOTHING;

/// How the courses fill the surface.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Fit {
    /// Full boards fill it.
    FullBoards,
    /// The last course is ripped narrower.
    LastRipped,
    /// The first and last course are ripped to the same width: the last alone would be a sliver.
    Balanced,
    /// One ripped board is all.
    Single,
    /// Full boards; cover trims hide what they leave at both edges beyond the usual gap \[m\].
    HiddenByTrim {
        /// At the first edge.
        start: Length,
        /// At the far edge.
        end: Length,
    },
    /// Full boards, set apart a little at every course \[m\].
    Loosened {
        /// Added to the covering width of every course but the last.
        per_course: Length,
    },
    /// Full boards, the last one over the one before \[m\].
    Lapped {
        /// How far.
        by: Length,
    },
}

/// Course lines, from the first edge.
#[derive(Debug, Clone, PartialEq)]
pub struct Courses {
    /// One more than there are courses, ascending \[m\].
    pub edges: Vec<Length>,
    /// Width of the first course \[m\].
    pub first: Length,
    /// Width of the last course \[m\].
    pub last: Length,
    /// Gap before the first course \[m\].
    pub start_gap: Length,
    /// Gap after the last course \[m\].
    pub end_gap: Length,
}

/// Course lines as bare numbers [m].
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Lay {
    pub edges: Vec<f64>,
    pub fit: Fit,
}

/// What course lines are made from [m].
#[derive(Debug, Clone, Copy)]
pub(super) struct Across {
    pub whole: f64,
    pub gap: f64,
    pub face: f64,
    pub least_rip: f64,
    pub hidden: f64,
    pub loosen: f64,
    pub may_lap: bool,
}

impl Lay {
    pub fn courses(&self, whole: f64) -> Courses {
        let (start, end) = self.ends();
        let width = |pair: Option<&[f64]>| pair.map_or(0.0, |pair| pair[1] - pair[0]);
        Courses {
            edges: self
                .edges
                .iter()
                .map(|&at| Length::from_metres(at))
                .collect(),
            first: Length::from_metres(width(self.edges.windows(2).next())),
            last: Length::from_metres(width(self.edges.windows(2).last())),
            start_gap: Length::from_metres(start),
            end_gap: Length::from_metres(whole - end),
        }
    }

    /// First and last course line [m].
    pub fn ends(&self) -> (f64, f64) {
        let first = self.edges.first().copied().unwrap_or(0.0);
        (first, self.edges.last().copied().unwrap_or(first))
    }

    /// Whether the boards of a course are ripped.
    pub fn is_ripped(&self, course: usize) -> bool {
        let last = course + 2 == self.edges.len();
        match self.fit {
            Fit::LastRipped | Fit::Single => last,
            Fit::Balanced => last || course == 0,
            _ => false,
        }
    }
}

impl Across {
    /// The usual way: full boards from the first edge, the last one ripped; where that would be a
    /// sliver, the first and last one ripped alike.
    pub fn with_rips(&self) -> Lay {
        let (free, face) = (self.free(), self.face);
        let count = (free / face - 1e-9).ceil().max(1.0);
        let last = free - (count - 1.0) * face;
        let (fit, first) = if (last - face).abs() <= NOTHING.max(1e-9 * face) {
            (Fit::FullBoards, face)
        } else if count < 2.0 {
            (Fit::Single, face)
        } else if last >= self.least_rip - NOTHING {
            (Fit::LastRipped, face)
        } else {
            (Fit::Balanced, 0.5 * (last + face))
        };
        let mut edges = vec![self.gap];
        edges.extend((1..count as usize).map(|n| self.gap + first + (n - 1) as f64 * face));
        edges.push(self.whole - self.gap);
        Lay { edges, fit }
    }

    /// Ways without a ripped board. `lines` are places a course line had better be at.
    pub fn without_rips(&self, lines: &[f64]) -> Vec<Lay> {
        let (free, face) = (self.free(), self.face);
        let count = (free / face + 1e-9).floor();
        let rest = (free - count * face).max(0.0);
        let mut ways = Vec::new();
        if count >= 1.0 && rest <= 2.0 * self.hidden + NOTHING {
            let starts = self.slides(rest, lines).into_iter();
            ways.extend(starts.map(|extra| self.full(count, extra, rest)));
        }
        let shown = rest - 2.0 * self.hidden;
        if count >= 2.0 && shown > NOTHING && shown <= (count - 1.0) * self.loosen + NOTHING {
            ways.push(self.loosened(count, shown / (count - 1.0)));
        }
        if self.may_lap && count >= 1.0 && rest > NOTHING {
            let by = face - rest;
            let mut lay = self.full(count, 0.0, 0.0);
            lay.edges.push(self.whole - self.gap);
            lay.fit = Fit::Lapped {
                by: Length::from_metres(by),
            };
            ways.push(lay);
        }
        ways
    }

    fn free(&self) -> f64 {
        self.whole - 2.0 * self.gap
    }

    /// How far the first board may be from its usual place: even first, then the ends, then where
    /// a course line meets one of `lines`.
    fn slides(&self, rest: f64, lines: &[f64]) -> Vec<f64> {
        let (low, high) = ((rest - self.hidden).max(0.0), rest.min(self.hidden));
        let mut slides = vec![0.5 * rest, low, high];
        let onto = lines
            .iter()
            .map(|line| (line - self.gap).rem_euclid(self.face));
        slides.extend(onto.filter(|&slide| slide >= low && slide <= high));
        slides
    }

    fn full(&self, count: f64, extra: f64, rest: f64) -> Lay {
        let start = self.gap + extra;
        let edges = (0..=count as usize).map(|n| start + n as f64 * self.face);
        let fit = if rest <= NOTHING {
            Fit::FullBoards
        } else {
            Fit::HiddenByTrim {
                start: Length::from_metres(extra),
                end: Length::from_metres(rest - extra),
            }
        };
        Lay {
            edges: edges.collect(),
            fit,
        }
    }

    fn loosened(&self, count: f64, per_course: f64) -> Lay {
        let start = self.gap + self.hidden;
        let step = self.face + per_course;
        let mut edges: Vec<f64> = (0..count as usize)
            .map(|n| start + n as f64 * step)
            .collect();
        edges.push(start + (count - 1.0) * step + self.face);
        Lay {
            edges,
            fit: Fit::Loosened {
                per_course: Length::from_metres(per_course),
            },
        }
    }
}
