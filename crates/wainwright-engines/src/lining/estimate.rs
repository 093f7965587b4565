//! How much board a list of lengths takes, estimated by putting the longest first wherever it fits
//! best. The cutting plan itself is another engine's.

use wainwright_units::Length;

use super::surface::SHORTEST_LONGEST;
use crate::refusal::{Refusal, not_below_zero, require};

/// A length that boards are sold in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StockLength {
    /// Its length \[m\], at least 0.1 m.
    pub length: Length,
    /// Price of one in any currency; zero for every length when no price is known: then length
    /// counts instead.
    pub price: f64,
}

/// What the pieces take, as an estimate from above.
#[derive(Debug, Clone, PartialEq)]
pub struct Estimate {
    /// Boards of each stock length.
    pub boards: Vec<usize>,
    /// Their length together; without stock lengths that of the pieces \[m\].
    pub bought: Length,
    /// Their price together.
    pub price: f64,
    /// Length of the pieces \[m\].
    pub pieces: Length,
    /// Pieces longer than every board.
    pub too_long: usize,
}

/// Stock lengths as bare numbers, and the kerf [m].
#[derive(Debug, Clone)]
pub(super) struct Shop {
    stock: Vec<(f64, f64)>,
    kerf: f64,
    /// Whether there are prices; else length is what is saved.
    priced: bool,
}

impl Shop {
    pub fn new(stock: &[StockLength], kerf: Length) -> Result<Shop, Refusal> {
        not_below_zero("kerf [m]", kerf.metres())?;
        super::surface::most("number of stock lengths", stock.len(), 50)?;
        for (index, one) in stock.iter().enumerate() {
            let length = one.length.metres();
            let long = length.is_finite() && length >= SHORTEST_LONGEST;
            let checked = require("length [m]", length, long, "at least 0.1 m")
                .and_then(|()| not_below_zero("price", one.price));
            checked.map_err(|refusal| refusal.at("stock length", index))?;
        }
        let prices = stock.iter().filter(|one| one.price > 0.0).count();
        require(
            "stock lengths with a price",
            prices as f64,
            prices == 0 || prices == stock.len(),
            "all or none",
        )?;
        Ok(Shop {
            stock: stock
                .iter()
                .map(|one| (one.length.metres(), one.price))
                .collect(),
            kerf: kerf.metres(),
            priced: prices > 0,
        })
    }

    /// Longest board [m].
    pub fn longest(&self) -> Option<f64> {
        self.stock.iter().map(|one| one.0).reduce(f64::max)
    }

    /// What a metre of board costs, the cheapest way.
    pub fn per_metre(&self) -> f64 {
        let each = self.stock.iter().map(|&one| self.cost(one) / one.0);
        each.reduce(f64::min).unwrap_or(1.0)
    }

    /// What the lengths cost; `lengths` are sorted here, longest first.
    pub fn cost_of(&self, lengths: &mut [f64]) -> f64 {
        lengths.sort_by(|one, other| other.total_cmp(one));
        if self.stock.is_empty() {
            return lengths.iter().sum();
        }
        let ways = self.stock.iter().map(|&(opened, _)| {
            let bars = self.fill(lengths, opened);
            bars.iter().map(|&rest| self.close(rest).1).sum::<f64>()
        });
        ways.fold(f64::INFINITY, f64::min)
    }

    /// The whole estimate.
    pub fn estimate(&self, lengths: &mut [f64]) -> Estimate {
        lengths.sort_by(|one, other| other.total_cmp(one));
        let pieces: f64 = lengths.iter().sum();
        let mut best: Option<(f64, Vec<usize>)> = None;
        for &(opened, _) in &self.stock {
            let (mut cost, mut boards) = (0.0, vec![0; self.stock.len()]);
            for used in self.fill(lengths, opened) {
                let (index, price) = self.close(used);
                cost += price;
                if let Some(count) = index.and_then(|index| boards.get_mut(index)) {
                    *count += 1;
                }
            }
            if best.as_ref().is_none_or(|known| cost < known.0) {
                best = Some((cost, boards));
            }
        }
        let boards = best.map_or_else(Vec::new, |best| best.1);
        let pairs = || boards.iter().zip(&self.stock);
        let bought: f64 = pairs().map(|(&count, one)| count as f64 * one.0).sum();
        let longest = self.longest().unwrap_or(f64::INFINITY);
        Estimate {
            price: pairs().map(|(&count, one)| count as f64 * one.1).sum(),
            bought: Length::from_metres(if boards.is_empty() { pieces } else { bought }),
            pieces: Length::from_metres(pieces),
            too_long: lengths.iter().filter(|&&one| !fits(one, longest)).count(),
            boards,
        }
    }

    /// Used length of every board [m], pieces longest first, each where the least is left.
    fn fill(&self, lengths: &[f64], opened: f64) -> Vec<f64> {
        let longest = self.longest().unwrap_or(opened);
        // Used length and room of every board begun; kerfs are between pieces only.
        let mut bars: Vec<(f64, f64)> = Vec::new();
        for &length in lengths {
            let mut best: Option<(usize, f64)> = None;
            for (index, &(used, room)) in bars.iter().enumerate() {
                let rest = room - used - self.kerf - length;
                if rest >= -1e-9 && best.is_none_or(|known| rest < known.1) {
                    best = Some((index, rest));
                }
            }
            match best.and_then(|(index, _)| bars.get_mut(index)) {
                Some(bar) => bar.0 += self.kerf + length,
                None if fits(length, opened) => bars.push((length, opened)),
                None => bars.push((length, longest)),
            }
        }
        bars.into_iter().map(|bar| bar.0).collect()
    }

    /// The cheapest board that holds a used length, and what it costs.
    fn close(&self, used: f64) -> (Option<usize>, f64) {
        let holding = self.stock.iter().enumerate();
        let holding = holding.filter(|(_, one)| fits(used, one.0));
        let costs = holding.map(|(index, &one)| (Some(index), self.cost(one)));
        // What no board holds costs more than any: it must not pay to make pieces too long.
        costs
            .reduce(|best, one| if one.1 < best.1 { one } else { best })
            .unwrap_or((None, 10.0 * used * self.per_metre().max(1e-9)))
    }

    fn cost(&self, (length, price): (f64, f64)) -> f64 {
        if self.priced { price } else { length }
    }
}

fn fits(length: f64, room: f64) -> bool {
    length <= room + 1e-9
}
