//! What the wiring as a whole shows: capacity, loose terminals, gear joined
//! the wrong way round.

use crate::circuit::{Bank, Circuit};
use crate::result::{Loose, Side};
use std::collections::BTreeSet;
use wainwright_model::{FieldExt, Id, Item, Kind, Project, Spec};
use wainwright_units::Charge;

/// Rated capacity: strings in parallel add, a string has that of its smallest
/// battery; nothing where one of them is not given.
pub(super) fn capacity(project: &Project, circuit: &Circuit) -> Option<Charge> {
    let given = |member: &usize| {
        let item = project
            .items
            .get(circuit.consumers[*member].item.as_str())?;
        match &item.spec {
            Spec::Battery(battery) => battery.capacity.value().copied(),
            _ => None,
        }
    };
    let of_string = |bank: &Bank| {
        let members = bank.members.iter().map(given);
        let members: Option<Vec<Charge>> = members.collect();
        members?.into_iter().reduce(Charge::min)
    };
    let strings: Option<Vec<Charge>> = circuit.banks.iter().map(of_string).collect();
    strings?.into_iter().reduce(|sum, one| sum + one)
}

/// Terminals nothing is joined to, by the wires as drawn: one whose size is
/// not known yet joins its ends all the same.
pub(super) fn loose(project: &Project) -> Vec<Loose> {
    let wires = project.wires.iter();
    let ends = wires.flat_map(|(_, wire)| [wire.from.value(), wire.to.value()]);
    let used: BTreeSet<(&Id, &str)> = ends
        .flatten()
        .map(|end| (&end.item, end.terminal.as_str()))
        .collect();
    let mut loose = Vec::new();
    for (id, item) in project.items.iter() {
        let joined = |terminal: &str| used.contains(&(id, terminal));
        let terminals = terminals(item, &joined).into_iter();
        loose.extend(
            terminals
                .filter(|terminal| !joined(terminal))
                .map(|terminal| Loose {
                    item: id.clone(),
                    terminal,
                    needed: true,
                }),
        );
    }
    loose
}

/// Terminals that something must be joined to. Ways of blocks, bars and banks
/// are free to be empty, but a way in use needs its feed.
fn terminals(item: &Item, joined: &dyn Fn(&str) -> bool) -> Vec<String> {
    let all = item.spec.terminals();
    match item.spec.kind() {
        Kind::BusBar | Kind::Splice | Kind::Frame | Kind::Unknown => Vec::new(),
        Kind::FuseBlock => {
            let in_use = all.iter().any(|terminal| joined(terminal));
            all.into_iter().filter(|t| in_use && t == "in").collect()
        }
        Kind::SwitchBank => {
            let feed = |t: &String| {
                let way = t.strip_prefix("in");
                way.is_some_and(|way| joined(&format!("out{way}")))
            };
            all.into_iter().filter(feed).collect()
        }
        _ => all,
    }
}

/// Gear whose plus terminal is on the minus side or the other way round.
pub(super) fn reversed(circuit: &Circuit) -> Vec<Id> {
    let mut reversed: Vec<Id> = Vec::new();
    for (consumer, backwards) in circuit.consumers.iter().zip(&circuit.backwards) {
        let plus = circuit.sides[consumer.nodes.0];
        let minus = circuit.sides[consumer.nodes.1];
        let crossed = plus == Side::Minus || minus == Side::Plus;
        let wrong = *backwards || (!consumer.demand.is_source() && crossed);
        if wrong && reversed.last() != Some(&consumer.item) {
            reversed.push(consumer.item.clone());
        }
    }
    reversed
}
