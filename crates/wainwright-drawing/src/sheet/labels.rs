//! Grids of labels for wires: to be cut, or printed on sheets of labels.

use super::{Fold, LabelGrid, UNIT_MM, WireLabel, finished};
use crate::board::grown;
use crate::geometry::{Point, Rect};
use crate::picture::{Pen, Picture};
use crate::text::{fit, text_width};

/// Free edge within a label [mm].
const EDGE_MM: f64 = 1.0;
/// Largest letter height [mm].
const LARGEST_MM: f64 = 5.0;
/// Smallest letter height [mm]; longer texts are shortened.
const SMALLEST_MM: f64 = 1.5;
/// Letter height of the small lines, in parts of the large one.
const SMALL: f64 = 0.7;
/// Height of a line, in parts of the letter height.
const LINE: f64 = 1.25;
/// Bold letters are wider by this factor.
const BOLD: f64 = 1.07;
/// Length of a cut mark [mm].
const MARK_MM: f64 = 2.0;
/// Most labels on a sheet.
const MOST: usize = 1000;

/// One picture per sheet; none without labels, or if the grid has no cells.
pub fn label_sheets(grid: &LabelGrid, labels: &[WireLabel]) -> Vec<Picture> {
    let cells = cells(grid);
    if cells.is_empty() || labels.is_empty() {
        return Vec::new();
    }
    let used = grid.used % cells.len();
    let slots = std::iter::repeat_n(None, used).chain(labels.iter().map(Some));
    let slots: Vec<Option<&WireLabel>> = slots.collect();
    let sheet = |slots: &[Option<&WireLabel>]| {
        let mut pen = Pen::default();
        for (cell, label) in cells.iter().zip(slots) {
            if let Some(label) = label {
                draw(&mut pen, grid, *cell, label);
            }
        }
        finished(pen, grid.paper, grid.landscape)
    };
    slots.chunks(cells.len()).map(sheet).collect()
}

/// The cells from the left, row by row; none if a measure is senseless.
fn cells(grid: &LabelGrid) -> Vec<Rect> {
    let measures = [
        grid.cell_width_mm,
        grid.cell_height_mm,
        grid.left_mm,
        grid.top_mm,
        grid.gap_across_mm,
        grid.gap_down_mm,
    ];
    let sound = measures
        .iter()
        .all(|mm| mm.is_finite() && (0.0..=1000.0).contains(mm));
    if !sound || grid.cell_width_mm < 4.0 || grid.cell_height_mm < 4.0 {
        return Vec::new();
    }
    let mut cells = Vec::new();
    for row in 0..grid.rows.min(MOST) {
        for column in 0..grid.columns.min(MOST) {
            let x = grid.left_mm + column as f64 * (grid.cell_width_mm + grid.gap_across_mm);
            let y = grid.top_mm + row as f64 * (grid.cell_height_mm + grid.gap_down_mm);
            let (width, height) = grid.paper.size_mm(grid.landscape);
            let inside =
                x + grid.cell_width_mm <= width + 0.1 && y + grid.cell_height_mm <= height + 0.1;
            if inside && cells.len() < MOST {
                let mm = [x, y, grid.cell_width_mm, grid.cell_height_mm].map(|mm| mm / UNIT_MM);
                cells.push(Rect::new(mm[0], mm[1], mm[2], mm[3]));
            }
        }
    }
    cells
}

fn draw(pen: &mut Pen, grid: &LabelGrid, cell: Rect, label: &WireLabel) {
    if grid.cut_marks {
        marks(pen, cell);
    }
    match grid.fold {
        Fold::Flat => write(pen, cell, label, false),
        Fold::Flag => {
            let half = cell.height / 2.0;
            let middle = cell.y + half;
            let tick = MARK_MM / UNIT_MM;
            pen.out.line(
                "cut",
                Point::new(cell.x, middle),
                Point::new(cell.x + tick, middle),
            );
            pen.out.line(
                "cut",
                Point::new(cell.right() - tick, middle),
                Point::new(cell.right(), middle),
            );
            write(
                pen,
                Rect::new(cell.x, cell.y, cell.width, half),
                label,
                false,
            );
            write(
                pen,
                Rect::new(cell.x, middle, cell.width, half),
                label,
                true,
            );
        }
    }
}

/// Short strokes at the corners, along the edges.
fn marks(pen: &mut Pen, cell: Rect) {
    let tick = MARK_MM / UNIT_MM;
    for (x, inwards_x) in [(cell.x, tick), (cell.right(), -tick)] {
        for (y, inwards_y) in [(cell.y, tick), (cell.bottom(), -tick)] {
            pen.out
                .line("cut", Point::new(x, y), Point::new(x + inwards_x, y));
            pen.out
                .line("cut", Point::new(x, y), Point::new(x, y + inwards_y));
        }
    }
}

/// The lines of a label in the middle of its room, as large as they fit.
fn write(pen: &mut Pen, room: Rect, label: &WireLabel, upside_down: bool) {
    let room = grown(room, -EDGE_MM / UNIT_MM);
    let smallest = SMALLEST_MM / UNIT_MM;
    let small: Vec<&String> = label.lines.iter().filter(|line| !line.is_empty()).collect();
    // Lines for which there is no room at the smallest size are left out, from the last.
    let most = ((room.height / LINE - smallest) / smallest)
        .max(0.0)
        .floor() as usize;
    let small = small.get(..small.len().min(most)).unwrap_or(&[]);
    let share = 1.0 + SMALL * small.len() as f64;
    let size = (room.height / LINE / share).min(LARGEST_MM / UNIT_MM);
    let mut lines = vec![(
        "t-bold",
        line_size(&label.name, size, BOLD, room.width),
        label.name.as_str(),
    )];
    for line in small {
        let size = line_size(line, size * SMALL, 1.0, room.width);
        lines.push(("t-plain", size, line.as_str()));
    }
    let tall: f64 = lines.iter().map(|(_, size, _)| size * LINE).sum();
    let mut top = room.y + (room.height - tall) / 2.0;
    for (class, size, text) in lines {
        let factor = if class == "t-bold" { BOLD } else { 1.0 };
        let text = fit(text, size * factor, room.width);
        let width = text_width(&text, size * factor);
        let height = size * LINE;
        let x = room.x + (room.width - width) / 2.0;
        // Upside down the first line is the lowest.
        let y = if upside_down {
            room.y + room.bottom() - top - height
        } else {
            top
        };
        if !text.is_empty() {
            pen.text_sized(
                class,
                size,
                Rect::new(x, y, width, height),
                upside_down,
                &text,
            );
        }
        top += height;
    }
}

/// The size at which a text fits in this width, not below the smallest.
fn line_size(text: &str, wanted: f64, factor: f64, width: f64) -> f64 {
    let wide = text_width(text, 1.0) * factor;
    let fitting = if wide > 0.0 { width / wide } else { wanted };
    fitting.min(wanted).max((SMALLEST_MM / UNIT_MM).min(wanted))
}
