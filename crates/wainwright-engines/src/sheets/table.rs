//! The most valuable way to cut every rectangle when any number of each piece may be cut, and
//! from it what the room around a block can still be worth. Not here: limited pieces (`blocks`).

use super::frame::Position;
use super::points::Points;
use super::shape::Shape;

/// Best values of all rectangles whose sides are points.
#[derive(Debug, Clone)]
pub(super) struct Table {
    pub across: Points,
    pub up: Points,
    /// By column, then by row.
    best: Vec<u64>,
    /// The same by row, then by column: both loops then run through memory in order.
    by_row: Vec<u64>,
    /// For every row, the columns where the value grows; and the other way round.
    steps_across: Vec<Vec<u32>>,
    steps_up: Vec<Vec<u32>>,
}

impl Table {
    /// Fills the table. Every value is at least that of the rectangles it contains.
    pub fn fill(across: Points, up: Points, pieces: &[(Position, u64)]) -> Table {
        let (columns, rows) = (across.len(), up.len());
        let mut table = Table {
            best: vec![0; columns * rows],
            by_row: vec![0; columns * rows],
            steps_across: vec![vec![]; rows],
            steps_up: vec![vec![]; columns],
            across,
            up,
        };
        for &(at, value) in pieces {
            if at.width <= table.across.at[columns - 1] && at.height <= table.up.at[rows - 1] {
                let (column, row) = table.first_that_holds(&at);
                let cell = &mut table.best[column * rows + row];
                *cell = (*cell).max(value);
            }
        }
        let mirrored = table.across.at == table.up.at && is_mirrored(pieces);
        for column in 1..columns {
            let last = if mirrored { column + 1 } else { rows };
            for row in 1..last {
                table.fill_one(column, row);
                if mirrored && row < column {
                    table.mirror(column, row);
                }
            }
        }
        table
    }

    fn first_that_holds(&self, at: &Position) -> (usize, usize) {
        let column = self.across.at.partition_point(|&point| point < at.width);
        let row = self.up.at.partition_point(|&point| point < at.height);
        (column, row)
    }

    fn fill_one(&mut self, column: usize, row: usize) {
        let (columns, rows) = (self.across.len(), self.up.len());
        let of_row = &self.by_row[row * columns..(row + 1) * columns];
        let of_column = &self.best[column * rows..(column + 1) * rows];
        let (narrower, lower) = (of_row[column - 1], of_column[row - 1]);
        let across = best_split(of_row, &self.across, column, &self.steps_across[row]);
        let up = best_split(of_column, &self.up, row, &self.steps_up[column]);
        let whole = of_column[row].max(narrower).max(lower);
        let best = whole.max(across).max(up);
        self.best[column * rows + row] = best;
        self.by_row[row * columns + column] = best;
        if best > narrower {
            self.steps_across[row].push(column as u32);
        }
        if best > lower {
            self.steps_up[column].push(row as u32);
        }
    }

    /// Copies a value and its steps to the rectangle turned by a quarter.
    fn mirror(&mut self, column: usize, row: usize) {
        let rows = self.up.len();
        let best = self.best[column * rows + row];
        self.best[row * rows + column] = best;
        self.by_row[column * rows + row] = best;
        if self.steps_across[row].last() == Some(&(column as u32)) {
            self.steps_up[row].push(column as u32);
        }
        if self.steps_up[column].last() == Some(&(row as u32)) {
            self.steps_across[column].push(row as u32);
        }
    }

    /// Best value of the rectangle of these two points.
    pub fn value(&self, column: usize, row: usize) -> u64 {
        self.best[column * self.up.len() + row]
    }

    /// Best value of the whole.
    pub fn whole(&self) -> u64 {
        self.value(self.across.len() - 1, self.up.len() - 1)
    }

    /// A block worth what the table says of the whole; `None` when that is nothing.
    pub fn shape(&self, pieces: &[(Position, u64)]) -> Option<Shape> {
        self.shape_of(self.across.len() - 1, self.up.len() - 1, pieces)
    }

