//! Random problems of placing, and a slow evaluation of one layout that shares nothing with the
//! engine: loads by `balance::statics`, overlaps by comparing boxes.
#![allow(
    dead_code,
    clippy::unwrap_used,
    reason = "test code; each file uses its part"
)]

use wainwright_engines::balance::{Band, Chassis, Load, Suspension, statics};
use wainwright_engines::placing::*;
use wainwright_engines::weather::Randomness;
use wainwright_units::frame::{Point, Vector};
use wainwright_units::*;

/// What a layout comes to.
#[derive(Debug, Clone, Copy)]
pub struct Outcome {
    pub violation: f64,
    pub cost: f64,
}

impl Outcome {
    pub fn better_than(&self, other: &Outcome) -> bool {
        if (self.violation - other.violation).abs() > 1e-9 {
            self.violation < other.violation
        } else {
            self.cost < other.cost
        }
    }
}

/// A box from low to high corner \[m\].
pub type Block = ([f64; 3], [f64; 3]);

fn block(from: Point, to: Point) -> Block {
    let metres = |point: Point| [point.x.metres(), point.y.metres(), point.z.metres()];
    (metres(from), metres(to))
}

fn size_at(item: &Item, place: Place) -> Vector {
    if place.turned {
        Vector::new(item.size.y, item.size.x, item.size.z)
    } else {
        item.size
    }
}

pub fn overlap(a: &Block, b: &Block) -> bool {
    (0..3).all(|k| a.0[k] + 1e-7 < b.1[k] && b.0[k] + 1e-7 < a.1[k])
}

/// The box of an item at a place.
pub fn block_at(item: &Item, place: Place) -> Block {
    block(place.corner, place.corner + size_at(item, place))
}

pub fn blocks(problem: &Problem, places: &[Place]) -> Vec<Block> {
    let pairs = problem.items.iter().zip(places);
    pairs
        .map(|(item, place)| block(place.corner, place.corner + size_at(item, *place)))
        .collect()
}

pub fn solids(problem: &Problem) -> Vec<Block> {
    let clear = problem.keep_clear.iter().map(|one| block(one.from, one.to));
    let fixed = problem.fixed.iter().filter(|one| one.solid);
    let fixed =
        fixed.map(|one| block(one.centre - one.extent * 0.5, one.centre + one.extent * 0.5));
    clear.chain(fixed).collect()
}

fn mass_in(masses: &[Mass], state: usize) -> Mass {
    masses[if masses.len() == 1 { 0 } else { state }]
}

/// Violation and cost of a layout, straight from the definitions.
pub fn outcome(problem: &Problem, places: &[Place]) -> Outcome {
    let (mut violation, mut costs) = (0.0, Vec::new());
    for state in 0..problem.states {
        let fixed = problem.fixed.iter().map(|one| Load {
            mass: mass_in(&one.masses, state),
            centre: one.centre,
            extent: one.extent,
        });
        let movable = problem.items.iter().zip(places).map(|(item, place)| {
            let extent = size_at(item, *place);
            Load {
                mass: mass_in(&item.masses, state),
                centre: place.corner + extent * 0.5,
                extent,
            }
        });
        let loads: Vec<Load> = fixed.chain(movable).collect();
        let found = statics(&problem.chassis, &loads).unwrap();
        let limits = problem.limits;
        let (tongue, mass) = (found.tongue.kilograms(), found.mass.kilograms());
        let low = [
            Some(limits.band.low.fraction() * mass),
            limits.least_tongue.map(Mass::kilograms),
            limits.most_axles.map(|most| mass - most.kilograms()),
        ];
        let low = low.into_iter().flatten().fold(f64::NEG_INFINITY, f64::max);
        let most = limits.most_tongue.map_or(f64::INFINITY, Mass::kilograms);
        let high = (limits.band.high.fraction() * mass).min(most);
        let (left, right) = (found.left.kilograms(), found.right.kilograms());
        let beyond = |value: f64, limit: Option<Mass>| {
            limit.map_or(0.0, |limit| (value - limit.kilograms()).max(0.0))
        };
        violation += (low - tongue).max(0.0)
            + (tongue - high).max(0.0)
            + beyond((left - right).abs(), limits.most_difference)
            + beyond(left.max(right), limits.most_one_side);
        costs.push(
            found.yaw_inertia_kg_m2
                + problem.aim.for_difference * (left - right).abs()
                + problem.aim.for_height * found.centre.z.metres(),
        );
    }
    let moved = problem.items.iter().zip(places);
    let moved = moved
        .filter(|(item, place)| item.at.is_some_and(|at| at != **place))
        .count();
    let cost = match problem.aim.over {
        Over::Mean => costs.iter().sum::<f64>() / costs.len() as f64,
        Over::Worst => costs.iter().copied().fold(f64::MIN, f64::max),
    };
    Outcome {
        violation: violation / problem.states as f64,
        cost: cost + problem.aim.for_move * moved as f64,
    }
}

