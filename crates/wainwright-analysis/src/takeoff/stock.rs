//! What is there already and what the rest costs.

use super::Desk;
use super::cuts::{Piece, cut};
use crate::known::{Basis, Known};
use crate::result::{Amount, Asked, AskedFor, Cut, Line, TakeOff, Thing};
use wainwright_model::{FieldExt, Goods, Id, Kind, Stock};
use wainwright_reference::lug::stud;
use wainwright_reference::plan::{Allowance, allowance};
use wainwright_units::{Current, Length};

/// A stud typed in inches and its metric neighbour differ by less \[mm\].
const STUD_SLACK_MM: f64 = 0.75;
/// Ratings closer than this are the same \[A\].
const SAME_AMPS: f64 = 1e-6;

/// Subtracts what is in the shed, rounds up what is bought, and adds up what
/// it costs.
pub(super) fn subtract(desk: &Desk<'_>, takeoff: &mut TakeOff) {
    let (mut pieces, asked) = pieces(desk);
    takeoff.asked.extend(asked);
    let mut counts: Vec<u32> = Vec::new();
    for (_, stock) in desk.project.stock.iter() {
        counts.push(stock.count.value().copied().unwrap_or(0));
    }
    for line in &mut takeoff.lines {
        match line.thing {
            Thing::Wire { .. } => from_pieces(desk, line, &mut pieces),
            _ => from_counts(desk, line, &mut counts),
        }
        line.price = price(desk, &line.thing);
        line.aisle = aisle(desk, &line.thing);
        line.cost = line
            .price
            .as_ref()
            .map(|price| price.value * line.buy.count());
        takeoff.cost += line.cost.unwrap_or(0.0);
        takeoff.unpriced += usize::from(line.cost.is_none() && line.buy.count() > 0.0);
    }
}

/// All pieces of wire in the shed.
fn pieces(desk: &Desk<'_>) -> (Vec<Piece>, Vec<Asked>) {
    let (mut pieces, mut asked) = (Vec::new(), Vec::new());
    for (id, stock) in desk.project.stock.iter() {
        let count = stock.count.value().copied();
        if stock.of.value() != Some(&Goods::Wire) || count == Some(0) {
            continue;
        }
        let Some(length) = stock.length.value().copied() else {
            // A price alone is no piece.
            if count.is_some() {
                asked.push(Asked {
                    path: vec!["stock".into(), id.to_string(), "length".into()],
                    why: AskedFor::PieceLength,
                });
            }
            continue;
        };
        pieces.extend(
            (1..=count.unwrap_or(1))
                .take(MOST_PIECES)
                .map(|number| Piece {
                    stock: id.clone(),
                    number,
                    length,
                    left: length,
                }),
        );
    }
    (pieces, asked)
}

/// Pieces of one entry that are looked at; nobody has more offcuts.
const MOST_PIECES: usize = 1000;

fn from_pieces(desk: &Desk<'_>, line: &mut Line, pieces: &mut [Piece]) {
    let fits = |piece: &Piece| {
        let stock = desk.project.stock.get(piece.stock.as_str());
        stock.is_some_and(|stock| matches(&line.thing, &piece.stock, stock))
    };
    let fitting = pieces.iter().enumerate().filter(|(_, piece)| fits(piece));
    let fitting: Vec<usize> = fitting.map(|(index, _)| index).collect();
    let wanted = line.uses.iter().filter_map(|used| match used.amount {
        Amount::Length(length) => Some(Cut {
            wire: used.of.1.clone(),
            length,
        }),
        Amount::Pieces(_) => None,
    });
    let cuts = cut(wanted.collect(), pieces, &fitting);
    let sum = |cuts: &[Cut]| {
        let lengths = cuts.iter().map(|cut| cut.length);
        lengths.fold(Length::ZERO, |sum, one| sum + one)
    };
    let rest = sum(&cuts.rest);
    let owned = cuts.pieces.iter().map(|piece| sum(&piece.cuts));
    line.owned = Amount::Length(owned.fold(Length::ZERO, |sum, one| sum + one));
    let waste = allowance(Allowance::WasteShare);
    let share = waste.as_ref().map_or(0.0, |found| found.value.fraction());
    line.more = Amount::Length(rest * share);
    line.more_basis = waste.map(|found| Basis::Table(found.source));
    line.buy = Amount::Length(rest * (1.0 + share)).as_sold(desk.by_the_foot());
    line.cuts = Some(cuts);
}

