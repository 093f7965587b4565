//! Eigenvalues of a small dense real matrix: reduction to Hessenberg form, then QR steps with
//! shifts in complex numbers. No eigenvectors; meant for about ten rows.

use super::complex::Complex;
use crate::refusal::{Refusal, require};

/// A square matrix by rows.
pub(super) type Matrix = Vec<Vec<f64>>;

/// Most QR steps for each eigenvalue; three are usual.
const MOST_STEPS: usize = 60;

/// Steps after which an odd shift breaks a cycle.
const STUCK: usize = 12;

/// Largest miss of the sums of roots and of their squares, relative to the matrix.
const TOLERANCE: f64 = 1e-8;

/// The eigenvalues, and by how much they miss the trace of the matrix and of its square, relative to
/// its size.
///
/// # Errors
/// A matrix that is not finite, or an iteration that ends at its cap or misses the traces.
pub(super) fn eigenvalues(matrix: &Matrix) -> Result<(Vec<Complex>, f64), Refusal> {
    let size = norm(matrix);
    require(
        "size of the matrix",
        size,
        size.is_finite(),
        "a finite number",
    )?;
    let mut work = hessenberg(matrix.clone());
    let mut roots = Vec::with_capacity(matrix.len());
    let mut high = matrix.len();
    let mut steps = 0;
    while high > 0 {
        let low = split(&mut work, high, size);
        if low + 1 == high {
            roots.push(work[high - 1][high - 1]);
            high -= 1;
            steps = 0;
        } else {
            require(
                "steps of the eigenvalue search",
                steps as f64,
                steps < MOST_STEPS,
                "fewer",
            )?;
            steps += 1;
            let shift = shift(&work, high, steps);
            step(&mut work, low, high, shift);
        }
    }
    let miss = miss(matrix, &roots, size);
    require(
        "miss of the eigenvalues",
        miss,
        miss <= TOLERANCE,
        "below 1e-8",
    )?;
    Ok((roots, miss))
}

/// Removes all below the first subdiagonal by eliminations with pivoting, each undone on the columns.
fn hessenberg(mut a: Matrix) -> Vec<Vec<Complex>> {
    let n = a.len();
    for column in 0..n.saturating_sub(2) {
        let top = column + 1;
        let pivot = (top..n)
            .max_by(|i, j| a[*i][column].abs().total_cmp(&a[*j][column].abs()))
            .unwrap_or(top);
        a.swap(top, pivot);
        a.iter_mut().for_each(|row| row.swap(top, pivot));
        if a[top][column] == 0.0 {
            continue;
        }
        for below in top + 1..n {
            let factor = a[below][column] / a[top][column];
            let (upper, lower) = a.split_at_mut(below);
            for (value, above) in lower[0].iter_mut().zip(&upper[top]) {
                *value -= factor * above;
            }
            for row in &mut a {
                row[top] += factor * row[below];
            }
            a[below][column] = 0.0;
        }
    }
    a.into_iter()
        .map(|row| row.into_iter().map(Complex::real).collect())
        .collect()
}

/// First row of the lowest block that hangs together; negligible subdiagonals become zero.
fn split(work: &mut [Vec<Complex>], high: usize, size: f64) -> usize {
    for row in (1..high).rev() {
        let around = work[row][row].size() + work[row - 1][row - 1].size();
        let against = if around > 0.0 { around } else { size };
        if work[row][row - 1].size() <= f64::EPSILON * against {
            work[row][row - 1] = Complex::ZERO;
            return row;
        }
    }
    0
}

/// The eigenvalue of the last two rows that is nearer to the last entry.
fn shift(work: &[Vec<Complex>], high: usize, steps: usize) -> Complex {
    let (i, j) = (high - 2, high - 1);
    let last = work[j][j];
    if steps.is_multiple_of(STUCK) {
        return last + Complex::real(work[j][i].size());
    }
    let half = (work[i][i] - last).scaled(0.5);
    let root = (half * half + work[i][j] * work[j][i]).root();
    let middle = last + half;
    let (one, other) = (middle + root, middle - root);
    if (one - last).size() <= (other - last).size() {
        one
    } else {
        other
    }
}

/// One QR step on the rows from `low` up to `high`.
fn step(work: &mut [Vec<Complex>], low: usize, high: usize, shift: Complex) {
    for (k, row) in work.iter_mut().enumerate().take(high).skip(low) {
        row[k] = row[k] - shift;
    }
    let mut turns = Vec::with_capacity(high - low);
    for k in low..high - 1 {
        let turn = Turn::that_clears(work[k][k], work[k + 1][k]);
        let (above, below) = work.split_at_mut(k + 1);
        let pairs = above[k].iter_mut().zip(&mut below[0]);
        for (upper, lower) in pairs.take(high).skip(k) {
            (*upper, *lower) = turn.rows(*upper, *lower);
        }
        turns.push(turn);
    }
    for (offset, turn) in turns.iter().enumerate() {
        let k = low + offset;
        for row in work.iter_mut().take((k + 2).min(high)).skip(low) {
            let (left, right) = turn.columns(row[k], row[k + 1]);
            row[k] = left;
            row[k + 1] = right;
        }
    }
    for (k, row) in work.iter_mut().enumerate().take(high).skip(low) {
        row[k] = row[k] + shift;
    }
}

/// A plane rotation with cosine and sine.
struct Turn {
    cos: Complex,
    sin: Complex,
}

impl Turn {
    fn that_clears(upper: Complex, lower: Complex) -> Self {
        let length = upper.size().hypot(lower.size());
        if length == 0.0 {
            return Self {
                cos: Complex::real(1.0),
                sin: Complex::ZERO,
            };
        }
        Self {
            cos: upper.scaled(1.0 / length),
            sin: lower.scaled(1.0 / length),
        }
    }

    fn rows(&self, upper: Complex, lower: Complex) -> (Complex, Complex) {
        (
            self.cos.conjugate() * upper + self.sin.conjugate() * lower,
            self.cos * lower - self.sin * upper,
        )
    }

    fn columns(&self, left: Complex, right: Complex) -> (Complex, Complex) {
        (
            left * self.cos + right * self.sin,
            right * self.cos.conjugate() - left * self.sin.conjugate(),
        )
    }
}

/// Sums of roots and of their squares against the traces.
fn miss(matrix: &Matrix, roots: &[Complex], size: f64) -> f64 {
    if size == 0.0 {
        return 0.0;
    }
    let sum = roots.iter().fold(Complex::ZERO, |a, b| a + *b);
    let squares = roots.iter().fold(Complex::ZERO, |a, b| a + *b * *b);
    let trace: f64 = matrix.iter().enumerate().map(|(i, row)| row[i]).sum();
    let mut trace_of_square = 0.0;
    for (i, row) in matrix.iter().enumerate() {
        for (j, value) in row.iter().enumerate() {
            trace_of_square += value * matrix[j][i];
        }
    }
    let first = (sum - Complex::real(trace)).size() / size;
    let second = (squares - Complex::real(trace_of_square)).size() / (size * size);
    first.max(second)
}

fn norm(matrix: &Matrix) -> f64 {
    matrix
        .iter()
        .flatten()
        .map(|value| value * value)
        .sum::<f64>()
        .sqrt()
}
