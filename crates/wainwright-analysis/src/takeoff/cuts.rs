//! Cutting wire from the pieces that are there: the longest cut first, into
//! the first piece that has room, short pieces before long ones.

use crate::result::{Cut, CutList, CutPiece};
use wainwright_model::Id;
use wainwright_units::Length;

/// Lengths closer than this are the same \[m\].
const SAME: f64 = 1e-9;

/// A piece of wire in the shed.
#[derive(Debug, Clone)]
pub(super) struct Piece {
    pub(super) stock: Id,
    pub(super) number: u32,
    pub(super) length: Length,
    /// What other lines have left of it.
    pub(super) left: Length,
}

/// Cuts from pieces (indices into all there are), which get shorter.
///
/// Proven: nothing is left to buy; or no piece is there; or every cut that
/// found no room is longer than any whole piece, so that no cutting could have
/// used more.
pub(super) fn cut(mut wanted: Vec<Cut>, pieces: &mut [Piece], fitting: &[usize]) -> CutList {
    wanted.sort_by(|a, b| b.length.total_cmp(&a.length));
    let mut order = fitting.to_vec();
    order.sort_by(|a, b| pieces[*a].left.total_cmp(&pieces[*b].left));
    let longest = order.iter().map(|index| pieces[*index].length.metres());
    let longest = longest.fold(0.0, f64::max);
    let mut made: Vec<(usize, Vec<Cut>)> = Vec::new();
    let mut rest = Vec::new();
    for cut in wanted {
        let room = |index: &&usize| pieces[**index].left.metres() + SAME >= cut.length.metres();
        let Some(index) = order.iter().find(room).copied() else {
            rest.push(cut);
            continue;
        };
        pieces[index].left = (pieces[index].left - cut.length).max(Length::ZERO);
        match made.iter_mut().find(|(known, _)| *known == index) {
            Some((_, cuts)) => cuts.push(cut),
            None => made.push((index, vec![cut])),
        }
    }
    let proven = rest.iter().all(|cut| cut.length.metres() > longest + SAME);
    let made = made.into_iter().map(|(index, cuts)| CutPiece {
        stock: pieces[index].stock.clone(),
        number: pieces[index].number,
        length: pieces[index].length,
        cuts,
        left: pieces[index].left,
    });
    CutList {
        pieces: made.collect(),
        rest,
        proven,
    }
}
