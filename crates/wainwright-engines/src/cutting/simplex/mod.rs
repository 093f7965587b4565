//! A small linear program that grows: columns and rows are added while its basis is kept. Numbers
//! here are rounded; what is proven with its prices is proven elsewhere (`price`, `node`). The steps
//! from basis to basis are in `steps`.

mod steps;

/// No place in the basis.
const OUT: usize = usize::MAX;

/// Which side of a row is bounded.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::cutting) enum Sense {
    /// At least the right side; can be bought off at a price.
    AtLeast,
    /// At most the right side.
    AtMost,
}

/// What a column stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::cutting) enum Role {
    /// A pattern, by its number in the caller's list.
    Pattern(usize),
    /// Distance from the right side of a row.
    Slack,
    /// Buys a row off.
    Lack,
    /// A longer piece in place of a shorter one; keeps prices in order while patterns are few.
    Swap,
}

#[derive(Debug, Clone)]
struct Column {
    cost: f64,
    entries: Vec<(u32, f64)>,
    role: Role,
    frozen: bool,
    at: usize,
}

/// Least cost of nonnegative columns under rows.
#[derive(Debug, Clone, Default)]
pub(in crate::cutting) struct Lp {
    columns: Vec<Column>,
    right: Vec<f64>,
    basis: Vec<usize>,
    inverse: Vec<f64>,
    amounts: Vec<f64>,
    prices: Vec<f64>,
    since_fresh: usize,
    /// Pivots made so far.
    pub(in crate::cutting) pivots: u64,
}

impl Lp {
    /// Adds a row over the columns there are. The new basic column is the row's slack, or what buys
    /// it off (`lack` is that price).
    pub(in crate::cutting) fn add_row(
        &mut self,
        sense: Sense,
        right: f64,
        lack: f64,
        entries: &[(usize, f64)],
        start_lacking: bool,
    ) {
        let row = self.right.len();
        for &(column, value) in entries {
            self.columns[column].entries.push((row as u32, value));
        }
        self.right.push(right);
        let sign = if sense == Sense::AtLeast { -1.0 } else { 1.0 };
        let slack = self.push(0.0, vec![(row as u32, sign)], Role::Slack);
        let mut basic = (slack, sign);
        if sense == Sense::AtLeast {
            let column = self.push(lack, vec![(row as u32, 1.0)], Role::Lack);
            if start_lacking {
                basic = (column, 1.0);
            }
        }
        self.grow_inverse(entries, basic.1);
        self.columns[basic.0].at = row;
        self.basis.push(basic.0);
        self.amounts.push(0.0);
        self.prices.push(0.0);
        self.settle();
    }

    /// Extends the inverse by one row and column whose basic column has `sign` in the new row only.
    fn grow_inverse(&mut self, entries: &[(usize, f64)], sign: f64) {
        let old = self.basis.len();
        let new = old + 1;
        let mut inverse = vec![0.0; new * new];
        for row in 0..old {
            inverse[row * new..row * new + old]
                .copy_from_slice(&self.inverse[row * old..(row + 1) * old]);
        }
        for &(column, value) in entries {
            let at = self.columns[column].at;
            if at != OUT {
                for k in 0..old {
                    inverse[old * new + k] -= sign * value * self.inverse[at * old + k];
                }
            }
        }
        inverse[old * new + old] = sign;
        self.inverse = inverse;
    }

    fn push(&mut self, cost: f64, entries: Vec<(u32, f64)>, role: Role) -> usize {
        self.columns.push(Column {
            cost,
            entries,
            role,
            frozen: false,
            at: OUT,
        });
        self.columns.len() - 1
    }

    /// Adds a pattern.
    pub(in crate::cutting) fn add_pattern(
        &mut self,
        cost: f64,
        entries: Vec<(u32, f64)>,
        number: usize,
    ) -> usize {
        self.push(cost, entries, Role::Pattern(number))
    }

    /// Lets a piece of the row `longer` serve for one of `shorter`, until [`Lp::end_swaps`].
    pub(in crate::cutting) fn add_swap(&mut self, longer: usize, shorter: usize) {
        let entries = vec![(longer as u32, -1.0), (shorter as u32, 1.0)];
        self.push(0.0, entries, Role::Swap);
    }

    /// Makes swaps dear for good; false when that was done before.
    pub(in crate::cutting) fn end_swaps(&mut self, cost: f64) -> bool {
        let mut any = false;
        for column in &mut self.columns {
            if column.role == Role::Swap && !column.frozen {
                any = true;
                column.frozen = true;
                column.cost = cost;
            }
        }
        self.settle();
        any
    }

    /// Number of columns of all roles.
    pub(in crate::cutting) fn columns(&self) -> usize {
        self.columns.len()
    }

    /// What a column stands for.
    pub(in crate::cutting) fn role(&self, column: usize) -> Role {
        self.columns[column].role
    }

    /// Gives a pattern another number.
    pub(in crate::cutting) fn renumber(&mut self, column: usize, number: usize) {
        self.columns[column].role = Role::Pattern(number);
    }

    /// Price of each row.
    pub(in crate::cutting) fn prices(&self) -> &[f64] {
        &self.prices
    }

    /// Changes the right side of a row; amounts follow at the next [`Lp::settle`].
    pub(in crate::cutting) fn set_right(&mut self, row: usize, right: f64) {
        self.right[row] = right;
    }