/// Corners of the grid of one region, listed by counting.
fn corners(region: &Region, step: f64) -> Vec<Place> {
    let line = |from: Length, to: Length| {
        let (from, to) = (from.metres(), to.metres());
        let mut line = vec![from];
        let mut at = from + step;
        while at < to - 1e-9 {
            line.push(at);
            at += step;
        }
        if to > from {
            line.push(to);
        }
        line
    };
    let mut found = Vec::new();
    for x in line(region.from.x, region.to.x) {
        for y in line(region.from.y, region.to.y) {
            for z in line(region.from.z, region.to.z) {
                let corner = Point::from_metres(x, y, z);
                found.push(Place {
                    corner,
                    turned: region.turned,
                });
            }
        }
    }
    found
}

/// Places of one item, its present one among them.
pub fn places_of(problem: &Problem, item: &Item) -> Vec<Place> {
    let step = problem.step.metres();
    let grid = item.regions.iter().flat_map(|region| corners(region, step));
    item.at.into_iter().chain(grid).collect()
}

/// Every layout without overlap.
pub fn every_layout(problem: &Problem) -> Vec<Outcome> {
    let solids = solids(problem);
    let mut layouts: Vec<Vec<Place>> = vec![vec![]];
    for item in &problem.items {
        let places = places_of(problem, item);
        let mut longer = Vec::new();
        for layout in &layouts {
            let there = blocks(problem, layout);
            for place in &places {
                let new = block(place.corner, place.corner + size_at(item, *place));
                if !there.iter().chain(&solids).any(|one| overlap(one, &new)) {
                    longer.push([layout.as_slice(), &[*place]].concat());
                }
            }
        }
        layouts = longer;
    }
    layouts
        .iter()
        .map(|layout| outcome(problem, layout))
        .collect()
}

/// A number between two ends.
pub fn between(random: &mut Randomness, low: f64, high: f64) -> f64 {
    low + (high - low) * random.uniform()
}

/// A whole number below a limit.
pub fn below(random: &mut Randomness, limit: usize) -> usize {
    ((random.uniform() * limit as f64) as usize).min(limit - 1)
}

fn kilograms(random: &mut Randomness, low: f64, high: f64) -> Mass {
    Mass::from_kilograms(between(random, low, high))
}

fn maybe(random: &mut Randomness, chance: f64, low: f64, high: f64) -> Option<Mass> {
    (random.uniform() < chance).then(|| kilograms(random, low, high))
}

