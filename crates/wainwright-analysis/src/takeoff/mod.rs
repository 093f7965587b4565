//! Take-off of wiring and lining, and schedules of the wiring: what to buy,
//! how to cut wire, what ends where, what the labels say.
//!
//! Here: counting. Not here: routes and lengths (the assessment has them),
//! pieces and cutting plans of the lining (its study has them), words for
//! people, files.

mod circuits;
mod colours;
mod cuts;
mod ends;
mod fixings;
mod fuses;
mod lines;
mod lumber;
mod schedules;
mod stock;
mod walk;
mod wire;

use crate::circuit::Notes;
use crate::lining;
use crate::result::lining::LiningResult;
use crate::result::{Assessment, TakeOff};
pub use schedules::schedules;
use wainwright_model::{FieldExt, Project, UnitSystem};

/// Everything wiring and lining need, less what is there already. Total: what
/// cannot be counted is asked for. Where there is a lining its study is run,
/// so this is for lists and not for every keystroke.
pub fn takeoff(project: &Project, assessment: &Assessment) -> TakeOff {
    takeoff_with(
        project,
        assessment,
        &lining::study(&lining::inputs(project)),
    )
}

/// The same with the lining studied already.
pub fn takeoff_with(project: &Project, assessment: &Assessment, lining: &LiningResult) -> TakeOff {
    let desk = Desk {
        project,
        assessment,
        notes: Notes::new(project),
        circuits: circuits::circuits(project, assessment),
    };
    let mut lines = lines::Lines::default();
    wire::add(&desk, &mut lines);
    ends::add(&desk, &mut lines);
    fuses::add(&desk, &mut lines);
    fixings::add(&desk, &mut lines);
    lumber::supplies(lining, &mut lines);
    let mut takeoff = TakeOff {
        currency: project.head.currency.value().cloned(),
        ..TakeOff::default()
    };
    (takeoff.lines, takeoff.asked) = lines.finished();
    stock::subtract(&desk, &mut takeoff);
    lumber::add(&desk, lining, &mut takeoff);
    takeoff
}

/// What lines are counted from.
struct Desk<'a> {
    project: &'a Project,
    assessment: &'a Assessment,
    notes: Notes,
    circuits: circuits::Circuits,
}

impl Desk<'_> {
    /// Whether lengths are sold by the foot.
    fn by_the_foot(&self) -> bool {
        self.project.head.units.value() == Some(&UnitSystem::Us)
    }
}
