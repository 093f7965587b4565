//! Time of all routes of a trailer, against a plain search on a grid of places in the same run. Run with
//! `cargo bench --bench routes`.

use std::collections::BinaryHeap;
use std::hint::black_box;
use std::time::Instant;
use wainwright_engines::routes::{Options, Trunk, Wire, routes};
use wainwright_units::Length;
use wainwright_units::frame::Point;

/// Step of the grid [mm]; the search itself has none.
const STEP: f64 = 50.0;
const OPEN_FACTOR: f64 = 2.0;

fn at(x: f64, y: f64, z: f64) -> Point {
    Point::from_metres(x, y, z)
}

/// Trunks under the ceiling and along the floor on both sides, one along each end, four up the walls,
/// two across the ceiling.
fn trunks() -> Vec<Trunk> {
    let mut all = Vec::new();
    for y in [-1.0, 1.0] {
        for z in [0.1, 1.9] {
            all.push(vec![at(1.2, y * 0.8, z), at(1.6, y, z), at(5.5, y, z)]);
        }
        for x in [1.7, 5.4] {
            all.push(vec![at(x, y, 0.1), at(x, y, 1.9)]);
        }
    }
    for z in [0.1, 1.9] {
        all.push(vec![at(5.5, -1.0, z), at(5.5, 1.0, z)]);
    }
    for x in [2.5, 4.0] {
        all.push(vec![at(x, -1.0, 1.92), at(x, 1.0, 1.92)]);
    }
    all.into_iter().map(|path| Trunk { path }).collect()
}

/// Ends spread over the trailer by golden sections.
fn wires(count: usize) -> Vec<Wire> {
    let spread = |index: usize, over: f64| (index as f64 * over).fract();
    let place = |index: usize| {
        at(
            1.3 + 4.0 * spread(index, 0.618_034),
            -0.95 + 1.9 * spread(index, 0.754_878),
            0.1 + 1.8 * spread(index, 0.569_840),
        )
    };
    let wire = |index: usize| Wire {
        from: place(2 * index + 1),
        to: place(7 * index + 2),
        forced: vec![],
    };
    (0..count).map(wire).collect()
}

/// Weight of the way of each wire by Dijkstra's search over all places of the grid, wire by wire.
fn by_grid(trunks: &[Trunk], wires: &[Wire]) -> f64 {
    let mut places: Vec<(usize, Point)> = Vec::new();
    let mut next: Vec<Vec<(usize, f64)>> = Vec::new();
    for (trunk, path) in trunks.iter().enumerate() {
        for pair in path.path.windows(2) {
            let length = pair[0].distance(pair[1]).millimetres();
            let count = (length / STEP).ceil().max(1.0);
            for step in 0..=count as usize {
                let place = pair[0].towards(pair[1], step as f64 / count);
                next.push(Vec::new());
                let index = places.len();
                if let Some(&(before, there)) = places.last().filter(|(before, _)| *before == trunk)
                {
                    debug_assert_eq!(before, trunk);
                    let gap = there.distance(place).metres();
                    next[index - 1].push((index, gap));
                    next[index].push((index - 1, gap));
                }
                places.push((trunk, place));
            }
        }
    }
    for one in 0..places.len() {
        for other in 0..places.len() {
            let gap = (places[one].1 - places[other].1)
                .length_along_axes()
                .metres();
            if places[one].0 != places[other].0 && gap <= 0.06 {
                next[one].push((other, gap));
            }
        }
    }
    wires
        .iter()
        .map(|wire| one_by_grid(&places, &next, wire))
        .sum()
}

fn one_by_grid(places: &[(usize, Point)], next: &[Vec<(usize, f64)>], wire: &Wire) -> f64 {
    let reach = |end: Point, place: Point| OPEN_FACTOR * (end - place).length_along_axes().metres();
    let mut way: Vec<f64> = places
        .iter()
        .map(|(_, place)| reach(wire.from, *place))
        .collect();
    let micrometres = |metres: f64| (metres * 1e6) as u64;
    let starts = way
        .iter()
        .enumerate()
        .map(|(index, &run)| (u64::MAX - micrometres(run), index));
    let mut open: BinaryHeap<(u64, usize)> = starts.collect();
    while let Some((key, here)) = open.pop() {
        if u64::MAX - key > micrometres(way[here]) {
            continue;
        }
        for &(there, step) in &next[here] {
            if way[here] + step < way[there] {
                way[there] = way[here] + step;
                open.push((u64::MAX - micrometres(way[there]), there));
            }
        }
    }
    let ends = way
        .iter()
        .zip(places)
        .map(|(run, (_, place))| run + reach(wire.to, *place));
    ends.fold(reach(wire.from, wire.to), f64::min)
}

/// Shortest time of a few runs [µs].
fn shortest(runs: usize, mut work: impl FnMut()) -> f64 {
    let time = |_| {
        let start = Instant::now();
        work();
        start.elapsed().as_secs_f64() * 1e6
    };
    (0..runs).map(time).fold(f64::INFINITY, f64::min)
}

fn main() {
    let trunks = trunks();
    let options = Options {
        join_within: Length::from_millimetres(60.0),
        open_factor: OPEN_FACTOR,
    };
    for count in [1, 50, 200, 1000] {
        let wires = wires(count);
        let all = shortest(30, || {
            black_box(routes(black_box(&trunks), &wires, &options).is_ok());
        });
        println!(
            "{:>2} trunks, {count:>4} wires: {all:>8.1} µs, {:.2} µs for each",
            trunks.len(),
            all / count as f64
        );
    }
    let wires = wires(200);
    let own = shortest(30, || {
        black_box(routes(&trunks, &wires, &options).is_ok());
    });
    let mut by_steps = 0.0;
    let peer = shortest(3, || by_steps = by_grid(&trunks, &wires));
    let found = routes(&trunks, &wires, &options).map(|found| {
        found
            .ways
            .iter()
            .map(|way| way.weighted.metres())
            .sum::<f64>()
    });
    println!(
        "200 wires on a grid of {STEP} mm: {peer:.0} µs, {:.0} times as long",
        peer / own
    );
    println!(
        "weight of all ways: {:.3} m, on the grid {by_steps:.3} m",
        found.unwrap_or(f64::NAN)
    );
}
