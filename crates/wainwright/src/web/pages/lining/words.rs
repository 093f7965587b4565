//! Words of the lining pages in the units of the project. Words that the command line has too are in `views::lining`.

pub use crate::views::lining::words::{boards, pieces_of, side, wanted};

use crate::views::lining::words;
use crate::web::view::View;
use wainwright_analysis::result::lining::{
    CuttingJob, Fit, JobStock, LaidPiece, LinedSurface, NoPlan, OtherPlan, Shortfall,
};
use wainwright_model::Side;
use wainwright_units::Length;

/// What people call a layer.
pub fn layer(view: &View, id: &str) -> String {
    view.study().project.label_or_id("layer", id).to_owned()
}

/// What is at the left and at the right end of the drawing, and what is below it.
pub fn ends(surface: &LinedSurface) -> ([&'static str; 2], &'static str) {
    let (first, last) = match surface.side {
        Side::Front | Side::Rear => ("left wall", "right wall"),
        _ => ("front", "rear"),
    };
    let below = match surface.side {
        Side::Roof | Side::Floor => "left wall",
        _ => "floor",
    };
    match surface.mirrored {
        true => ([last, first], below),
        false => ([first, last], below),
    }
}

/// Length by width of a piece.
pub fn size(view: &View, piece: &LaidPiece) -> String {
    format!("{} × {}", tape(view, piece.length), tape(view, piece.width))
}

/// A length as a tape has it.
pub fn tape(view: &View, length: Length) -> String {
    words::tape(length, view.units())
}

/// What a job is cut from.
pub fn job(view: &View, job: &CuttingJob) -> String {
    words::job(job, view.units())
}

/// What people call an entry of the stock.
pub fn stock(view: &View, stock: &JobStock) -> String {
    words::stock(stock, &view.study().project, view.units())
}

/// An amount of money.
pub fn cost(view: &View, value: f64) -> String {
    words::cost(value, &view.study().project)
}

/// How runs of planks fill a side.
pub fn fit(view: &View, fit: Fit) -> String {
    words::fit(fit, view.units())
}

/// What a layout could not give.
pub fn shortfall(view: &View, found: &Shortfall) -> String {
    words::shortfall(found, view.units())
}

/// Why there is no plan, and what to do.
pub fn no_plan(view: &View, why: &NoPlan) -> String {
    words::no_plan(why, view.units())
}

/// What the plan is known to be.
pub fn proof(view: &View, job: &CuttingJob) -> Option<String> {
    words::proof(job, &view.study().project)
}

/// The odds of running short.
pub fn odds(job: &CuttingJob) -> Option<String> {
    Some(words::odds(job, job.short.as_ref()?))
}

/// The same work the other way.
pub fn other(view: &View, other: &OtherPlan, job: &CuttingJob) -> String {
    words::other(other, job, &view.study().project)
}
