//! The lower bound by column generation: a price for every piece such that no sheet holds more
//! than it costs; what all pieces cost then is a bound. The patterns found on the way are starts
//! for plans. Not here: the search for one sheet (`blocks`).

use super::blocks::{Question, best_blocks};
use super::frame::{Position, Stock};
use super::improve::{Pattern, Workshop};
use super::lp::{Optimum, solve};
use super::result::Cap;
use super::shape::Shape;
use super::sides::{Sides, Worth, scaled};
use super::table::Table;

/// Steps that one table of bounds may take.
const MOST_WORK: u64 = 4_000_000;
/// Prices of pieces are whole numbers up to about this.
const FINEST: f64 = 2_000_000.0;
/// Share by which a bound is lowered for what rounding may have added.
const MARGIN: f64 = 1e-9;

/// What column generation found.
pub(super) struct Generated {
    /// No plan costs less.
    pub at_least: u64,
    /// Patterns with how often the linear program uses each.
    pub used: Vec<(Pattern, f64)>,
    pub caps: Vec<Cap>,
}

/// One look at all kinds of sheets.
struct Priced {
    bound: f64,
    better: Vec<Pattern>,
}

/// Generates columns until none is better, the bound is good enough, or the rounds are spent.
pub(super) fn generate(
    workshop: &Workshop,
    wanted: &[u32],
    first: &[Pattern],
    good_enough: u64,
    rounds: usize,
    blocks: usize,
) -> Generated {
    let mut columns: Vec<Pattern> = Vec::new();
    for pattern in singles(workshop, wanted)
        .into_iter()
        .chain(first.iter().cloned())
    {
        add(&mut columns, pattern);
    }
    let sides: Vec<Sides> = workshop
        .stocks
        .iter()
        .map(|stock| {
            let all: Worth = worth(stock, wanted, |_| 1);
            Sides::within(&all, wanted, &stock.frame, MOST_WORK)
        })
        .collect();
    let mut bound = 0.0f64;
    let mut caps = vec![Cap::Rounds];
    let mut last = master(workshop, wanted, &columns);
    for _ in 0..rounds {
        if last.ended_early {
            caps = vec![Cap::Pivots];
            break;
        }
        let priced = price(workshop, wanted, &sides, &last.unknowns, blocks);
        bound = bound.max(priced.bound);
        let known = columns.len();
        for pattern in priced.better {
            add(&mut columns, pattern);
        }
        if columns.len() == known || whole(bound) >= good_enough {
            caps.clear();
            break;
        }
        last = master(workshop, wanted, &columns);
    }
    let used = columns.into_iter().zip(last.prices.iter().copied());
    Generated {
        at_least: whole(bound),
        used: used.filter(|(_, times)| *times > MARGIN).collect(),
        caps,
    }
}

/// A bound as a whole price.
fn whole(bound: f64) -> u64 {
    (bound * (1.0 - MARGIN) - 1e-6).ceil().max(0.0) as u64
}

fn add(columns: &mut Vec<Pattern>, pattern: Pattern) {
    let same = |known: &Pattern| known.stock == pattern.stock && known.counts == pattern.counts;
    if !columns.iter().any(same) {
        columns.push(pattern);
    }
}

/// Every piece alone on the cheapest sheet that takes it.
fn singles(workshop: &Workshop, wanted: &[u32]) -> Vec<Pattern> {
    let mut patterns = Vec::new();
    for kind in (0..wanted.len()).filter(|kind| wanted[*kind] > 0) {
        let stocks = workshop.stocks.iter().enumerate();
        let taking = stocks.filter_map(|(index, stock)| {
            let at = stock.positions[kind].first()?;
            Some((index, stock.price, at))
        });
        if let Some((index, _, at)) = taking.min_by_key(|(_, price, _)| *price) {
            patterns.push(Pattern::new(index, Shape::piece(at), workshop.areas));
        }
    }
    patterns
}

