//! Fuses added where there was none: at a source, at the start of thin wire,
//! between sources that are joined. Not here: how one is put into a wire (see
//! `placing`).

use super::placing::{self, End, NewFuse};
use crate::rule::{Change, Remedy};
use crate::view::{Circuits, Graph, Link};
use wainwright_analysis::result::{Assessment, DeviceResult, Role, Side, WireResult};
use wainwright_model::{Edit, Project};
use wainwright_units::Current;

/// Most wires that get a fuse in one remedy.
const MOST_FUSES: usize = 24;

/// A fuse of its own for each thin conductor, where it begins as seen from
/// the device that is too big for it. Only plus conductors can have one; a
/// minus conductor is protected by the fuse of its circuit.
pub(crate) fn at_thin_starts(
    assessment: &Assessment,
    project: &Project,
    device: &DeviceResult,
    wires: &[usize],
) -> Remedy {
    let graph = Graph::new(assessment, project);
    at_starts(assessment, project, &graph, wires, device.nodes.1)
}

/// A fuse at the start of the feeds among these wires.
pub(crate) fn at_feed(
    assessment: &Assessment,
    project: &Project,
    graph: &Graph,
    wires: &[usize],
) -> Remedy {
    let Some(source) = plus_of_strongest(assessment) else {
        return Remedy::ladder(Vec::new());
    };
    at_starts(assessment, project, graph, wires, source)
}

/// A fuse in each wire that leaves the plus terminal of a source, one remedy
/// for each family that can open the fault there.
pub(crate) fn at_source(
    assessment: &Assessment,
    project: &Project,
    graph: &Graph,
    source: &str,
) -> Vec<Remedy> {
    let consumers = assessment
        .consumers
        .iter()
        .filter(|c| c.item.as_str() == source);
    let Some((plus, _)) = consumers
        .filter(|c| !c.plus.starts_with("pv"))
        .find_map(|c| c.nodes)
    else {
        return Vec::new();
    };
    let leaving: Vec<usize> = assessment
        .wires
        .iter()
        .enumerate()
        .filter(|(_, wire)| wire.from_node == plus || wire.to_node == plus)
        .map(|(index, _)| index)
        .collect();
    vec![at_starts(assessment, project, graph, &leaving, plus)]
}

/// A fuse of its own at the plus terminal of each of these.
pub(crate) fn own_at_gear(assessment: &Assessment, project: &Project, items: &[&str]) -> Remedy {
    own(assessment, project, items, |end| end)
}

/// A fuse of its own for each of these where its plus wire meets the others:
/// that is where the strong source is.
pub(crate) fn own_at_joint(assessment: &Assessment, project: &Project, items: &[&str]) -> Remedy {
    own(assessment, project, items, End::other)
}

/// A fuse in each wire by which one of these items meets another, at the end
/// that `choose` makes of the item's own end.
fn own(
    assessment: &Assessment,
    project: &Project,
    items: &[&str],
    choose: impl Fn(End) -> End,
) -> Remedy {
    let graph = Graph::new(assessment, project);
    let mut places: Vec<(usize, End)> = Vec::new();
    for (index, wire) in assessment.wires.iter().enumerate() {
        for end in [End::From, End::To] {
            let (item, terminal) = end.terminal(wire);
            let plus = matches!(terminal, "+" | "out+") && items.contains(&item);
            let known = places.iter().any(|(known, _)| *known == index);
            if plus && !known && meets(&graph, index, end.other().node(wire), items, item) {
                places.push((index, choose(end)));
            }
        }
    }
    let heads: Vec<Head<'_>> = places
        .iter()
        .filter_map(|(index, end)| {
            let wire = assessment.wires.get(*index)?;
            Some(Head {
                wire,
                end: *end,
                choices: placing::choices(assessment, end.node(wire), &[wire]),
            })
        })
        .collect();
    rungs(project, &heads)
}

/// Whether the far end of a wire leads to another of the items without
/// passing a device.
fn meets(graph: &Graph, wire: usize, far: usize, items: &[&str], own: &str) -> bool {
    let near = graph.reach(far, |link| {
        *link != Link::Wire(wire) && !matches!(link, Link::Device(_))
    });
    items
        .iter()
        .filter(|item| **item != own)
        .flat_map(|item| [graph.node(item, "+"), graph.node(item, "out+")])
        .flatten()
        .any(|node| near.contains(&node))
}

