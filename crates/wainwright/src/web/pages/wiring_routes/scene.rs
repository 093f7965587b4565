//! Trunks and wires as a scene: the trailer of the layout pages with what is
//! near the wall that is looked at. Not here: the trailer (`layout_scene`).

use crate::views::road::words;
use crate::web::layout_scene::{self, Shown, spot_of};
use crate::web::schematic::thickness;
use crate::web::view::View;
use std::collections::BTreeSet;
use wainwright_analysis::result::{Side as Rail, Stretch, WireRoute};
use wainwright_drawing::scene::{
    Extent, Face, Outline, Route, Scene, Space, Spot, Thing, Trunk, View as Looked,
};
use wainwright_drawing::{Pole, Tone};
use wainwright_model::{Project, Side};
use wainwright_units::Quantity;

/// What stands nearer to a wall than this is drawn with it [m].
const NEAR: f64 = 0.3;
/// Edge of the handle of a corner [m].
const HANDLE: f64 = 0.07;

/// What is looked at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Look {
    /// Everything, from above.
    Above,
    /// The left wall from inside.
    Left,
    /// The right wall from inside.
    Right,
    /// The front wall from inside.
    Front,
    /// The rear wall from inside.
    Rear,
    /// What runs under the roof, from above.
    Ceiling,
}

impl Look {
    /// All of them, in the order they are offered.
    pub const ALL: [Self; 6] = [
        Self::Above,
        Self::Left,
        Self::Right,
        Self::Front,
        Self::Rear,
        Self::Ceiling,
    ];

    /// As in an address.
    pub fn id(self) -> &'static str {
        match self {
            Self::Above => "floor",
            Self::Left => "left",
            Self::Right => "right",
            Self::Front => "front",
            Self::Rear => "rear",
            Self::Ceiling => "ceiling",
        }
    }

    /// For people.
    pub fn words(self) -> &'static str {
        match self {
            Self::Above => "Floor, everything",
            Self::Left => "Left wall",
            Self::Right => "Right wall",
            Self::Front => "Front wall",
            Self::Rear => "Rear wall",
            Self::Ceiling => "Ceiling",
        }
    }

    /// The one meant by a word; everything for any other.
    pub fn named(word: Option<&str>) -> Self {
        Self::ALL
            .into_iter()
            .find(|look| Some(look.id()) == word)
            .unwrap_or(Self::Above)
    }

    /// The surface whose runs are listed.
    pub fn side(self) -> Side {
        match self {
            Self::Above => Side::Floor,
            Self::Left => Side::Left,
            Self::Right => Side::Right,
            Self::Front => Side::Front,
            Self::Rear => Side::Rear,
            Self::Ceiling => Side::Roof,
        }
    }

    /// How it is drawn on a wide sheet, and on a narrow one.
    pub fn views(self) -> (Looked, Looked) {
        let wall = |face| (Looked::wall_inside(face), Looked::wall_inside(face));
        match self {
            Self::Above | Self::Ceiling => (Looked::plan(), Looked::plan_upright()),
            Self::Left => wall(Face::Left),
            Self::Right => wall(Face::Right),
            Self::Front => wall(Face::Front),
            Self::Rear => wall(Face::Rear),
        }
    }
}

/// What is chosen.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Selected {
    /// A wire.
    Wire(String),
    /// A trunk.
    Trunk(String),
    /// A thing.
    Item(String),
    /// A door or window.
    Opening(String),
}

impl Selected {
    /// The one meant by a word of an address.
    pub fn named(text: &str) -> Option<Self> {
        let (element, id) = text.split_once('.')?;
        let id = id.to_owned();
        match element {
            "wire" => Some(Self::Wire(id)),
            "trunk" => Some(Self::Trunk(id)),
            "item" => Some(Self::Item(id)),
            "opening" => Some(Self::Opening(id)),
            _ => None,
        }
    }

    /// As in an address.
    pub fn key(&self) -> String {
        match self {
            Self::Wire(id) => format!("wire.{id}"),
            Self::Trunk(id) => format!("trunk.{id}"),
            Self::Item(id) => format!("item.{id}"),
            Self::Opening(id) => format!("opening.{id}"),
        }
    }

