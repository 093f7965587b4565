//! What the sheet engine is told: sheets to cut from, pieces wanted, the saw. Only checks are here.
//!
//! All lengths are whole steps of one grid (say 1/16 in or 0.5 mm): pieces are rounded up to it,
//! sheets down, so that nothing is lost to rounding. `Grid` does that.

use wainwright_units::Length;

use crate::refusal::{Refusal, above_zero, require};

/// Most kinds of pieces.
pub const MOST_KINDS: usize = 250;
/// Most pieces in all.
pub const MOST_PIECES: u32 = 1000;
/// Most kinds of sheets, offcuts at hand included.
pub const MOST_STOCKS: usize = 60;
/// Longest side [grid steps].
pub const LONGEST_SIDE: u32 = 20_000;
/// Highest price of a sheet, and highest value of a piece: 2³¹.
pub const HIGHEST_PRICE: u64 = 1 << 31;

/// The grid on which a plan is made.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Grid {
    /// One step \[m\], above zero.
    pub step: Length,
}

impl Grid {
    /// Steps of something that has to be at least this long: rounded up, but for a millionth of
    /// a step, so that a length made of whole steps stays what it is.
    ///
    /// # Errors
    /// When the length is not a number from 0 up to [`LONGEST_SIDE`] steps.
    pub fn up(self, length: Length) -> Result<u32, Refusal> {
        self.steps("length", length, |steps| (steps - 1e-6).ceil())
    }

    /// Steps of something that may be at most this long: rounded down.
    ///
    /// # Errors
    /// When the length is not a number from 0 up to [`LONGEST_SIDE`] steps.
    pub fn down(self, length: Length) -> Result<u32, Refusal> {
        self.steps("length", length, |steps| (steps + 1e-6).floor())
    }

    /// The length of so many steps.
    #[must_use]
    pub fn length(self, steps: u32) -> Length {
        Length::from_metres(f64::from(steps) * self.step.metres())
    }

    fn steps(
        self,
        field: &'static str,
        length: Length,
        round: impl Fn(f64) -> f64,
    ) -> Result<u32, Refusal> {
        above_zero("grid step [m]", self.step.metres())?;
        let steps = round(length.metres() / self.step.metres()).max(0.0);
        let fits = length.metres() >= 0.0 && steps <= f64::from(LONGEST_SIDE);
        require(field, length.metres(), fits, "from 0 to 20 000 grid steps")?;
        // Checked just above: a whole number between 0 and 20 000.
        Ok(steps as u32)
    }
}

/// A direction on a sheet that lies with its width from left to right.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Along {
    /// From left to right.
    Width,
    /// From the bottom to the top.
    Height,
}

impl Along {
    /// The way the long side of a sheet runs, and its grain as a rule; upwards when it is square.
    #[must_use]
    pub const fn long_side(width: u32, height: u32) -> Along {
        if width > height {
            Along::Width
        } else {
            Along::Height
        }
    }
}

/// One kind of sheet that can be bought, or an offcut at hand (price 0, as many as there are).
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Sheet {
    /// Size from left to right [grid steps].
    pub width: u32,
    /// Size from the bottom to the top [grid steps].
    pub height: u32,
    /// Price of one, in the smallest coin.
    pub price: u64,
    /// How many there are; `None` when as many as wanted can be had.
    pub available: Option<u32>,
    /// Which way its grain runs. A cut that runs the same way is a rip cut. For a sheet without
    /// grain: the way its long side runs.
    pub grain: Along,
    /// What is cut off its edges before anything else.
    pub trim: Trim,
}

/// Strips cut off the four edges of a sheet, saw cut included [grid steps]; each is zero, or the
/// kerf or more.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Trim {
    /// At the left.
    pub left: u32,
    /// At the right.
    pub right: u32,
    /// At the bottom.
    pub bottom: u32,
    /// At the top.
    pub top: u32,
}

impl Trim {
    /// The same on all four edges.
    #[must_use]
    pub const fn all(steps: u32) -> Trim {
        Trim {
            left: steps,
            right: steps,
            bottom: steps,
            top: steps,
        }
    }
}

/// One kind of piece that is wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Piece {
    /// Finished size one way [grid steps].
    pub width: u32,
    /// Finished size the other way [grid steps].
    pub height: u32,
    /// How many are wanted.
    pub wanted: u32,
    /// Which of its sides has to run with the grain of the sheet; `None` when it may turn.
    pub grain: Option<Along>,
}

/// What the saw at hand can do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Saw {
    /// Width of the saw cut [grid steps].
    pub kerf: u32,
    /// Whether it can cut along the grain.
    pub can_rip: bool,
    /// Longest cut it can make [grid steps]; `None` without a limit.
    pub longest_cut: Option<u32>,
}

/// How much work to spend, in counts and never in time.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Effort {
    /// Blocks that the search for the best single sheet may keep.
    pub blocks: usize,
    /// Tries to improve a plan.
    pub tries: usize,
    /// Rounds of column generation.
    pub rounds: usize,
}

