//! Words of the lining: sides, goods, how runs fill a side, what a layout could not give, why there is no plan, odds.
//! Shared by pages and command line. Not here: working any of it out (the lining study).

use crate::views::energy::words::percent;
use crate::views::lists::buy::money;
use wainwright_analysis::result::lining::{
    CuttingJob, Fit, JobPlan, JobStock, LiningWanted, NoPlan, OtherPlan, ShortageFound, Shortfall,
};
use wainwright_model::{Goods, LayerKind, Project, Side};
use wainwright_units::{Length, Quantity, System};

/// Marks that are named before the rest becomes a number.
const FEW: usize = 8;

/// A side of the box.
pub const fn side(side: Side) -> &'static str {
    match side {
        Side::Left => "Left wall",
        Side::Right => "Right wall",
        Side::Front => "Front wall",
        Side::Rear => "Rear wall",
        Side::Roof => "Ceiling",
        Side::Floor => "Floor",
    }
}

/// A length as a tape has it: to a sixteenth of an inch, or to a millimetre.
pub fn tape(length: Length, units: System) -> String {
    match units {
        System::Us => length.show(System::Us),
        System::Metric => format!("{:.0} mm", length.millimetres()),
    }
}

/// A number with the word for it.
fn count(number: usize, one: &str, many: &str) -> String {
    format!("{number} {}", if number == 1 { one } else { many })
}

/// What kind of pieces a layer has.
pub fn pieces_of(kind: LayerKind, number: usize) -> String {
    let (one, many) = match kind {
        LayerKind::Battens => ("batten", "battens"),
        LayerKind::Foam => ("piece of foam", "pieces of foam"),
        LayerKind::Planks => ("plank", "planks"),
        LayerKind::Sheets => ("sheet piece", "sheet pieces"),
        _ => ("piece", "pieces"),
    };
    count(number, one, many)
}

/// What a job is cut from.
pub fn job(job: &CuttingJob, units: System) -> String {
    let goods = match job.goods {
        Goods::Sheet => "Sheets",
        Goods::Foam => "Foam boards",
        _ => "Boards",
    };
    let thick = job.thickness.show(units);
    match job.width {
        Some(width) => format!(
            "{goods} of {}, {} × {thick}",
            job.material,
            width.show(units)
        ),
        None => format!("{goods} of {}, {thick} thick", job.material),
    }
}

/// "board" or "sheet", with a number.
pub fn boards(job: &CuttingJob, number: usize) -> String {
    match job.goods {
        Goods::Sheet => count(number, "sheet", "sheets"),
        Goods::Foam => count(number, "foam board", "foam boards"),
        _ => count(number, "board", "boards"),
    }
}

/// What people call an entry of the stock.
pub fn stock(stock: &JobStock, project: &Project, units: System) -> String {
    let length = tape(stock.length, units);
    let size = match stock.width {
        Some(width) => format!("{length} × {}", tape(width, units)),
        None => length,
    };
    match &stock.stock {
        Some(id) => project
            .label("stock", id.as_str())
            .map_or(size, str::to_owned),
        None => format!("{size}, a usual size"),
    }
}

/// An amount of money with the project's currency.
pub fn cost(value: f64, project: &Project) -> String {
    let currency = project.head.currency.as_ref();
    currency.map_or_else(
        || money(value),
        |currency| format!("{} {}", money(value), currency.value),
    )
}

/// How runs of planks fill a side.
pub fn fit(fit: Fit, units: System) -> String {
    let tape = |length: Length| tape(length, units);
    match fit {
        Fit::FullBoards => "Full boards fill it.".into(),
        Fit::LastRipped => "The last run is ripped narrower.".into(),
        Fit::Balanced => {
            "First and last run are ripped to the same width, so that neither is a sliver.".into()
        }
        Fit::Single => "One ripped board is all.".into(),
        Fit::HiddenByTrim { start, end } => format!(
            "Full boards; cover strips hide what they leave: {} at the first edge, {} at the far one.",
            tape(start),
            tape(end)
        ),
        Fit::Loosened { per_course } => format!(
            "Full boards, every run set {} wider than its face.",
            tape(per_course)
        ),
        Fit::Lapped { by } => format!(
            "Full boards; the last one laps {} over the one before.",
            tape(by)
        ),
    }
}

/// What a layout could not give.
pub fn shortfall(found: &Shortfall, units: System) -> String {
    match found {
        Shortfall::TooLong { run, length } => format!(
            "Run {run} has a stretch of {} that no rib lets be joined, longer than a board.",
            tape(*length, units)
        ),
        Shortfall::Stagger { run, at } => format!(
            "The end joint of run {run} at {} is nearer to another one than asked for.",
            tape(*at, units)
        ),
        Shortfall::Unsupported { at } => {
            format!("The joint of sheets at {} is on no rib.", tape(*at, units))
        }
        Shortfall::NeedsRips { pieces } => format!(
            "{} to be ripped, and there is no saw that can.",
            count(*pieces, "piece has", "pieces have")
        ),
        Shortfall::NeedsNotches { pieces } => format!(
            "{} a notch: a short cut along the grain.",
            count(*pieces, "piece needs", "pieces need")
        ),
        Shortfall::LeftOut(rect) => format!(
            "A rest of {} × {} is too small for a piece and stays open.",
            tape(rect.width, units),
            tape(rect.height, units)
        ),
    }
}