    /// Whether the project has it.
    pub fn is_in(&self, project: &Project) -> bool {
        match self {
            Self::Wire(id) => project.wires.contains(id),
            Self::Trunk(id) => project.trunks.contains(id),
            Self::Item(id) => project.items.contains(id),
            Self::Opening(id) => project.openings.contains(id),
        }
    }
}

/// The scene; none before the size of the box is known.
pub fn scene(view: &View, look: Look, selected: Option<&Selected>) -> Option<Scene> {
    let study = view.study();
    let mut scene = layout_scene::scene(&Shown {
        project: &study.project,
        road: &study.assessment.road,
        chosen: None,
        zone: None,
        moved: &[],
        small: true,
        units: view.units(),
    })?;
    scene.points.clear();
    scene.dimensions.clear();
    let inside = scene.inside;
    let wired = wired(&study.project);
    scene.things.retain(|thing| is_near(thing, look, inside));
    for thing in &mut scene.things {
        context(thing, &wired, look, selected);
    }
    for opening in &mut scene.openings {
        opening.selected = matches!(selected, Some(Selected::Opening(id)) if *id == opening.id);
    }
    scene.trunks = trunks(view, look, selected);
    scene.routes = routes(view, look, selected);
    scene.things.extend(handles(view, selected));
    Some(scene)
}

/// Whether corners of a trunk are shown to be moved.
pub fn is_editing(selected: Option<&Selected>) -> bool {
    matches!(selected, Some(Selected::Trunk(_)))
}

/// Items that wires end at, or will.
fn wired(project: &Project) -> BTreeSet<String> {
    let items = project.items.iter();
    let wired = items.filter(|(_, item)| item.spec.kind().is_wired());
    wired.map(|(id, _)| id.to_string()).collect()
}

/// Makes a thing part of the surroundings: it is not moved here, and only
/// what wires end at is named.
fn context(thing: &mut Thing, wired: &BTreeSet<String>, look: Look, selected: Option<&Selected>) {
    thing.movable = false;
    thing.note.clear();
    thing.selected = matches!(selected, Some(Selected::Item(id)) if *id == thing.id);
    let ends = wired.contains(&thing.id);
    if !ends && !thing.selected {
        thing.label.clear();
        thing.tone = Tone::Off;
    } else {
        thing.tone = Tone::Calm;
    }
    if !ends || look == Look::Ceiling || is_editing(selected) {
        thing.outline = Outline::Dashed;
    }
}

fn is_near(thing: &Thing, look: Look, inside: Extent) -> bool {
    let (at, size) = (&thing.space.at, &thing.space.size);
    match look {
        Look::Above => true,
        Look::Left => at.from_left_m < NEAR,
        Look::Right => at.from_left_m + size.across_m > inside.across_m - NEAR,
        Look::Front => at.from_front_m < NEAR,
        Look::Rear => at.from_front_m + size.along_m > inside.along_m - NEAR,
        Look::Ceiling => at.up_m + size.up_m > inside.up_m - NEAR,
    }
}

fn trunks(view: &View, look: Look, selected: Option<&Selected>) -> Vec<Trunk> {
    let all = view.study().assessment.routing.trunks.iter();
    let chosen = |id: &str| matches!(selected, Some(Selected::Trunk(other)) if other == id);
    let here = all.filter(|trunk| chosen(trunk.id.as_str()) || is_here(&trunk.stretches, look));
    here.map(|trunk| Trunk {
        id: trunk.id.to_string(),
        label: trunk.label.clone(),
        words: format!(
            "Trunk {}, {}, {} in it{}",
            trunk.label,
            trunk.length.show(view.units()),
            crate::web::html::count(trunk.wires.len(), "wire", "wires"),
            trunk
                .behind
                .as_ref()
                .map_or_else(String::new, |what| format!(", behind {what}"))
        ),
        path: corners(&trunk.stretches),
        hidden: trunk.behind.is_some(),
        selected: chosen(trunk.id.as_str()),
    })
    .collect()
}

