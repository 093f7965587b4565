//! Other ways to feed gear: a feed for each instead of a chain, the fuse at
//! the source. Not here: fuses that are added (see `added`), the way back
//! (see `returns`).

use super::hub::Hub;
use super::placing::{self, End};
use super::{edits, series, sizes};
use crate::rule::Remedy;
use crate::view::{Graph, Link, limits, names, words};
use wainwright_analysis::result::{Assessment, DeviceResult, Role, Side, WireResult};
use wainwright_model::{Edit, Project, Value};
use wainwright_units::Length;

/// A feed of its own for each piece of gear of a chain, from a bus bar at
/// the head of the chain. The jumpers become the feeds.
pub(crate) fn own(
    assessment: &Assessment,
    project: &Project,
    graph: &Graph,
    jumpers: &[usize],
) -> Remedy {
    build_own(assessment, project, graph, jumpers).unwrap_or(Remedy::ladder(Vec::new()))
}

/// Moves the first fuse after a source to the source, where one wire leads
/// to it and one wire away from it.
pub(crate) fn fuse_to_source(
    assessment: &Assessment,
    project: &Project,
    graph: &Graph,
    source: &str,
) -> Remedy {
    let consumer = assessment
        .consumers
        .iter()
        .find(|c| c.item.as_str() == source && c.nodes.is_some());
    let moved = consumer
        .and_then(|c| c.nodes)
        .and_then(|(plus, _)| move_to(assessment, project, graph, plus));
    moved.unwrap_or(Remedy::ladder(Vec::new()))
}

/// Moves the fuse at the far end of one of these wires to the end where the
/// wire meets the stronger circuit: a charger's fuse belongs at the bus bar.
pub(crate) fn fuse_to_start(
    assessment: &Assessment,
    project: &Project,
    graph: &Graph,
    device: &DeviceResult,
    wires: &[usize],
) -> Remedy {
    let moved = wires.iter().find_map(|index| {
        let wire = assessment.wires.get(*index)?;
        let start = placing::end_towards(graph, wire, device.nodes.1)?;
        let far = start.other().node(wire);
        let own = device_at(assessment, far).filter(|own| own.way == 0)?;
        let fits = wire.ampacity.in_force.amperes() * limits::rating_share();
        let (before, _) = only_wire(graph, far).filter(|(only, _)| only == index)?;
        let behind = if own.nodes.0 == far {
            own.nodes.1
        } else {
            own.nodes.0
        };
        let (after, _) = only_wire(graph, behind).filter(|(after, _)| *after != before)?;
        let after = assessment.wires.get(after)?;
        let short = placing::short_lead();
        let way = wire.length.value - short;
        if limits::above(own.rating.value.amperes(), fits) || way.metres() <= 0.0 {
            return None;
        }
        let system = limits::system(project);
        let (item, terminal) = start.terminal(wire);
        let title = format!(
            "Move {} to the other end of {}, at most {} from {item}.{terminal}",
            names::device(project, own),
            names::wire(wire),
            words::length(short, system),
        );
        let changes = vec![
            edits::set_length(&wire.id, short, system),
            edits::set_length(&after.id, after.length.value + way, system),
        ];
        let cost = series::move_device() + way.metres();
        Some(Remedy::one(title, changes, cost))
    });
    moved.unwrap_or(Remedy::ladder(Vec::new()))
}

/// The only device at a node.
fn device_at(assessment: &Assessment, node: usize) -> Option<&DeviceResult> {
    let at = |device: &&DeviceResult| device.nodes.0 == node || device.nodes.1 == node;
    let mut devices = assessment.devices.iter().filter(at);
    let first = devices.next()?;
    devices.next().is_none().then_some(first)
}

/// Moves the fuse that sits behind a single switch to the start of the wire
/// that feeds the switch.
pub(crate) fn fuse_before_switch(
    assessment: &Assessment,
    project: &Project,
    graph: &Graph,
    switch: &str,
) -> Remedy {
    swap_switch(assessment, project, graph, switch).unwrap_or(Remedy::ladder(Vec::new()))
}

fn build_own(
    assessment: &Assessment,
    project: &Project,
    graph: &Graph,
    jumpers: &[usize],
) -> Option<Remedy> {
    let chain: Vec<&WireResult> = jumpers
        .iter()
        .filter_map(|index| assessment.wires.get(*index))
        .collect();
    let first = *chain.first()?;
    let origin = origin(assessment, first)?;
    let nodes = chain.iter().flat_map(|wire| [wire.from_node, wire.to_node]);
    let head =
        nodes.min_by_key(|node| graph.path(origin, *node).map_or(usize::MAX, |p| p.len()))?;
    let feed = assessment
        .wires
        .iter()
        .filter(|wire| chain.iter().all(|jumper| jumper.id != wire.id))
        .find(|wire| {
            let near = placing::end_towards(graph, wire, origin);
            near.is_some_and(|end| end.other().node(wire) == head)
        })?;
    let feed_end = placing::end_towards(graph, feed, origin)?.other();
    let hub = Hub::new(assessment, project, graph, feed, &chain, head)?;
    let (item, terminal) = feed_end.terminal(feed);
    let system = limits::system(project);
    let text = |text: String| Value::Text(text);
    let mut changes = vec![
        hub.item(),
        edits::set_end(&feed.id, feed_end.key(), &hub.id, hub.inlet()),
        edits::add_wire(
            &edits::free_wire(project, &format!("{}-own", first.id)),
            vec![
                ("from", text(format!("{}.{}", hub.id, hub.way(0)))),
                ("to", text(format!("{item}.{terminal}"))),
                ("like", text(first.id.to_string())),
                (
                    "length",
                    text(edits::length_text(first.length.value, system)),
                ),
                ("supplied", Value::Bool(false)),
            ],
        ),
    ];
    let mut cost = hub.cost();
    for (place, jumper) in chain.iter().enumerate() {
        let near = placing::end_towards(graph, jumper, head)?;
        let before = graph.wires_between(head, near.node(jumper));
        let wires = before
            .iter()
            .filter_map(|index| assessment.wires.get(*index));
        let so_far: Length = wires.map(|wire| wire.length.value).sum();
        changes.push(edits::set_end(
            &jumper.id,
            near.key(),
            &hub.id,
            &hub.way(place + 1),
        ));
        changes.push(edits::set_length(
            &jumper.id,
            so_far + jumper.length.value,
            system,
        ));
        cost += sizes::laying(jumper, jumper.size.value);
    }
    let title = format!(
        "Give each of the {} pieces of gear of this chain a feed of its own from a {}",
        words::count(chain.len() + 1),
        hub.name(),
    );
    Some(Remedy::one(title, changes, cost))
}

