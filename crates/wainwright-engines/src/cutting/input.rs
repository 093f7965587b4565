//! What has to be cut, from what, on a grid of whole steps. Not here: any solving.

use super::CuttingError;
use crate::refusal::Refusal;
use wainwright_units::Length;

/// Most kinds of pieces.
pub const MOST_KINDS: usize = 500;
/// Most kinds of stock.
pub const MOST_STOCKS: usize = 200;
/// Most pieces of all kinds together.
pub const MOST_PIECES: u32 = 20_000;
/// Longest stock \[steps\].
pub const LONGEST: u32 = 1_000_000;
/// Highest price of one bar, and of `per` of an offcut \[cents\].
pub const DEAREST: u32 = 10_000_000;

/// A step of length in which everything is counted.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Grid(Length);

impl Grid {
    /// Thirty-seconds of an inch.
    #[must_use]
    pub fn thirty_seconds_of_an_inch() -> Self {
        Self(Length::from_metres(0.0254 / 32.0))
    }

    /// Half millimetres.
    #[must_use]
    pub fn half_millimetres() -> Self {
        Self(Length::from_metres(0.0005))
    }

    /// A grid of any step above zero.
    ///
    /// # Errors
    /// A step that is no positive number.
    pub fn new(step: Length) -> Result<Self, CuttingError> {
        if step.metres() > 0.0 && step.metres().is_finite() {
            return Ok(Self(step));
        }
        Err(refuse(
            "step of the grid [m]",
            step.metres(),
            "a number above zero",
        ))
    }

    /// Whole steps that are at least this long: for pieces, kerf and trim. A length that misses a
    /// step by less than a millionth of one is on it.
    ///
    /// # Errors
    /// A length below zero or of more than [`LONGEST`] steps.
    pub fn up(self, length: Length) -> Result<u32, CuttingError> {
        self.steps(length, |steps| (steps - 1e-6).ceil())
    }

    /// Whole steps that are at most this long: for stock and offcuts at hand.
    ///
    /// # Errors
    /// A length below zero or of more than [`LONGEST`] steps.
    pub fn down(self, length: Length) -> Result<u32, CuttingError> {
        self.steps(length, |steps| (steps + 1e-6).floor())
    }

    /// The length of so many steps.
    #[must_use]
    pub fn length(self, steps: u32) -> Length {
        self.0 * f64::from(steps)
    }

    fn steps(self, length: Length, round: impl Fn(f64) -> f64) -> Result<u32, CuttingError> {
        let steps = round(length.metres() / self.0.metres());
        if steps.is_finite() && (0.0..=f64::from(LONGEST)).contains(&steps) {
            return Ok(steps as u32);
        }
        Err(refuse(
            "length [steps of the grid]",
            steps,
            "from 0 to 1 000 000 steps",
        ))
    }
}

/// What has to be cut, and from what.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Job {
    /// Width of one cut \[steps\].
    pub kerf: u32,
    /// Pieces wanted; equal lengths may be listed more than once.
    pub pieces: Vec<Piece>,
    /// What they may be cut from: bars to buy, and offcuts at hand at price 0.
    pub stocks: Vec<Stock>,
    /// What an offcut is worth; `None`: nothing.
    pub leftover: Option<Leftover>,
}

/// Pieces of one length.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Piece {
    /// Length \[steps\], above zero.
    pub length: u32,
    /// How many.
    pub count: u32,
}

/// Bars of one length.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Stock {
    /// Length as bought \[steps\].
    pub length: u32,
    /// Price of one \[cents\].
    pub price: u32,
    /// How many there are; `None`: any number can be had.
    pub available: Option<u32>,
    /// Cut away to square the ends, both together, kerf included \[steps\].
    pub trim: u32,
    /// Allowed for knots, dents and other faults that are cut out of each bar \[steps\].
    pub defects: u32,
}

impl Stock {
    /// Bars of which any number can be had, with square ends and no faults.
    #[must_use]
    pub const fn new(length: u32, price: u32) -> Self {
        Self {
            length,
            price,
            available: None,
            trim: 0,
            defects: 0,
        }
    }

    /// What is left of one bar for pieces and kerfs \[steps\].
    #[must_use]
    pub const fn usable(&self) -> u32 {
        self.length
            .saturating_sub(self.trim)
            .saturating_sub(self.defects)
    }
}

