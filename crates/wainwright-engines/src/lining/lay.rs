//! From course lines to numbered planks. Which course lines is decided in `planks`.

use wainwright_units::Length;

use super::courses::{Across, Lay};
use super::estimate::Shop;
use super::joints::{JointRules, Stretch, join};
use super::piece::{Piece, area_of, areal_mass};
use super::plane::{NOTHING, Patch, covered};
use super::planks::{Plank, PlankOptions, Planks, Shortfall};
use super::segments::{Course, Segment, course};
use super::surface::{Areas, Backing, Line, Surface};
use crate::refusal::{Refusal, above_zero};

/// Places for a joint on a whole backing: so many over a stretch.
const PLACES: f64 = 40.0;

/// Everything that stays the same whatever the course lines.
pub(super) struct Boards<'s> {
    surface: &'s Surface,
    options: &'s PlankOptions,
    whole_backing: bool,
    lines: Vec<Line>,
    blocks: Vec<Patch>,
    shop: Shop,
    rules: JointRules,
    kg_m2: f64,
    pub across: Across,
    /// From the first to the last end of all courses [m].
    ends: (f64, f64),
}

impl<'s> Boards<'s> {
    pub fn new(
        surface: &'s Surface,
        backing: &Backing,
        options: &'s PlankOptions,
    ) -> Result<Self, Refusal> {
        options.check()?;
        let (long, wide) = surface.size(options.runs);
        let end = options.end_gap.metres();
        above_zero(
            "length of the courses less their gaps [m]",
            long - 2.0 * end,
        )?;
        let shop = Shop::new(&options.stock, options.kerf)?;
        Ok(Self {
            whole_backing: *backing == Backing::Whole,
            lines: backing.across(options.runs),
            blocks: surface.blocks(options.runs, options.opening_gap.metres()),
            rules: options.joint_rules(&shop),
            shop,
            kg_m2: areal_mass(&options.material)?,
            across: options.across(wide)?,
            ends: (end, long - end),
            surface,
            options,
        })
    }

    /// The way without a rip that asks for the least cutting along the grain, then the first.
    pub fn best_without_rips(&self) -> Option<Lay> {
        let hide = self.options.hidden_opening.metres();
        let lines: Vec<f64> = self
            .blocks
            .iter()
            .flat_map(|block| [block.v0, block.v0 - hide, block.v1, block.v1 + hide])
            .collect();
        let ways = self.across.without_rips(&lines).into_iter();
        let rated = ways.map(|lay| (self.notched(&lay), lay));
        rated
            .reduce(|best, one| if one.0 < best.0 - NOTHING { one } else { best })
            .map(|best| best.1)
    }

    /// Length of all notches of some course lines [m].
    fn notched(&self, lay: &Lay) -> f64 {
        let courses = self.courses(lay);
        let segments = courses.iter().flat_map(|course| &course.segments);
        segments
            .flat_map(|segment| &segment.cut)
            .map(|(from, to)| to - from)
            .sum()
    }

    fn courses(&self, lay: &Lay) -> Vec<Course> {
        let hide = self.options.hidden_opening.metres();
        let bands = lay.edges.windows(2).map(|pair| Patch {
            u0: self.ends.0,
            u1: self.ends.1,
            v0: pair[0],
            v1: pair[1],
        });
        bands
            .map(|band| course(&band, &self.blocks, hide, self.options.least_piece.metres()))
            .collect()
    }

    /// Planks on given course lines.
    pub fn lay(&self, lay: &Lay) -> Result<Planks, Refusal> {
        let courses = self.courses(lay);
        let mut stretches = Vec::new();
        let mut segments: Vec<&Segment> = Vec::new();
        for (index, course) in courses.iter().enumerate() {
            for segment in &course.segments {
                stretches.push(self.stretch(index, segment));
                segments.push(segment);
            }
        }
        let joined = join(&stretches, &self.rules, &self.shop);
        let mut made = self.empty(lay);
        for ((stretch, segment), joints) in stretches.iter().zip(&segments).zip(&joined.joints) {
            let mut from = segment.patch.u0;
            for &to in joints.iter().chain([&segment.patch.u1]) {
                let part = Patch {
                    u0: from,
                    u1: to,
                    ..segment.patch
                };
                let joint = (from > segment.patch.u0, to < segment.patch.u1);
                self.add(&mut made, &part, stretch.course, lay, joint);
                from = to;
            }
        }
        let too_long = joined.too_long.iter().filter_map(|&at| stretches.get(at));
        made.shortfalls
            .extend(too_long.map(|stretch| Shortfall::TooLong {
                run: stretch.course + 1,
                length: Length::from_metres(stretch.to - stretch.from),
            }));
        let in_line = joined.in_line.iter();
        made.shortfalls.extend(in_line.filter_map(|&(at, joint)| {
            Some(Shortfall::Stagger {
                run: stretches.get(at)?.course + 1,
                at: Length::from_metres(joint),
            })
        }));
        self.close(made, lay, &courses)
    }

    /// Where a stretch may be joined: on supports all across its course, away from notches.
    fn stretch(&self, course: usize, segment: &Segment) -> Stretch {
        let patch = &segment.patch;
        let mut places: Vec<f64> = if self.whole_backing {
            let step = (patch.long() / PLACES).max(NOTHING);
            let even = (1..PLACES as usize).map(|n| patch.u0 + n as f64 * step);
            let reach = self.rules.longest;
            even.chain([patch.u0 + reach, patch.u1 - reach]).collect()
        } else {
            let lines = self.lines.iter();
            lines
                .filter(|line| line.covers(patch.v0, patch.v1))
                .map(|line| line.at)
                .collect()
        };
        places.retain(|&at| {
            let notched = segment.cut.iter();
            at > patch.u0 + NOTHING
                && at < patch.u1 - NOTHING
                && !notched.clone().any(|&(from, to)| at >= from && at <= to)
        });
        places.sort_by(f64::total_cmp);
        places.dedup_by(|next, kept| *next - *kept < 1e-6);
        Stretch {
            course,
            from: patch.u0,
            to: patch.u1,
            places,
        }
    }

