//! What wires end in: lugs, other terminals, heat-shrink tube.

use super::Desk;
use super::lines::Lines;
use crate::circuit::outside;
use crate::known::Basis;
use crate::result::{Amount, AskedFor, Thing};
use wainwright_model::{FieldExt, Id, Spec, TerminalRef};
use wainwright_reference::Sourced;
use wainwright_reference::lug::{
    Connection, ConnectionStyle, connection, lug_fits, terminal_colour,
};
use wainwright_reference::plan::shrink_length;
use wainwright_units::WireSize;

/// Both ends of every wire that did not come with gear.
pub(super) fn add(desk: &Desk<'_>, lines: &mut Lines) {
    for (id, fields) in desk.project.wires.iter() {
        let Some(size) = fields.size.value().copied() else {
            continue;
        };
        if fields.supplied.value() == Some(&true) {
            continue;
        }
        let insulation = fields.insulation.value().map(String::as_str);
        for (field, end) in [("from", &fields.from), ("to", &fields.to)] {
            let Some(end) = end.value() else { continue };
            match desk.joined(end) {
                Some(joined) => one(lines, id, field, (size, insulation), joined),
                None => lines.ask(&["item", end.item.as_str(), "kind"], AskedFor::Terminal),
            }
        }
    }
}

fn one(
    lines: &mut Lines,
    id: &Id,
    field: &str,
    (size, insulation): (WireSize, Option<&str>),
    joined: Sourced<Connection>,
) {
    let basis = Basis::Table(joined.source);
    let of = ("wire", id);
    let one = Amount::Pieces(1);
    let (ConnectionStyle::Stud, Some(stud)) = (joined.value.style, joined.value.stud) else {
        let thing = Thing::Terminal {
            size,
            style: joined.value.style,
            colour: terminal_colour(size).map(|found| found.value),
        };
        return lines.add(thing, one, of, basis);
    };
    if lug_fits(size, stud).is_none_or(|fits| !fits.value) {
        lines.ask(&["wire", id.as_str(), field], AskedFor::Lug);
        return;
    }
    lines.add(Thing::Lug { size, stud }, one, of, basis);
    if let Some(tube) = shrink_length(size) {
        let over = outside(size, insulation);
        let amount = Amount::Length(tube.value);
        let thing = Thing::Shrink { size, over };
        lines.add(thing, amount, of, Basis::Table(tube.source));
    }
}

impl Desk<'_> {
    /// How a wire is joined to a terminal; `None` where the kind of gear is not
    /// known.
    fn joined(&self, end: &TerminalRef) -> Option<Sourced<Connection>> {
        let item = self.project.items.get(end.item.as_str())?;
        let part = item.part.value().map(String::as_str);
        let variant = match &item.spec {
            Spec::Unknown => return None,
            Spec::Fuse(fuse) => fuse.family.value().map(|family| family.as_str()),
            Spec::Switch(switch) => switch.style.value().map(|style| style.as_str()),
            Spec::FuseBlock(_) if end.terminal != "in" => Some("way"),
            _ => part,
        };
        connection(item.spec.kind().as_str(), variant)
    }
}