/// What an offcut is worth: `cents` for every `per` of its length, if it is at least so long.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Leftover {
    /// Shortest offcut that is kept \[steps\].
    pub least: u32,
    /// Worth \[cents\].
    pub cents: u32,
    /// Of this length \[steps\], above zero.
    pub per: u32,
}

/// How much work may be done. Counts, never time, so that the same job gives the same plan.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Budget {
    /// Nodes of the search trees.
    pub nodes: u64,
    /// Pivots of linear programs.
    pub pivots: u64,
    /// Patterns in one list.
    pub patterns: u64,
    /// Patterns and partial patterns looked at.
    pub states: u64,
}

impl Default for Budget {
    /// A second or so for a hard job on a desk computer.
    fn default() -> Self {
        Self {
            nodes: 4_000,
            pivots: 100_000,
            patterns: 400_000,
            states: 250_000_000,
        }
    }
}

/// Refuses what no solver should see.
pub(super) fn check(job: &Job) -> Result<(), CuttingError> {
    count(
        "kinds of pieces",
        job.pieces.len(),
        MOST_KINDS,
        "at most 500",
    )?;
    count(
        "kinds of stock",
        job.stocks.len(),
        MOST_STOCKS,
        "at most 200",
    )?;
    most("kerf [steps]", None, job.kerf, LONGEST)?;
    let mut pieces = 0_u64;
    for (index, piece) in job.pieces.iter().enumerate() {
        let place = Some(("piece", index));
        most("length [steps]", place, piece.length, LONGEST)?;
        if piece.length == 0 {
            return Err(refuse_at(place, "length [steps]", 0.0, "1 or more"));
        }
        pieces += u64::from(piece.count);
    }
    if pieces > u64::from(MOST_PIECES) {
        let expected = "at most 20 000 pieces of all kinds together";
        return Err(refuse("number of pieces", pieces as f64, expected));
    }
    for (index, stock) in job.stocks.iter().enumerate() {
        let place = Some(("stock", index));
        most("length [steps]", place, stock.length, LONGEST)?;
        most("price [cents]", place, stock.price, DEAREST)?;
        check_worth(job, stock, place)?;
    }
    let Some(leftover) = job.leftover else {
        return Ok(());
    };
    most("worth of an offcut [cents]", None, leftover.cents, DEAREST)?;
    most("length of that worth [steps]", None, leftover.per, 100_000)?;
    if leftover.per == 0 {
        return Err(refuse("length of that worth [steps]", 0.0, "1 or more"));
    }
    Ok(())
}

/// A bar to buy must cost more than it is worth as an offcut, or buying without end would pay.
fn check_worth(
    job: &Job,
    stock: &Stock,
    place: Option<(&'static str, usize)>,
) -> Result<(), CuttingError> {
    let Some(leftover) = job.leftover else {
        return Ok(());
    };
    let price = u64::from(stock.price) * u64::from(leftover.per);
    let worth = u64::from(stock.length) * u64::from(leftover.cents);
    if stock.available.is_none() && worth > 0 && worth >= price {
        let expected = "more than a whole bar is worth as an offcut";
        let found = f64::from(stock.price);
        return Err(refuse_at(place, "price [cents]", found, expected));
    }
    Ok(())
}

fn count(
    field: &'static str,
    found: usize,
    most: usize,
    expected: &'static str,
) -> Result<(), CuttingError> {
    if found > most {
        return Err(refuse(field, found as f64, expected));
    }
    Ok(())
}

fn most(
    field: &'static str,
    place: Option<(&'static str, usize)>,
    found: u32,
    most: u32,
) -> Result<(), CuttingError> {
    if found <= most {
        return Ok(());
    }
    let expected = match most {
        LONGEST => "at most 1 000 000",
        DEAREST => "at most 10 000 000",
        _ => "at most 100 000",
    };
    Err(refuse_at(place, field, f64::from(found), expected))
}

fn refuse(field: &'static str, found: f64, expected: &'static str) -> CuttingError {
    CuttingError::Refused(Refusal::new(field, found, expected))
}

fn refuse_at(
    place: Option<(&'static str, usize)>,
    field: &'static str,
    found: f64,
    expected: &'static str,
) -> CuttingError {
    CuttingError::Refused(Refusal {
        place,
        field,
        found,
        expected,
    })
}
