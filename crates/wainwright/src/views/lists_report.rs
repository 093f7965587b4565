//! All lists of a wiring as one report for machines, with how wire is cut and
//! what could not be counted. Not here: the rows (see `lists`).

use super::lists::{Listing, buy, fuses, labels, terminals, wires};
use super::system::MissingView;
use crate::study::Study;
use serde::Serialize;
use wainwright_analysis::result::{Cut, Schedules, TakeOff};
use wainwright_analysis::{schedules, takeoff};
use wainwright_units::System;

/// Version of [`ListsReport`].
pub const LISTS_VERSION: u32 = 1;

/// Schedules and take-off of one project, worked out once.
#[derive(Debug, Clone)]
pub struct Lists {
    /// Wires, terminals, legends.
    pub schedules: Schedules,
    /// What to buy, and how wire is cut.
    pub takeoff: TakeOff,
}

impl Lists {
    /// Those of a project.
    pub fn of(study: &Study) -> Self {
        Self {
            schedules: schedules(&study.project, &study.assessment),
            takeoff: takeoff(&study.project, &study.assessment),
        }
    }

    /// Every list, in the order people ask for them.
    pub fn all(&self, study: &Study, units: System) -> [Listing; 5] {
        [
            wires(&self.schedules, units),
            terminals(&self.schedules),
            fuses(&self.schedules, &study.assessment, units),
            labels(&self.schedules),
            buy::buy(&self.takeoff, units),
        ]
    }
}

/// All lists as plain data.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct ListsReport {
    /// [`LISTS_VERSION`].
    pub lists: u32,
    /// Version of the program.
    pub program: &'static str,
    /// The file, when there is one.
    pub file: Option<String>,
    /// Wires, terminals, fuses, labels, what to buy.
    pub listings: Vec<Listing>,
    /// How wire is cut from pieces that are there.
    pub cuts: Vec<PieceView>,
    /// The money prices are in.
    pub currency: Option<String>,
    /// Sum of all costs that are known, in that money.
    pub cost: f64,
    /// Things to buy without a price.
    pub unpriced: usize,
    /// Values without which something could not be counted.
    pub missing: Vec<MissingView>,
}

/// A piece of wire in the shed.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PieceView {
    /// Which entry of the stock.
    pub stock: String,
    /// Which of its pieces, from 1.
    pub number: u32,
    /// How long it is [m].
    pub metres: f64,
    /// What is cut from it.
    pub cuts: Vec<CutView>,
    /// What is left of it [m].
    pub left_metres: f64,
}

/// One cut.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CutView {
    /// The wire.
    pub wire: String,
    /// Its length [m].
    pub metres: f64,
}

impl ListsReport {
    /// The report; numbers in lists are in the person's units.
    pub fn of(lists: &Lists, study: &Study, units: System, file: Option<&str>) -> Self {
        let takeoff = &lists.takeoff;
        Self {
            lists: LISTS_VERSION,
            program: env!("CARGO_PKG_VERSION"),
            file: file.map(str::to_owned),
            listings: lists.all(study, units).to_vec(),
            cuts: pieces(takeoff),
            currency: takeoff.currency.clone(),
            cost: takeoff.cost,
            unpriced: takeoff.unpriced,
            missing: missing(takeoff),
        }
    }
}

fn pieces(takeoff: &TakeOff) -> Vec<PieceView> {
    let lists = takeoff.lines.iter().filter_map(|line| line.cuts.as_ref());
    let pieces = lists.flat_map(|cuts| &cuts.pieces);
    pieces
        .map(|piece| PieceView {
            stock: piece.stock.to_string(),
            number: piece.number,
            metres: piece.length.metres(),
            cuts: piece.cuts.iter().map(cut).collect(),
            left_metres: piece.left.metres(),
        })
        .collect()
}

fn cut(cut: &Cut) -> CutView {
    CutView {
        wire: cut.wire.to_string(),
        metres: cut.length.metres(),
    }
}

fn missing(takeoff: &TakeOff) -> Vec<MissingView> {
    let all = takeoff.asked.iter();
    all.map(|asked| MissingView {
        path: asked.path.join("."),
        wanted: buy::asked_words(asked.why),
    })
    .collect()
}
