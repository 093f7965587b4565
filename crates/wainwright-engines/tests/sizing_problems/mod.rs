//! Random and regular sizing problems, the same for each seed, used by several tests and benches. Not
//! here: solving.
#![allow(dead_code, reason = "each test uses a part")]

use wainwright_engines::sizing::{Choice, FaultLimit, Limit, Problem, Section};
use wainwright_units::{Current, Mass, Ratio, Resistance, Voltage};

/// Numbers that look random, the same for each seed (splitmix64).
pub struct Dice(u64);

impl Dice {
    pub fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) ^ 0x5851_f42d_4c95_7f2d)
    }

    /// A whole number below `end`.
    pub fn below(&mut self, end: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((mixed ^ (mixed >> 31)) % end as u64) as usize
    }

    /// A whole number of a range, both ends included.
    pub fn between(&mut self, low: usize, high: usize) -> usize {
        low + self.below(high - low + 1)
    }

    /// True once in `of` times.
    pub fn once_in(&mut self, of: usize) -> bool {
        self.below(of) == 0
    }

    pub fn pick<T: Copy>(&mut self, list: &[T]) -> T {
        list[self.below(list.len())]
    }
}

pub fn millivolts(count: usize) -> Voltage {
    Voltage::from_volts(count as f64 / 1e3)
}

pub fn milliohms(count: usize) -> Resistance {
    Resistance::from_ohms(count as f64 / 1e3)
}

pub fn amperes(count: usize) -> Current {
    Current::from_amperes(count as f64)
}

/// A few sections with anything allowed: devices or none, limits over any sections, groups. Small whole
/// numbers, so that many plans cost the same and many sums meet their limit exactly.
pub fn tiny(seed: u64) -> Problem {
    let mut dice = Dice::new(seed);
    let count = dice.between(1, 6);
    let choices = dice.between(1, 4);
    let sections = (0..count).map(|index| {
        let parent = (index > 0 && !dice.once_in(3)).then(|| dice.below(index));
        let devices = dice.below(3);
        let list = (0..choices)
            .map(|_| tiny_choice(&mut dice, devices))
            .collect();
        Section {
            parent,
            choices: list,
            upstream_ratio: Ratio::from_fraction(dice.pick(&[0.0, 0.0, 1.0, 1.5, 2.0])),
        }
    });
    let sections: Vec<Section> = sections.collect();
    let limits = (0..dice.below(6))
        .map(|_| tiny_limit(&mut dice, count))
        .collect();
    let mut alike = Vec::new();
    let (last, other) = (count - 1, dice.below(count));
    // Two of one lead with a device of its own between them cannot be alike.
    let apart = !path_to(&sections, last).contains(&other) || sections[last].parent == Some(other);
    if other != last && apart && dice.once_in(2) {
        alike.push(vec![last, other]);
    }
    Problem {
        sections,
        limits,
        alike,
    }
}

fn path_to(sections: &[Section], last: usize) -> Vec<usize> {
    let up = |&section: &usize| sections[section].parent;
    std::iter::successors(Some(last), up).collect()
}

/// `devices`: 0 never one, 1 sometimes, 2 always.
fn tiny_choice(dice: &mut Dice, devices: usize) -> Choice {
    let with = devices == 2 || devices == 1 && dice.once_in(2);
    Choice {
        cost: dice.between(1, 6) as f64,
        mass: Mass::from_kilograms(dice.between(1, 5) as f64),
        drop: millivolts(dice.between(0, 9)),
        resistance: milliohms(dice.between(0, 9)),
        device: with.then(|| amperes(dice.pick(&[5, 10, 15, 20, 30]))),
    }
}

fn tiny_limit(dice: &mut Dice, count: usize) -> Limit {
    let mut sections: Vec<usize> = (0..count).filter(|_| !dice.once_in(2)).collect();
    if dice.once_in(2) {
        sections.reverse();
    }
    let each = sections.len().max(1);
    let fault = dice.once_in(2).then(|| FaultLimit {
        at: dice.below(count),
        table: [(5, 10), (12, 7), (20, 5)]
            .map(|(rating, most)| (amperes(rating), milliohms(most * each)))
            .into(),
    });
    Limit {
        most_drop: (!dice.once_in(4)).then(|| millivolts(dice.between(2 * each, 8 * each))),
        sections,
        fault,
    }
}

/// How a plant of many circuits is made up.
#[derive(Debug, Clone, Copy)]
pub struct Plant {
    pub circuits: usize,
    /// Fuse blocks between battery and circuits.
    pub blocks: usize,
    /// Plus and minus leads of a circuit apart, with bus bars of their own for the minus leads.
    pub minus: Option<Minus>,
}

/// How the minus leads run.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Minus {
    /// Each lead takes what its plus lead takes.
    Alike,
    /// All to one bar.
    OneBar,
    /// To two bars, each with circuits of every block.
    CrossBars,
}