    fn empty(&self, lay: &Lay) -> Planks {
        let zero = wainwright_units::Area::ZERO;
        Planks {
            courses: lay.courses(self.across.whole),
            fit: lay.fit,
            planks: Vec::new(),
            areas: Areas {
                surface: zero,
                pieces: zero,
                openings: zero,
                gaps: zero,
                left_out: zero,
            },
            estimate: self.shop.estimate(&mut []),
            rips: 0,
            notches: 0,
            lengthwise: Length::ZERO,
            fasteners: 0,
            loose_ends: 0,
            widest_span: Length::ZERO,
            adhesive: Length::ZERO,
            shortfalls: Vec::new(),
            other: None,
        }
    }

    /// Adds one plank and counts what it takes.
    fn add(&self, made: &mut Planks, part: &Patch, course: usize, lay: &Lay, joint: (bool, bool)) {
        let ripped = lay.is_ripped(course);
        let face = self.across.face;
        let width = if ripped { part.wide() } else { face };
        let beyond = (width - part.wide()) * part.long();
        let mut piece = Piece::cut(part, &self.blocks, self.options.runs, self.kg_m2, beyond);
        piece.number = made.planks.len() + 1;
        let notches = self.notch_length(&piece, part);
        let ripped_length = if ripped { part.long() } else { 0.0 };
        made.rips += usize::from(ripped);
        made.notches += usize::from(!piece.cuts.is_empty());
        made.lengthwise += Length::from_metres(notches + ripped_length);
        let held = self.held(part);
        made.fasteners += held.fasteners;
        made.loose_ends += held.loose_ends;
        made.widest_span = Length::from_metres(made.widest_span.metres().max(held.widest_span));
        made.adhesive += Length::from_metres(held.adhesive);
        made.planks.push(Plank {
            piece,
            run: course + 1,
            length: Length::from_metres(part.long()),
            width: Length::from_metres(width),
            ripped,
            starts_at_joint: joint.0,
            ends_at_joint: joint.1,
            fasteners: held.fasteners,
        });
    }

    /// Cuts along the grain for the notches and holes of a piece [m].
    fn notch_length(&self, piece: &Piece, part: &Patch) -> f64 {
        let cuts = piece.cuts.iter();
        cuts.map(|cut| {
            let cut = Patch::of(cut, self.options.runs);
            let sides = [cut.v0 > part.v0 + NOTHING, cut.v1 < part.v1 - NOTHING];
            cut.long() * sides.into_iter().filter(|&side| side).count() as f64
        })
        .sum()
    }

    fn held(&self, part: &Patch) -> Held {
        let each = self.options.fasteners_per_crossing;
        if self.whole_backing {
            let spacing = self.options.fastener_spacing.metres();
            let rows = (part.long() / spacing - 1e-9).ceil().max(1.0) as usize + 1;
            return Held {
                fasteners: each * rows,
                loose_ends: 0,
                widest_span: 0.0,
                adhesive: part.long(),
            };
        }
        let gap = self.options.end_gap.metres() + self.options.opening_gap.metres();
        let crossed: Vec<&Line> = self
            .lines
            .iter()
            .filter(|line| line.meets(part.v0, part.v1))
            .filter(|line| {
                line.at + line.half > part.u0 - gap && line.at - line.half < part.u1 + gap
            })
            .collect();
        let holds = |end: f64| {
            let mut lines = crossed.iter();
            lines.any(|line| (line.at - end).abs() <= line.half + gap + NOTHING)
        };
        let on = |line: &&&Line| line.at + line.half > part.u0 && line.at - line.half < part.u1;
        let under: Vec<f64> = crossed.iter().filter(on).map(|line| line.at).collect();
        let inner = under.windows(2).map(|pair| pair[1] - pair[0]);
        let first = under.first().map_or(part.long(), |at| at - part.u0);
        let last = under.last().map_or(part.long(), |at| part.u1 - at);
        Held {
            fasteners: each * under.len(),
            loose_ends: [part.u0, part.u1]
                .iter()
                .filter(|&&end| !holds(end))
                .count(),
            widest_span: inner.fold(first.max(last), f64::max),
            adhesive: under.len() as f64 * part.wide(),
        }
    }

    fn close(&self, mut made: Planks, lay: &Lay, courses: &[Course]) -> Result<Planks, Refusal> {
        let mut lengths: Vec<f64> = made.planks.iter().map(|one| one.length.metres()).collect();
        made.estimate = self.shop.estimate(&mut lengths);
        let (v0, v1) = lay.ends();
        let inside = Patch {
            u0: self.ends.0,
            u1: self.ends.1,
            v0,
            v1,
        };
        let net = inside.area() - covered(&inside, &self.blocks);
        let short = || courses.iter().flat_map(|course| &course.short);
        let hidden = courses.iter().flat_map(|course| &course.hidden);
        let left_out: f64 = short().chain(hidden).map(Patch::area).sum();
        let pieces = area_of(made.planks.iter().map(|plank| &plank.piece));
        made.areas = Areas::close(self.surface, net, pieces, 0.0, left_out)?;
        let runs = self.options.runs;
        made.shortfalls
            .extend(short().map(|patch| Shortfall::LeftOut(patch.rect(runs))));
        Ok(made)
    }
}

/// What holds one plank.
struct Held {
    fasteners: usize,
    loose_ends: usize,
    widest_span: f64,
    adhesive: f64,
}
