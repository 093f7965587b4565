//! Points and vectors in the trailer frame: x backwards from the hitch ball centre, y to the
//! left of the centre line (facing forwards), z up from the ground. Right-handed would need x
//! forwards; here x runs backwards, so the frame is left-handed and there is no cross product.

use crate::geometry::{Area, Length};

/// A place in the trailer frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Point {
    /// Backwards from the hitch ball centre \[m\].
    pub x: Length,
    /// Left of the centre line, seen facing forwards \[m\].
    pub y: Length,
    /// Up from the ground \[m\].
    pub z: Length,
}

/// A displacement in the trailer frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Vector {
    /// Backwards \[m\].
    pub x: Length,
    /// To the left, seen facing forwards \[m\].
    pub y: Length,
    /// Up \[m\].
    pub z: Length,
}

impl Point {
    /// The ground under the hitch ball centre.
    pub const ORIGIN: Point = Point {
        x: Length::ZERO,
        y: Length::ZERO,
        z: Length::ZERO,
    };

    /// A point from its three coordinates.
    #[must_use]
    pub const fn new(x: Length, y: Length, z: Length) -> Self {
        Point { x, y, z }
    }

    /// A point from three numbers of metres.
    #[must_use]
    pub const fn from_metres(x: f64, y: f64, z: f64) -> Self {
        Point::new(
            Length::from_metres(x),
            Length::from_metres(y),
            Length::from_metres(z),
        )
    }

    /// Straight distance to another point.
    #[must_use]
    pub fn distance(self, other: Point) -> Length {
        (other - self).length()
    }

    /// The point `share` of the way to another: 0 is here, 1 is there.
    #[must_use]
    pub fn towards(self, other: Point, share: f64) -> Point {
        self + (other - self) * share
    }
}

impl Vector {
    /// No displacement.
    pub const ZERO: Vector = Vector {
        x: Length::ZERO,
        y: Length::ZERO,
        z: Length::ZERO,
    };

    /// A vector from its three components.
    #[must_use]
    pub const fn new(x: Length, y: Length, z: Length) -> Self {
        Vector { x, y, z }
    }

    /// A vector from three numbers of metres.
    #[must_use]
    pub const fn from_metres(x: f64, y: f64, z: f64) -> Self {
        Vector::new(
            Length::from_metres(x),
            Length::from_metres(y),
            Length::from_metres(z),
        )
    }

    /// Straight length, without overflow for large components.
    #[must_use]
    pub fn length(self) -> Length {
        Length::from_metres(
            self.x
                .metres()
                .hypot(self.y.metres())
                .hypot(self.z.metres()),
        )
    }

    /// Length of a run that follows the three axes in turn, as wires along walls do.
    #[must_use]
    pub const fn length_along_axes(self) -> Length {
        Length::from_metres(self.x.metres().abs() + self.y.metres().abs() + self.z.metres().abs())
    }

    /// Scalar product \[m²\].
    #[must_use]
    pub fn dot(self, other: Vector) -> Area {
        self.x * other.x + self.y * other.y + self.z * other.z
    }
}

impl std::ops::Sub for Point {
    type Output = Vector;
    fn sub(self, from: Point) -> Vector {
        Vector::new(self.x - from.x, self.y - from.y, self.z - from.z)
    }
}

impl std::ops::Add<Vector> for Point {
    type Output = Point;
    fn add(self, by: Vector) -> Point {
        Point::new(self.x + by.x, self.y + by.y, self.z + by.z)
    }
}

impl std::ops::Sub<Vector> for Point {
    type Output = Point;
    fn sub(self, by: Vector) -> Point {
        Point::new(self.x - by.x, self.y - by.y, self.z - by.z)
    }
}

impl std::ops::Add for Vector {
    type Output = Vector;
    fn add(self, other: Vector) -> Vector {
        Vector::new(self.x + other.x, self.y + other.y, self.z + other.z)
    }
}

impl std::ops::Sub for Vector {
    type Output = Vector;
    fn sub(self, other: Vector) -> Vector {
        Vector::new(self.x - other.x, self.y - other.y, self.z - other.z)
    }
}

impl std::ops::Neg for Vector {
    type Output = Vector;
    fn neg(self) -> Vector {
        Vector::new(-self.x, -self.y, -self.z)
    }
}

impl std::ops::Mul<f64> for Vector {
    type Output = Vector;
    fn mul(self, factor: f64) -> Vector {
        Vector::new(self.x * factor, self.y * factor, self.z * factor)
    }
}