/// The terminal of a source that this wire's side leads to.
fn origin(assessment: &Assessment, wire: &WireResult) -> Option<usize> {
    let role = |wanted: Role| {
        assessment
            .consumers
            .iter()
            .filter(move |c| c.role == wanted)
    };
    let (plus, minus) = role(Role::Battery)
        .chain(role(Role::Source))
        .find_map(|c| c.nodes)?;
    Some(if wire.side == Side::Minus {
        minus
    } else {
        plus
    })
}

fn move_to(
    assessment: &Assessment,
    project: &Project,
    graph: &Graph,
    plus: usize,
) -> Option<Remedy> {
    let (before, device) = only_wire(graph, plus).and_then(|(index, node)| {
        Some((
            assessment.wires.get(index)?,
            device_fed_at(assessment, node)?,
        ))
    })?;
    let (after, _) = only_wire(graph, device.nodes.1)?;
    let after = assessment.wires.get(after)?;
    let short = placing::short_lead();
    let moved = before.length.value - short;
    if device.way != 0 || moved.metres() <= 0.0 || before.id == after.id {
        return None;
    }
    let system = limits::system(project);
    let changes = vec![
        edits::set_length(&before.id, short, system),
        edits::set_length(&after.id, after.length.value + moved, system),
    ];
    let title = format!(
        "Move {} to the source, at most {} of wire before it",
        names::device(project, device),
        words::length(short, system),
    );
    Some(Remedy::one(
        title,
        changes,
        series::move_device() + moved.metres(),
    ))
}

/// The wire at a node where there is exactly one, with the node at its end.
fn only_wire(graph: &Graph, node: usize) -> Option<(usize, usize)> {
    let mut wires = graph.links_at(node).filter_map(|(link, other)| match link {
        Link::Wire(index) => Some((*index, other)),
        _ => None,
    });
    let first = wires.next()?;
    wires.next().is_none().then_some(first)
}

fn device_fed_at(assessment: &Assessment, node: usize) -> Option<&DeviceResult> {
    assessment
        .devices
        .iter()
        .find(|device| device.nodes.0 == node)
}

fn swap_switch(
    assessment: &Assessment,
    project: &Project,
    graph: &Graph,
    switch: &str,
) -> Option<Remedy> {
    let inlet = graph.node(switch, "in")?;
    let outlet = graph.node(switch, "out")?;
    let (middle, fuse_node) = only_wire(graph, outlet)?;
    let device = device_fed_at(assessment, fuse_node).filter(|device| device.way == 0)?;
    let (feed, _) = only_wire(graph, inlet)?;
    let (load, _) = only_wire(graph, device.nodes.1)?;
    let wire = |index: usize| assessment.wires.get(index);
    let (middle, feed, load) = (wire(middle)?, wire(feed)?, wire(load)?);
    let feed_start = if feed.to_node == inlet {
        End::From
    } else {
        End::To
    };
    let load_start = if load.from_node == device.nodes.1 {
        End::From
    } else {
        End::To
    };
    let system = limits::system(project);
    let (item, terminal) = feed_start.terminal(feed);
    let fuse = device.item.as_str();
    let text = |text: String| Value::Text(text);
    let changes: Vec<Edit> = vec![
        edits::add_wire(
            &edits::free_wire(project, &format!("{}-feed", feed.id)),
            vec![
                ("from", text(format!("{item}.{terminal}"))),
                ("to", text(format!("{fuse}.in"))),
                ("like", text(feed.id.to_string())),
                (
                    "length",
                    text(edits::length_text(placing::short_lead(), system)),
                ),
                ("supplied", Value::Bool(false)),
            ],
        ),
        edits::set_end(&feed.id, feed_start.key(), fuse, "out"),
        edits::set_end(&load.id, load_start.key(), switch, "out"),
        edits::set_length(&load.id, load.length.value + middle.length.value, system),
        Edit::Remove {
            table: vec!["wire".to_string(), middle.id.to_string()],
        },
    ];
    let title = format!(
        "Move {} ahead of the switch, to {item}.{terminal} where its feed begins",
        names::device(project, device)
    );
    Some(Remedy::one(title, changes, series::move_device() + 1.0))
}