    fn shape_of(&self, column: usize, row: usize, pieces: &[(Position, u64)]) -> Option<Shape> {
        let value = self.value(column, row);
        if value == 0 {
            return None;
        }
        let (width, height) = (self.across.at[column], self.up.at[row]);
        let one = pieces
            .iter()
            .find(|(at, worth)| *worth == value && at.width <= width && at.height <= height);
        if let Some((at, _)) = one {
            return Some(Shape::piece(at));
        }
        if self.value(column - 1, row) == value {
            return self.shape_of(column - 1, row, pieces);
        }
        if self.value(column, row - 1) == value {
            return self.shape_of(column, row - 1, pieces);
        }
        for left in 1..column {
            let right = self.across.index(width - self.across.at[left]);
            if self.value(left, row) + self.value(right, row) == value {
                let one = self.shape_of(left, row, pieces)?;
                return Some(match self.shape_of(right, row, pieces) {
                    Some(other) => Shape::beside(one, other),
                    None => one,
                });
            }
        }
        for below in 1..row {
            let above = self.up.index(height - self.up.at[below]);
            if self.value(column, below) + self.value(column, above) == value {
                let one = self.shape_of(column, below, pieces)?;
                return Some(match self.shape_of(column, above, pieces) {
                    Some(other) => Shape::stacked(one, other),
                    None => one,
                });
            }
        }
        None
    }

    /// For every block in a corner of the sheet, the most that the room around it can be worth.
    pub fn around(&self) -> Around {
        let (columns, rows) = (self.across.len(), self.up.len());
        let mut around = Around {
            rows,
            most: vec![0; columns * rows],
        };
        for column in (0..columns).rev() {
            for row in (0..rows).rev() {
                let most = self.around_one(&around, column, row);
                around.most[column * rows + row] = most;
            }
        }
        around
    }

    fn around_one(&self, around: &Around, column: usize, row: usize) -> u64 {
        let (columns, rows) = (self.across.len(), self.up.len());
        let (width, height) = (self.across.at[column], self.up.at[row]);
        let mut most = 0;
        if column + 1 < columns {
            most = around.at(column + 1, row);
        }
        if row + 1 < rows {
            most = most.max(around.at(column, row + 1));
        }
        let room = self.across.at[columns - 1] - width;
        for &beside in &self.steps_across[row] {
            let size = self.across.at[beside as usize];
            if size > room {
                break;
            }
            let column = self.across.index(width + size);
            most = most.max(around.at(column, row) + self.value(beside as usize, row));
        }
        let room = self.up.at[rows - 1] - height;
        for &above in &self.steps_up[column] {
            let size = self.up.at[above as usize];
            if size > room {
                break;
            }
            let row = self.up.index(height + size);
            most = most.max(around.at(column, row) + self.value(column, above as usize));
        }
        most
    }
}

/// Whether every piece may be turned by a quarter.
fn is_mirrored(pieces: &[(Position, u64)]) -> bool {
    let turned = |(at, value): &(Position, u64)| {
        let is_turned = |(other, worth): &(Position, u64)| {
            (other.width, other.height, worth) == (at.height, at.width, value)
        };
        pieces.iter().any(is_turned)
    };
    pieces.iter().all(turned)
}

/// The best sum of the two parts of one cut, the smaller part where the value grows.
fn best_split(values: &[u64], points: &Points, of: usize, steps: &[u32]) -> u64 {
    let size = points.at[of];
    let half = steps.partition_point(|&step| 2 * points.at[step as usize] <= size);
    let sums = steps[..half].iter().map(|&step| {
        let rest = points.index(size - points.at[step as usize]);
        values[step as usize] + values[rest]
    });
    sums.max().unwrap_or(0)
}

/// What the room around a block can be worth at most.
#[derive(Debug, Clone)]
pub(super) struct Around {
    rows: usize,
    most: Vec<u64>,
}

impl Around {
    /// The most around a block whose sides are these points.
    pub fn at(&self, column: usize, row: usize) -> u64 {
        self.most[column * self.rows + row]
    }
}