    /// Makes a column dear and keeps it from coming in again.
    pub(in crate::cutting) fn freeze(&mut self, column: usize, cost: f64) {
        let column = &mut self.columns[column];
        column.frozen = true;
        column.cost = cost;
    }

    /// Whether a column may not come in.
    pub(in crate::cutting) fn is_frozen(&self, column: usize) -> bool {
        self.columns[column].frozen
    }

    /// Basic columns and their amounts.
    pub(in crate::cutting) fn basic(&self) -> impl Iterator<Item = (usize, f64)> + '_ {
        self.basis.iter().copied().zip(self.amounts.iter().copied())
    }

    /// Least cost over the present columns.
    pub(in crate::cutting) fn value(&self) -> f64 {
        self.basic()
            .map(|(column, amount)| self.columns[column].cost * amount)
            .sum()
    }

    /// Raises all prices of buying rows off, and those of frozen patterns, if any of these is still
    /// in use; false when none is.
    pub(in crate::cutting) fn raise_lacking(&mut self, factor: f64) -> bool {
        let stands_in = |column: &Column| column.role == Role::Lack || column.frozen;
        let in_use = (self.basis.iter().zip(&self.amounts))
            .any(|(&column, &amount)| amount > 1e-5 && stands_in(&self.columns[column]));
        if !in_use {
            return false;
        }
        for column in self.columns.iter_mut().filter(|column| stands_in(column)) {
            column.cost *= factor;
        }
        self.settle();
        true
    }

    /// Drops patterns that are not basic and cost more than `limit` above their worth.
    pub(in crate::cutting) fn drop_dear(&mut self, limit: f64) {
        let keep: Vec<bool> = (0..self.columns.len())
            .map(|index| {
                let column = &self.columns[index];
                column.at != OUT
                    || matches!(column.role, Role::Slack | Role::Lack)
                    || (!column.frozen && self.reduced(index) <= limit)
            })
            .collect();
        let mut flags = keep.iter();
        self.columns.retain(|_| *flags.next().unwrap_or(&true));
        for (index, column) in self.columns.iter().enumerate() {
            if column.at != OUT {
                self.basis[column.at] = index;
            }
        }
    }

    /// Rows whose slack is basic and well above zero: they hold nothing back.
    pub(in crate::cutting) fn loose(&self) -> Vec<usize> {
        let slack = |column: &Column| column.role == Role::Slack && column.at != OUT;
        let columns = self.columns.iter().filter(|column| slack(column));
        let loose = columns.filter(|column| self.amounts[column.at] > 1e-6);
        loose.map(|column| column.entries[0].0 as usize).collect()
    }

    /// Takes rows out whose slack is basic; their other columns must not be.
    pub(in crate::cutting) fn remove_rows(&mut self, rows: &[usize]) {
        let m = self.basis.len();
        let mut gone = vec![false; m];
        for &row in rows {
            gone[row] = true;
        }
        let of_gone = |column: &Column| {
            !matches!(column.role, Role::Pattern(_) | Role::Swap)
                && gone[column.entries[0].0 as usize]
        };
        let leaves: Vec<bool> = (self.basis.iter())
            .map(|&column| of_gone(&self.columns[column]))
            .collect();
        let mut inverse = Vec::with_capacity(m * m);
        for place in (0..m).filter(|&place| !leaves[place]) {
            let line = &self.inverse[place * m..(place + 1) * m];
            let kept = line.iter().zip(&gone).filter(|(_, gone)| !**gone);
            inverse.extend(kept.map(|(value, _)| *value));
        }
        self.inverse = inverse;
        let mut new_row = vec![0; m];
        let mut next = 0;
        for (row, new) in new_row.iter_mut().enumerate() {
            *new = next;
            next += u32::from(!gone[row]);
        }
        self.columns.retain(|column| !of_gone(column));
        for column in &mut self.columns {
            column.entries.retain(|entry| !gone[entry.0 as usize]);
            for entry in &mut column.entries {
                entry.0 = new_row[entry.0 as usize];
            }
        }
        let mut flags = gone.iter();
        self.right.retain(|_| !*flags.next().unwrap_or(&false));
        let mut places = vec![OUT; m];
        let mut next = 0;
        for place in (0..m).filter(|&place| !leaves[place]) {
            places[place] = next;
            next += 1;
        }
        self.basis = vec![0; next];
        for (index, column) in self.columns.iter_mut().enumerate() {
            if column.at != OUT {
                column.at = places[column.at];
                self.basis[column.at] = index;
            }
        }
        self.amounts.truncate(next);
        self.settle();
    }

    fn reduced(&self, column: usize) -> f64 {
        let column = &self.columns[column];
        let mut worth = 0.0;
        for &(row, value) in &column.entries {
            worth += self.prices[row as usize] * value;
        }
        column.cost - worth
    }

    /// Amounts and prices anew from the inverse.
    pub(in crate::cutting) fn settle(&mut self) {
        let m = self.basis.len();
        self.prices.clear();
        self.prices.resize(m, 0.0);
        for row in 0..m {
            let line = &self.inverse[row * m..(row + 1) * m];
            self.amounts[row] = line.iter().zip(&self.right).map(|(a, b)| a * b).sum();
            let cost = self.columns[self.basis[row]].cost;
            if cost != 0.0 {
                for (price, a) in self.prices.iter_mut().zip(line) {
                    *price += cost * a;
                }
            }
        }
    }
}
