//! Wires, and what a wire takes over from the wire it is `like`.
//!
//! Not here: whether its ends and its model are there (`references`).

use super::Reader;
use crate::elements::Wire;
use crate::place::{Field, Origin, Place, Table};
use crate::problem::{Complaint, ProblemSeverity};

/// Reads all `[wire.<id>]`, with `like` worked out.
pub(super) fn wires(reader: &mut Reader<'_>) -> Table<Wire> {
    let mut starts = Vec::new();
    let mut wires = reader.keyed("wire", |fields| {
        let wire = Wire::take(fields);
        fields.finish(&[Wire::FIELDS]);
        starts.push(fields.offset("like"));
        wire
    });
    let models: Vec<Option<usize>> = wires
        .iter()
        .map(|(_, wire)| {
            wire.like
                .as_ref()
                .and_then(|like| wires.position(&like.value))
        })
        .collect();
    let order = order(&models);
    for turn in order.turns {
        take_over(&mut wires, turn, models.get(turn).copied().flatten());
    }
    for wire in order.circular {
        let Some((id, _)) = wires.at(wire) else {
            continue;
        };
        let path = format!("wire.{id}.like");
        reader.report.add(Complaint {
            at: starts.get(wire).copied().unwrap_or(0),
            path: &path,
            found: "wires that are like one another in a circle".into(),
            expected: "a wire that is not, in the end, like this one".into(),
            hint: Some("give one of them its own size and delete its `like`".into()),
            severity: ProblemSeverity::Error,
        });
    }
    wires
}

struct Order {
    /// Every wire after the wire it is like.
    turns: Vec<usize>,
    /// The wire at which each circle was noticed; it takes nothing over.
    circular: Vec<usize>,
}

#[derive(Clone, Copy, PartialEq)]
enum Visit {
    Not,
    Going,
    Done,
}

/// An order without recursion, in one pass over all wires.
fn order(models: &[Option<usize>]) -> Order {
    let mut visits = vec![Visit::Not; models.len()];
    let mut order = Order {
        turns: Vec::new(),
        circular: Vec::new(),
    };
    for start in 0..models.len() {
        let mut chain = Vec::new();
        let mut next = Some(start);
        while let Some(wire) = next.filter(|wire| visits.get(*wire) == Some(&Visit::Not)) {
            if let Some(visit) = visits.get_mut(wire) {
                *visit = Visit::Going;
            }
            chain.push(wire);
            next = models.get(wire).copied().flatten();
        }
        let closes = next.is_some_and(|wire| visits.get(wire) == Some(&Visit::Going));
        let broken = if closes { chain.last().copied() } else { None };
        order.circular.extend(broken);
        for wire in chain.into_iter().rev() {
            if let Some(visit) = visits.get_mut(wire) {
                *visit = Visit::Done;
            }
            if Some(wire) != broken {
                order.turns.push(wire);
            }
        }
    }
    order
}

fn take_over(wires: &mut Table<Wire>, wire: usize, model: Option<usize>) {
    let Some((id, base)) = model.and_then(|model| wires.at(model)) else {
        return;
    };
    let (id, base) = (id.to_string(), base.clone());
    let Some(own) = wires.row_mut(wire) else {
        return;
    };
    fill(&mut own.size, base.size, &id);
    fill(&mut own.insulation, base.insulation, &id);
    fill(&mut own.tinned, base.tinned, &id);
    fill(&mut own.length, base.length, &id);
    fill(&mut own.runs, base.runs, &id);
    fill(&mut own.route, base.route, &id);
    fill(&mut own.bundle, base.bundle, &id);
    fill(&mut own.sheathed, base.sheathed, &id);
    fill(&mut own.foam_cover, base.foam_cover, &id);
    fill(&mut own.air, base.air, &id);
    fill(&mut own.supplied, base.supplied, &id);
}

/// Takes a field over, marked with the wire it was typed at.
fn fill<T>(own: &mut Field<T>, base: Field<T>, id: &str) {
    if own.is_some() {
        return;
    }
    *own = base.map(|mut given| {
        if given.at.origin == Origin::File {
            given.at = Place {
                origin: Origin::Like(id.to_owned()),
                ..given.at
            };
        }
        given
    });
}