impl Default for Effort {
    fn default() -> Self {
        Effort {
            blocks: 30_000,
            tries: 3_000,
            rounds: 150,
        }
    }
}

/// Everything to cut in one go: one material, one thickness.
#[derive(Debug, Clone, PartialEq)]
pub struct Job {
    /// What it is cut from.
    pub sheets: Vec<Sheet>,
    /// What is wanted.
    pub pieces: Vec<Piece>,
    /// The saw.
    pub saw: Saw,
    /// How much work to spend.
    pub effort: Effort,
}

/// One piece that may be cut from a single sheet, for its value.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Valued {
    /// Size from left to right [grid steps].
    pub width: u32,
    /// Size from the bottom to the top [grid steps].
    pub height: u32,
    /// What one is worth.
    pub value: u64,
    /// How many may be cut at most; `None` without a limit.
    pub most: Option<u32>,
    /// Whether it may be turned by a quarter.
    pub turns: bool,
}

/// A question about one single sheet: which pieces make the most of it.
#[derive(Debug, Clone, PartialEq)]
pub struct OneSheet {
    /// Size from left to right [grid steps].
    pub width: u32,
    /// Size from the bottom to the top [grid steps].
    pub height: u32,
    /// Width of the saw cut [grid steps].
    pub kerf: u32,
    /// What can be cut from it.
    pub kinds: Vec<Valued>,
    /// Blocks that the search may keep; only used when some piece is limited.
    pub blocks: usize,
}

impl Sheet {
    /// What is left from left to right after trimming [grid steps].
    #[must_use]
    pub const fn usable_width(&self) -> u32 {
        let cut = self.trim.left.saturating_add(self.trim.right);
        self.width.saturating_sub(cut)
    }

    /// What is left from the bottom to the top after trimming [grid steps].
    #[must_use]
    pub const fn usable_height(&self) -> u32 {
        let cut = self.trim.bottom.saturating_add(self.trim.top);
        self.height.saturating_sub(cut)
    }
}

impl Job {
    pub(super) fn check(&self) -> Result<(), Refusal> {
        count("kinds of sheets", self.sheets.len(), MOST_STOCKS)?;
        count("kinds of pieces", self.pieces.len(), MOST_KINDS)?;
        let all: u64 = self
            .pieces
            .iter()
            .map(|piece| u64::from(piece.wanted))
            .sum();
        let few = all <= u64::from(MOST_PIECES);
        require("pieces in all", all as f64, few, "at most 1000")?;
        side("kerf [grid steps]", self.saw.kerf, 0)?;
        for (index, sheet) in self.sheets.iter().enumerate() {
            check_sheet(sheet, self.saw.kerf).map_err(|refusal| refusal.at("sheet", index))?;
        }
        for (index, piece) in self.pieces.iter().enumerate() {
            sides(piece.width, piece.height).map_err(|refusal| refusal.at("piece", index))?;
        }
        Ok(())
    }
}

impl OneSheet {
    pub(super) fn check(&self) -> Result<(), Refusal> {
        sides(self.width, self.height)?;
        side("kerf [grid steps]", self.kerf, 0)?;
        count("kinds of pieces", self.kinds.len(), MOST_KINDS)?;
        for (index, kind) in self.kinds.iter().enumerate() {
            let worth = price("value", kind.value);
            sides(kind.width, kind.height)
                .and(worth)
                .map_err(|refusal| refusal.at("piece", index))?;
        }
        Ok(())
    }
}

fn check_sheet(sheet: &Sheet, kerf: u32) -> Result<(), Refusal> {
    sides(sheet.width, sheet.height)?;
    price("price", sheet.price)?;
    let trim = sheet.trim;
    for strip in [trim.left, trim.right, trim.bottom, trim.top] {
        let fits = strip == 0 || strip >= kerf;
        let field = "trimmed strip [grid steps]";
        require(field, f64::from(strip), fits, "zero, or the kerf or more")?;
    }
    let left = sheet.usable_width().min(sheet.usable_height());
    require(
        "what trimming leaves [grid steps]",
        f64::from(left),
        left > 0,
        "above zero",
    )
}

fn sides(width: u32, height: u32) -> Result<(), Refusal> {
    side("width [grid steps]", width, 1)?;
    side("height [grid steps]", height, 1)
}

fn side(field: &'static str, found: u32, least: u32) -> Result<(), Refusal> {
    let fits = (least..=LONGEST_SIDE).contains(&found);
    require(field, f64::from(found), fits, "from 1 (kerf: 0) to 20 000")
}

fn price(field: &'static str, found: u64) -> Result<(), Refusal> {
    require(field, found as f64, found <= HIGHEST_PRICE, "at most 2^31")
}

fn count(field: &'static str, found: usize, most: usize) -> Result<(), Refusal> {
    require(
        field,
        found as f64,
        found <= most,
        "no more than the most allowed (250 kinds of pieces, 60 kinds of sheets)",
    )
}
