//! Steps of the simplex method, primal and dual, and the inverse of the basis made anew. Not here:
//! what the rows and columns are.

use super::{Lp, OUT, Role};

/// Smallest reduced cost that counts as better [of the largest stock price].
const BETTER: f64 = 1e-9;
/// Smallest pivot.
const PIVOT: f64 = 1e-8;
/// Smallest amount below zero that counts.
const BELOW: f64 = 1e-9;
/// Pivots between two fresh inverses.
const FRESH: usize = 160;

impl Lp {
    /// Primal steps until no present column is better; false when `most` pivots were not enough.
    pub(in crate::cutting) fn primal(&mut self, most: u64) -> bool {
        let mut tried_fresh = false;
        let end = self.pivots + most;
        loop {
            if self.pivots >= end {
                return false;
            }
            let Some(entering) = self.best_entering() else {
                return true;
            };
            let step = self.image(entering);
            match self.leaving(&step) {
                Some(row) => {
                    self.pivot(entering, row, &step);
                    tried_fresh = false;
                }
                None if tried_fresh => return false,
                None => {
                    self.refresh();
                    tried_fresh = true;
                }
            }
        }
    }

    /// Dual steps until no amount is below zero; false when `most` pivots were not enough.
    pub(in crate::cutting) fn dual(&mut self, most: u64) -> bool {
        let end = self.pivots + most;
        let mut tried_fresh = false;
        while self.pivots < end {
            let worst = (0..self.amounts.len())
                .filter(|&row| self.amounts[row] < -BELOW)
                .min_by(|&a, &b| self.amounts[a].total_cmp(&self.amounts[b]));
            let Some(row) = worst else {
                return true;
            };
            let Some(entering) = self.dual_entering(row) else {
                if tried_fresh {
                    return false;
                }
                self.refresh();
                tried_fresh = true;
                continue;
            };
            let step = self.image(entering);
            if step[row] > -PIVOT {
                if tried_fresh {
                    return false;
                }
                self.refresh();
                tried_fresh = true;
                continue;
            }
            tried_fresh = false;
            self.pivot(entering, row, &step);
        }
        false
    }

    fn dual_entering(&self, row: usize) -> Option<usize> {
        let m = self.basis.len();
        let line = &self.inverse[row * m..(row + 1) * m];
        let mut best: Option<(f64, f64, usize)> = None;
        for (index, column) in self.columns.iter().enumerate() {
            if column.at != OUT || column.frozen {
                continue;
            }
            let mut alpha = 0.0;
            for &(row, value) in &column.entries {
                alpha += line[row as usize] * value;
            }
            if alpha > -1e-7 {
                continue;
            }
            let ratio = self.reduced(index).max(0.0) / -alpha;
            let better = best.is_none_or(|(least, size, _)| {
                ratio < least - 1e-12 || ratio <= least + 1e-12 && -alpha > size
            });
            if better {
                best = Some((ratio, -alpha, index));
            }
        }
        best.map(|(.., index)| index)
    }

    fn best_entering(&self) -> Option<usize> {
        let mut best = (-BETTER, None);
        for (index, column) in self.columns.iter().enumerate() {
            if column.at != OUT || column.frozen {
                continue;
            }
            let reduced = self.reduced(index);
            if reduced < best.0 {
                best = (reduced, Some(index));
            }
        }
        best.1
    }

    /// What one more of a column takes from each basic amount.
    fn image(&self, column: usize) -> Vec<f64> {
        let m = self.basis.len();
        let entries = &self.columns[column].entries;
        let mut step = vec![0.0; m];
        for (row, out) in step.iter_mut().enumerate() {
            let line = &self.inverse[row * m..(row + 1) * m];
            for &(at, value) in entries {
                *out += line[at as usize] * value;
            }
        }
        step
    }

    fn leaving(&self, step: &[f64]) -> Option<usize> {
        let mut least = f64::INFINITY;
        for (row, &change) in step.iter().enumerate() {
            if change > PIVOT {
                least = least.min((self.amounts[row].max(0.0) + BELOW) / change);
            }
        }
        let mut best: Option<(f64, usize)> = None;
        for (row, &change) in step.iter().enumerate() {
            if change > PIVOT && self.amounts[row].max(0.0) / change <= least {
                let bonus = if self.columns[self.basis[row]].role == Role::Lack {
                    2.0
                } else {
                    1.0
                };
                if best.is_none_or(|(size, _)| change * bonus > size) {
                    best = Some((change * bonus, row));
                }
            }
        }
        best.map(|(_, row)| row)
    }

