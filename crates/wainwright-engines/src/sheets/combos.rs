//! Which sheets could be enough by their area alone, the cheapest first: the area bound, and the
//! steps that prices make. Not here: whether the pieces really fit on them.

use super::frame::Stock;

/// Choices that may be looked at.
const MOST_STEPS: usize = 300_000;
/// Choices of one price that are returned.
const MOST_CHOICES: usize = 200;

/// Sheets to take of every kind, all with the same price.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Level {
    pub price: u64,
    /// How many of every kind; of free sheets as many as there are.
    pub choices: Vec<Vec<u32>>,
    /// Whether these are all choices of this price.
    pub complete: bool,
}

/// What the sheets have to hold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Need {
    /// Area of all pieces, kerf included.
    pub area: u64,
    /// Number of pieces: no plan uses more sheets.
    pub pieces: u64,
}

/// The cheapest choices with at least this area and at least this price, cheaper than `below`;
/// `None` when there are none. `Err` with a price that is a bound in any case when there are too
/// many choices to look at.
pub(super) fn next_level(
    stocks: &[Stock],
    need: Need,
    at_least: u64,
    below: u64,
) -> Result<Option<Level>, u64> {
    let mut order: Vec<usize> = (0..stocks.len()).collect();
    // The dearest first: the last sheets to choose are small steps.
    order
        .sort_by_key(|&index| std::cmp::Reverse((stocks[index].price, stocks[index].frame.area())));
    let Some(dearest) = below.checked_sub(1) else {
        return Ok(None);
    };
    let mut search = Search {
        stocks,
        order,
        need,
        at_least,
        best: dearest,
        choices: vec![],
        taken: vec![0; stocks.len()],
        steps: 0,
        all: true,
    };
    search.choose(0, 0, 0);
    if search.steps > MOST_STEPS {
        return Err(by_area(stocks, need.area).max(at_least));
    }
    let level = Level {
        price: search.best,
        complete: search.all,
        choices: search.choices,
    };
    Ok((!level.choices.is_empty()).then_some(level))
}

/// Least price of this much area when parts of sheets could be bought.
pub(super) fn by_area(stocks: &[Stock], area: u64) -> u64 {
    let mut order: Vec<&Stock> = stocks.iter().collect();
    order.sort_by(|one, other| {
        let left = u128::from(one.price) * u128::from(other.frame.area());
        let right = u128::from(other.price) * u128::from(one.frame.area());
        left.cmp(&right)
    });
    let mut left = area;
    let mut price = 0u64;
    for stock in order {
        let one = stock.frame.area();
        let all = stock.available.map_or(u64::MAX, u64::from);
        let whole = (left / one).min(all);
        price = price.saturating_add(whole.saturating_mul(stock.price));
        left -= whole * one;
        if whole < all {
            let part = u128::from(left) * u128::from(stock.price);
            return price.saturating_add(part.div_ceil(u128::from(one)) as u64);
        }
    }
    price
}

struct Search<'s> {
    stocks: &'s [Stock],
    order: Vec<usize>,
    need: Need,
    at_least: u64,
    best: u64,
    choices: Vec<Vec<u32>>,
    taken: Vec<u32>,
    steps: usize,
    all: bool,
}

impl Search<'_> {
    fn choose(&mut self, depth: usize, price: u64, area: u64) {
        self.steps += 1;
        if self.steps > MOST_STEPS || price > self.best {
            return;
        }
        let Some(&index) = self.order.get(depth) else {
            self.keep(price, area);
            return;
        };
        let stock = &self.stocks[index];
        let one = stock.frame.area();
        let all = stock.available.map_or(u64::MAX, u64::from);
        let available = all.min(self.need.pieces);
        // Free sheets are all taken; of the others as many as the price allows.
        let (least, most) = match (self.best - price).checked_div(stock.price) {
            None => (available, available),
            Some(room) => (0, available.min(room)),
        };
        for count in least..=most {
            let count = u32::try_from(count).unwrap_or(u32::MAX);
            self.taken[index] = count;
            let more = u64::from(count);
            self.choose(depth + 1, price + more * stock.price, area + more * one);
        }
        self.taken[index] = 0;
    }

    fn keep(&mut self, price: u64, area: u64) {
        if area < self.need.area || price < self.at_least {
            return;
        }
        if price < self.best {
            self.best = price;
            self.choices.clear();
            self.all = true;
        }
        if price > self.best {
            return;
        }
        if self.choices.len() < MOST_CHOICES {
            self.choices.push(self.taken.clone());
        } else {
            self.all = false;
        }
    }
}
