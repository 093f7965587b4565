//! Where the numbers of pieces and the names of openings stand: inside where there is room, on a ground of their own
//! over what is too thin, nowhere on another text.

use crate::board::{contains, grown};
use crate::geometry::Rect;
use crate::text::text_width;

/// Largest and smallest letters of a number [px].
const LARGEST: f64 = 12.0;
const SMALLEST: f64 = 8.0;
/// Bold letters are wider by this factor.
const BOLD: f64 = 1.07;
/// Height of a line, in parts of the letter height.
const LINE: f64 = 1.2;
/// Where along a piece its number may stand, the best first.
const PLACES: [f64; 11] = [0.5, 0.4, 0.6, 0.3, 0.7, 0.22, 0.78, 0.14, 0.86, 0.07, 0.93];

/// A number and where it stands.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Standing {
    /// Box of the text.
    pub rect: Rect,
    /// Letter height [px].
    pub size: f64,
    /// It is larger than its piece and needs a ground of its own.
    pub ground: bool,
}

/// The texts of one drawing so far.
#[derive(Debug, Default)]
pub(crate) struct Places {
    /// Texts stay inside this.
    pub area: Rect,
    /// What no text may cover: other texts, openings.
    pub taken: Vec<Rect>,
}

impl Places {
    /// Finds a place for `text` in `body`, off `holes`; remembers it.
    pub fn take(&mut self, text: &str, body: Rect, holes: &[Rect]) -> Option<Standing> {
        let thin = body.width.min(body.height);
        let size = (thin / LINE - 1.0).clamp(SMALLEST, LARGEST);
        let (wide, high) = (text_width(text, size) * BOLD + 2.0, size * LINE);
        let level = body.width >= body.height;
        let fits = wide <= body.width && high <= body.height;
        for share in PLACES {
            let (x, y) = match level {
                true => (body.x + body.width * share, body.y + body.height / 2.0),
                false => (body.x + body.width / 2.0, body.y + body.height * share),
            };
            let rect = Rect::new(x - wide / 2.0, y - high / 2.0, wide, high);
            // A thin piece's number may reach over its long edges, never beyond its ends.
            let along = match level {
                true => rect.x >= body.x && rect.right() <= body.right(),
                false => rect.y >= body.y && rect.bottom() <= body.bottom(),
            };
            let free = along
                && (!fits || contains(&grown(body, 0.01), &rect))
                && contains(&self.area, &rect)
                && !self
                    .taken
                    .iter()
                    .chain(holes)
                    .any(|known| known.overlaps(&rect));
            if free {
                self.taken.push(rect);
                let ground = !fits;
                return Some(Standing { rect, size, ground });
            }
        }
        None
    }
}