    fn pivot(&mut self, entering: usize, row: usize, step: &[f64]) {
        let m = self.basis.len();
        let reduced = self.reduced(entering);
        let amount = self.amounts[row] / step[row];
        let line = self.sweep(row, step, m);
        for (other, &change) in step.iter().enumerate() {
            if other != row {
                self.amounts[other] -= change * amount;
            }
        }
        for (price, by) in self.prices.iter_mut().zip(&line) {
            *price += reduced * by;
        }
        self.amounts[row] = amount;
        let old = std::mem::replace(&mut self.basis[row], entering);
        self.columns[old].at = OUT;
        self.columns[entering].at = row;
        self.pivots += 1;
        self.since_fresh += 1;
        if self.since_fresh >= FRESH {
            self.refresh();
        }
    }

    /// A new inverse of the basis; columns that depend on others give way to slacks.
    pub(in crate::cutting) fn refresh(&mut self) {
        self.since_fresh = 0;
        let m = self.basis.len();
        let mut inverse = vec![0.0; m * m];
        for row in 0..m {
            inverse[row * m + row] = 1.0;
        }
        std::mem::swap(&mut self.inverse, &mut inverse);
        let mut order = std::mem::take(&mut self.basis);
        // Short columns first: they fill the inverse least.
        order.sort_by_key(|&column| (self.columns[column].entries.len(), column));
        let mut done = vec![OUT; m];
        for column in order {
            let step = self.image_in(column, m);
            let best = (0..m)
                .filter(|&row| done[row] == OUT)
                .max_by(|&a, &b| step[a].abs().total_cmp(&step[b].abs()));
            match best {
                Some(row) if step[row].abs() > 1e-9 => {
                    self.sweep(row, &step, m);
                    done[row] = column;
                }
                _ => self.columns[column].at = OUT,
            }
        }
        self.fill_gaps(&mut done, m);
        for (row, &column) in done.iter().enumerate() {
            self.columns[column].at = row;
        }
        self.basis = done;
        self.settle();
    }

    fn fill_gaps(&mut self, done: &mut [usize], m: usize) {
        for gap in 0..m {
            if done[gap] != OUT {
                continue;
            }
            let spare = (0..self.columns.len())
                .filter(|&column| self.columns[column].role == Role::Slack)
                .filter(|column| !done.contains(column))
                .map(|column| (self.image_in(column, m)[gap].abs(), column))
                .max_by(|a, b| a.0.total_cmp(&b.0))
                .map(|(_, column)| column);
            if let Some(column) = spare {
                let step = self.image_in(column, m);
                self.sweep(gap, &step, m);
                done[gap] = column;
            }
        }
    }

    fn image_in(&self, column: usize, m: usize) -> Vec<f64> {
        let mut step = vec![0.0; m];
        for (row, out) in step.iter_mut().enumerate() {
            for &(at, value) in &self.columns[column].entries {
                *out += self.inverse[row * m + at as usize] * value;
            }
        }
        step
    }

    /// Makes the column whose image is `step` the unit of a row; returns the row's new line.
    fn sweep(&mut self, row: usize, step: &[f64], m: usize) -> Vec<f64> {
        let scale = 1.0 / step[row];
        let line: Vec<f64> = (self.inverse[row * m..(row + 1) * m].iter())
            .map(|value| value * scale)
            .collect();
        let filled: Vec<usize> = (0..m).filter(|&place| line[place] != 0.0).collect();
        let sparse = filled.len() * 4 < m;
        for (other, &change) in step.iter().enumerate() {
            if other == row || change.abs() <= 1e-14 {
                continue;
            }
            let target = &mut self.inverse[other * m..(other + 1) * m];
            if sparse {
                for &place in &filled {
                    target[place] -= change * line[place];
                }
            } else {
                for (value, by) in target.iter_mut().zip(&line) {
                    *value -= change * by;
                }
            }
        }
        self.inverse[row * m..(row + 1) * m].copy_from_slice(&line);
        line
    }
}