/// The linear program over all patterns so far: unknowns are a price for every kind of piece,
/// then a surcharge for every kind of sheet that runs out.
fn master(workshop: &Workshop, wanted: &[u32], columns: &[Pattern]) -> Optimum {
    let kinds = wanted.len();
    let unknowns = kinds + workshop.stocks.len();
    let mut gains: Vec<f64> = wanted.iter().map(|count| f64::from(*count)).collect();
    let short = |stock: &Stock| stock.available.map_or(0.0, |count| -f64::from(count));
    gains.extend(workshop.stocks.iter().map(short));
    let mut rows: Vec<(Vec<f64>, f64)> = Vec::with_capacity(columns.len() + kinds);
    for column in columns {
        let stock = &workshop.stocks[column.stock];
        let mut factors: Vec<f64> = column
            .counts
            .iter()
            .map(|count| f64::from(*count))
            .collect();
        factors.resize(unknowns, 0.0);
        if stock.available.is_some() {
            factors[kinds + column.stock] = -1.0;
        }
        rows.push((factors, stock.price as f64));
    }
    // No piece is worth more than this, so that the program has an end when sheets run out.
    let dear: u64 = workshop
        .stocks
        .iter()
        .map(|stock| stock.price)
        .max()
        .unwrap_or(0);
    for kind in 0..kinds {
        let mut factors = vec![0.0; unknowns];
        factors[kind] = 1.0;
        rows.push((factors, 4.0 * dear as f64 + 1.0));
    }
    solve(&gains, &rows)
}

/// Looks for patterns worth more than their sheet costs, and what the prices prove.
fn price(
    workshop: &Workshop,
    wanted: &[u32],
    sides: &[Sides],
    unknowns: &[f64],
    blocks: usize,
) -> Priced {
    let (prices, _) = unknowns.split_at(wanted.len());
    let highest = prices.iter().copied().fold(0.0, f64::max);
    let mut priced = Priced {
        bound: 0.0,
        better: vec![],
    };
    if highest <= 0.0 {
        return priced;
    }
    let finest = FINEST / highest;
    let values: Vec<u64> = prices.iter().map(|price| (price * finest) as u64).collect();
    let mut most_worth = Vec::with_capacity(workshop.stocks.len());
    for (index, (stock, sides)) in workshop.stocks.iter().zip(sides).enumerate() {
        let reached = (stock.price as f64 * finest) as u64;
        let surcharge = unknowns.get(wanted.len() + index).copied().unwrap_or(0.0);
        let reached = reached + (surcharge * finest) as u64;
        let pieces = worth(stock, wanted, |kind| values[kind]);
        let (shape, at_most) = best_shape(stock, sides, &pieces, wanted, reached, blocks);
        let shape = shape.filter(|shape| shape.cuts(&stock.frame).is_some());
        let pattern = shape.map(|shape| Pattern::new(index, shape, workshop.areas));
        most_worth.push(at_most as f64);
        priced.better.extend(pattern);
    }
    priced.bound = proven(workshop.stocks, wanted, &values, &most_worth, finest);
    priced
}

/// The positions of wanted pieces with their values above zero.
fn worth(stock: &Stock, wanted: &[u32], value: impl Fn(usize) -> u64) -> Worth {
    let all = stock.positions.iter().flatten();
    let all = all.map(|at| (*at, value(at.kind)));
    all.filter(|(at, value)| *value > 0 && wanted[at.kind] > 0)
        .collect()
}

/// The most that one sheet can hold, and a block better than what was reached.
fn best_shape(
    stock: &Stock,
    sides: &Sides,
    pieces: &[(Position, u64)],
    wanted: &[u32],
    reached: u64,
    blocks: usize,
) -> (Option<Shape>, u64) {
    let coarse = scaled(pieces, sides.across.scale);
    let table = Table::fill(sides.across.clone(), sides.up.clone(), &coarse);
    let around = table.around();
    let found = best_blocks(&Question {
        frame: stock.frame,
        pieces,
        most: wanted,
        table: &table,
        around: &around,
        budget: blocks,
        reached,
    });
    let shape = found.better.map(|(shape, _)| shape);
    (shape, found.at_most.max(reached))
}

/// What whole prices prove. Sheets without end: all prices are lowered until none holds more than
/// it costs. Sheets that run out: what each can hold beyond its cost is taken off.
fn proven(stocks: &[Stock], wanted: &[u32], values: &[u64], most: &[f64], finest: f64) -> f64 {
    let pairs = wanted.iter().zip(values);
    let all: f64 = pairs
        .map(|(count, value)| f64::from(*count) * *value as f64)
        .sum();
    let mut over = 1.0f64;
    for (stock, worth) in stocks.iter().zip(most) {
        let cost = stock.price as f64 * finest;
        if stock.available.is_none() && *worth > cost {
            if cost <= 0.0 {
                return 0.0;
            }
            over = over.max(worth / cost);
        }
    }
    let mut bound = all / over;
    for (stock, worth) in stocks.iter().zip(most) {
        if let Some(count) = stock.available {
            let beyond = worth / over - stock.price as f64 * finest;
            bound -= f64::from(count) * beyond.max(0.0);
        }
    }
    bound / finest
}
