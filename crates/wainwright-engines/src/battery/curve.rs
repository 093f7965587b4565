//! A measured curve of points, straight in between.

/// Points (x, y) in rising x, straight in between and flat outside.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Curve<'a> {
    points: &'a [(f64, f64)],
}

impl<'a> Curve<'a> {
    /// Nothing: zero everywhere.
    pub const NONE: Curve<'static> = Curve { points: &[] };

    /// From points in rising x; points that do not rise make the value between them undefined.
    #[must_use]
    pub const fn new(points: &'a [(f64, f64)]) -> Curve<'a> {
        Curve { points }
    }

    /// The x of its points.
    pub(crate) fn stops(&self) -> impl Iterator<Item = f64> + use<'a> {
        self.points.iter().map(|point| point.0)
    }

    /// The value at x; zero without points.
    #[must_use]
    pub fn at(&self, x: f64) -> f64 {
        let after = self.points.partition_point(|point| point.0 < x);
        let before = after.checked_sub(1).and_then(|at| self.points.get(at));
        match (before, self.points.get(after)) {
            (Some(left), Some(right)) => {
                left.1 + (right.1 - left.1) * (x - left.0) / (right.0 - left.0)
            }
            (Some(only), None) | (None, Some(only)) => only.1,
            (None, None) => 0.0,
        }
    }

    /// The value at x, going on above the last point as steeply as the curve ends.
    #[must_use]
    pub fn at_or_beyond(&self, x: f64) -> f64 {
        match self.end() {
            Some((last, slope)) if x > last.0 => last.1 + slope * (x - last.0),
            _ => self.at(x),
        }
    }

    /// The first x at which a curve that rises reaches y, going on above its last point as steeply
    /// as it ends; `None` when it is level there or has fewer than two points.
    #[must_use]
    pub fn reaches(&self, y: f64) -> Option<f64> {
        let Some(after) = self.points.iter().position(|point| point.1 >= y) else {
            let (last, slope) = self.end()?;
            return (slope > 0.0).then(|| last.0 + (y - last.1) / slope);
        };
        let right = self.points.get(after)?;
        let Some(left) = after.checked_sub(1).and_then(|at| self.points.get(at)) else {
            return Some(right.0);
        };
        Some(left.0 + (right.0 - left.0) * (y - left.1) / (right.1 - left.1))
    }

    /// Area under the curve from one x to another.
    #[must_use]
    pub fn area(&self, from: f64, to: f64) -> f64 {
        if to < from {
            return -self.area(to, from);
        }
        let inner = self.points.iter().map(|point| point.0);
        let mut sum = 0.0;
        let mut left = from;
        for x in inner.filter(|x| *x > from && *x < to).chain([to]) {
            sum += (x - left) * (self.at(left) + self.at(x)) / 2.0;
            left = x;
        }
        sum
    }

    /// The last point and the slope up to it.
    fn end(&self) -> Option<((f64, f64), f64)> {
        let [.., before, last] = self.points else {
            return None;
        };
        Some((*last, (last.1 - before.1) / (last.0 - before.0)))
    }
}
