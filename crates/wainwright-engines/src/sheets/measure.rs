//! From a tree of cuts to places, numbered cuts, offcuts and areas, with the checks that every
//! piece has its size and that no area is lost. Not here: how the tree was found.

use super::input::{Along, Job, Sheet};
use super::result::{Areas, Cut, CutCount, CutSheet, Node, Placement, Rectangle};
use crate::refusal::{Refusal, require};

/// The tree of a whole sheet: trimming first, then what is done with the rest.
pub(super) fn with_trimming(sheet: &Sheet, kerf: u32, inside: Node) -> Node {
    let trim = sheet.trim;
    let (width, height) = (sheet.usable_width(), sheet.usable_height());
    let mut node = inside;
    // From the last cut to the first, because each is wrapped around the others.
    if trim.top > 0 {
        node = near(Along::Width, height, node);
    }
    if trim.bottom > 0 {
        node = far(Along::Width, trim.bottom.saturating_sub(kerf), node);
    }
    if trim.right > 0 {
        node = near(Along::Height, width, node);
    }
    if trim.left > 0 {
        node = far(Along::Height, trim.left.saturating_sub(kerf), node);
    }
    node
}

fn near(runs: Along, at: u32, kept: Node) -> Node {
    Node::Cut {
        runs,
        at,
        first: Box::new(kept),
        second: Box::new(Node::Offcut),
    }
}

fn far(runs: Along, at: u32, kept: Node) -> Node {
    Node::Cut {
        runs,
        at,
        first: Box::new(Node::Offcut),
        second: Box::new(kept),
    }
}

/// Everything about one sheet, checked.
pub(super) fn cut_sheet(job: &Job, sheet: usize, tree: Node) -> Result<CutSheet, Refusal> {
    let Some(stock) = job.sheets.get(sheet) else {
        return Err(Refusal::new("sheet", sheet as f64, "a sheet of the job"));
    };
    let whole = Rectangle {
        x: 0,
        y: 0,
        width: stock.width,
        height: stock.height,
    };
    let mut walk = Walk {
        job,
        grain: stock.grain,
        placements: vec![],
        offcuts: vec![],
        cuts: vec![],
        dust: 0,
    };
    walk.take_apart(&tree, whole, 0)?;
    let Walk {
        placements,
        mut offcuts,
        cuts,
        dust,
        ..
    } = walk;
    offcuts.sort_by_key(|offcut| (std::cmp::Reverse(offcut.area()), offcut.x, offcut.y));
    let areas = Areas {
        sheet: whole.area(),
        pieces: placements.iter().map(|piece| piece.place.area()).sum(),
        dust,
        offcuts: offcuts.iter().map(Rectangle::area).sum(),
    };
    let lost = areas
        .sheet
        .abs_diff(areas.pieces + areas.dust + areas.offcuts);
    require(
        "area lost between sheet and pieces [grid steps²]",
        lost as f64,
        lost == 0,
        "pieces, saw cuts and offcuts to make up the sheet",
    )?;
    Ok(CutSheet {
        sheet,
        tree,
        placements,
        offcuts,
        cuts,
        areas,
    })
}

struct Walk<'j> {
    job: &'j Job,
    grain: Along,
    placements: Vec<Placement>,
    offcuts: Vec<Rectangle>,
    cuts: Vec<Cut>,
    dust: u64,
}

impl Walk<'_> {
    fn take_apart(&mut self, node: &Node, of: Rectangle, part: usize) -> Result<(), Refusal> {
        match node {
            Node::Offcut => {
                if of.area() > 0 {
                    self.offcuts.push(of);
                }
                Ok(())
            }
            Node::Piece { kind, turned } => self.place(*kind, *turned, of),
            Node::Cut {
                runs,
                at,
                first,
                second,
            } => {
                let (near, dust, far) = split(&of, *runs, *at, self.job.saw.kerf)?;
                let length = if *runs == Along::Height {
                    of.height
                } else {
                    of.width
                };
                self.dust += u64::from(dust) * u64::from(length);
                self.cuts.push(Cut {
                    part,
                    of,
                    runs: *runs,
                    setting: *at,
                    length,
                    dust,
                    rip: *runs == self.grain,
                });
                let number = self.cuts.len();
                self.take_apart(first, near, 2 * number - 1)?;
                self.take_apart(second, far, 2 * number)
            }
        }
    }

    fn place(&mut self, kind: usize, turned: bool, place: Rectangle) -> Result<(), Refusal> {
        let piece = self.job.pieces.get(kind);
        let fits = piece.is_some_and(|piece| {
            let may = piece
                .grain
                .is_none_or(|side| turned == (side != self.grain));
            let size = if turned {
                (piece.height, piece.width)
            } else {
                (piece.width, piece.height)
            };
            may && size == (place.width, place.height)
        });
        require(
            "width of a cut piece [grid steps]",
            f64::from(place.width),
            fits,
            "the size that is wanted, grain the right way",
        )?;
        self.placements.push(Placement {
            kind,
            turned,
            place,
        });
        Ok(())
    }
}

/// The two parts of a cut and the width of the dust between them.
fn split(
    of: &Rectangle,
    runs: Along,
    at: u32,
    kerf: u32,
) -> Result<(Rectangle, u32, Rectangle), Refusal> {
    let whole = if runs == Along::Height {
        of.width
    } else {
        of.height
    };
    require(
        "setting of a cut [grid steps]",
        f64::from(at),
        at <= whole,
        "inside the part that is cut",
    )?;
    let dust = kerf.min(whole - at);
    let rest = whole - at - dust;
    let (mut near, mut far) = (*of, *of);
    if runs == Along::Height {
        near.width = at;
        far.x += at + dust;
        far.width = rest;
    } else {
        near.height = at;
        far.y += at + dust;
        far.height = rest;
    }
    Ok((near, dust, far))
}

/// The cuts of all sheets together.
pub(super) fn count(sheets: &[CutSheet]) -> CutCount {
    let cuts = || sheets.iter().flat_map(|sheet| &sheet.cuts);
    let mut settings: Vec<u32> = cuts()
        .filter(|cut| cut.rip)
        .map(|cut| cut.setting)
        .collect();
    let rips = settings.len();
    settings.sort_unstable();
    settings.dedup();
    CutCount {
        cuts: cuts().count(),
        rips,
        rip_settings: settings.len(),
        longest: cuts().map(|cut| cut.length).max().unwrap_or(0),
    }
}
