//! Surfaces made up for the tests of `lining`, and a grid that pieces are painted on.
#![allow(dead_code, reason = "not every test file needs all of it")]

use wainwright_engines::lining::*;
use wainwright_engines::weather::Randomness;
use wainwright_units::Length;

/// Side of a cell of the grid [mm].
pub const CELL: i64 = 5;

pub fn mm(value: f64) -> Length {
    Length::from_millimetres(value)
}

pub fn inches(value: f64) -> Length {
    Length::from_inches(value)
}

pub fn rect(x: f64, y: f64, width: f64, height: f64) -> Rect {
    Rect {
        x: mm(x),
        y: mm(y),
        width: mm(width),
        height: mm(height),
    }
}

pub fn opening(x: f64, y: f64, width: f64, height: f64) -> Opening {
    Opening {
        rect: rect(x, y, width, height),
        round: false,
    }
}

/// A wall with upright ribs at a distance, from edge to edge [mm].
pub fn wall(width: f64, height: f64, every: f64) -> Surface {
    let count = (width / every).floor() as usize;
    let rib = |at: f64| Rib {
        at: mm(at),
        width: mm(40.0),
        depth: mm(40.0),
    };
    let mut ribs: Vec<Rib> = (0..=count).map(|n| rib(n as f64 * every)).collect();
    if width - count as f64 * every > 1.0 {
        ribs.push(rib(width));
    }
    Surface {
        width: mm(width),
        height: mm(height),
        ribs_run: Direction::Height,
        ribs,
        openings: vec![],
    }
}

pub fn pine(thickness: f64) -> Material {
    Material {
        thickness: mm(thickness),
        density_kg_m3: 445.0,
    }
}

/// Level planks of a face [mm] without any gap.
pub fn level(face: f64) -> PlankOptions {
    PlankOptions {
        runs: Direction::Width,
        face: mm(face),
        material: pine(12.0),
        edge_gap: Length::ZERO,
        end_gap: Length::ZERO,
        opening_gap: Length::ZERO,
        least_rip: mm(50.0),
        least_piece: mm(200.0),
        longest: mm(4000.0),
        stock: vec![StockLength {
            length: mm(2440.0),
            price: 0.0,
        }],
        kerf: mm(3.0),
        stagger: Stagger {
            apart: mm(300.0),
            in_line: mm(150.0),
            courses_between: 2,
        },
        can_rip: true,
        hidden_edge: Length::ZERO,
        hidden_opening: Length::ZERO,
        loosen: Length::ZERO,
        may_lap: false,
        joint_worth: mm(300.0),
        fasteners_per_crossing: 1,
        fastener_spacing: mm(400.0),
        effort: 0,
    }
}

pub fn between(random: &mut Randomness, low: i64, high: i64) -> i64 {
    low + (random.uniform() * (high - low + 1) as f64) as i64
}

/// A number of tens of millimetres.
pub fn tens(random: &mut Randomness, low: i64, high: i64) -> f64 {
    (10 * between(random, low / 10, high / 10)) as f64
}

/// A wall with up to four openings anywhere, on a grid of 10 mm.
pub fn random_wall(random: &mut Randomness) -> Surface {
    let (width, height) = (tens(random, 600, 3600), tens(random, 300, 1600));
    let mut surface = wall(width, height, tens(random, 250, 500));
    for _ in 0..between(random, 0, 4) {
        let (x, y) = (
            tens(random, -100, width as i64),
            tens(random, -100, height as i64),
        );
        let size = (tens(random, 10, 900), tens(random, 10, 700));
        surface.openings.push(opening(x, y, size.0, size.1));
    }
    surface
}

/// How often every cell of a surface is painted.
pub struct Grid {
    columns: i64,
    rows: i64,
    cells: Vec<u8>,
}

impl Grid {
    pub fn of(surface: &Surface) -> Grid {
        let cells = |length: Length| (length.millimetres() / CELL as f64).round() as i64;
        let (columns, rows) = (cells(surface.width), cells(surface.height));
        Grid {
            columns,
            rows,
            cells: vec![0; (columns * rows) as usize],
        }
    }

    fn each(&mut self, rect: &Rect, mut change: impl FnMut(&mut u8)) {
        let cell = |length: Length| {
            let cells = length.millimetres() / CELL as f64;
            assert!((cells - cells.round()).abs() < 1e-6, "{cells} cells");
            cells.round() as i64
        };
        let (x0, x1) = (
            cell(rect.x).max(0),
            cell(rect.x + rect.width).min(self.columns),
        );
        let (y0, y1) = (
            cell(rect.y).max(0),
            cell(rect.y + rect.height).min(self.rows),
        );
        for y in y0..y1 {
            for x in x0..x1 {
                change(&mut self.cells[(y * self.columns + x) as usize]);
            }
        }
    }

    /// Paints a piece without its cuts; the cuts themselves are left as they were.
    pub fn paint(&mut self, piece: &Piece) {
        self.each(&piece.rect, |cell| *cell += 1);
        for cut in &piece.cuts {
            self.each(cut, |cell| *cell -= 1);
        }
    }

    pub fn fill(&mut self, rect: &Rect, with: u8) {
        self.each(rect, |cell| *cell = with);
    }

    /// Cells painted so often, as an area [m²].
    pub fn painted(&self, times: u8) -> f64 {
        let count = self.cells.iter().filter(|&&cell| cell == times).count();
        count as f64 * (CELL * CELL) as f64 * 1e-6
    }

    /// Most coats on any cell.
    pub fn thickest(&self) -> u8 {
        self.cells.iter().copied().max().unwrap_or(0)
    }
}

#[track_caller]
pub fn near(found: f64, expected: f64, tolerance: f64) {
    assert!(
        (found - expected).abs() <= tolerance,
        "{found}, expected {expected} within {tolerance}"
    );
}
