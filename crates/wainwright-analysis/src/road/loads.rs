//! Items as things that press on the trailer: mass, centre, extent, and what of it changes on the road. Not here: the
//! bare trailer (`trailer`), choices of fill (`states`).

use super::notes::RoadNotes;
use super::shelf::shelf;
use crate::frame::{BoxPlace, centre_from_corner, trailer_from_box, vector_from_extent};
use crate::known::{Assumption, Basis, Known};
use crate::lining;
use crate::result::lining::LayerMass;
use crate::result::road::{Fill, Filling, RoadLoad, RoadTrailer, RoadWanted, Unsettled};
use wainwright_engines::balance::{Chassis, Load, tongue_influence};
use wainwright_model::{Extent, FieldExt, Holds, Id, Item, Kind, Project, Spec, Spot};
use wainwright_units::frame::Vector;
use wainwright_units::{Length, Mass, Ratio};

/// What is in the trailer.
#[derive(Default)]
pub(super) struct Aboard {
    /// Items with mass and spot, people too.
    pub(super) loads: Vec<RoadLoad>,
    /// Mass of each load at the first and the second level of its fill; twice the same without one.
    pub(super) levels: Vec<[Mass; 2]>,
    /// Most mass of every item whose mass is known, placed or not, in file order.
    pub(super) masses: Vec<(Id, Mass)>,
    pub(super) fills: Vec<Fill>,
    pub(super) unsettled: Vec<Unsettled>,
    /// Layers of the lining that were not in when the bare trailer was weighed, each with its load.
    pub(super) layers: Vec<(LayerMass, Load)>,
}

/// What one item weighs.
struct Weight {
    own: Known<Mass>,
    /// At the first and the second level.
    levels: [Mass; 2],
    changes: Changes,
}

#[derive(PartialEq)]
enum Changes {
    Not,
    Tank(Holds),
    Cargo,
}

/// Every item, lowered. `moved` holds spots that replace those of the text.
pub(super) fn aboard(
    project: &Project,
    trailer: &RoadTrailer,
    chassis: Option<&Chassis>,
    place: Option<&BoxPlace>,
    moved: &[(Id, Spot)],
    notes: &mut RoadNotes,
) -> Aboard {
    let mut desk = Desk {
        trailer,
        chassis,
        place,
        moved,
        notes,
        found: Aboard::default(),
        cargo: None,
    };
    for (id, item) in project.items.iter() {
        desk.item(id, item);
    }
    desk.found.layers = layers(project, place);
    desk.found
}

/// What the lining that is to come will weigh, each layer of a side in its middle.
fn layers(project: &Project, place: Option<&BoxPlace>) -> Vec<(LayerMass, Load)> {
    let Some(place) = place else {
        return Vec::new();
    };
    let layers = lining::masses(project).into_iter();
    let loads = layers.map(|layer| {
        let load = Load {
            mass: layer.mass,
            centre: trailer_from_box(place, layer.centre),
            extent: vector_from_extent(layer.extent),
        };
        (layer, load)
    });
    loads.collect()
}

/// Where the item's corner is: moved, or as typed.
pub(super) fn spot_of(id: &Id, item: &Item, moved: &[(Id, Spot)]) -> Option<Spot> {
    let replaced = moved.iter().rev().find(|(other, _)| other == id);
    replaced.map_or_else(|| item.body.spot.value().copied(), |(_, spot)| Some(*spot))
}

/// The load at a level of its fill.
pub(super) fn at_level(load: &RoadLoad, levels: &[Mass; 2], level: usize) -> Load {
    Load {
        mass: levels.get(level).copied().unwrap_or(levels[0]),
        centre: load.centre,
        extent: load.extent,
    }
}

struct Desk<'a> {
    trailer: &'a RoadTrailer,
    chassis: Option<&'a Chassis>,
    place: Option<&'a BoxPlace>,
    moved: &'a [(Id, Spot)],
    notes: &'a mut RoadNotes,
    found: Aboard,
    /// Which fill the cargo is, once there is any.
    cargo: Option<usize>,
}

