//! The linear equations of motion as a matrix: rate of change of the state from the state.
//! Not here: what the roots mean (`motion`, `speeds`).

use super::eigen::Matrix;
use super::input::{Axle, Rig};

/// A row over sideways speed, yaw rate and hitch rate, or a square of them.
pub(super) type Row = [f64; 3];

/// One axle as the equations see it.
pub(super) struct Wheelset {
    /// Sideways speed of the axle from (v, r, q').
    pub row: Row,
    /// Share of the hitch angle that counts as slip: 1 on the trailer, 0 on the car.
    pub hitch_share: f64,
    pub tyres: Axle,
}

/// The axles from front to rear.
pub(super) fn wheelsets(rig: &Rig) -> Vec<Wheelset> {
    let car = &rig.car;
    let front = Wheelset {
        row: [1.0, car.front_to_centre.metres(), 0.0],
        hitch_share: 0.0,
        tyres: car.front,
    };
    let rear = Wheelset {
        row: [1.0, -car.centre_to_rear.metres(), 0.0],
        hitch_share: 0.0,
        tyres: car.rear,
    };
    let trailer = rig.trailer.axles.iter().map(|axle| Wheelset {
        row: [
            1.0,
            -(car.centre_to_ball + axle.from_ball).metres(),
            -axle.from_ball.metres(),
        ],
        hitch_share: 1.0,
        tyres: axle.tyres,
    });
    [front, rear].into_iter().chain(trailer).collect()
}

/// Mass that the yaw rate carries sideways, per speed: m₁P₁ + m₂P₂.
pub(super) fn carried(rig: &Rig) -> Row {
    let (car, trailer) = (rig.car.mass.kilograms(), rig.trailer.mass.kilograms());
    let row = trailer_row(rig);
    [car + trailer * row[0], trailer * row[1], trailer * row[2]]
}

/// State (v, r, q', q, lagging slips): their rates at a speed [m/s].
pub(super) fn matrix(rig: &Rig, speed: f64) -> Matrix {
    let wheelsets = wheelsets(rig);
    let lagging = wheelsets
        .iter()
        .filter(|set| set.tyres.relaxation.metres() > 0.0)
        .count();
    let size = 4 + lagging;
    let mut forces = vec![vec![0.0; size]; 3];
    let mut rates = vec![vec![0.0; size]; size];
    rates[3][2] = 1.0;
    for (force, mass) in forces.iter_mut().zip(carried(rig)) {
        force[1] -= speed * mass;
    }
    forces[2][2] -= rig.hitch_damping;
    let mut lag = 4;
    for set in &wheelsets {
        let slip = slip(set, speed, size);
        let relaxation = set.tyres.relaxation.metres();
        let counts = if relaxation > 0.0 {
            let follow = speed / relaxation;
            for (rate, share) in rates[lag].iter_mut().zip(&slip) {
                *rate = follow * share;
            }
            rates[lag][lag] -= follow;
            lag += 1;
            unit(lag - 1, size)
        } else {
            slip
        };
        for (force, arm) in forces.iter_mut().zip(set.row) {
            for (term, share) in force.iter_mut().zip(&counts) {
                *term -= arm * set.tyres.newtons_per_radian * share;
            }
        }
    }
    let inverse = inverse(&mass_matrix(rig));
    for (rate, weights) in rates.iter_mut().zip(inverse) {
        for (weight, force) in weights.iter().zip(&forces) {
            for (term, value) in rate.iter_mut().zip(force) {
                *term += weight * value;
            }
        }
    }
    rates
}

/// Determinant of three columns.
pub(super) fn determinant(a: Row, b: Row, c: Row) -> f64 {
    a[0] * (b[1] * c[2] - b[2] * c[1]) - a[1] * (b[0] * c[2] - b[2] * c[0])
        + a[2] * (b[0] * c[1] - b[1] * c[0])
}

/// Slip angle of an axle from the state.
fn slip(set: &Wheelset, speed: f64, size: usize) -> Vec<f64> {
    let mut slip = vec![0.0; size];
    for (share, arm) in slip.iter_mut().zip(set.row) {
        *share = arm / speed;
    }
    slip[3] = -set.hitch_share;
    slip
}

fn unit(index: usize, size: usize) -> Vec<f64> {
    let mut row = vec![0.0; size];
    row[index] = 1.0;
    row
}

/// Sideways speed of the trailer's centre of gravity from (v, r, q').
fn trailer_row(rig: &Rig) -> Row {
    let behind = rig.trailer.ball_to_centre.metres();
    [1.0, -(rig.car.centre_to_ball.metres() + behind), -behind]
}

fn mass_matrix(rig: &Rig) -> [Row; 3] {
    let parts = [
        (rig.car.mass.kilograms(), [1.0, 0.0, 0.0]),
        (rig.trailer.mass.kilograms(), trailer_row(rig)),
        (rig.car.yaw_inertia_kg_m2, [0.0, 1.0, 0.0]),
        (rig.trailer.yaw_inertia_kg_m2, [0.0, 1.0, 1.0]),
    ];
    let mut sum = [[0.0; 3]; 3];
    for (inertia, row) in parts {
        for i in 0..3 {
            for j in 0..3 {
                sum[i][j] += inertia * row[i] * row[j];
            }
        }
    }
    sum
}

/// Inverse of a symmetric matrix by its cofactors. All inertias are above zero, so it exists.
fn inverse(a: &[Row; 3]) -> [Row; 3] {
    let whole = determinant(a[0], a[1], a[2]);
    let mut found = [[0.0; 3]; 3];
    for (i, row) in found.iter_mut().enumerate() {
        for (j, value) in row.iter_mut().enumerate() {
            let (p, q, r, s) = ((j + 1) % 3, (j + 2) % 3, (i + 1) % 3, (i + 2) % 3);
            *value = (a[p][r] * a[q][s] - a[p][s] * a[q][r]) / whole;
        }
    }
    found
}