/// Copper sizes [mm²], price and mass of one metre in relative terms.
const SIZES: [(f64, f64, f64); 13] = [
    (0.8, 0.5, 0.012),
    (1.3, 0.7, 0.018),
    (2.1, 1.0, 0.027),
    (3.3, 1.5, 0.040),
    (5.3, 2.4, 0.062),
    (8.4, 3.9, 0.098),
    (13.3, 6.1, 0.150),
    (21.2, 9.8, 0.230),
    (33.6, 15.0, 0.360),
    (42.4, 19.5, 0.450),
    (53.5, 24.0, 0.560),
    (67.4, 31.0, 0.700),
    (85.0, 40.0, 0.880),
];
/// Ratings of fuses [A].
const FUSES: [usize; 14] = [5, 10, 15, 20, 30, 40, 60, 80, 100, 125, 150, 200, 250, 300];

/// A plant with battery cable, feeders to fuse blocks, and circuits.
pub fn plant(seed: u64, plant: Plant) -> Problem {
    let mut dice = Dice::new(seed);
    let mut problem = Problem::default();
    let shares =
        |block: usize| (0..plant.circuits).filter(move |circuit| circuit % plant.blocks == block);
    let loads: Vec<usize> = (0..plant.circuits).map(|_| dice.between(2, 15)).collect();
    let load_of = |block: usize| shares(block).map(|circuit| loads[circuit]).sum::<usize>() / 2;
    let total: usize = loads.iter().sum::<usize>() / 3;
    let main = section(&mut problem, &mut dice, None, total.max(20), 15, true);
    let mut feeders = Vec::new();
    for block in 0..plant.blocks {
        feeders.push(section(
            &mut problem,
            &mut dice,
            Some(main),
            load_of(block).max(10),
            25,
            true,
        ));
    }
    let mut back = Vec::new();
    if plant.minus.is_some() {
        back.push(section(
            &mut problem,
            &mut dice,
            None,
            total.max(20),
            15,
            false,
        ));
    }
    if plant.minus == Some(Minus::CrossBars) {
        for _ in 0..2 {
            back.push(section(
                &mut problem,
                &mut dice,
                Some(back[0]),
                (total / 2).max(10),
                20,
                false,
            ));
        }
    }
    for (circuit, &load) in loads.iter().enumerate() {
        let decimetres = dice.between(10, 80);
        let plus = section(
            &mut problem,
            &mut dice,
            Some(feeders[circuit % plant.blocks]),
            load,
            decimetres,
            true,
        );
        let mut sections = problem.path(plus);
        if let Some(kind) = plant.minus {
            let up = if kind == Minus::CrossBars {
                back[1 + circuit / plant.blocks % 2]
            } else {
                back[0]
            };
            let minus = section(&mut problem, &mut dice, Some(up), load, decimetres, false);
            if kind == Minus::Alike {
                let choices = problem.sections[plus].choices.clone();
                let bare = choices.into_iter().map(|choice| Choice {
                    device: None,
                    ..choice
                });
                problem.sections[minus].choices = bare.collect();
                problem.alike.push(vec![plus, minus]);
            }
            sections.extend(problem.path(minus));
        }
        let drop = if dice.once_in(200) {
            40
        } else {
            dice.pick(&[360, 700, 700])
        };
        problem.limits.push(Limit {
            sections,
            most_drop: Some(millivolts(drop)),
            fault: Some(FaultLimit {
                at: plus,
                table: FUSES
                    .map(|rating| (amperes(rating), milliohms(2000 / rating)))
                    .into(),
            }),
        });
    }
    problem
}

/// Adds a section that carries a load; sums of whole millivolts and milliohms.
fn section(
    problem: &mut Problem,
    dice: &mut Dice,
    parent: Option<usize>,
    load: usize,
    decimetres: usize,
    fused: bool,
) -> usize {
    let mut choices = Vec::new();
    for (area, price, mass) in SIZES {
        let ohms = 0.0175 / area * decimetres as f64 / 10.0;
        let length = decimetres as f64 / 10.0;
        let carries = 9.0 * f64::powf(area, 0.75);
        let choice = |cost: f64, device: Option<usize>| Choice {
            cost: (cost * 100.0).round() / 100.0,
            mass: Mass::from_kilograms((mass * length * 1e3).round() / 1e3),
            drop: Voltage::from_volts((ohms * load as f64 * 1e3).ceil() / 1e3),
            resistance: Resistance::from_ohms((ohms * 1e3).ceil() / 1e3),
            device: device.map(amperes),
        };
        if !fused {
            if load as f64 <= carries {
                choices.push(choice(price * length, None));
            }
            continue;
        }
        for fuse in FUSES {
            if load <= fuse && fuse as f64 <= carries {
                choices.push(choice(
                    price * length + 2.0 + fuse as f64 / 40.0,
                    Some(fuse),
                ));
            }
        }
    }
    if choices.is_empty() {
        let (_, price, mass) = SIZES[12];
        choices.push(Choice {
            cost: price * 3.0 * decimetres as f64 / 10.0,
            mass: Mass::from_kilograms(mass),
            drop: millivolts(20),
            resistance: milliohms(1),
            device: fused.then(|| amperes(400)),
        });
    }
    let ratio = if fused && dice.once_in(2) { 1.5 } else { 0.0 };
    problem.sections.push(Section {
        parent,
        choices,
        upstream_ratio: Ratio::from_fraction(ratio),
    });
    problem.sections.len() - 1
}
