//! A pack prepared for many steps: the same curves as `pack`, cut at all their points into straight
//! pieces that are found without a search; resistance by small slots of temperature.

use super::cells::{Bounds, Cells, Ends, Hold, Plain, Quiet, quiet_between};
use super::flow::lesser;
use super::pack::{Direction, Pack};
use super::warm::{Warm, WarmTables};

/// Equal parts of the charge from which a piece is found.
const PARTS: f64 = 1024.0;

/// End of the last piece, far above full: the curve goes on there as steeply as it ends.
const BEYOND: f64 = 2.0;

/// Points nearer than this are one.
const SAME: f64 = 1e-12;

/// A value that is straight over a piece: at its start, and per charge.
#[derive(Debug, Clone, Copy)]
struct Line {
    start: f64,
    slope: f64,
}

/// A piece of all curves of the pack.
#[derive(Debug, Clone, Copy)]
struct Piece {
    from: f64,
    to: f64,
    /// Open voltage of the pack, by direction.
    open: [Line; 2],
    /// The row of the resistance tables before it, and the share of the next row.
    row: usize,
    share: Line,
}

/// Open voltages of cells over a piece, by direction.
#[derive(Debug, Clone, Copy)]
struct PieceEnds {
    highest: [Line; 2],
    lowest: [Line; 2],
}

/// A state of charge in its piece.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Spot<'g> {
    piece: &'g Piece,
    over: f64,
}

/// A pack prepared for many steps.
#[derive(Debug, Clone)]
pub(crate) struct Grid {
    series: f64,
    connections: f64,
    pieces: Vec<Piece>,
    ends: Vec<PieceEnds>,
    /// First piece that reaches into each part.
    first: Vec<u32>,
    warm: WarmTables,
    quiet: Quiet,
}

impl Line {
    fn through(from: f64, to: f64, at: impl Fn(f64) -> f64) -> Line {
        let start = at(from);
        let slope = if to > from {
            (at(to) - start) / (to - from)
        } else {
            0.0
        };
        Line { start, slope }
    }

    #[inline(always)]
    fn at(self, over: f64) -> f64 {
        self.start + self.slope * over
    }
}

impl Grid {
    /// Prepares a pack whose fullest cell is ahead of the others.
    pub(crate) fn new(plain: Plain<'_>, bounds: Bounds) -> Grid {
        let pack = &plain.pack;
        let rows = rows(pack);
        let points = points(&plain, &rows);
        let pieces: Vec<Piece> = points
            .windows(2)
            .filter_map(|ends| piece(&plain, &rows, *ends.first()?, *ends.last()?))
            .collect();
        let ends = pieces.iter().map(|piece| ends(&plain, *piece)).collect();
        Grid {
            series: plain.series(),
            connections: plain.connections(),
            first: first(&pieces),
            pieces,
            ends,
            warm: WarmTables::new(pack, &rows),
            quiet: quiet_between(&plain, &points, bounds),
        }
    }

    #[inline(always)]
    fn index(&self, charge: f64) -> usize {
        let part = (charge * PARTS) as u32 as usize;
        let mut at = self.first.get(part).copied().unwrap_or(u32::MAX) as usize;
        at = at.min(self.pieces.len().saturating_sub(1));
        while let Some(piece) = self.pieces.get(at) {
            if charge <= piece.to || at + 1 == self.pieces.len() {
                break;
            }
            at += 1;
        }
        at
    }
}

impl Cells for Grid {
    type Spot<'g> = Spot<'g>;
    type Warmth = Warm;

    fn series(&self) -> f64 {
        self.series
    }

    fn connections(&self) -> f64 {
        self.connections
    }

