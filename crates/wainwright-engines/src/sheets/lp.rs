//! A small linear program: most of b·y with A·y ≤ c and y ≥ 0, all c ≥ 0, by the simplex method
//! on a dense tableau. Not here: what the numbers mean (`columns`).

/// Steps that the method may take.
const MOST_PIVOTS: usize = 20_000;
/// Numbers of the tableau that may be changed in all.
const MOST_CHANGES: usize = 3_000_000_000;
/// Steps without progress before the rule that cannot run in circles is used.
const STALLED: usize = 60;
/// Numbers below this are taken as zero.
const SMALL: f64 = 1e-9;

/// The answer.
#[derive(Debug, Clone)]
pub(super) struct Optimum {
    /// The unknowns.
    pub unknowns: Vec<f64>,
    /// The price of every constraint: the unknowns of the twin program.
    pub prices: Vec<f64>,
    /// Whether the method stopped before its end.
    pub ended_early: bool,
}

/// Solves the program. Rows are the constraints, each with its limit, zero or above.
pub(super) fn solve(gains: &[f64], rows: &[(Vec<f64>, f64)]) -> Optimum {
    let mut tableau = Tableau::new(gains, rows);
    let mut stalled = 0;
    let mut ended_early = true;
    let cells = tableau.width * (rows.len() + 1);
    for _ in 0..MOST_PIVOTS.min(MOST_CHANGES / cells) {
        let Some(column) = tableau.entering(stalled > STALLED) else {
            ended_early = false;
            break;
        };
        let Some(row) = tableau.leaving(column) else {
            break;
        };
        let before = tableau.objective();
        tableau.pivot(row, column);
        let moved = tableau.objective() > before + SMALL;
        stalled = if moved { 0 } else { stalled + 1 };
    }
    tableau.optimum(ended_early)
}

struct Tableau {
    unknowns: usize,
    /// Columns: unknowns, slacks, limit.
    width: usize,
    rows: Vec<Vec<f64>>,
    last: Vec<f64>,
    basis: Vec<usize>,
}

impl Tableau {
    fn new(gains: &[f64], constraints: &[(Vec<f64>, f64)]) -> Tableau {
        let unknowns = gains.len();
        let width = unknowns + constraints.len() + 1;
        let row = |(index, (factors, limit)): (usize, &(Vec<f64>, f64))| {
            let mut row = vec![0.0; width];
            for (cell, factor) in row.iter_mut().zip(factors) {
                *cell = *factor;
            }
            row[unknowns + index] = 1.0;
            row[width - 1] = limit.max(0.0);
            row
        };
        let mut last = vec![0.0; width];
        for (cell, gain) in last.iter_mut().zip(gains) {
            *cell = -gain;
        }
        Tableau {
            unknowns,
            width,
            rows: constraints.iter().enumerate().map(row).collect(),
            last,
            basis: (unknowns..width - 1).collect(),
        }
    }

    fn objective(&self) -> f64 {
        self.last[self.width - 1]
    }

    /// The column that gains most; the first that gains when `first` is set.
    fn entering(&self, first: bool) -> Option<usize> {
        let mut best: Option<(usize, f64)> = None;
        for (column, &gain) in self.last[..self.width - 1].iter().enumerate() {
            if gain < -SMALL && best.is_none_or(|(_, known)| gain < known) {
                if first {
                    return Some(column);
                }
                best = Some((column, gain));
            }
        }
        best.map(|(column, _)| column)
    }

    /// The row that limits a column most, of equal ones that with the first unknown.
    fn leaving(&self, column: usize) -> Option<usize> {
        let mut best: Option<(f64, usize, usize)> = None;
        for (index, row) in self.rows.iter().enumerate() {
            if row[column] <= SMALL {
                continue;
            }
            let ratio = row[self.width - 1] / row[column];
            let better = best.is_none_or(|(known, unknown, _)| {
                ratio < known - SMALL || (ratio <= known + SMALL && self.basis[index] < unknown)
            });
            if better {
                best = Some((ratio, self.basis[index], index));
            }
        }
        best.map(|(_, _, index)| index)
    }

    fn pivot(&mut self, row: usize, column: usize) {
        let scale = self.rows[row][column];
        self.rows[row].iter_mut().for_each(|cell| *cell /= scale);
        let pivot = self.rows[row].clone();
        for (index, other) in self.rows.iter_mut().enumerate() {
            if index != row {
                subtract(other, &pivot, column);
            }
        }
        subtract(&mut self.last, &pivot, column);
        self.basis[row] = column;
    }

    fn optimum(&self, ended_early: bool) -> Optimum {
        let mut unknowns = vec![0.0; self.unknowns];
        for (row, &column) in self.rows.iter().zip(&self.basis) {
            if let Some(unknown) = unknowns.get_mut(column) {
                *unknown = row[self.width - 1].max(0.0);
            }
        }
        let prices = &self.last[self.unknowns..self.width - 1];
        Optimum {
            unknowns,
            prices: prices.iter().map(|price| price.max(0.0)).collect(),
            ended_early,
        }
    }
}

fn subtract(row: &mut [f64], pivot: &[f64], column: usize) {
    let factor = row[column];
    if factor != 0.0 {
        for (cell, other) in row.iter_mut().zip(pivot) {
            *cell -= factor * other;
        }
        row[column] = 0.0;
    }
}