/// A small problem: a shell, a few boxes in a short room, perhaps an aisle.
pub fn random_problem(random: &mut Randomness, most_items: usize) -> Problem {
    let states = 1 + below(random, 4);
    let count = 1 + below(random, most_items);
    let (front, wide) = (between(random, 1.2, 1.8), between(random, 0.6, 0.8));
    let room = (
        Point::from_metres(front, -wide, 0.5),
        Point::from_metres(front + 2.2, wide, 2.0),
    );
    let items = (0..count)
        .map(|_| random_item(random, states, room))
        .collect();
    let low = between(random, 0.05, 0.14);
    let aisle = KeepClear {
        from: Point::from_metres(front, -0.15, 0.5),
        to: Point::from_metres(front + 1.2, 0.15, 2.0),
    };
    Problem {
        chassis: Chassis {
            coupling_to_axle: Length::from_metres(between(random, 2.4, 3.2)),
            track: Length::from_metres(1.6),
            suspension: Suspension::Single,
        },
        states,
        fixed: vec![Fixed {
            masses: vec![kilograms(random, 100.0, 400.0)],
            centre: Point::from_metres(
                front + between(random, 0.9, 1.6),
                between(random, -0.1, 0.1),
                0.7,
            ),
            extent: Vector::from_metres(3.0, 1.6, 0.0),
            solid: false,
        }],
        items,
        keep_clear: if random.uniform() < 0.5 {
            vec![aisle]
        } else {
            vec![]
        },
        step: Length::from_metres(0.55),
        limits: Limits {
            band: Band {
                low: Ratio::from_fraction(low),
                high: Ratio::from_fraction(low + between(random, 0.03, 0.12)),
            },
            least_tongue: maybe(random, 0.2, 10.0, 40.0),
            most_tongue: maybe(random, 0.2, 40.0, 80.0),
            most_axles: maybe(random, 0.2, 350.0, 600.0),
            most_one_side: maybe(random, 0.2, 180.0, 300.0),
            most_difference: maybe(random, 0.4, 2.0, 40.0),
        },
        aim: Aim {
            over: if random.uniform() < 0.5 {
                Over::Mean
            } else {
                Over::Worst
            },
            for_difference: if random.uniform() < 0.7 {
                between(random, 0.0, 2.0)
            } else {
                0.0
            },
            for_height: if random.uniform() < 0.3 {
                between(random, 0.0, 50.0)
            } else {
                0.0
            },
            for_move: if random.uniform() < 0.3 {
                between(random, 0.0, 5.0)
            } else {
                0.0
            },
        },
        effort: Effort {
            seed: random.bits(),
            most_evaluations: 100_000,
            ..Effort::default()
        },
    }
}

fn random_item(random: &mut Randomness, states: usize, room: (Point, Point)) -> Item {
    let size = Vector::from_metres(
        between(random, 0.2, 0.9),
        between(random, 0.2, 0.6),
        between(random, 0.2, 1.2),
    );
    let masses = if random.uniform() < 0.5 {
        vec![kilograms(random, 5.0, 90.0)]
    } else {
        (0..states)
            .map(|_| {
                if random.uniform() < 0.3 {
                    Mass::ZERO
                } else {
                    kilograms(random, 5.0, 90.0)
                }
            })
            .collect()
    };
    let mut regions: Vec<Region> = Region::on_floor(room.0, room.1, size, false)
        .into_iter()
        .collect();
    if random.uniform() < 0.4 {
        regions.extend(Region::on_floor(room.0, room.1, size, true));
    }
    if random.uniform() < 0.2 {
        // On the right wall, at two heights.
        let from = Point::new(room.0.x, room.0.y, room.0.z + Length::from_metres(0.2));
        let to = Point::new(
            room.1.x - size.x,
            room.0.y,
            room.0.z + Length::from_metres(0.7),
        );
        regions = vec![Region {
            from,
            to,
            turned: false,
        }];
    }
    let corner = Point::from_metres(
        between(random, room.0.x.metres(), room.1.x.metres() - 0.9),
        between(random, room.0.y.metres(), room.1.y.metres() - 0.6),
        0.5,
    );
    let at = (random.uniform() < 0.6).then_some(Place {
        corner,
        turned: false,
    });
    Item {
        masses,
        size,
        regions,
        at,
    }
}