impl Desk<'_> {
    fn item(&mut self, id: &Id, item: &Item) {
        let kind = item.spec.kind();
        let weight = self.weight(id, item);
        let spot = spot_of(id, item, self.moved);
        let unweighed = item.body.mass.is_none();
        if let Some(weight) = &weight {
            let most = weight.levels[0].max(weight.levels[1]);
            self.found.masses.push((id.clone(), most));
        }
        let matters = weight.is_some() || weighs_enough(kind);
        if matters && (unweighed || spot.is_none()) {
            self.unsettled(id, kind, weight.as_ref(), spot, unweighed);
        }
        if let (Some(weight), Some(spot), Some(place)) = (weight, spot, self.place) {
            self.load(id, item, kind, weight, spot, place);
        }
    }

    fn load(
        &mut self,
        id: &Id,
        item: &Item,
        kind: Kind,
        weight: Weight,
        spot: Spot,
        place: &BoxPlace,
    ) {
        let size = item.body.size.value().copied();
        if size.is_none() && kind != Kind::Person {
            self.notes
                .lack(&["item", id.as_str(), "size"], RoadWanted::Size);
        }
        let centre = size.map_or_else(
            || trailer_from_box(place, spot),
            |size| centre_from_corner(place, spot, size),
        );
        let fill = self.fill(id, &weight);
        self.found.loads.push(RoadLoad {
            item: id.clone(),
            kind,
            least: weight.levels[0].min(weight.levels[1]),
            most: weight.levels[0].max(weight.levels[1]),
            mass: weight.own,
            centre,
            extent: size.map_or(Vector::ZERO, vector_from_extent),
            tongue_influence: self
                .chassis
                .map_or(0.0, |chassis| tongue_influence(chassis, centre.x)),
            fill,
            parked_only: kind == Kind::Person,
        });
        self.found.levels.push(weight.levels);
    }

    /// Which fill a load takes part in; all cargo that is used up on the way is one.
    fn fill(&mut self, id: &Id, weight: &Weight) -> Option<usize> {
        let [first, second] = weight.levels;
        let fills = &mut self.found.fills;
        match (&weight.changes, self.cargo) {
            (Changes::Not, _) => None,
            (Changes::Tank(holds), _) => {
                fills.push(Fill {
                    what: Filling::Tank(id.clone(), *holds),
                    first,
                    second,
                });
                Some(fills.len() - 1)
            }
            (Changes::Cargo, Some(index)) => {
                let fill = fills.get_mut(index)?;
                if let Filling::Cargo(ids) = &mut fill.what {
                    ids.push(id.clone());
                }
                fill.first += first;
                fill.second += second;
                Some(index)
            }
            (Changes::Cargo, None) => {
                fills.push(Fill {
                    what: Filling::Cargo(vec![id.clone()]),
                    first,
                    second,
                });
                self.cargo = Some(fills.len() - 1);
                self.cargo
            }
        }
    }

    /// What an item weighs; `None` when nothing is known of it.
    fn weight(&mut self, id: &Id, item: &Item) -> Option<Weight> {
        let own = self.notes.given(&item.body.mass);
        match &item.spec {
            Spec::Tank(tank) => {
                let contents = self.contents(id, tank);
                if own.is_none() && contents.is_none() {
                    return None;
                }
                let left_out = || Known::assumed(Mass::ZERO, Assumption::LeftOut);
                let own = own.unwrap_or_else(left_out);
                let empty = own.value;
                Some(match contents {
                    Some((mass, holds)) => Weight {
                        own,
                        levels: [empty, empty + mass],
                        changes: Changes::Tank(holds),
                    },
                    None => Weight::steady(own),
                })
            }
            Spec::Cargo(cargo) => {
                let own = own?;
                Some(match cargo.mass_end.value() {
                    Some(end) if *end != own.value => Weight {
                        levels: [own.value, *end],
                        own,
                        changes: Changes::Cargo,
                    },
                    _ => Weight::steady(own),
                })
            }
            _ => own.map(Weight::steady),
        }
    }

    /// What a tank holds when it is full.
    fn contents(&mut self, id: &Id, tank: &wainwright_model::Tank) -> Option<(Mass, Holds)> {
        let Some(capacity) = tank.capacity.value() else {
            self.notes
                .lack(&["item", id.as_str(), "capacity"], RoadWanted::Capacity);
            return None;
        };
        let water = shelf().water?;
        let holds = match tank.holds.value() {
            Some(holds) => *holds,
            None => {
                self.notes
                    .lack(&["item", id.as_str(), "holds"], RoadWanted::Contents);
                Holds::Fresh
            }
        };
        if holds == Holds::Fuel {
            // No fuel for vehicles or stoves is heavier than water.
            let shown = format!("{} kg/L", water.value);
            let path = ["item", id.as_str(), "holds"];
            self.notes.assume_because(&path, shown, Assumption::Worst);
        }
        let mass = Mass::from_kilograms(capacity.litres() * water.value);
        Some((mass, holds))
    }

    fn unsettled(
        &mut self,
        id: &Id,
        kind: Kind,
        weight: Option<&Weight>,
        spot: Option<Spot>,
        unweighed: bool,
    ) {
        if unweighed {
            self.notes
                .lack(&["item", id.as_str(), "mass"], RoadWanted::Mass);
        }
        if spot.is_none() && kind != Kind::Person {
            self.notes
                .lack(&["item", id.as_str(), "spot"], RoadWanted::Spot);
        }
        let mass = weight.map(|weight| weight.levels[0].max(weight.levels[1]));
        let per_kilogram = self.reach(spot);
        self.found.unsettled.push(Unsettled {
            item: id.clone(),
            kind,
            unweighed,
            unplaced: spot.is_none(),
            mass,
            tongue: mass
                .zip(per_kilogram)
                .map(|(mass, (rear, front))| (mass * rear, mass * front)),
            tongue_per_kilogram: per_kilogram,
            share_of_all: None,
        });
    }

    /// What a kilogram changes on the ball: at the rear wall and at the front wall, or at its spot.
    fn reach(&self, spot: Option<Spot>) -> Option<(f64, f64)> {
        let (chassis, place) = (self.chassis?, self.place?);
        let at = |from_front: Length| tongue_influence(chassis, place.ball_to_front + from_front);
        match spot {
            Some(spot) => Some((at(spot.from_front), at(spot.from_front))),
            None => {
                let length = self.trailer.inside_length.as_ref()?.value;
                Some((at(length), at(Length::ZERO)))
            }
        }
    }
}

