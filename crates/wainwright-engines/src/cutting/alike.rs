//! Fewer different patterns on the same bars at the same cost: two patterns of one kind of bar give
//! way to one, three to two, as long as some do. What is left need not be the fewest.

use super::prepared::{Pattern, Prepared};
use std::collections::BTreeMap;

/// Looks taken in all.
const LOOKS: u32 = 300_000;

type Used = (Pattern, i64);

/// The plan with fewer different patterns.
pub(super) fn alike(prepared: &Prepared, plan: Vec<Used>) -> Vec<Used> {
    let mut plan = together(plan);
    let mut looks = LOOKS;
    while let Some(fewer) = fewer(prepared, &plan, &mut looks) {
        plan = together(fewer);
    }
    plan
}

fn together(plan: Vec<Used>) -> Vec<Used> {
    let mut times: BTreeMap<Pattern, i64> = BTreeMap::new();
    for (pattern, often) in plan {
        *times.entry(pattern).or_default() += often;
    }
    times.into_iter().collect()
}

fn fewer(prepared: &Prepared, plan: &[Used], looks: &mut u32) -> Option<Vec<Used>> {
    let count = plan.len();
    for one in 0..count {
        let same = |other: &usize| plan[*other].0.bar == plan[one].0.bar;
        for two in (one + 1..count).filter(same) {
            if let Some(new) = merge(prepared, plan, &[one, two], looks) {
                return Some(new);
            }
        }
    }
    for one in 0..count {
        let same = |other: &usize| plan[*other].0.bar == plan[one].0.bar;
        for two in (one + 1..count).filter(same) {
            for three in (two + 1..count).filter(same) {
                if *looks == 0 {
                    return None;
                }
                if let Some(new) = merge(prepared, plan, &[one, two, three], looks) {
                    return Some(new);
                }
            }
        }
    }
    None
}

/// The plan with one pattern less in place of these, if there is one of the same cost.
fn merge(
    prepared: &Prepared,
    plan: &[Used],
    places: &[usize],
    looks: &mut u32,
) -> Option<Vec<Used>> {
    let bar = plan[places[0]].0.bar;
    let mut totals: BTreeMap<u32, i64> = BTreeMap::new();
    let (mut bars, mut cost) = (0, 0);
    for &place in places {
        let (pattern, often) = &plan[place];
        bars += often;
        cost += prepared.pattern_cost(pattern) * often;
        for &(item, times) in &pattern.items {
            *totals.entry(item).or_default() += i64::from(times) * often;
        }
    }
    *looks = looks.saturating_sub(1);
    let totals: Vec<(u32, i64)> = totals.into_iter().collect();
    let new = if places.len() == 2 {
        let items = totals.iter().map(|&(item, total)| (item, total / bars));
        let whole = totals.iter().all(|&(_, total)| total % bars == 0);
        let items: Vec<(u32, u32)> = items.map(|(item, each)| (item, each as u32)).collect();
        whole.then(|| vec![(Pattern { bar, items }, bars)])
    } else if totals.iter().all(|&(_, total)| total < 2) {
        None
    } else {
        (1..=bars / 2).find_map(|few| split(prepared, bar, &totals, few, bars - few, looks))
    };
    let new = new.filter(|new| is_as_good(prepared, new, cost))?;
    let kept = plan.iter().enumerate();
    let kept = kept.filter(|(place, _)| !places.contains(place));
    Some(kept.map(|(_, used)| used.clone()).chain(new).collect())
}

fn is_as_good(prepared: &Prepared, new: &[Used], cost: i64) -> bool {
    let fit = new.iter().all(|(pattern, _)| {
        let weight = prepared.weight(&pattern.items);
        !pattern.items.is_empty() && weight <= prepared.bars[pattern.bar].capacity
    });
    fit && super::greedy::cost(prepared, new) <= cost
}

/// Two patterns, used `few` and `many` times, that make the totals.
fn split(
    prepared: &Prepared,
    bar: usize,
    totals: &[(u32, i64)],
    few: i64,
    many: i64,
    looks: &mut u32,
) -> Option<Vec<Used>> {
    let mut shares = Vec::new();
    let room = prepared.bars[bar].capacity;
    if !share(
        prepared,
        totals,
        (few, many),
        (room, room),
        &mut shares,
        looks,
    ) {
        return None;
    }
    let pattern = |pick: fn(&(u32, i64, i64)) -> (u32, i64)| {
        let items = shares.iter().map(pick).filter(|&(_, times)| times > 0);
        let items = items.map(|(item, times)| (item, times as u32)).collect();
        Pattern { bar, items }
    };
    Some(vec![
        (pattern(|share| (share.0, share.1)), few),
        (pattern(|share| (share.0, share.2)), many),
    ])
}

fn share(
    prepared: &Prepared,
    totals: &[(u32, i64)],
    times: (i64, i64),
    rooms: (i64, i64),
    shares: &mut Vec<(u32, i64, i64)>,
    looks: &mut u32,
) -> bool {
    let Some(&(item, total)) = totals.get(shares.len()) else {
        return true;
    };
    let weight = prepared.items[item as usize].weight;
    for first in 0..=(total / times.0).min(rooms.0 / weight) {
        let rest = total - first * times.0;
        let second = rest / times.1;
        let left = (rooms.0 - first * weight, rooms.1 - second * weight);
        if rest % times.1 != 0 || left.1 < 0 || *looks == 0 {
            continue;
        }
        *looks -= 1;
        shares.push((item, first, second));
        if share(prepared, totals, times, left, shares, looks) {
            return true;
        }
        shares.pop();
    }
    false
}
