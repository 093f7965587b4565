//! Wires side by side: where several run along one line, each gets a lane.

use crate::geometry::Point;
use std::collections::BTreeMap;

/// Between wires side by side [px].
const LANE: f64 = 3.2;
/// Widest bundle [px]; more wires come closer together.
const WIDEST: f64 = 15.0;
/// Pieces shorter than this are taken as a rise towards the person who looks [px].
const SHORTEST: f64 = 0.5;

/// One straight piece of one wire, and the line it runs on.
#[derive(Debug, Clone, Copy)]
struct Piece {
    wire: usize,
    /// Number of the piece within its wire.
    part: usize,
    /// Range along the line, low before high.
    low: f64,
    high: f64,
}

/// Paths moved apart so that wires on one line do not hide each other.
pub(super) fn apart(paths: &[Vec<Point>]) -> Vec<Vec<Point>> {
    let plain: Vec<Vec<Point>> = paths.iter().map(|path| without_rises(path)).collect();
    let mut lines: BTreeMap<(i64, i64), Vec<Piece>> = BTreeMap::new();
    for (wire, path) in plain.iter().enumerate() {
        for (part, pair) in path.windows(2).enumerate() {
            let &[a, b] = pair else { continue };
            let (key, low, high) = line_of(a, b);
            lines.entry(key).or_default().push(Piece {
                wire,
                part,
                low,
                high,
            });
        }
    }
    let mut offsets: Vec<Vec<f64>> = plain.iter().map(|path| vec![0.0; path.len()]).collect();
    for pieces in lines.into_values() {
        assign(pieces, &mut offsets);
    }
    plain
        .iter()
        .zip(&offsets)
        .map(|(path, offsets)| moved(path, offsets))
        .collect()
}

/// Points of a path at which it rises: several corners in one place.
pub(super) fn rises(path: &[Point]) -> Vec<Point> {
    let short = |pair: &&[Point]| matches!(pair, [a, b] if distance(*a, *b) < SHORTEST);
    let pairs = path.windows(2).filter(short);
    pairs.filter_map(|pair| pair.first().copied()).collect()
}

fn without_rises(path: &[Point]) -> Vec<Point> {
    let mut plain: Vec<Point> = Vec::new();
    for &point in path {
        if plain
            .last()
            .is_none_or(|last| distance(*last, point) >= SHORTEST)
        {
            plain.push(point);
        }
    }
    plain
}

fn distance(a: Point, b: Point) -> f64 {
    (a.x - b.x).hypot(a.y - b.y)
}

/// Direction of a piece, the same for both senses: rightwards, or straight down.
fn direction(a: Point, b: Point) -> (f64, f64) {
    let length = distance(a, b).max(1e-9);
    let (x, y) = ((b.x - a.x) / length, (b.y - a.y) / length);
    if x < -1e-6 || (x.abs() <= 1e-6 && y < 0.0) {
        (-x, -y)
    } else {
        (x, y)
    }
}

/// Which line a piece lies on (angle and distance, rounded), and its range there.
fn line_of(a: Point, b: Point) -> ((i64, i64), f64, f64) {
    let (x, y) = direction(a, b);
    let off = a.x * -y + a.y * x;
    let (s, t) = (a.x * x + a.y * y, b.x * x + b.y * y);
    let angle = (y.atan2(x) * 200.0).round() as i64;
    ((angle, off.round() as i64), s.min(t), s.max(t))
}

/// Gives the pieces of one line their lanes. Pieces that overlap, also by way of
/// others, share one bundle, centred on the line.
fn assign(mut pieces: Vec<Piece>, offsets: &mut [Vec<f64>]) {
    pieces.sort_by(|a, b| a.low.total_cmp(&b.low).then(a.wire.cmp(&b.wire)));
    let mut bundle: Vec<Piece> = Vec::new();
    let mut reach = f64::NEG_INFINITY;
    for piece in pieces {
        if piece.low >= reach - SHORTEST {
            spread(&bundle, offsets);
            bundle.clear();
        }
        reach = reach.max(piece.high);
        bundle.push(piece);
    }
    spread(&bundle, offsets);
}

