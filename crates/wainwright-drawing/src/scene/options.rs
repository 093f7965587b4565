//! How a scene is shown: which face, how large, which words.

/// What is looked at, and from where.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct View {
    /// What is looked at.
    pub face: Face,
    /// Whether the person stands inside the box; seen from above it does not matter.
    pub inside: bool,
    /// Where the front of the trailer points; only seen from above.
    pub front: Facing,
}

impl View {
    /// The floor seen from above, front to the left: for wide sheets.
    pub fn plan() -> Self {
        Self {
            face: Face::Floor,
            inside: true,
            front: Facing::Left,
        }
    }

    /// The floor seen from above, front upwards: for a phone.
    pub fn plan_upright() -> Self {
        Self {
            front: Facing::Up,
            ..Self::plan()
        }
    }

    /// A wall seen from inside the box.
    pub fn wall_inside(face: Face) -> Self {
        Self {
            face,
            ..Self::plan()
        }
    }

    /// A side of the trailer seen from outside, with its wheels.
    pub fn outside(face: Face) -> Self {
        Self {
            inside: false,
            ..Self::wall_inside(face)
        }
    }
}

/// What is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Face {
    /// Floor plan.
    Floor,
    /// Left wall.
    Left,
    /// Right wall.
    Right,
    /// Front wall.
    Front,
    /// Rear wall.
    Rear,
}

/// A direction on the sheet.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Facing {
    /// To the left.
    Left,
    /// Upwards.
    Up,
    /// To the right.
    Right,
    /// Downwards.
    Down,
}

/// How large the drawing becomes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Fit {
    /// As large as fits in this width and height [px]. The list of numbers below may add height.
    Within {
        /// Width of the sheet [px].
        width: f64,
        /// Height for the drawing itself [px].
        height: f64,
    },
    /// At a fixed scale: units of the drawing per metre.
    Scale {
        /// Units per metre.
        units_per_m: f64,
    },
}

/// Which layer can be reached where things and wires lie over each other.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Layer {
    /// Things over wires: for placing.
    #[default]
    Things,
    /// Wires over things: for routes.
    Wires,
}

/// How a scene is drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Options {
    /// How large.
    pub fit: Fit,
    /// What lies on top.
    pub top: Layer,
    /// Lengths of which one becomes the scale bar: the longest that is at most a third of the width.
    pub scale_bars: Vec<ScaleBar>,
    /// Words on the drawing.
    pub words: Words,
    /// Put before every `id`, so that two drawings can stand on one page.
    pub id_prefix: String,
    /// Counts of wires on trunks.
    pub counts: bool,
}

impl Default for Options {
    fn default() -> Self {
        Self {
            fit: Fit::Within {
                width: 900.0,
                height: 520.0,
            },
            top: Layer::Things,
            scale_bars: Vec::new(),
            words: Words::default(),
            id_prefix: String::new(),
            counts: true,
        }
    }
}

/// One length for the scale bar.
#[derive(Debug, Clone, PartialEq)]
pub struct ScaleBar {
    /// Its length [m].
    pub length_m: f64,
    /// Printed beside it, e.g. `1 m`.
    pub text: String,
}

/// Words on the drawing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Words {
    /// Towards the tow vehicle.
    pub front: String,
    /// To the left, seen facing forwards.
    pub left: String,
    /// Upwards.
    pub up: String,
    /// Before the names of things too far away to be drawn.
    pub elsewhere: String,
}

impl Default for Words {
    fn default() -> Self {
        Self {
            front: "front".into(),
            left: "left".into(),
            up: "up".into(),
            elsewhere: "not on this drawing:".into(),
        }
    }
}