/// A wire that gets a fuse, and the fuses that fit it.
struct Head<'a> {
    wire: &'a WireResult,
    end: End,
    choices: Vec<(&'static str, Current)>,
}

/// One fuse for each head; the rungs go through the choices of all of them
/// together. Empty when one of them has no choice.
fn rungs(project: &Project, heads: &[Head<'_>]) -> Remedy {
    if heads.is_empty() || heads.len() > MOST_FUSES || heads.iter().any(|h| h.choices.is_empty()) {
        return Remedy::ladder(Vec::new());
    }
    let longest = heads
        .iter()
        .map(|head| head.choices.len())
        .max()
        .unwrap_or(0);
    let rung = |step: usize| {
        let fuses: Vec<NewFuse<'_>> = heads
            .iter()
            .filter_map(|head| {
                let (family, rating) = head.choices.get(step).or(head.choices.last()).copied()?;
                Some(NewFuse {
                    wire: head.wire,
                    end: head.end,
                    family,
                    rating,
                })
            })
            .collect();
        change(project, &fuses)
    };
    Remedy::ladder((0..longest).map(rung).collect())
}

/// One fuse in each of these wires, at the end nearer to `origin`. The rungs
/// go through families and ratings from small to large.
fn at_starts(
    assessment: &Assessment,
    project: &Project,
    graph: &Graph,
    wires: &[usize],
    origin: usize,
) -> Remedy {
    let heads: Vec<Head<'_>> = heads(assessment, graph, wires, origin)
        .into_iter()
        .filter_map(|(index, end)| {
            let wire = assessment.wires.get(index)?;
            let protected = protected(assessment, graph, wires, index);
            let choices = placing::choices(assessment, end.node(wire), &protected);
            Some(Head { wire, end, choices })
        })
        .collect();
    rungs(project, &heads)
}

fn change(project: &Project, fuses: &[NewFuse<'_>]) -> Change {
    let edits: Vec<Edit> = fuses
        .iter()
        .flat_map(|fuse| placing::insert(project, fuse))
        .collect();
    let titles: Vec<String> = fuses.iter().map(placing::title).collect();
    Change {
        title: titles.join("; "),
        edits,
        cost: fuses.iter().map(placing::cost).sum(),
    }
}

/// The first plus conductor of each circuit among the wires, with its end
/// towards `origin`: those that no other of them precedes.
fn heads(
    assessment: &Assessment,
    graph: &Graph,
    wires: &[usize],
    origin: usize,
) -> Vec<(usize, End)> {
    let mut plus: Vec<usize> = wires.to_vec();
    plus.extend(Circuits::new(assessment, graph).all_partners(wires));
    plus.sort_unstable();
    plus.dedup();
    plus.retain(|index| {
        assessment
            .wires
            .get(*index)
            .is_some_and(|w| matches!(w.side, Side::Plus | Side::Both))
    });
    plus.iter()
        .filter_map(|index| {
            let wire = assessment.wires.get(*index)?;
            let end = placing::end_towards(graph, wire, origin)?;
            let before = graph.wires_between(origin, end.node(wire));
            let first = !before.iter().any(|other| plus.contains(other));
            first.then_some((*index, end))
        })
        .collect()
}

/// The conductors a fuse at the head of `wire` must fit: those of the list
/// that serve no other gear than it does.
fn protected<'a>(
    assessment: &'a Assessment,
    graph: &Graph,
    wires: &[usize],
    head: usize,
) -> Vec<&'a WireResult> {
    let served = graph.behind(assessment, head);
    let inside = |index: &usize| {
        let own = graph.behind(assessment, *index);
        !own.is_empty() && own.iter().all(|gear| served.contains(gear))
    };
    let mut chosen: Vec<usize> = wires.iter().copied().filter(inside).collect();
    chosen.push(head);
    chosen
        .iter()
        .filter_map(|index| assessment.wires.get(*index))
        .collect()
}

fn plus_of_strongest(assessment: &Assessment) -> Option<usize> {
    let role = |wanted: Role| {
        assessment
            .consumers
            .iter()
            .filter(move |c| c.role == wanted)
    };
    let mut sources = role(Role::Battery).chain(role(Role::Source));
    sources.find_map(|c| c.nodes).map(|(plus, _)| plus)
}
