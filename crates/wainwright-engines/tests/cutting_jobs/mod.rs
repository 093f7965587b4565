//! Reads the files of cutting problems: single plates with values, and jobs of several sheets.
//! Not here: any expected value that is not in the files.
#![allow(dead_code, reason = "not every test file uses every part")]
#![allow(
    clippy::unwrap_used,
    reason = "a file that cannot be read fails the test"
)]

use std::fs;
use std::path::Path;

use wainwright_engines::sheets::{Along, Effort, Job, OneSheet, Piece, Saw, Sheet, Trim, Valued};
use wainwright_engines::weather::Randomness;

/// One plate and its four optima: unlimited fixed, unlimited turning, limited fixed, limited turning.
pub struct Plate {
    pub name: String,
    pub width: u32,
    pub height: u32,
    /// Width, height, value, most.
    pub pieces: Vec<(u32, u32, u64, Option<u32>)>,
    pub optima: [Option<u64>; 4],
}

/// One job with its listed optimum and lower bound.
pub struct Listed {
    pub name: String,
    pub job: Job,
    pub optimum: u64,
    pub bound: f64,
}

impl Plate {
    pub fn question(&self, limited: bool, turns: bool) -> OneSheet {
        let kind = |&(width, height, value, most): &(u32, u32, u64, Option<u32>)| Valued {
            width,
            height,
            value,
            most: if limited { most } else { None },
            turns,
        };
        OneSheet {
            width: self.width,
            height: self.height,
            kerf: 0,
            kinds: self.pieces.iter().map(kind).collect(),
            blocks: 1_000_000,
        }
    }
}

pub fn plates() -> Vec<Plate> {
    let mut plates: Vec<Plate> = Vec::new();
    for file in ["knap2d_cgcut_of_wang", "knap2d_cu_cw", "knap2d_gcut"] {
        for line in text(file).lines() {
            let words: Vec<&str> = line.split_whitespace().collect();
            let number = |at: usize| words[at].parse::<i64>().unwrap();
            match words.first().copied() {
                Some("I") => plates.push(Plate {
                    name: words[1].into(),
                    width: number(2) as u32,
                    height: number(3) as u32,
                    pieces: vec![],
                    optima: [None; 4],
                }),
                Some("P") => plates.last_mut().unwrap().pieces.push((
                    number(1) as u32,
                    number(2) as u32,
                    number(3) as u64,
                    u32::try_from(number(4)).ok(),
                )),
                Some("O") => {
                    plates.last_mut().unwrap().optima =
                        [1, 2, 3, 4].map(|at| words[at].parse().ok());
                }
                _ => {}
            }
        }
    }
    plates
}

pub fn jobs() -> Vec<Listed> {
    let mut jobs: Vec<Listed> = Vec::new();
    for line in text("own_sheets").lines() {
        let words: Vec<&str> = line.split_whitespace().collect();
        let number = |at: usize| words[at].parse::<u32>().unwrap();
        match words.first().copied() {
            Some("I") => jobs.push(Listed {
                name: words[1].into(),
                job: Job {
                    sheets: vec![],
                    pieces: vec![],
                    saw: Saw {
                        kerf: 0,
                        can_rip: true,
                        longest_cut: None,
                    },
                    effort: Effort::default(),
                },
                optimum: 0,
                bound: 0.0,
            }),
            Some("S") => jobs.last_mut().unwrap().job.sheets.push(Sheet {
                width: number(1),
                height: number(2),
                price: words[3].parse().unwrap(),
                available: words[4].parse().ok(),
                grain: Along::Height,
                trim: Trim::default(),
            }),
            Some("K") => jobs.last_mut().unwrap().job.saw.kerf = number(1),
            Some("P") => jobs.last_mut().unwrap().job.pieces.push(Piece {
                width: number(1),
                height: number(2),
                wanted: number(3),
                grain: None,
            }),
            Some("O") => {
                let listed = jobs.last_mut().unwrap();
                listed.optimum = words[1].parse().unwrap();
                listed.bound = words[2].parse().unwrap();
            }
            _ => {}
        }
    }
    jobs
}

/// As much of everything as is allowed, on a fine grid.
pub fn at_the_caps() -> Job {
    let mut random = Randomness::new(78, 0);
    let mut below = |most: u32| (random.bits() % u64::from(most)) as u32;
    let mut job = made_up(0);
    job.sheets = (0..60)
        .map(|index| Sheet {
            width: 1000 + below(9000),
            height: 2000 + below(18_000),
            price: if index % 2 == 0 {
                0
            } else {
                u64::from(3000 + below(4000))
            },
            available: (index % 2 == 0).then_some(1),
            grain: Along::Height,
            trim: Trim::default(),
        })
        .collect();
    job.pieces = (0..250)
        .map(|_| Piece {
            width: 50 + below(4000),
            height: 50 + below(5000),
            wanted: 4,
            grain: None,
        })
        .collect();
    job
}

/// A made-up job of a builder: cabinets and linings in sixteenths of an inch, whole and half
/// sheets at their own prices, sometimes offcuts at hand, some pieces with grain.
pub fn made_up(number: u64) -> Job {
    let mut random = Randomness::new(77, number);
    let mut below = |most: u32| (random.bits() % u64::from(most)) as u32;
    let sheet = |width, height, price, available| Sheet {
        width,
        height,
        price,
        available,
        grain: Along::Height,
        trim: Trim::default(),
    };
    let mut sheets = vec![sheet(768, 1536, 6000 + u64::from(below(20)) * 25, None)];
    if number % 2 == 1 {
        sheets.push(sheet(768, 768, 3400 + u64::from(below(20)) * 25, None));
    }
    if number % 3 == 2 {
        sheets.push(sheet(
            384 + below(200),
            500 + below(600),
            0,
            Some(1 + below(2)),
        ));
    }
    let kinds = 6 + below(20);
    let pieces = (0..kinds).map(|_| Piece {
        width: 8 * (8 + below(60)),
        height: 8 * (10 + below(90)),
        wanted: 1 + below(4),
        grain: (below(4) == 0).then_some(Along::Height),
    });
    Job {
        pieces: pieces.collect(),
        sheets,
        saw: Saw {
            kerf: 2,
            can_rip: true,
            longest_cut: None,
        },
        effort: Effort::default(),
    }
}

fn text(name: &str) -> String {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/data/cutting");
    fs::read_to_string(folder.join(format!("{name}.txt"))).unwrap()
}
