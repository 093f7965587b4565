//! Where one item may stand so that the tongue's share stays in its band in every fill state, and left and right stay
//! alike. Not here: whether the floor there is free (`crowd`).

use super::Lowered;
use super::states::masses_without;
use crate::result::road::{Level, RatingKind, RoadResult, RoadStateKind, Zone, ZoneLimit};
use wainwright_engines::balance::{
    Band, Interval, Movable, SideInterval, SideItem, SideLimits, allowed_along_floor,
    allowed_sideways,
};
use wainwright_model::{FieldExt, Project};
use wainwright_units::{Length, Mass};

/// Where an item may stand along and across the trailer, all other things staying put; `None` when its mass is not
/// known or the trailer is not.
pub fn allowed_zone(project: &Project, found: &RoadResult, item: &str) -> Option<Zone> {
    let lowered = super::lower(project, &[]);
    let (chassis, shell, place) = (lowered.chassis?, lowered.shell?, lowered.place?);
    let index = lowered
        .aboard
        .loads
        .iter()
        .position(|load| load.item.as_str() == item);
    let masses = item_masses(&lowered, project, item, index)?;
    let rest = masses_without(&shell, &lowered.aboard, index);
    let band = found.aims.tongue.as_ref()?;
    let size = project.items.get(item)?.body.size.value().copied();
    let (long, wide) = size.map_or((Length::ZERO, Length::ZERO), |s| (s.along, s.across));
    let inside = found.trailer.inside_length.as_ref()?.value;
    let front = place.ball_to_front + long * 0.5;
    let rear = (place.ball_to_front + inside - long * 0.5).max(front);
    let movable = Movable {
        masses: masses.clone(),
        floor: Interval { front, rear },
    };
    let limits = Band {
        low: band.low.value,
        high: band.high.value,
    };
    let allowed =
        allowed_along_floor(&chassis, &rest.fixed, &rest.varying, &movable, limits).ok()?;
    let corner = |interval: Interval| (interval.front - front, interval.rear - front);
    let width = found.trailer.inside_width.as_ref()?.value;
    let half_room = ((width - wide) * 0.5).max(Length::ZERO);
    let sideways = allowed_sideways(
        &chassis,
        &rest.fixed,
        &rest.varying,
        &SideItem {
            masses,
            along: allowed.on_floor.unwrap_or(movable.floor),
            floor: SideInterval {
                right: half_room * -1.0,
                left: half_room,
            },
        },
        side_limits(found),
    );
    // From the left wall to the item's left side, as the centre's place left of the middle.
    let across = sideways.ok()?.on_floor;
    let across = across.map(|floor| (half_room - floor.left, half_room - floor.right));
    let by_share = |choice: &[usize], binds: bool| {
        let state = binds.then(|| state_of(found, choice)).flatten();
        state.map_or(ZoneLimit::Wall, ZoneLimit::Share)
    };
    let (binds_front, binds_rear) = match allowed.anywhere {
        Some(anywhere) => (anywhere.front > front, anywhere.rear < rear),
        None => (true, true),
    };
    Some(Zone {
        item: project.items.ids().find(|id| id.as_str() == item)?.clone(),
        along: allowed.on_floor.map(corner),
        along_anywhere: allowed.anywhere.map(corner),
        across,
        front_limit: by_share(&allowed.too_high_in, binds_front),
        rear_limit: by_share(&allowed.too_low_in, binds_rear),
        tongue_lost_per_metre: allowed.tongue_lost_per_metre,
    })
}

/// Every mass the item may have, placed or not.
fn item_masses(
    lowered: &Lowered,
    project: &Project,
    item: &str,
    index: Option<usize>,
) -> Option<Vec<Mass>> {
    let levels = index.and_then(|index| lowered.aboard.levels.get(index));
    if let Some([first, second]) = levels {
        return Some(if first == second {
            vec![*first]
        } else {
            vec![*first, *second]
        });
    }
    let most = lowered
        .aboard
        .masses
        .iter()
        .find(|(id, _)| id.as_str() == item);
    let (_, most) = most?;
    let own = project.items.get(item)?.body.mass.value().copied();
    let least = own.unwrap_or(Mass::ZERO).min(*most);
    Some(if least == *most {
        vec![*most]
    } else {
        vec![least, *most]
    })
}

/// What the sides must keep: the difference that is allowed, and what the tyres and half the axles of a side carry.
pub(super) fn side_limits(found: &RoadResult) -> SideLimits {
    let limit = |kind| {
        let rating = found.ratings.iter().find(|rating| rating.kind == kind);
        rating.map(|rating| rating.limit.value)
    };
    let axles = super::trailer::axle_count(&found.trailer) as f64;
    let tyres = limit(RatingKind::LeftTyre).map(|each| each * axles);
    let half_axles = limit(RatingKind::Axle(0)).map(|each| each * (axles * 0.5));
    SideLimits {
        most_difference: found.aims.side_difference.as_ref().map(|known| known.value),
        most_one_side: match (tyres, half_axles) {
            (Some(one), Some(other)) => Some(one.min(other)),
            (one, other) => one.or(other),
        },
    }
}

/// The fill state that a choice of the engine is; the item's own fill is at its first level there.
fn state_of(found: &RoadResult, choice: &[usize]) -> Option<usize> {
    let matches = |levels: &[Level]| {
        levels.len() == choice.len()
            && levels.iter().zip(choice).all(|(level, index)| {
                let second = matches!(level, Level::Full | Level::End);
                second == (*index == 1)
            })
    };
    found
        .states
        .iter()
        .position(|state| state.kind == RoadStateKind::Fills && matches(&state.levels))
}
