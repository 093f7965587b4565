//! Smaller, larger and other fuses in place of one that is there. Not here:
//! fuses that are added (see `added`), moving a fuse (see `feeds`).

use super::{edits, series};
use crate::rule::{Change, Remedy};
use crate::view::names;
use wainwright_analysis::result::DeviceResult;
use wainwright_model::{Origin, Place, Project, Spec};
use wainwright_units::{Current, Voltage};

/// Standard ratings below the present one, the next lower first.
pub(crate) fn down(project: &Project, device: &DeviceResult) -> Remedy {
    let mut ratings = series::ratings(&device.family);
    ratings.retain(|rating| rating.amperes() < device.rating.value.amperes() - 1e-9);
    ratings.reverse();
    ladder(project, device, &ratings)
}

/// Standard ratings above the present one, the next higher first.
pub(crate) fn up(project: &Project, device: &DeviceResult) -> Remedy {
    let mut ratings = series::ratings(&device.family);
    ratings.retain(|rating| rating.amperes() > device.rating.value.amperes() + 1e-9);
    ladder(project, device, &ratings)
}

/// The rungs of a ladder of ratings that carry this current.
pub(crate) fn enough(
    ladder: &Remedy,
    device: &DeviceResult,
    most: Option<(usize, Current)>,
) -> Remedy {
    let Some((_, amps)) = most else {
        return ladder.clone();
    };
    let above: Vec<Current> = series::ratings(&device.family)
        .into_iter()
        .filter(|rating| rating.amperes() > device.rating.value.amperes() + 1e-9)
        .collect();
    let skip = above
        .iter()
        .take_while(|rating| rating.amperes() < amps.amperes())
        .count();
    Remedy::ladder(ladder.rungs.iter().skip(skip).cloned().collect())
}

/// The least change of the first remedy together with each of the second.
pub(crate) fn both(first: &Remedy, second: &Remedy) -> Remedy {
    let Some(start) = first.rungs.first() else {
        return Remedy::ladder(Vec::new());
    };
    let join = |other: &Change| Change {
        title: format!("{}; {}", start.title, other.title),
        edits: start.edits.iter().chain(&other.edits).cloned().collect(),
        cost: start.cost + other.cost,
    };
    Remedy::ladder(second.rungs.iter().map(join).collect())
}

/// Other families that can open this fault at this voltage, cheapest first.
/// Ways of a block or bank cannot change their family alone.
pub(crate) fn other_family(
    project: &Project,
    device: &DeviceResult,
    fault: Current,
    volts: Voltage,
) -> Remedy {
    if device.way != 0 {
        return Remedy::ladder(Vec::new());
    }
    let id = device.item.as_str();
    let breaker = device.family == "breaker";
    let of_part = project
        .items
        .get(id)
        .is_some_and(|item| item.part.is_some());
    let mut families = series::families_for(fault, volts, device.rating.value);
    // Another rating than today's is the last resort.
    families.sort_by(|a, b| a.1.total_cmp(&b.1));
    let rungs = families
        .into_iter()
        .filter(|(family, _)| *family != device.family)
        .map(|(family, rating)| {
            let mut edits = vec![
                edits::set_text(&["item", id, "family"], family),
                edits::set_text(&["item", id, "rating"], edits::rating_text(rating)),
            ];
            for stale in stale_fields(project, device) {
                edits.push(edits::unset(&["item", id, stale]));
            }
            if breaker || of_part {
                edits.push(edits::set_text(&["item", id, "kind"], "fuse"));
            }
            // What the old part says about interrupting is no longer true.
            if of_part {
                edits.push(edits::unset(&["item", id, "part"]));
            }
            let title = format!(
                "Replace {} by a {} of {}",
                names::device(project, device),
                series::name(family),
                edits::rating_text(rating),
            );
            Change {
                title,
                edits,
                cost: series::device(family) + series::swap_fuse(),
            }
        })
        .collect();
    Remedy::ladder(rungs)
}

/// Makes a breaker stay open until a person resets it.
pub(crate) fn manual_reset(project: &Project, device: &DeviceResult) -> Remedy {
    let title = format!(
        "Replace {} by one that stays open until reset by hand",
        names::device(project, device)
    );
    let edit = edits::set_text(&["item", device.item.as_str(), "reset"], "manual");
    Remedy::one(
        title,
        vec![edit],
        series::fuse("breaker") + series::swap_fuse(),
    )
}

fn ladder(project: &Project, device: &DeviceResult, ratings: &[Current]) -> Remedy {
    let rungs = ratings
        .iter()
        .filter_map(|rating| {
            let edits = vec![edits::set_rating(project, device, *rating)?];
            let title = format!(
                "Replace {} by {}",
                names::device(project, device),
                edits::rating_text(*rating),
            );
            let cost = series::fuse(&device.family) + series::swap_fuse();
            Some(Change { title, edits, cost })
        })
        .collect();
    Remedy::ladder(rungs)
}

/// Fields typed for the old device that would be wrong for the new one.
fn stale_fields(project: &Project, device: &DeviceResult) -> Vec<&'static str> {
    let Some(item) = project.items.get(device.item.as_str()) else {
        return Vec::new();
    };
    let typed = |at: Option<&Place>| at.is_some_and(|place| place.origin == Origin::File);
    let (voltage, interrupt, reset) = match &item.spec {
        Spec::Fuse(f) => (
            f.voltage.as_ref().map(|g| &g.at),
            f.interrupt.as_ref().map(|g| &g.at),
            None,
        ),
        Spec::Breaker(b) => (
            b.voltage.as_ref().map(|g| &g.at),
            b.interrupt.as_ref().map(|g| &g.at),
            b.reset.as_ref().map(|g| &g.at),
        ),
        _ => return Vec::new(),
    };
    [
        ("voltage", voltage),
        ("interrupt", interrupt),
        ("reset", reset),
    ]
    .into_iter()
    .filter(|(_, at)| typed(*at))
    .map(|(name, _)| name)
    .collect()
}
