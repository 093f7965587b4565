//! Where a notch is on its piece, as somebody marks it with a tape: from which end, how long, from which edge, how deep.

use super::words::tape;
use crate::web::view::View;
use wainwright_analysis::result::lining::{Direction, LaidPiece, Rect};
use wainwright_model::Side;

/// A notch that ends so near to an edge of its piece is open to it \[m\].
const OPEN_M: f64 = 0.002;

/// Names of the ends and edges of a piece: where its length starts, its low edge, its high edge.
fn names(side: Side, runs: Direction) -> (&'static str, [&'static str; 2]) {
    match (side, runs) {
        (Side::Front | Side::Rear, Direction::Width) => ("left end", ["lower edge", "upper edge"]),
        (Side::Front | Side::Rear, Direction::Height) => ("lower end", ["left edge", "right edge"]),
        (Side::Roof | Side::Floor, Direction::Width) => ("front end", ["left edge", "right edge"]),
        (Side::Roof | Side::Floor, Direction::Height) => ("left end", ["front edge", "rear edge"]),
        (_, Direction::Width) => ("front end", ["lower edge", "upper edge"]),
        (_, Direction::Height) => ("lower end", ["front edge", "rear edge"]),
    }
}

/// One notch or hole in words.
pub fn words(view: &View, piece: &LaidPiece, cut: &Rect) -> String {
    let (end, edges) = names(piece.mark.side, piece.runs);
    let own = &piece.rect;
    let (from, long, low, deep, high) = match piece.runs {
        Direction::Width => (
            cut.x - own.x,
            cut.width,
            cut.y - own.y,
            cut.height,
            own.y + own.height - cut.y - cut.height,
        ),
        Direction::Height => (
            cut.y - own.y,
            cut.height,
            cut.x - own.x,
            cut.width,
            own.x + own.width - cut.x - cut.width,
        ),
    };
    let tape = |length| tape(view, length);
    let along = format!("{} from its {end}, {} long", tape(from), tape(long));
    match (low.metres() < OPEN_M, high.metres() < OPEN_M) {
        (true, false) => format!("notch in the {}: {along}, {} deep", edges[0], tape(deep)),
        (false, true) => format!("notch in the {}: {along}, {} deep", edges[1], tape(deep)),
        (false, false) => format!(
            "hole: {along}, {} wide, {} from its {}",
            tape(deep),
            tape(low),
            edges[0]
        ),
        (true, true) => format!("cut out over its whole width: {along}"),
    }
}