impl Weight {
    fn steady(own: Known<Mass>) -> Self {
        Self {
            levels: [own.value; 2],
            own,
            changes: Changes::Not,
        }
    }
}

/// Whether things of this kind weigh so much that a missing mass is worth a word. Fuses, switches, bars and joints
/// do not; what belongs to the tow vehicle or to the trailer's frame is not in the box.
const fn weighs_enough(kind: Kind) -> bool {
    matches!(
        kind,
        Kind::Battery
            | Kind::SolarModule
            | Kind::ShoreCharger
            | Kind::Inverter
            | Kind::Tank
            | Kind::Furniture
            | Kind::Cargo
            | Kind::Person
    )
}

/// Share of each unsettled item in the mass of the laden trailer.
pub(super) fn add_shares(unsettled: &mut [Unsettled], laden: Mass) {
    for item in unsettled {
        item.share_of_all = item
            .mass
            .filter(|_| laden > Mass::ZERO)
            .map(|mass| Ratio::from_fraction(mass / (laden + mass)));
    }
}

/// Whether the person typed a mass at this item, not at a part of the library.
pub(super) fn typed_mass(item: &Item, notes: &RoadNotes) -> bool {
    let typed = |given| matches!(notes.basis(given), Basis::Typed(_));
    item.body.mass.as_ref().is_some_and(typed)
}

/// The size of an item as it stands.
pub(super) fn size_of(item: &Item) -> Option<Extent> {
    item.body.size.value().copied()
}
