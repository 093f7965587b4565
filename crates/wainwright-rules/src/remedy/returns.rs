//! The way back: a return conductor instead of the frame, plus and minus
//! swapped. Not here: the way there (see `feeds`).

use super::placing::End;
use super::{edits, series, sizes};
use crate::rule::{Change, Remedy};
use crate::view::{Graph, Link, limits, names};
use wainwright_analysis::result::{Assessment, WireResult};
use wainwright_model::{Id, Project};
use wainwright_units::{System, WireSize};

/// Swaps plus and minus of a piece of gear.
pub(crate) fn swap_polarity(assessment: &Assessment, project: &Project, item: &Id) -> Remedy {
    let mut changes = Vec::new();
    for wire in &assessment.wires {
        for end in [End::From, End::To] {
            let (at, terminal) = end.terminal(wire);
            let swapped = opposite(terminal).filter(|_| at == item.as_str());
            if let Some(swapped) = swapped {
                changes.push(edits::set_end(&wire.id, end.key(), at, &swapped));
            }
        }
    }
    let title = format!(
        "Swap the plus and minus wires at {}",
        names::item(project, item)
    );
    let cost = changes.len() as f64 * 0.5;
    Remedy::one(title, changes, cost)
}

/// A return conductor for each load that now returns through the frame,
/// straight to where the frame's own wire to the battery ends.
pub(crate) fn own_return(
    assessment: &Assessment,
    project: &Project,
    graph: &Graph,
    frame: &Id,
    loads: &[usize],
) -> Remedy {
    let system = limits::system(project);
    let at_frame = |wire: &WireResult| {
        [End::From, End::To]
            .into_iter()
            .find(|end| end.terminal(wire).0 == frame.as_str())
    };
    let sources = crate::view::graph::battery_nodes(assessment);
    let bond = assessment.wires.iter().find(|wire| {
        at_frame(wire).is_some_and(|end| {
            let crosses = |link: &Link| *link != Link::Through(frame.clone());
            !graph
                .reach(end.other().node(wire), |l| {
                    crosses(l) && !touches(assessment, l, wire)
                })
                .is_disjoint(&sources)
        })
    });
    let Some((bond, end)) = bond.and_then(|wire| Some((wire, at_frame(wire)?))) else {
        return Remedy::ladder(Vec::new());
    };
    let (item, terminal) = end.other().terminal(bond);
    let chosen: Vec<&WireResult> = loads
        .iter()
        .filter_map(|index| assessment.wires.get(*index))
        .filter(|wire| wire.id != bond.id)
        .collect();
    let target = format!("{item}.{terminal}");
    let mut rungs = vec![rerun(
        &chosen,
        &at_frame,
        (item, terminal),
        bond,
        system,
        None,
    )];
    let thinnest = chosen.iter().min_by(|a, b| a.metal.total_cmp(&b.metal));
    for size in thinnest
        .map(|wire| series::larger(wire.size.value))
        .unwrap_or_default()
    {
        rungs.push(rerun(
            &chosen,
            &at_frame,
            (item, terminal),
            bond,
            system,
            Some(size),
        ));
    }
    for rung in &mut rungs {
        let thicker = std::mem::take(&mut rung.title);
        let wires = names::together(&chosen, 6);
        rung.title = format!("Run {wires} to {target} instead of the frame{thicker}");
    }
    Remedy::ladder(rungs)
}

/// Ends these wires at another terminal, as much longer as the bond is, and
/// in a larger size where one is given. The title holds the size only.
fn rerun(
    wires: &[&WireResult],
    at_frame: &impl Fn(&WireResult) -> Option<End>,
    (item, terminal): (&str, &str),
    bond: &WireResult,
    system: System,
    size: Option<WireSize>,
) -> Change {
    let mut edits = Vec::new();
    let mut cost = 0.0;
    for wire in wires {
        let Some(near) = at_frame(wire) else { continue };
        let length = wire.length.value + bond.length.value;
        edits.push(edits::set_end(&wire.id, near.key(), item, terminal));
        edits.push(edits::set_length(&wire.id, length, system));
        if let Some(size) = size.filter(|size| series::area(*size) > series::area(wire.size.value))
        {
            edits.extend(sizes::resize(wire, size));
        }
        cost += sizes::laying(wire, size.unwrap_or(wire.size.value));
    }
    let title = size.map_or(String::new(), |size| format!(", in {size}"));
    Change { title, edits, cost }
}

fn touches(assessment: &Assessment, link: &Link, wire: &WireResult) -> bool {
    match link {
        Link::Wire(index) => assessment
            .wires
            .get(*index)
            .is_some_and(|w| w.id == wire.id),
        _ => false,
    }
}

/// `+` for `-`, `in+` for `in-` and so on.
fn opposite(terminal: &str) -> Option<String> {
    match terminal.strip_suffix('+') {
        Some(stem) => Some(format!("{stem}-")),
        None => terminal.strip_suffix('-').map(|stem| format!("{stem}+")),
    }
}
