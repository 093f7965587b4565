//! The document as read: `Project` and the elements in it.
//!
//! Not here: reading it from text (`read`), changing it (`edit`); a project is never changed in place.

use crate::elements::{
    Head, Limits, Opening, State, Stock, Towing, Trailer, Trunk, Vehicle, Weighing, Wire,
};
use crate::journey::{Climate, Living, Trip, Use};
use crate::kinds::{Body, Kind, Spec};
use crate::lining::{Cabinet, Layer, Tools};
use crate::place::{Field, FieldExt, Place, Table};

/// One trailer as decided and measured so far. Every id in it is legal; a reference may still point at nothing,
/// which is then among the problems.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Project {
    /// Version of the file format that the text says it is.
    pub version: Field<u32>,
    /// Name, units and rule profile.
    pub head: Head,
    /// The bare trailer.
    pub trailer: Trailer,
    /// The tow vehicle.
    pub vehicle: Vehicle,
    /// How it is driven.
    pub towing: Towing,
    /// Who lives in it and how.
    pub living: Living,
    /// What the work is done with.
    pub tools: Tools,
    /// Limits that replace those of the rule profile.
    pub limits: Limits,
    /// Parts of one's own.
    pub parts: Table<Part>,
    /// Things in the trailer.
    pub items: Table<Item>,
    /// Doors, windows, vents.
    pub openings: Table<Opening>,
    /// Ways where wires may run.
    pub trunks: Table<Trunk>,
    /// Conductors.
    pub wires: Table<Wire>,
    /// Situations to compute.
    pub states: Table<State>,
    /// What is in the shed, and prices.
    pub stock: Table<Stock>,
    /// Weights that were taken.
    pub weighings: Table<Weighing>,
    /// Places with their weather.
    pub climates: Table<Climate>,
    /// Journeys that energy and water must last for.
    pub trips: Table<Trip>,
    /// How things are used through a day.
    pub uses: Table<Use>,
    /// Layers of walls, ceiling and floor.
    pub layers: Table<Layer>,
    /// Cabinets for equipment.
    pub cabinets: Table<Cabinet>,
}

/// A thing in the trailer.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Item {
    /// What it is called; the part's label when it has none of its own.
    pub label: Field<String>,
    /// The part it is.
    pub part: Field<String>,
    /// The kind as typed at the item or at its part.
    pub kind: Field<Kind>,
    /// Anything worth remembering.
    pub note: Field<String>,
    /// Whether it came with the gear.
    pub supplied: Field<bool>,
    /// How heavy, how large, where, and how it is held; those of the part filled in.
    pub body: Body,
    /// Its fields, those of the part filled in; the origin of each tells which.
    pub spec: Spec,
    /// Where its table begins.
    pub at: Place,
}

/// A part: what several items can be.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Part {
    /// What it is called.
    pub label: Field<String>,
    /// What kind of thing it is.
    pub kind: Field<Kind>,
    /// Anything worth remembering.
    pub note: Field<String>,
    /// Whether it comes with the gear.
    pub supplied: Field<bool>,
    /// Where its figures come from.
    pub source: Field<String>,
    /// How heavy and how large.
    pub body: Body,
    /// Its fields.
    pub spec: Spec,
    /// Where its table begins.
    pub at: Place,
}

impl Project {
    /// Whether there is a table `[element.id]`.
    pub fn contains(&self, element: &str, id: &str) -> bool {
        match element {
            "part" => self.parts.contains(id),
            "item" => self.items.contains(id),
            "opening" => self.openings.contains(id),
            "trunk" => self.trunks.contains(id),
            "wire" => self.wires.contains(id),
            "state" => self.states.contains(id),
            "stock" => self.stock.contains(id),
            "weighing" => self.weighings.contains(id),
            "climate" => self.climates.contains(id),
            "trip" => self.trips.contains(id),
            "use" => self.uses.contains(id),
            "layer" => self.layers.contains(id),
            "cabinet" => self.cabinets.contains(id),
            _ => false,
        }
    }

    /// What `[element.id]` is called, when the file says it.
    pub fn label(&self, element: &str, id: &str) -> Option<&str> {
        let label = match element {
            "part" => self.parts.get(id)?.label.value(),
            "item" => self.items.get(id)?.label.value(),
            "opening" => self.openings.get(id)?.label.value(),
            "trunk" => self.trunks.get(id)?.label.value(),
            "wire" => self.wires.get(id)?.label.value(),
            "state" => self.states.get(id)?.label.value(),
            "stock" => self.stock.get(id)?.label.value(),
            "weighing" => self.weighings.get(id)?.label.value(),
            "climate" => self.climates.get(id)?.label.value(),
            "trip" => self.trips.get(id)?.label.value(),
            "use" => self.uses.get(id)?.label.value(),
            "layer" => self.layers.get(id)?.label.value(),
            "cabinet" => self.cabinets.get(id)?.label.value(),
            _ => None,
        };
        label.map(String::as_str)
    }

    /// What `[element.id]` is called; its id when it has no label.
    pub fn label_or_id<'a>(&'a self, element: &str, id: &'a str) -> &'a str {
        self.label(element, id).unwrap_or(id)
    }
}