fn is_here(stretches: &[Stretch], look: Look) -> bool {
    look == Look::Above
        || stretches
            .iter()
            .any(|stretch| stretch.on == Some(look.side()))
}

fn corners(stretches: &[Stretch]) -> Vec<Spot> {
    let first = stretches.first().map(|stretch| spot_of(stretch.from));
    first
        .into_iter()
        .chain(stretches.iter().map(|stretch| spot_of(stretch.to)))
        .collect()
}

fn routes(view: &View, look: Look, selected: Option<&Selected>) -> Vec<Route> {
    let routing = &view.study().assessment.routing;
    routing
        .wires
        .iter()
        .flat_map(|wire| pieces(view, wire, look, selected))
        .collect()
}

/// The parts of a route that this look shows; all of it from above, and of a
/// chosen wire everywhere.
fn pieces(view: &View, wire: &WireRoute, look: Look, selected: Option<&Selected>) -> Vec<Route> {
    let Some(route) = &wire.route else {
        return Vec::new();
    };
    let chosen = matches!(selected, Some(Selected::Wire(id)) if wire.wire == **id);
    let stretches: Vec<&Stretch> = route.legs.iter().flat_map(|leg| &leg.stretches).collect();
    let mut paths: Vec<Vec<Spot>> = Vec::new();
    let mut open = false;
    for stretch in stretches {
        let shown = chosen || look == Look::Above || stretch.on == Some(look.side());
        match paths.last_mut().filter(|_| open && shown) {
            Some(path) => path.push(spot_of(stretch.to)),
            None if shown => paths.push(vec![spot_of(stretch.from), spot_of(stretch.to)]),
            None => {}
        }
        open = shown;
    }
    let found = view.study().assessment.wire(wire.wire.as_str());
    let project = &view.study().project;
    let ends = [&wire.items.0, &wire.items.1].map(|id| words::item(project, id.as_str()));
    let crossing = if route.crosses.is_empty() {
        ""
    } else {
        ", runs across an opening"
    };
    let name = crate::web::html::finding::label(view, "wire", wire.wire.as_str());
    let words = format!(
        "{name}, {} to {}, {}{crossing}",
        ends[0],
        ends[1],
        route.cut.show(view.units())
    );
    let pole = match found.map(|wire| wire.side) {
        Some(Rail::Plus) => Pole::Plus,
        Some(Rail::Minus) => Pole::Minus,
        _ => Pole::Neutral,
    };
    let drawn = |path| Route {
        id: wire.wire.to_string(),
        label: String::new(),
        words: words.clone(),
        path,
        pole,
        tone: if route.crosses.is_empty() {
            Tone::Calm
        } else {
            Tone::Bad
        },
        thickness: found.map_or(1, |wire| thickness(wire.metal.square_millimetres())),
        selected: chosen,
    };
    paths.into_iter().map(drawn).collect()
}

/// A handle on each corner of the chosen trunk.
fn handles(view: &View, selected: Option<&Selected>) -> Vec<Thing> {
    let Some(Selected::Trunk(id)) = selected else {
        return Vec::new();
    };
    let path = view
        .study()
        .project
        .trunks
        .get(id)
        .and_then(|trunk| trunk.path.as_ref());
    let path = path.map_or(&[][..], |path| path.value.as_slice());
    let handle = |(number, spot): (usize, &wainwright_model::Spot)| {
        let at = spot_of(*spot);
        Thing {
            id: format!("corner-{number}"),
            label: (number + 1).to_string(),
            note: String::new(),
            words: format!(
                "Corner {}, {}",
                number + 1,
                layout_scene::place_words(*spot, view.units())
            ),
            space: Space {
                at: Spot::new(
                    at.from_front_m - HANDLE / 2.0,
                    at.from_left_m - HANDLE / 2.0,
                    at.up_m - HANDLE / 2.0,
                ),
                size: Extent::new(HANDLE, HANDLE, HANDLE),
            },
            tone: Tone::Calm,
            selected: true,
            movable: true,
            outline: Outline::Solid,
        }
    };
    path.iter().enumerate().map(handle).collect()
}
