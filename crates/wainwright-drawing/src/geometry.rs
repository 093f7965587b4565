//! Points and rectangles on the sheet [px], x to the right, y downwards.

/// A place on the sheet [px].
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Point {
    /// To the right [px].
    pub x: f64,
    /// Downwards [px].
    pub y: f64,
}

impl Point {
    /// The place `x` to the right and `y` down.
    pub fn new(x: f64, y: f64) -> Self {
        Self { x, y }
    }
}

/// An upright rectangle [px].
#[derive(Debug, Clone, Copy, PartialEq, Default)]
pub struct Rect {
    /// Left edge [px].
    pub x: f64,
    /// Top edge [px].
    pub y: f64,
    /// Width [px], not negative.
    pub width: f64,
    /// Height [px], not negative.
    pub height: f64,
}

impl Rect {
    /// The rectangle with this top left corner and size.
    pub fn new(x: f64, y: f64, width: f64, height: f64) -> Self {
        Self {
            x,
            y,
            width,
            height,
        }
    }

    /// Right edge [px].
    pub fn right(&self) -> f64 {
        self.x + self.width
    }

    /// Bottom edge [px].
    pub fn bottom(&self) -> f64 {
        self.y + self.height
    }

    /// Whether the insides share any area; touching edges do not count.
    pub fn overlaps(&self, other: &Rect) -> bool {
        self.x < other.right()
            && other.x < self.right()
            && self.y < other.bottom()
            && other.y < self.bottom()
    }
}
