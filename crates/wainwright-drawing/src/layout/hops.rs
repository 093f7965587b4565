//! Where a level piece of one wire crosses an upright piece of another, it hops.

use super::PlacedLink;
use crate::geometry::Point;

/// A level piece of a link.
struct Level {
    y: f64,
    from: f64,
    to: f64,
    link: usize,
}

/// Marks every crossing on the level wire; returns how many there are.
pub(super) fn add(links: &mut [PlacedLink]) -> usize {
    let mut levels: Vec<Level> = Vec::new();
    for (link, placed) in links.iter().enumerate() {
        for pair in placed.path.windows(2) {
            if let &[a, b] = pair
                && a.y == b.y
            {
                levels.push(Level {
                    y: a.y,
                    from: a.x.min(b.x),
                    to: a.x.max(b.x),
                    link,
                });
            }
        }
    }
    levels.sort_by(|a, b| a.y.total_cmp(&b.y));
    let mut found: Vec<(usize, Point)> = Vec::new();
    for (link, placed) in links.iter().enumerate() {
        for pair in placed.path.windows(2) {
            let &[a, b] = pair else { continue };
            if a.x != b.x || a.y == b.y {
                continue;
            }
            let (top, bottom) = (a.y.min(b.y), a.y.max(b.y));
            let start = levels.partition_point(|level| level.y <= top);
            for level in levels[start..].iter().take_while(|level| level.y < bottom) {
                if level.from < a.x && a.x < level.to && level.link != link {
                    found.push((level.link, Point::new(a.x, level.y)));
                }
            }
        }
    }
    for &(link, at) in &found {
        links[link].hops.push(at);
    }
    for placed in links.iter_mut() {
        let order = |hop: &Point| along(&placed.path, hop);
        placed.hops.sort_by(|a, b| order(a).total_cmp(&order(b)));
    }
    found.len()
}

/// Way along the path to a point on one of its level pieces [px].
fn along(path: &[Point], hop: &Point) -> f64 {
    let mut way = 0.0;
    for pair in path.windows(2) {
        let &[a, b] = pair else { continue };
        let within = a.x.min(b.x) < hop.x && hop.x < a.x.max(b.x);
        if a.y == b.y && a.y == hop.y && within {
            return way + (hop.x - a.x).abs();
        }
        way += (b.x - a.x).abs() + (b.y - a.y).abs();
    }
    way
}
