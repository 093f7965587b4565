//! Sheets of paper: a frame with a title block around a drawing, and grids of
//! wire labels. Not here: what is drawn, and how a page is printed.
//!
//! One unit is a CSS pixel, 1/96 in, so that texts have their size on paper.

mod data;
mod labels;
mod title;

pub use data::{Fold, LabelGrid, Paper, Ratio, Sheet, WireLabel};
pub use labels::label_sheets;

use crate::geometry::{Point, Rect};
use crate::picture::{Pen, Picture};
use crate::scene::{self, Fit, Scene, View};

/// Length of a unit on paper [mm].
pub(crate) const UNIT_MM: f64 = 25.4 / 96.0;
/// Printed instead of a scale when no scale of the list fits.
const NOT_TO_SCALE: &str = "not to scale";

/// A sheet with a scene on it.
#[derive(Debug, Clone, PartialEq)]
pub struct Printed {
    /// The sheet.
    pub picture: Picture,
    /// Which ratio of the list was used; `None` if none fits and the drawing is not to scale.
    pub ratio: Option<usize>,
}

/// Draws `scene` at the largest of `ratios` at which it fits on the sheet; the
/// size in `options` is not used. Without a fitting ratio it is made to fit, and says so.
pub fn scene_sheet(
    sheet: &Sheet,
    scene: &Scene,
    view: &View,
    options: &scene::Options,
    ratios: &[Ratio],
) -> Printed {
    let room = title::room(sheet);
    let known = |(_, ratio): &(usize, &Ratio)| {
        ratio.real_per_paper.is_finite() && ratio.real_per_paper >= 1.0
    };
    let mut order: Vec<(usize, &Ratio)> = ratios.iter().enumerate().filter(known).collect();
    order.sort_by(|(_, a), (_, b)| a.real_per_paper.total_cmp(&b.real_per_paper));
    for (number, ratio) in order {
        let fit = Fit::Scale {
            units_per_m: 1000.0 / ratio.real_per_paper / UNIT_MM,
        };
        let options = scene::Options {
            fit,
            ..options.clone()
        };
        let picture = scene::draw(scene, view, &options);
        if picture.width <= room.width && picture.height <= room.height {
            return Printed {
                picture: framed(sheet, &picture, 1.0, &ratio.text),
                ratio: Some(number),
            };
        }
    }
    let fit = Fit::Within {
        width: room.width,
        height: room.height * 0.8,
    };
    let options = scene::Options {
        fit,
        ..options.clone()
    };
    let picture = scene::draw(scene, view, &options);
    Printed {
        picture: picture_sheet(sheet, &picture, NOT_TO_SCALE),
        ratio: None,
    }
}

/// Puts any drawing on a sheet, made smaller if it does not fit, never larger.
pub fn picture_sheet(sheet: &Sheet, picture: &Picture, scale_text: &str) -> Picture {
    let room = title::room(sheet);
    let factor = (room.width / picture.width.max(1.0)).min(room.height / picture.height.max(1.0));
    framed(sheet, picture, factor.min(1.0), scale_text)
}

/// Width and height that a drawing may take on a sheet [px].
pub fn room_size(sheet: &Sheet) -> (f64, f64) {
    let room = title::room(sheet);
    (room.width, room.height)
}

/// The sheet with its frame and title block, the drawing in the middle.
fn framed(sheet: &Sheet, picture: &Picture, factor: f64, scale_text: &str) -> Picture {
    let room = title::room(sheet);
    let mut pen = Pen::default();
    title::draw(&mut pen, sheet, scale_text);
    let at = Point::new(
        room.x + (room.width - picture.width * factor) / 2.0,
        room.y + (room.height - picture.height * factor) / 2.0,
    );
    pen.place(picture, at, factor);
    finished(pen, sheet.paper, sheet.landscape)
}

/// The picture with the size of the paper.
fn finished(pen: Pen, paper: Paper, landscape: bool) -> Picture {
    let rect = page(paper, landscape);
    Picture {
        paper_mm: Some(paper.size_mm(landscape)),
        ..pen.picture(rect.width, rect.height)
    }
}

/// The whole page in units.
fn page(paper: Paper, landscape: bool) -> Rect {
    let (width, height) = paper.size_mm(landscape);
    Rect::new(0.0, 0.0, width / UNIT_MM, height / UNIT_MM)
}