fn from_counts(desk: &Desk<'_>, line: &mut Line, counts: &mut [u32]) {
    let wanted = line.needed.plus(line.more);
    let mut left = wanted;
    for ((id, stock), count) in desk.project.stock.iter().zip(counts) {
        if !matches(&line.thing, id, stock) {
            continue;
        }
        match left {
            Amount::Pieces(pieces) => {
                let taken = pieces.min(*count);
                *count -= taken;
                left = left.less(Amount::Pieces(taken));
            }
            Amount::Length(_) => {
                let each = stock.length.value().copied().unwrap_or(Length::ZERO);
                left = left.less(Amount::Length(each * f64::from(*count)));
            }
        }
    }
    line.owned = wanted.less(left);
    line.buy = left.as_sold(desk.by_the_foot());
}

/// The price of the first entry that is this thing and has one.
fn price(desk: &Desk<'_>, thing: &Thing) -> Option<Known<f64>> {
    let entries = desk.project.stock.iter();
    let mut priced = entries.filter(|(id, stock)| matches(thing, id, stock));
    priced.find_map(|(_, stock)| desk.notes.given(&stock.price))
}

/// The aisle of the first entry that is this thing and says it.
fn aisle(desk: &Desk<'_>, thing: &Thing) -> Option<String> {
    let entries = desk.project.stock.iter();
    let mut alike = entries.filter(|(id, stock)| matches(thing, id, stock));
    alike.find_map(|(_, stock)| stock.aisle.value().cloned())
}

/// Whether an entry of the stock is this thing. What it does not say does not
/// matter; wire and lugs must say their size, lugs their stud. A thing without
/// figures of its own is known by its name.
fn matches(thing: &Thing, id: &Id, stock: &Stock) -> bool {
    let same_text = |said: Option<&String>, own: Option<&str>| {
        said.is_none_or(|said| own.is_some_and(|own| own.eq_ignore_ascii_case(said.trim())))
    };
    match (thing, stock.of.value()) {
        (
            Thing::Wire {
                size,
                insulation,
                colour,
                ..
            },
            Some(Goods::Wire),
        ) => {
            stock.size.value() == Some(size)
                && same_text(stock.insulation.value(), Some(insulation))
                && same_text(stock.colour.value(), colour.as_deref())
        }
        (Thing::Lug { size, stud: wanted }, Some(Goods::Lug)) => {
            let diameter = stud(*wanted).map(|found| found.value.diameter.millimetres());
            let said = stock.stud.value().map(|stud| stud.millimetres());
            let near = said
                .zip(diameter)
                .is_some_and(|(said, own)| (said - own).abs() <= STUD_SLACK_MM);
            stock.size.value() == Some(size) && near
        }
        (Thing::Fuse { family, rating }, Some(Goods::Fuse)) => {
            let same = |said: &Current| (said.amperes() - rating.amperes()).abs() <= SAME_AMPS;
            stock.family.value() == Some(family) && stock.rating.value().is_some_and(same)
        }
        (thing, Some(Goods::Other)) => {
            let label = stock.label.value();
            let named = |key: &str| {
                *id == *key || label.is_some_and(|label| label.eq_ignore_ascii_case(key))
            };
            thing.key().is_some_and(named)
        }
        _ => false,
    }
}

impl Thing {
    /// Name by which an entry of the stock is known to be this thing; `None`
    /// for what is known by its figures.
    pub fn key(&self) -> Option<&str> {
        match self {
            Self::Wire { .. } | Self::Lug { .. } | Self::Fuse { .. } => None,
            Self::Terminal { .. } | Self::Shrink { .. } | Self::Holder { .. } => None,
            Self::Item {
                kind: Kind::Tank,
                part: None,
                label,
            } => Some(label),
            Self::Item { part, .. } => part.as_deref(),
            Self::Conduit { .. } => Some("conduit"),
            Self::Grommet => Some("grommet"),
            Self::Clip => Some("clip"),
            Self::CableTie => Some("cable-tie"),
            Self::Label => Some("label"),
            Self::Plank { .. } | Self::Sheet { .. } => None,
            Self::LiningScrew => Some("lining-screw"),
            Self::FoamTape => Some("foam-tape"),
            Self::FoamAdhesive => Some("foam-adhesive"),
            Self::CoverStrip => Some("cover-strip"),
        }
    }
}
