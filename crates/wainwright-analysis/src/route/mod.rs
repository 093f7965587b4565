//! Routes: from trunks, places of gear and wires to where each wire runs.
//!
//! Here: what the routing engine is asked, and what its answer means for
//! lengths, bundles, surroundings, openings. Not here: the search for the
//! shortest way (the engine has it), what surroundings do to a wire (the
//! circuit asks the heat engine), judgement.

mod ends;
mod find;
mod passes;
mod slack;
mod space;
mod sums;
mod together;
mod trunks;

use crate::circuit::Notes;
use crate::result::{Lack, Routing, Stretch};
pub(crate) use space::millimetres;
use std::collections::BTreeSet;
use wainwright_model::Project;
use wainwright_units::Length;

/// Where every wire runs. Total: a wire without a route says what it lacks.
pub(crate) fn all(project: &Project, notes: &mut Notes) -> Routing {
    let (wires, unplaced) = ends::wires(project, notes);
    let begun = !project.trunks.is_empty() || wires.iter().any(|wire| wire.lacks.is_empty());
    let mut routing = Routing {
        begun,
        wires,
        unplaced,
        ..Routing::default()
    };
    if !begun {
        return routing;
    }
    let space = space::Space::new(project);
    let drawn = trunks::drawn(project);
    let asked = ends::asked(project, &mut routing.wires, &drawn);
    let Some(found) = find::routes(&drawn, &asked) else {
        for asked in &asked {
            routing.wires[asked.wire].lacks.push(Lack::NoRoute);
        }
        routing.trunks = trunks::empty(&drawn, &space, notes);
        return routing;
    };
    let sharing = together::Sharing::new(&asked, &found);
    routing.trunks = trunks::filled(project, &drawn, &asked, &found, &space, notes);
    let mut allowances = slack::Allowances::new();
    for (index, one) in asked.iter().enumerate() {
        let ids = |trunk: usize| drawn[trunk].id.clone();
        let legs = found.ways[index].iter().enumerate();
        let legs = legs.map(|(place, leg)| space.leg(leg, sharing.loaded(index, place), &ids));
        let legs = legs.collect();
        let fields = project.wires.get(routing.wires[one.wire].wire.as_str());
        let bundle = sharing.bundle(index, &drawn, |other| {
            routing.wires[asked[other].wire].wire.clone()
        });
        let route = sums::route(
            fields,
            legs,
            bundle,
            &routing.trunks,
            &space,
            &mut allowances,
        );
        routing.wires[one.wire].route = Some(route);
    }
    routing.off_trunk = off_trunk(&routing);
    routing
}

/// Length outside the trunks, each place counted once.
fn off_trunk(routing: &Routing) -> Length {
    let routes = routing.wires.iter().filter_map(|wire| wire.route.as_ref());
    let legs = routes.flat_map(|route| &route.legs);
    let stretches = legs
        .filter(|leg| leg.trunk.is_none())
        .flat_map(|leg| &leg.stretches);
    let mut seen = BTreeSet::new();
    let first = stretches.filter(|stretch| seen.insert(same_place(stretch)));
    first.fold(Length::ZERO, |sum, stretch| sum + stretch.length)
}

/// A stretch to the millimetre, the same from either end.
fn same_place(stretch: &Stretch) -> [[i64; 3]; 2] {
    let mut ends = [stretch.from, stretch.to].map(space::millimetres);
    ends.sort_unstable();
    ends
}
