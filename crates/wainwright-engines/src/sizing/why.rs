//! Why no plan keeps everything: the limits that cannot be met whatever is chosen, and otherwise a
//! smallest set that cannot be met together. Not here: the search.

use super::forest::{Kind, upstream, used};
use super::input::Problem;
use super::result::Obstacle;
use super::search::search;
use super::whole::{Limit, Rank, UNLIMITED, Whole};
use wainwright_units::{Resistance, Voltage};

/// Most limits and devices tried one by one.
const MOST_TRIED: usize = 200;
/// Units of a count of drops and resistances.
const UNIT: f64 = 1e-9;

/// What stands in the way; empty when it cannot be told within the caps.
pub(super) fn obstacles(problem: &Problem, whole: &Whole) -> Vec<Obstacle> {
    let sections = problem.sections.iter().enumerate();
    let empty = sections.filter(|(_, section)| section.choices.is_empty());
    let none: Vec<Obstacle> = empty
        .map(|(section, _)| Obstacle::NoChoice { section })
        .collect();
    if !none.is_empty() {
        return none;
    }
    let limits = whole.limits.iter().enumerate();
    let mut alone: Vec<Obstacle> = limits
        .flat_map(|(index, limit)| never_kept(whole, index, limit))
        .collect();
    alone.extend((0..whole.place.len()).filter_map(|section| never_selective(whole, section)));
    if alone.is_empty() {
        together(whole)
    } else {
        alone
    }
}

fn never_kept(whole: &Whole, index: usize, limit: &Limit) -> Vec<Obstacle> {
    let volts = |count: i64| Voltage::from_volts(count as f64 * UNIT);
    let ohms = |count: i64| Resistance::from_ohms(count as f64 * UNIT);
    let mut found = Vec::new();
    let drop = least(whole, limit, Kind::Drop);
    if let Some(most) = limit.drop.filter(|&most| drop > most) {
        found.push(Obstacle::Drop {
            limit: index,
            least: volts(drop),
            most: volts(most),
        });
    }
    let least = least(whole, limit, Kind::Ohms);
    if let Some(most) = most_ohms(whole, limit).filter(|&most| least > most) {
        found.push(Obstacle::Resistance {
            limit: index,
            least: ohms(least),
            most: (most >= 0).then(|| ohms(most)),
        });
    }
    found
}

/// The least sum over the sections of a limit.
fn least(whole: &Whole, limit: &Limit, kind: Kind) -> i64 {
    let mut members = vec![Vec::new(); whole.variables.len()];
    for &section in &limit.sections {
        let (variable, member) = whole.place[section];
        members[variable].push(member);
    }
    let each = whole.variables.iter().zip(&members);
    each.filter_map(|(variable, members)| {
        variable
            .options
            .iter()
            .map(|choice| used(choice, kind, members))
            .min()
    })
    .sum()
}

/// The highest sum of resistances allowed with any device that may be the nearest.
fn most_ohms(whole: &Whole, limit: &Limit) -> Option<i64> {
    let (at, table) = limit.fault.as_ref()?;
    let mut most = -1;
    let mut here = whole.device_at[*at];
    while let Some(section) = here {
        for rank in ranks(whole, section) {
            most = most.max(
                table
                    .get(usize::from(rank).wrapping_sub(1))
                    .copied()
                    .unwrap_or(-1),
            );
        }
        here = if whole.always[section] {
            return Some(most);
        } else {
            upstream(whole, section)
        };
    }
    Some(UNLIMITED)
}

/// Ratings a section may have.
fn ranks(whole: &Whole, section: usize) -> Vec<Rank> {
    let (variable, member) = whole.place[section];
    let options = whole.variables[variable].options.iter();
    options
        .map(|choice| choice.devices[member])
        .filter(|&rank| rank > 0)
        .collect()
}

fn never_selective(whole: &Whole, section: usize) -> Option<Obstacle> {
    let above = upstream(whole, section)?;
    let must = whole.device_at[section] == Some(section) && whole.ratio[section] > 0.0;
    if !must || !whole.always[section] || !whole.always[above] {
        return None;
    }
    let least = ranks(whole, section).into_iter().min()?;
    let most = ranks(whole, above).into_iter().max()?;
    (!whole.selective(section, least, most)).then_some(Obstacle::Selectivity {
        section,
        upstream: above,
    })
}

/// Leaves out one limit or device after the other, for good when there is still no plan without it.
fn together(whole: &Whole) -> Vec<Obstacle> {
    let sections: Vec<usize> = (0..whole.place.len())
        .filter(|&section| whole.ratio[section] > 0.0)
        .collect();
    if whole.limits.len() + sections.len() > MOST_TRIED {
        return Vec::new();
    }
    let impossible = |whole: &Whole| {
        search(whole).is_some_and(|ended| ended.best.is_none() && ended.bound.is_none())
    };
    let mut rest = whole.clone();
    let mut limits = Vec::new();
    for limit in 0..whole.limits.len() {
        let mut without = rest.clone();
        without.limits[limit].drop = None;
        without.limits[limit].fault = None;
        if impossible(&without) {
            rest = without;
        } else if whole.limits[limit].drop.is_some() || whole.limits[limit].fault.is_some() {
            limits.push(limit);
        }
    }
    let mut kept = Vec::new();
    for section in sections {
        let mut without = rest.clone();
        without.ratio[section] = 0.0;
        if impossible(&without) {
            rest = without;
        } else {
            kept.push(section);
        }
    }
    vec![Obstacle::Together {
        limits,
        sections: kept,
    }]
}
