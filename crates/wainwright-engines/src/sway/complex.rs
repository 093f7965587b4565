//! The few operations on complex numbers that the eigenvalue solver needs.

use std::ops::{Add, Mul, Neg, Sub};

/// A complex number.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Complex {
    pub re: f64,
    pub im: f64,
}

impl Complex {
    pub const ZERO: Self = Self { re: 0.0, im: 0.0 };

    pub const fn real(re: f64) -> Self {
        Self { re, im: 0.0 }
    }

    pub fn size(self) -> f64 {
        self.re.hypot(self.im)
    }

    pub fn conjugate(self) -> Self {
        Self {
            re: self.re,
            im: -self.im,
        }
    }

    pub fn scaled(self, factor: f64) -> Self {
        Self {
            re: self.re * factor,
            im: self.im * factor,
        }
    }

    /// The root whose real part is not below zero.
    pub fn root(self) -> Self {
        let size = self.size();
        let re = (0.5 * (size + self.re)).max(0.0).sqrt();
        let im = (0.5 * (size - self.re)).max(0.0).sqrt();
        Self {
            re,
            im: im.copysign(self.im),
        }
    }
}

impl Add for Complex {
    type Output = Self;
    fn add(self, other: Self) -> Self {
        Self {
            re: self.re + other.re,
            im: self.im + other.im,
        }
    }
}

impl Sub for Complex {
    type Output = Self;
    fn sub(self, other: Self) -> Self {
        self + -other
    }
}

impl Neg for Complex {
    type Output = Self;
    fn neg(self) -> Self {
        self.scaled(-1.0)
    }
}

impl Mul for Complex {
    type Output = Self;
    fn mul(self, other: Self) -> Self {
        Self {
            re: self.re * other.re - self.im * other.im,
            im: self.re * other.im + self.im * other.re,
        }
    }
}
