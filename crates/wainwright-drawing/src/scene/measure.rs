//! Places, sizes, spaces and directions by tape measure, from the inside of the
//! box. Not here: where they come on the sheet.

/// A place by tape measure, from the inside of the box. Negative values lie ahead of or outside it.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Spot {
    /// From the inside of the front wall, backwards [m].
    pub from_front_m: f64,
    /// From the inside of the left wall, to the right [m].
    pub from_left_m: f64,
    /// Above the floor [m].
    pub up_m: f64,
}

impl Spot {
    /// The place this far from front wall, left wall and floor [m].
    pub fn new(from_front_m: f64, from_left_m: f64, up_m: f64) -> Self {
        Self {
            from_front_m,
            from_left_m,
            up_m,
        }
    }
}

/// A size [m].
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Extent {
    /// From front to rear [m].
    pub along_m: f64,
    /// From left to right [m].
    pub across_m: f64,
    /// Upwards [m].
    pub up_m: f64,
}

impl Extent {
    /// The size along, across and up [m].
    pub fn new(along_m: f64, across_m: f64, up_m: f64) -> Self {
        Self {
            along_m,
            across_m,
            up_m,
        }
    }
}

/// A box-shaped space.
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Space {
    /// Its front-left-lower corner.
    pub at: Spot,
    /// Its size.
    pub size: Extent,
}

/// A side of the box.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Wall {
    /// Towards the tow vehicle.
    Front,
    /// Towards the back.
    Rear,
    /// Left, seen facing forwards.
    Left,
    /// Right, seen facing forwards.
    Right,
    /// Overhead.
    Roof,
    /// Underfoot.
    Floor,
}

/// A direction of the tape-measure frame.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Axis {
    /// From front to rear.
    Along,
    /// From left to right.
    Across,
    /// Upwards.
    Up,
}

impl Axis {
    /// The name a script reads.
    pub(super) fn word(self) -> &'static str {
        match self {
            Self::Along => "from-front",
            Self::Across => "from-left",
            Self::Up => "up",
        }
    }
}

impl Spot {
    /// The measure along one direction [m].
    pub(super) fn along(&self, axis: Axis) -> f64 {
        match axis {
            Axis::Along => self.from_front_m,
            Axis::Across => self.from_left_m,
            Axis::Up => self.up_m,
        }
    }

    /// The place with one measure changed.
    pub(super) fn with(mut self, axis: Axis, metres: f64) -> Self {
        match axis {
            Axis::Along => self.from_front_m = metres,
            Axis::Across => self.from_left_m = metres,
            Axis::Up => self.up_m = metres,
        }
        self
    }

    /// Whether it can be drawn at all.
    pub(super) fn known(&self) -> bool {
        let measures = [self.from_front_m, self.from_left_m, self.up_m];
        measures
            .iter()
            .all(|metres| metres.is_finite() && metres.abs() < 1e6)
    }
}

impl Space {
    /// The corner opposite to `at`.
    pub(super) fn far(&self) -> Spot {
        Spot::new(
            self.at.from_front_m + self.size.along_m,
            self.at.from_left_m + self.size.across_m,
            self.at.up_m + self.size.up_m,
        )
    }

    /// The same with its range along one direction changed.
    pub(super) fn between(&self, axis: Axis, low: f64, high: f64) -> Self {
        let (at, far) = (self.at.with(axis, low), self.far().with(axis, high));
        Self::spanning(at, far)
    }

    /// The space between two corners.
    pub(super) fn spanning(at: Spot, far: Spot) -> Self {
        let size = Extent::new(
            far.from_front_m - at.from_front_m,
            far.from_left_m - at.from_left_m,
            far.up_m - at.up_m,
        );
        Self { at, size }
    }

    /// Whether it can be drawn at all.
    pub(super) fn known(&self) -> bool {
        self.at.known() && self.far().known()
    }
}

impl Wall {
    /// The direction through the wall, and whether it grows outwards.
    pub(super) fn through(self) -> (Axis, f64) {
        match self {
            Self::Front => (Axis::Along, -1.0),
            Self::Rear => (Axis::Along, 1.0),
            Self::Left => (Axis::Across, -1.0),
            Self::Right => (Axis::Across, 1.0),
            Self::Roof => (Axis::Up, 1.0),
            Self::Floor => (Axis::Up, -1.0),
        }
    }
}
