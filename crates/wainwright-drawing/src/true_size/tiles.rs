//! How a board is shared out over pages: windows that overlap, the fewest pages, upright or lying.

use super::Box2;
use crate::geometry::Rect;
use crate::sheet::Paper;

/// Edge of the paper that printers leave free [mm].
const MARGIN: f64 = 10.0;
/// Strip at the left with the upright bar [mm].
const BESIDE: f64 = 8.0;
/// Strip at the foot with words and the level bar [mm].
const BELOW: f64 = 27.0;
/// Neighbouring pages show so much in common [mm].
pub(super) const OVERLAP: f64 = 10.0;
/// Shown around the board [mm].
const AROUND: f64 = 4.0;
/// Marks along the middle of an overlap are so far apart [mm].
const MARKS: f64 = 50.0;
/// Most pages of one template.
const MOST: usize = 200;

/// A board shared out over pages.
#[derive(Debug, Clone, PartialEq)]
pub struct Tiles {
    /// The paper.
    pub paper: Paper,
    /// Longer edge level.
    pub landscape: bool,
    /// Pages beside each other.
    pub columns: usize,
    /// Pages below each other.
    pub rows: usize,
    /// The pages, row by row from the top.
    pub tiles: Vec<Tile>,
    /// Marks in the overlaps: name and place on the board [mm].
    pub marks: Vec<(String, f64, f64)>,
}

/// One page.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tile {
    /// Row from the top, from 0.
    pub row: usize,
    /// Column from the left, from 0.
    pub column: usize,
    /// Left edge of what it shows, on the board [mm].
    pub left: f64,
    /// Upper edge of what it shows, on the board [mm].
    pub top: f64,
    /// Where on the paper that is shown: from its upper left corner [mm].
    pub window: Rect,
}

impl Tile {
    /// A place on the board [mm] as a place on the paper [mm].
    pub fn on_paper(&self, x: f64, y: f64) -> (f64, f64) {
        (self.window.x + x - self.left, self.window.y + self.top - y)
    }
}

/// Shares a board out; `None` without a size or when it takes too many pages.
pub fn tiles(board: &Box2, paper: Paper) -> Option<Tiles> {
    if !board.known() {
        return None;
    }
    let [upright, lying] = [false, true].map(|landscape| shared(board, paper, landscape));
    let best = if lying.columns * lying.rows < upright.columns * upright.rows {
        lying
    } else {
        upright
    };
    if best.columns * best.rows > MOST {
        return None;
    }
    Some(filled(best, board))
}

fn window(paper: Paper, landscape: bool) -> Rect {
    let (width, height) = paper.size_mm(landscape);
    Rect::new(
        MARGIN + BESIDE,
        MARGIN,
        width - 2.0 * MARGIN - BESIDE,
        height - 2.0 * MARGIN - BELOW,
    )
}

fn shared(board: &Box2, paper: Paper, landscape: bool) -> Tiles {
    let window = window(paper, landscape);
    let many = |metres: f64, room: f64| {
        let pages = (metres * 1000.0 + 2.0 * AROUND - OVERLAP) / (room - OVERLAP);
        // A board that ends on the edge needs no further page for the rounding of its size.
        ((pages - 1e-9).ceil().max(1.0)) as usize
    };
    Tiles {
        paper,
        landscape,
        columns: many(board.width_m, window.width).min(MOST + 1),
        rows: many(board.height_m, window.height).min(MOST + 1),
        tiles: Vec::new(),
        marks: Vec::new(),
    }
}

fn filled(mut tiles: Tiles, board: &Box2) -> Tiles {
    let window = window(tiles.paper, tiles.landscape);
    let (wide, high) = (window.width - OVERLAP, window.height - OVERLAP);
    let left = board.x_m * 1000.0 - AROUND;
    let top = (board.y_m + board.height_m) * 1000.0 + AROUND;
    for row in 0..tiles.rows {
        for column in 0..tiles.columns {
            tiles.tiles.push(Tile {
                row,
                column,
                left: left + wide * column as f64,
                top: top - high * row as f64,
                window,
            });
        }
    }
    let size = (board.width_m * 1000.0, board.height_m * 1000.0);
    let steps = |length: f64| (0..=(length / MARKS) as usize).map(|step| step as f64 * MARKS);
    let mut letters = 'A'..='Z';
    for seam in 1..tiles.columns {
        let letter = letters.next().unwrap_or('Z');
        let x = left + wide * seam as f64 + OVERLAP / 2.0;
        for (number, up) in steps(size.1).enumerate() {
            let name = format!("{letter}{}", number + 1);
            tiles.marks.push((name, x, board.y_m * 1000.0 + up));
        }
    }
    for seam in 1..tiles.rows {
        let letter = letters.next().unwrap_or('Z');
        let y = top - high * seam as f64 - OVERLAP / 2.0;
        for (number, along) in steps(size.0).enumerate() {
            let name = format!("{letter}{}", number + 1);
            tiles.marks.push((name, board.x_m * 1000.0 + along, y));
        }
    }
    tiles
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Windows of letter upright: 215.9 − 28 = 187.9 mm by 279.4 − 47 = 232.4 mm.
    #[test]
    fn neighbours_share_ten_millimetres_and_the_whole_board_is_on_some_page() {
        for paper in [Paper::Letter, Paper::A4] {
            let board = Box2::new(-0.0127, -0.0127, 1.143, 0.8382);
            let shared = tiles(&board, paper).unwrap();
            assert_eq!(shared.tiles.len(), shared.columns * shared.rows);
            for pair in shared
                .tiles
                .windows(2)
                .filter(|pair| pair[0].row == pair[1].row)
            {
                let common = pair[0].left + pair[0].window.width - pair[1].left;
                assert!((common - 10.0).abs() < 1e-9);
            }
            let last = shared.tiles.last().unwrap();
            assert!(last.left + last.window.width >= 1130.3 + AROUND - 1e-6);
            assert!(last.top - last.window.height <= -12.7 - AROUND + 1e-6);
        }
    }

    #[test]
    fn each_mark_is_on_both_pages_that_meet_there() {
        let shared = tiles(&Box2::new(0.0, 0.0, 0.5, 0.4), Paper::A4).unwrap();
        assert!(shared.tiles.len() > 1 && !shared.marks.is_empty());
        for (name, x, y) in &shared.marks {
            let on = shared.tiles.iter().filter(|tile| {
                let (px, py) = tile.on_paper(*x, *y);
                let w = tile.window;
                px >= w.x && px <= w.right() && py >= w.y && py <= w.bottom()
            });
            assert!(on.count() >= 2, "{name}");
        }
    }

    #[test]
    fn a_small_board_takes_one_page_and_a_monster_none() {
        let small = tiles(&Box2::new(0.0, 0.0, 0.15, 0.2), Paper::Letter).unwrap();
        assert_eq!((small.tiles.len(), small.marks.len()), (1, 0));
        assert!(tiles(&Box2::new(0.0, 0.0, 90.0, 90.0), Paper::A4).is_none());
        assert!(tiles(&Box2::default(), Paper::A4).is_none());
    }
}