/// What the plan is known to be.
pub fn proof(job: &CuttingJob, project: &Project) -> Option<String> {
    let (proven, at_least, cost) = match &job.plan {
        JobPlan::Bars(plan) => (plan.proven, plan.at_least, plan.cost),
        JobPlan::Sheets(plan) => (plan.proven, plan.at_least, plan.cost),
        JobPlan::None(_) => return None,
    };
    Some(match (proven, at_least.zip(cost)) {
        (true, Some(_)) => "No plan is cheaper.".into(),
        (true, None) => "No plan takes less.".into(),
        (false, Some((at_least, _))) => format!(
            "No plan costs less than {}; whether one is cheaper than this is not known.",
            self::cost(at_least, project)
        ),
        (false, None) => "Whether a plan takes less is not known.".into(),
    })
}

/// Rips that the saw at hand cannot make.
pub fn rips(job: &CuttingJob) -> Option<String> {
    if job.can_rip || job.rips == 0 {
        return None;
    }
    let what = match job.goods {
        Goods::Sheet => count(job.rips, "cut runs", "cuts run"),
        _ => count(job.rips, "piece is cut", "pieces are cut"),
    };
    Some(format!(
        "{what} along the grain, and no saw at hand can rip: have that done in the shop, or get hold of such a saw."
    ))
}

/// The same work the other way.
pub fn other(other: &OtherPlan, job: &CuttingJob, project: &Project) -> String {
    let way = if other.with_rips {
        format!("With {} ripped", other.rips)
    } else {
        "Without any rip".to_owned()
    };
    let used = boards(job, other.used as usize);
    match other.costs_more {
        Some(more) if more > 0.0 => {
            format!(
                "{way} it takes {used} and costs {} more.",
                cost(more, project)
            )
        }
        Some(more) if more < 0.0 => {
            format!(
                "{way} it takes {used} and costs {} less.",
                cost(-more, project)
            )
        }
        Some(_) => format!("{way} it takes {used} and costs the same."),
        None => format!("{way} it takes {used}."),
    }
}

/// Why there is no plan, and what to do.
pub fn no_plan(why: &NoPlan, units: System) -> String {
    match why {
        NoPlan::TooLong {
            mark,
            length,
            longest,
        } => format!(
            "Piece {mark} is {} long, and the longest that can be cut is {}. Say where longer ones are on sale, or allow shorter pieces in the layer.",
            tape(*length, units),
            tape(*longest, units)
        ),
        NoPlan::NothingToCutFrom => {
            "There is nothing to cut from: say what is on sale or in the shed.".into()
        }
        NoPlan::NotEnough => {
            "What is in the shed is not enough, and nothing is said to be on sale.".into()
        }
        NoPlan::NeedsRips(marks) => {
            let named: Vec<String> = marks.iter().take(FEW).map(ToString::to_string).collect();
            let more = match marks.len().saturating_sub(FEW) {
                0 => String::new(),
                more => format!(" and {more} more"),
            };
            format!(
                "These cannot be cut without a saw that rips: {}{more}. Have them ripped in the shop, or choose a sheet of another size.",
                named.join(", ")
            )
        }
        NoPlan::Refused(sentence) => sentence.clone(),
    }
}

/// The odds of running short.
pub fn odds(job: &CuttingJob, short: &ShortageFound) -> String {
    let with = match short.spares {
        Some((0, _)) => String::new(),
        Some((spares, share)) => format!(" With {} more: {}.", boards(job, spares), percent(share)),
        None => " Even a handful more would not make that small: look for better boards.".into(),
    };
    format!(
        "Odds that these are not enough: {} ({} to {}), when {} of pieces are spoiled and {} of boards are faulty.{with}",
        percent(short.share),
        percent(short.low),
        percent(short.high),
        percent(short.spoiled),
        percent(short.faulty)
    )
}

/// What is missing.
pub const fn wanted(wanted: LiningWanted) -> &'static str {
    match wanted {
        LiningWanted::BoxSize => "its inside size",
        LiningWanted::Ribs => "where the ribs are",
        LiningWanted::OpeningPlace => "its place and size",
        LiningWanted::Material => "a material",
        LiningWanted::KnownMaterial => "a material that is in the tables; its mass is left out",
        LiningWanted::Thickness => "a thickness",
        LiningWanted::Width => "a width",
        LiningWanted::Price => "a price; its cost is left out",
        LiningWanted::OnSale => "a length that is on sale",
        LiningWanted::StockSize => "its size",
    }
}
