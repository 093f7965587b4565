//! The best way of a wire that must take given trunks in a given order. Not here: free choice
//! (`search`), the points of the way (`legs`).

use super::line::Metres;
use super::network::{Network, Place};
use super::search::{Hook, Inside, Room, Step, Weight, hooks};

/// A place reached in the trunk at hand, and how.
#[derive(Debug, Clone)]
struct Reached {
    place: Place,
    weight: Weight,
    inside: Inside,
}

/// A change from one trunk to the next.
struct Change {
    leave: f64,
    enter: Place,
    gap: f64,
    joined: bool,
}

/// The best way through all trunks of the list; `None` when the list is empty.
pub(super) fn forced(
    network: &Network,
    [from, to]: [Metres; 2],
    trunks: &[usize],
    open_factor: f64,
    room: &mut Room,
) -> Option<(Weight, Inside)> {
    let (&first, &last) = (trunks.first()?, trunks.last()?);
    let Room {
        from: start,
        to: end,
        ..
    } = room;
    let mut feet = Vec::new();
    hooks(network, from, f64::INFINITY, open_factor, &mut feet, start);
    hooks(network, to, f64::INFINITY, open_factor, &mut feet, end);
    let on = |trunk: usize| move |hook: &&Hook| hook.place.trunk == trunk;
    let mut reached: Vec<Reached> = start
        .iter()
        .filter(on(first))
        .map(|hook| led_on(hook, open_factor))
        .collect();
    for pair in trunks.windows(2) {
        if let &[here, there] = pair {
            let changes = changes(network, here, there);
            reached = changes
                .iter()
                .filter_map(|change| pass(network, &reached, change, open_factor))
                .collect();
        }
    }
    let ends = end.iter().filter(on(last)).filter_map(|hook| {
        let mut best = along(network, &reached, hook.place)?;
        best.weight.open += hook.reach;
        best.weight.all += open_factor * hook.reach;
        Some(best)
    });
    let best = ends.reduce(|best, other| {
        if other.weight.beats(best.weight) {
            other
        } else {
            best
        }
    })?;
    Some((best.weight, best.inside))
}

fn led_on(hook: &Hook, open_factor: f64) -> Reached {
    Reached {
        place: hook.place,
        weight: Weight {
            all: open_factor * hook.reach,
            open: hook.reach,
        },
        inside: Inside {
            start: hook.place,
            steps: Vec::new(),
        },
    }
}

/// Where a wire can change from a trunk to another: their joins, or the narrowest places between them
/// when they do not join.
fn changes(network: &Network, here: usize, there: usize) -> Vec<Change> {
    let change = |leave: usize, enter: usize, gap: f64| Change {
        leave: network.places[leave].at,
        enter: network.places[enter],
        gap,
        joined: true,
    };
    let mut changes = Vec::new();
    for join in &network.joins {
        let trunks = [
            network.places[join.one].trunk,
            network.places[join.other].trunk,
        ];
        if trunks == [here, there] {
            changes.push(change(join.one, join.other, join.gap));
        }
        if trunks == [there, here] {
            changes.push(change(join.other, join.one, join.gap));
        }
    }
    if changes.is_empty() {
        changes = narrowest(network, here, there);
    }
    changes
}

fn narrowest(network: &Network, here: usize, there: usize) -> Vec<Change> {
    let mut changes = Vec::new();
    for one in network.lines[here].pieces() {
        for other in network.lines[there].pieces() {
            let (gap, ways) = one.narrowest(&other);
            changes.extend(ways.into_iter().map(|(mine, theirs)| Change {
                leave: one.upto + mine,
                enter: Place {
                    trunk: there,
                    at: other.upto + theirs,
                },
                gap,
                joined: false,
            }));
        }
    }
    changes
}

/// The best way to go on over a change.
fn pass(
    network: &Network,
    reached: &[Reached],
    change: &Change,
    open_factor: f64,
) -> Option<Reached> {
    let trunk = reached.first()?.place.trunk;
    let at = change.leave;
    let mut best = along(network, reached, Place { trunk, at })?;
    best.place = change.enter;
    if change.joined {
        best.weight.all += change.gap;
        best.inside.steps.push(Step::Over(change.enter));
    } else {
        best.weight.all += open_factor * change.gap;
        best.weight.open += change.gap;
        best.inside.steps.push(Step::Open(change.enter));
    }
    Some(best)
}

/// The best way to a place of the trunk at hand.
fn along(network: &Network, reached: &[Reached], to: Place) -> Option<Reached> {
    let ways = reached.iter().map(|from| {
        let (way, over) = way_within(network, from.place, to.at);
        let mut next = from.clone();
        next.place = to;
        next.weight.all += way;
        if let Some((leave, enter)) = over {
            next.inside
                .steps
                .extend([Step::Along(leave), Step::Over(enter)]);
        }
        next.inside.steps.push(Step::Along(to.at));
        next
    });
    ways.reduce(|best, other| {
        if other.weight.beats(best.weight) {
            other
        } else {
            best
        }
    })
}

/// The shortest way within one trunk, over at most one place where it joins itself.
fn way_within(network: &Network, from: Place, to: f64) -> (f64, Option<(f64, Place)>) {
    let mut best = ((from.at - to).abs(), None);
    for join in &network.joins {
        let (one, other) = (network.places[join.one], network.places[join.other]);
        if one.trunk != from.trunk || other.trunk != from.trunk {
            continue;
        }
        for (leave, enter) in [(one, other), (other, one)] {
            let way = (from.at - leave.at).abs() + join.gap + (enter.at - to).abs();
            if way < best.0 - super::SAME {
                best = (way, Some((leave.at, enter)));
            }
        }
    }
    best
}
