//! Sheets of paper and what is printed on them, as plain data.

/// A size of paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Paper {
    /// 8.5 in by 11 in.
    Letter,
    /// 210 mm by 297 mm.
    A4,
}

impl Paper {
    /// Width and height [mm].
    pub fn size_mm(self, landscape: bool) -> (f64, f64) {
        let (width, height) = match self {
            Self::Letter => (215.9, 279.4),
            Self::A4 => (210.0, 297.0),
        };
        if landscape {
            (height, width)
        } else {
            (width, height)
        }
    }
}

/// One sheet and its title block. All text is ready for printing.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sheet {
    /// Size of the paper.
    pub paper: Paper,
    /// Longer edge level.
    pub landscape: bool,
    /// Name of the drawing.
    pub title: String,
    /// What it belongs to, e.g. the name of the project.
    pub subtitle: String,
    /// E.g. `Sheet 2 of 5`.
    pub number_text: String,
    /// Date, given by the caller.
    pub date_text: String,
    /// A line of warning or advice in the title block; may be empty.
    pub note: String,
}

/// A scale people draw in.
#[derive(Debug, Clone, PartialEq)]
pub struct Ratio {
    /// Real length over length on paper, e.g. 24 for half an inch to a foot.
    pub real_per_paper: f64,
    /// Printed, e.g. `Scale 1:20`.
    pub text: String,
}

/// A grid of labels for wires.
#[derive(Debug, Clone, PartialEq)]
pub struct LabelGrid {
    /// Size of the paper.
    pub paper: Paper,
    /// Longer edge level.
    pub landscape: bool,
    /// Labels beside each other.
    pub columns: usize,
    /// Labels below each other.
    pub rows: usize,
    /// Width of a label [mm].
    pub cell_width_mm: f64,
    /// Height of a label [mm].
    pub cell_height_mm: f64,
    /// Left edge of the first label [mm].
    pub left_mm: f64,
    /// Top edge of the first label [mm].
    pub top_mm: f64,
    /// Between labels beside each other [mm].
    pub gap_across_mm: f64,
    /// Between labels below each other [mm].
    pub gap_down_mm: f64,
    /// Labels at the start of the first sheet that are used up.
    pub used: usize,
    /// Marks at the corners, to cut along.
    pub cut_marks: bool,
    /// How a label is folded.
    pub fold: Fold,
}

/// How a label goes on the wire.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fold {
    /// Flag: the text twice, the lower one upside down, folded in the middle around the wire.
    Flag,
    /// The text once.
    Flat,
}

/// One label.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct WireLabel {
    /// Large line, e.g. `W12`.
    pub name: String,
    /// Small lines, e.g. `fuse block 3 to pump`, `14 AWG, 10 A`.
    pub lines: Vec<String>,
}
