//! Colours of conductors: typed, or by the standard the project follows.

use super::Desk;
use crate::known::{Basis, Known};
use crate::result::Side;
use wainwright_model::{ColourStandard as Chosen, FieldExt, Id, Kind, Region, TerminalRef, Wire};
use wainwright_reference::colour::{ColourRole, ColourStandard, conductor_colour};

impl Desk<'_> {
    /// Colour of a wire; `None` while nothing says whether it is plus or minus.
    pub(super) fn colour(&self, id: &Id, fields: &Wire) -> Option<Known<String>> {
        if let Some(given) = self.notes.given(&fields.colour) {
            return Some(given);
        }
        let found = conductor_colour(self.standard(), self.role(id, fields)?)?;
        let text = match found.value.stripe {
            Some(stripe) => format!("{} with {stripe} stripe", found.value.main),
            None => found.value.main.to_owned(),
        };
        Some(Known::new(text, Basis::Table(found.source)))
    }

    fn standard(&self) -> ColourStandard {
        let head = &self.project.head;
        match (head.colours.value(), head.region.value()) {
            (Some(Chosen::AbycE11), _) => ColourStandard::Abyc,
            (Some(Chosen::Iso10133), _) => ColourStandard::Iso10133,
            (Some(Chosen::Iec60445), _) => ColourStandard::Iec60445,
            (None, Some(Region::Eu)) => ColourStandard::Iso10133,
            (None, Some(Region::Us) | None) => ColourStandard::Abyc,
        }
    }

    fn role(&self, id: &Id, fields: &Wire) -> Option<ColourRole> {
        let ends = [fields.from.value()?, fields.to.value()?];
        let is = |kind: Kind| ends.iter().any(|end| self.kind(end) == Some(kind));
        let solar = is(Kind::SolarModule) || ends.iter().any(|e| e.terminal.starts_with("pv"));
        match (self.side(id)?, solar) {
            (Side::Minus, _) if is(Kind::Frame) => Some(ColourRole::Bond),
            (Side::Minus, true) => Some(ColourRole::SolarMinus),
            (Side::Minus, false) => Some(ColourRole::Minus),
            (Side::Plus, true) => Some(ColourRole::SolarPlus),
            (Side::Plus, false) if self.circuits.is_main(id) => Some(ColourRole::PlusMain),
            (Side::Plus, false) => Some(ColourRole::PlusBranch),
            (Side::Both | Side::Neither, _) => None,
        }
    }

    fn kind(&self, end: &TerminalRef) -> Option<Kind> {
        let item = self.project.items.get(end.item.as_str())?;
        Some(item.spec.kind())
    }

    /// Plus or minus: by the circuit; of a wire without a size by its label.
    pub(super) fn side(&self, id: &Id) -> Option<Side> {
        let computed = self.assessment.wire(id.as_str()).map(|wire| wire.side);
        match computed {
            Some(side @ (Side::Plus | Side::Minus | Side::Both)) => Some(side),
            Some(Side::Neither) | None => self.circuits.side(id),
        }
    }
}