fn spread(bundle: &[Piece], offsets: &mut [Vec<f64>]) {
    let mut lanes: Vec<Vec<Piece>> = Vec::new();
    let mut taken = Vec::new();
    let mut wires: Vec<&Piece> = bundle.iter().collect();
    wires.sort_by_key(|piece| (piece.wire, piece.part));
    for piece in wires {
        let clear = |other: &Piece| {
            other.wire == piece.wire
                || other.high <= piece.low + SHORTEST
                || other.low >= piece.high - SHORTEST
        };
        let lane = lanes
            .iter()
            .position(|lane| lane.iter().all(clear))
            .unwrap_or(lanes.len());
        if lane == lanes.len() {
            lanes.push(Vec::new());
        }
        if let Some(lane) = lanes.get_mut(lane) {
            lane.push(*piece);
        }
        taken.push((piece, lane));
    }
    let gaps = lanes.len().saturating_sub(1) as f64;
    let step = if gaps > 0.0 {
        LANE.min(WIDEST / gaps)
    } else {
        0.0
    };
    for (piece, lane) in taken {
        let offset = (lane as f64 - gaps / 2.0) * step;
        let place = offsets
            .get_mut(piece.wire)
            .and_then(|wire| wire.get_mut(piece.part));
        if let Some(place) = place {
            *place = offset;
        }
    }
}

/// The path with each piece moved sideways by its offset; pieces meet where their lines cross.
fn moved(path: &[Point], offsets: &[f64]) -> Vec<Point> {
    let pieces: Vec<[Point; 2]> = path
        .windows(2)
        .zip(offsets)
        .filter_map(|(pair, offset)| {
            let &[a, b] = pair else { return None };
            let (x, y) = direction(a, b);
            let shift = |p: Point| Point::new(p.x - y * offset, p.y + x * offset);
            Some([shift(a), shift(b)])
        })
        .collect();
    let mut out: Vec<Point> = pieces.first().map(|piece| piece[0]).into_iter().collect();
    for pair in pieces.windows(2) {
        let &[[a, b], [c, d]] = pair else { continue };
        match crossing((a, b), (c, d)) {
            Some(at) if distance(at, b) < 3.0 * WIDEST => out.push(at),
            _ => out.extend([b, c]),
        }
    }
    out.extend(pieces.last().map(|piece| piece[1]));
    out
}

/// Where two lines cross, unless they are almost parallel.
fn crossing((a, b): (Point, Point), (c, d): (Point, Point)) -> Option<Point> {
    let (px, py, qx, qy) = (b.x - a.x, b.y - a.y, d.x - c.x, d.y - c.y);
    let turn = px * qy - py * qx;
    let size = (px.hypot(py) * qx.hypot(qy)).max(1e-9);
    if (turn / size).abs() < 0.2 {
        return None;
    }
    let share = ((c.x - a.x) * qy - (c.y - a.y) * qx) / turn;
    Some(Point::new(a.x + px * share, a.y + py * share))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn path(points: &[(f64, f64)]) -> Vec<Point> {
        points.iter().map(|&(x, y)| Point::new(x, y)).collect()
    }

    #[test]
    fn wires_on_one_line_lie_side_by_side_and_alone_ones_stay() {
        let paths = [
            path(&[(0.0, 0.0), (100.0, 0.0), (100.0, 50.0)]),
            path(&[(80.0, 0.0), (10.0, 0.0)]),
            path(&[(0.0, 40.0), (60.0, 40.0)]),
        ];
        let apart = apart(&paths);
        assert!((apart[0][0].y - apart[1][0].y).abs() >= LANE - 1e-9);
        assert_eq!(apart[2], paths[2]);
        let corner = apart[0][1];
        assert!((corner.y - apart[0][0].y).abs() < 1e-9 && (corner.x - 100.0).abs() < 1e-9);
    }

    #[test]
    fn a_thick_bundle_stays_within_its_width() {
        let paths = vec![path(&[(0.0, 0.0), (100.0, 0.0)]); 40];
        let apart = apart(&paths);
        let low = apart.iter().map(|path| path[0].y).fold(f64::MAX, f64::min);
        let high = apart.iter().map(|path| path[0].y).fold(f64::MIN, f64::max);
        assert!((high - low - WIDEST).abs() < 1e-9);
    }

    #[test]
    fn a_rise_is_a_point() {
        let up = path(&[(0.0, 0.0), (50.0, 0.0), (50.0, 0.0), (50.0, 30.0)]);
        assert_eq!(rises(&up), [Point::new(50.0, 0.0)]);
        assert_eq!(apart(&[up])[0].len(), 3);
    }
}
