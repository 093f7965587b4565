//! Wire by size, insulation and colour.

use super::Desk;
use super::lines::Lines;
use crate::circuit::WEAKEST_INSULATION;
use crate::known::Known;
use crate::result::{Amount, AskedFor, Thing};
use wainwright_model::{FieldExt, Id, Wire};
use wainwright_units::Length;

/// Every wire that did not come with gear.
pub(super) fn add(desk: &Desk<'_>, lines: &mut Lines) {
    for (id, fields) in desk.project.wires.iter() {
        if fields.supplied.value() == Some(&true) {
            continue;
        }
        let Some(size) = fields.size.value() else {
            lines.ask(&["wire", id.as_str(), "size"], AskedFor::Size);
            continue;
        };
        let Some(length) = desk.length(id, fields) else {
            lines.ask(&["wire", id.as_str(), "length"], AskedFor::Length);
            continue;
        };
        let insulation = fields.insulation.value().cloned();
        let thing = Thing::Wire {
            size: *size,
            insulation: insulation.unwrap_or_else(|| WEAKEST_INSULATION.to_owned()),
            tinned: fields.tinned.value() == Some(&true),
            colour: desk.colour(id, fields).map(|known| known.value),
        };
        let amount = Amount::Length(length.value);
        lines.add(thing, amount, ("wire", id), length.basis);
    }
}

impl Desk<'_> {
    /// Length to cut: typed, or by the route; no stand-in.
    pub(super) fn length(&self, id: &Id, fields: &Wire) -> Option<Known<Length>> {
        self.notes.given(&fields.length).or_else(|| {
            let routed = self.assessment.routing.wire(id.as_str())?;
            Some(Known::computed(routed.route.as_ref()?.cut))
        })
    }
}