    #[inline(always)]
    fn spot(&self, charge: f64, near: &mut usize) -> Spot<'_> {
        let mut at = *near;
        while let Some(piece) = self.pieces.get(at) {
            if charge > piece.to && at + 1 < self.pieces.len() {
                at += 1;
            } else if charge < piece.from && at > 0 {
                at -= 1;
            } else {
                break;
            }
        }
        *near = at;
        let piece = self.pieces.get(at).unwrap_or(&Piece::NOTHING);
        Spot {
            piece,
            over: charge - piece.from,
        }
    }

    #[inline(always)]
    fn warmth(&self, celsius: f64) -> Warm {
        self.warm.at(celsius)
    }

    #[inline(always)]
    fn open(&self, spot: Spot<'_>, direction: Direction) -> f64 {
        let [charging, discharging] = spot.piece.open;
        match direction {
            Direction::Charging => charging.at(spot.over),
            Direction::Discharging => discharging.at(spot.over),
        }
    }

    #[inline(always)]
    fn ohms(&self, spot: Spot<'_>, warmth: Warm, direction: Direction) -> f64 {
        let share = spot.piece.share.at(spot.over);
        self.connections + self.warm.ohms(warmth, direction, spot.piece.row, share)
    }

    #[inline(always)]
    fn ends(&self, charge: f64, direction: Direction) -> Ends {
        let at = self.index(charge);
        let (Some(piece), Some(ends)) = (self.pieces.get(at), self.ends.get(at)) else {
            return Ends {
                highest: 0.0,
                lowest: 0.0,
            };
        };
        let over = charge - piece.from;
        let ([highest, _], [lowest, _]) = match direction {
            Direction::Charging => (ends.highest, ends.lowest),
            Direction::Discharging => ([ends.highest[1]; 2], [ends.lowest[1]; 2]),
        };
        Ends {
            highest: highest.at(over),
            lowest: lowest.at(over),
        }
    }

    /// Piece by piece: within one the voltage is straight.
    fn rises(&self, from: f64, to: f64, limit: f64) -> f64 {
        let begin = self.index(from);
        let pieces = self.pieces.iter().zip(&self.ends).skip(begin);
        for (piece, ends) in pieces {
            let [line, _] = ends.highest;
            let here = lesser(piece.to, to);
            if line.at(here - piece.from) >= limit {
                let at = piece.from + (limit - line.start) / line.slope;
                return if at > from { lesser(at, here) } else { from };
            }
            if here >= to {
                break;
            }
        }
        to
    }

    fn falls(&self, from: f64, to: f64, limit: f64) -> f64 {
        let end = self.index(from) + 1;
        let pieces = self.pieces.iter().zip(&self.ends).take(end).rev();
        for (piece, ends) in pieces {
            let [_, line] = ends.lowest;
            let here = if piece.from > to { piece.from } else { to };
            if line.at(here - piece.from) <= limit {
                let at = piece.from + (limit - line.start) / line.slope;
                let at = if at > here { at } else { here };
                return lesser(at, from);
            }
            if here <= to {
                break;
            }
        }
        to
    }

    #[inline(always)]
    fn quiet(&self) -> Quiet {
        self.quiet
    }

    /// Piece by piece: within one the terminal voltage is straight over the current.
    fn held(&self, charge: f64, hold: Hold, set_point: f64, most: f64) -> f64 {
        let mut reached = 0.0;
        let mut full = 0.0;
        for piece in self.pieces.iter().skip(self.index(charge)) {
            if piece.from >= hold.top {
                break;
            }
            let [line, _] = piece.open;
            let now = line.at(charge - piece.from);
            let current = (set_point - now) / (line.slope * hold.gain + hold.ohms);
            let at_end = (piece.to - charge) / hold.gain;
            if current <= at_end || reached >= most {
                return lesser(if current > reached { current } else { reached }, most);
            }
            reached = at_end;
            full = line.at(piece.to - piece.from);
        }
        let beyond = (set_point - full) / hold.ohms;
        lesser(if beyond > reached { beyond } else { reached }, most)
    }
}

impl Piece {
    const NOTHING: Piece = Piece {
        from: 0.0,
        to: 0.0,
        open: [Line::ZERO; 2],
        row: 0,
        share: Line::ZERO,
    };
}

impl Line {
    const ZERO: Line = Line {
        start: 0.0,
        slope: 0.0,
    };
}

/// States of charge of all rows of both resistance tables, rising.
fn rows(pack: &Pack<'_>) -> Vec<f64> {
    let both = pack.charging.rows.iter().chain(pack.discharging.rows);
    distinct(both.map(|row| row.0).collect())
}

/// All states of charge from empty to full at which a curve bends, and one far beyond.
fn points(plain: &Plain<'_>, rows: &[f64]) -> Vec<f64> {
    let pack = &plain.pack;
    let curves = pack
        .open
        .stops()
        .chain(pack.hysteresis.stops())
        .chain([1.0]);
    let all = curves
        .flat_map(|stop| [stop, stop - plain.ahead])
        .chain(rows.iter().copied())
        .filter(|stop| *stop > 0.0 && *stop < 1.0)
        .chain([0.0, 1.0, BEYOND]);
    distinct(all.collect())
}

fn distinct(mut values: Vec<f64>) -> Vec<f64> {
    values.sort_by(f64::total_cmp);
    values.dedup_by(|after, before| (*after - *before).abs() < SAME);
    values
}

fn piece(plain: &Plain<'_>, rows: &[f64], from: f64, to: f64) -> Option<Piece> {
    let middle = f64::midpoint(from, to);
    let after = rows.partition_point(|row| *row < middle);
    let row = after.saturating_sub(1);
    let share = match (
        after.checked_sub(1).and_then(|at| rows.get(at)),
        rows.get(after),
    ) {
        (Some(left), Some(right)) => {
            Line::through(from, to, |charge| (charge - left) / (right - left))
        }
        _ => Line::ZERO,
    };
    let open = |direction| Line::through(from, to, |charge| plain.open(charge, direction));
    (to > from).then(|| Piece {
        from,
        to,
        open: [open(Direction::Charging), open(Direction::Discharging)],
        row,
        share,
    })
}

fn ends(plain: &Plain<'_>, piece: Piece) -> PieceEnds {
    let line = |of: fn(Ends) -> f64, direction| {
        Line::through(piece.from, piece.to, |charge| {
            of(plain.ends(charge, direction))
        })
    };
    let both = |of| {
        [
            line(of, Direction::Charging),
            line(of, Direction::Discharging),
        ]
    };
    PieceEnds {
        highest: both(|ends| ends.highest),
        lowest: both(|ends| ends.lowest),
    }
}

/// For each part of the charge, the piece in which it begins.
fn first(pieces: &[Piece]) -> Vec<u32> {
    let mut at = 0;
    let mut all = Vec::with_capacity(PARTS as usize + 1);
    for part in 0..=PARTS as usize {
        let charge = part as f64 / PARTS;
        while pieces.get(at).is_some_and(|piece| piece.to < charge) && at + 1 < pieces.len() {
            at += 1;
        }
        all.push(u32::try_from(at).unwrap_or(u32::MAX));
    }
    all
}
