//! The jobs of `tests/data/cutting`, and random ones. Not here: any expectation.
#![allow(dead_code, reason = "every test file uses some of it")]
#![allow(
    clippy::expect_used,
    clippy::panic,
    clippy::unwrap_used,
    reason = "test code"
)]

pub mod arcflow;

use std::path::Path;
use wainwright_engines::cutting::*;
use wainwright_engines::weather::Randomness;

/// Files of published and own jobs, easiest first.
pub const FAMILIES: [&str; 11] = [
    "classics",
    "own_plank_jobs",
    "falkenauer_u120",
    "falkenauer_u250",
    "falkenauer_t60",
    "falkenauer_t120",
    "schwerin",
    "scholl2",
    "waescher_gau1",
    "scholl3_hard",
    "hard28",
];

/// A job and what is known of it.
pub struct Known {
    pub name: String,
    pub job: Job,
    pub optimum: u32,
    /// Bound of Gilmore and Gomory over proper patterns.
    pub relaxation: Option<f64>,
}

/// All jobs of one file.
pub fn family(name: &str) -> Vec<Known> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/cutting");
    let text = std::fs::read_to_string(folder.join(format!("{name}.txt"))).expect("the file");
    let mut jobs = Vec::new();
    let mut job = Job::default();
    let mut title = String::new();
    for line in text.lines().filter(|line| !line.starts_with('#')) {
        let words: Vec<&str> = line.split_whitespace().collect();
        let number = |at: usize| {
            words[at]
                .parse::<u32>()
                .unwrap_or_else(|_| panic!("{line}"))
        };
        match words[0] {
            "I" => {
                title = words[1].to_owned();
                job = Job::default();
            }
            "S" => job.stocks.push(Stock {
                available: (words[3] != "-").then(|| number(3)),
                ..Stock::new(number(1), number(2))
            }),
            "K" => job.kerf = number(1),
            "P" => job.pieces.push(Piece {
                length: number(1),
                count: number(2),
            }),
            "O" => jobs.push(Known {
                name: title.clone(),
                job: job.clone(),
                optimum: number(1),
                relaxation: words[2].parse().ok(),
            }),
            "E" => {}
            other => panic!("{other}"),
        }
    }
    assert!(!jobs.is_empty(), "{name}");
    jobs
}

/// Random numbers of a seed.
pub struct Dice(Randomness);

impl Dice {
    pub fn new(seed: u64) -> Self {
        Self(Randomness::new(seed, 77))
    }

    /// A whole number from `low` to `high`.
    pub fn draw(&mut self, low: u32, high: u32) -> u32 {
        let range = f64::from(high - low + 1);
        (low + (self.0.uniform() * range) as u32).min(high)
    }

    /// True once in `times`.
    pub fn once_in(&mut self, times: u32) -> bool {
        self.draw(1, times) == 1
    }
}

/// A job of a builder in sixteenths of an inch: boards of 8, 10 and 12 ft with prices of a shop, an
/// eighth of kerf; every third seed some offcuts at hand, another third a worth of offcuts, half
/// of these both.
pub fn planks(seed: u64, kinds: u32) -> Job {
    let mut dice = Dice::new(seed);
    let pieces = (0..kinds).map(|_| Piece {
        length: dice.draw(200, 1450),
        count: dice.draw(1, 6),
    });
    let pieces = pieces.collect();
    let price = |dice: &mut Dice, cents: u32| cents + 10 * dice.draw(0, 12);
    let mut stocks = vec![
        Stock::new(1536, price(&mut dice, 849)),
        Stock::new(1920, price(&mut dice, 1069)),
        Stock::new(2304, price(&mut dice, 1329)),
    ];
    if seed % 3 == 1 || seed % 6 == 5 {
        for _ in 0..dice.draw(1, 3) {
            stocks.push(Stock {
                available: Some(dice.draw(1, 2)),
                ..Stock::new(dice.draw(400, 1400), 0)
            });
        }
    }
    for stock in &mut stocks {
        stock.trim = dice.draw(0, 1) * dice.draw(0, 16);
    }
    let leftover = (seed % 3 == 2).then(|| Leftover {
        least: 384,
        cents: dice.draw(1, 4),
        per: 16,
    });
    Job {
        kerf: 2,
        pieces,
        stocks,
        leftover,
    }
}
