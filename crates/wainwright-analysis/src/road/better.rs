//! A better layout: the project as a search problem, and what the search finds as moves. Not here: the search itself
//! (the placing engine), turning things round (a turned thing has another size, which is another decision).

use super::crowd::{door_rooms, free_rooms};
use super::zone::side_limits;
use super::{Lowered, lower, road_with};
use crate::frame::{BoxPlace, box_from_trailer};
use crate::result::road::{
    BetterLayout, Blocked, Move, ProofOfBest, RatingKind, RoadLoad, RoadResult, RoadState,
};
use wainwright_engines::balance::Band;
use wainwright_engines::placing::{
    Aim, Effort, Fixed, Item, KeepClear, Limits, Over, Place, Placing, Problem, Proof, Region,
    better_places,
};
use wainwright_model::{FieldExt, Id, Kind, Project, Side, Spot};
use wainwright_units::frame::{Point, Vector};
use wainwright_units::{Length, Mass};

/// What a search may do.
#[derive(Debug, Clone, PartialEq)]
pub struct LayoutOptions {
    /// Only these items may move; all that matter when `None`. An item that `stays` never moves.
    pub only: Option<Vec<Id>>,
    /// Lighter things stay: moving them is not worth the work.
    pub least_mass: Mass,
    /// Whether things that stand clear of the side walls may move sideways; otherwise they keep to their lane, and
    /// the aisle stays where it is.
    pub across: bool,
    /// Step of the places that are tried.
    pub step: Length,
    /// What a kilogram of difference between the sides counts, as yaw inertia [kg·m²/kg].
    pub for_difference: f64,
    /// What a metre of height of the centre of gravity counts [kg·m²/m].
    pub for_height: f64,
    /// What carrying one thing elsewhere counts [kg·m²].
    pub for_move: f64,
    /// How long to search.
    pub effort: Effort,
}

impl Default for LayoutOptions {
    /// Things from 5 kg on, every 50 mm; the weights of the aim are a judgement.
    fn default() -> Self {
        Self {
            only: None,
            least_mass: Mass::from_kilograms(5.0),
            across: false,
            step: Length::from_millimetres(50.0),
            for_difference: 1.0,
            for_height: 20.0,
            for_move: 5.0,
            effort: Effort::default(),
        }
    }
}

/// Why no layout was looked for.
#[derive(Debug, Clone, PartialEq)]
pub enum NoLayout {
    /// Sizes or weights of the trailer are not known.
    TrailerNotKnown,
    /// Nothing that matters may move: spot, size or mass is missing, or everything stays.
    NothingMoves,
    /// The search refused the figures, in its words.
    Refused(String),
}

/// Distance from a wall up to which a thing stands against it \[m\] (judgement).
const AGAINST_WALL_METRES: f64 = 0.05;
/// Height over the floor from which on a thing does not stand on it \[m\] (judgement).
const RAISED_METRES: f64 = 0.1;
/// Gap up to which one thing stands on another \[m\] (judgement).
const STANDS_ON_METRES: f64 = 0.03;
/// Most searches, when a thing found its way before a door and must stay after all.
const MOST_ROUNDS: usize = 3;

/// Looks for places that are better in every fill state.
///
/// # Errors
/// The trailer is not known, nothing may move, or figures beyond all measure.
pub fn better_layout(
    project: &Project,
    found: &RoadResult,
    options: &LayoutOptions,
) -> Result<BetterLayout, NoLayout> {
    let lowered = lower(project, &[]);
    let place = lowered.place.ok_or(NoLayout::TrailerNotKnown)?;
    let mut desk = Desk {
        project,
        found,
        options,
        lowered: &lowered,
        place,
        held_back: Vec::new(),
        movable: Vec::new(),
    };
    let mut last = None;
    for _ in 0..MOST_ROUNDS {
        let problem = desk.problem()?;
        let placing = better_places(&problem).map_err(|why| NoLayout::Refused(why.to_string()))?;
        let layout = desk.layout(&placing);
        let news = newly_blocked(&found.blocked, &layout.1.blocked);
        let done = news.is_empty();
        last = Some((placing, layout));
        if done {
            break;
        }
        desk.held_back.extend(news);
    }
    let (placing, (moves, after)) = last.ok_or(NoLayout::NothingMoves)?;
    Ok(desk.result(&placing, moves, after))
}

struct Desk<'a> {
    project: &'a Project,
    found: &'a RoadResult,
    options: &'a LayoutOptions,
    lowered: &'a Lowered,
    place: BoxPlace,
    /// Things that may not move after all.
    held_back: Vec<Id>,
    /// Loads that may move, as they are in the problem.
    movable: Vec<usize>,
}

impl Desk<'_> {
    fn problem(&mut self) -> Result<Problem, NoLayout> {
        let chassis = self.lowered.chassis.ok_or(NoLayout::TrailerNotKnown)?;
        let shell = self.lowered.shell.ok_or(NoLayout::TrailerNotKnown)?;
        let states: Vec<&RoadState> = self.found.fill_states().map(|(_, state)| state).collect();
        let limits = self.limits().ok_or(NoLayout::TrailerNotKnown)?;
        if states.is_empty() {
            return Err(NoLayout::TrailerNotKnown);
        }
        let mut fixed = vec![Fixed {
            masses: vec![shell.mass],
            centre: shell.centre,
            extent: shell.extent,
            solid: false,
        }];
        let layers = self.lowered.aboard.layers.iter();
        fixed.extend(layers.map(|(_, load)| Fixed {
            masses: vec![load.mass],
            centre: load.centre,
            extent: load.extent,
            solid: false,
        }));
        let mut items = Vec::new();
        self.movable.clear();
        for (index, load) in self.found.loads.iter().enumerate() {
            if load.parked_only {
                continue;
            }
            let masses = self.masses(load, &states);
            match self.item(load, &masses) {
                Some(item) => {
                    items.push(item);
                    self.movable.push(index);
                }
                None => fixed.push(Fixed {
                    solid: self.is_solid(load),
                    masses,
                    centre: load.centre,
                    extent: load.extent,
                }),
            }
        }
        if items.is_empty() {
            return Err(NoLayout::NothingMoves);
        }
        Ok(Problem {
            chassis,
            states: states.len(),
            fixed,
            items,
            keep_clear: self.keep_clear(),
            step: self.options.step,
            limits,
            aim: Aim {
                over: Over::Worst,
                for_difference: self.options.for_difference,
                for_height: self.options.for_height,
                for_move: self.options.for_move,
            },
            effort: self.options.effort,
        })
    }

    /// One mass, or one for every state.
    fn masses(&self, load: &RoadLoad, states: &[&RoadState]) -> Vec<Mass> {
        let each = states
            .iter()
            .map(|state| self.found.mass_in(load, state).unwrap_or(Mass::ZERO));
        match load.fill {
            Some(_) => each.collect(),
            None => vec![load.mass.value],
        }
    }

    fn item(&self, load: &RoadLoad, masses: &[Mass]) -> Option<Item> {
        let own = self.project.items.get(load.item.as_str())?;
        let chosen = match &self.options.only {
            Some(only) => only.contains(&load.item),
            None => load.most >= self.options.least_mass && load.kind != Kind::SolarModule,
        };
        let stays = own.body.stays.value() == Some(&true) || self.held_back.contains(&load.item);
        let sized = load.extent.x > Length::ZERO && load.extent.y > Length::ZERO;
        let tied = self.is_stowed(load) || self.is_stacked(load) || self.is_outside(load);
        if !chosen || stays || !sized || tied {
            return None;
        }
        let regions = self.regions(load, own.body.faces.value().copied());
        (!regions.is_empty()).then(|| Item {
            masses: masses.to_vec(),
            size: load.extent,
            regions,
            at: Some(Place {
                corner: corner(load),
                turned: false,
            }),
        })
    }

    /// At its own height, from the front wall to the rear wall. What stands against a side wall goes along it, or
    /// along the other one when it does not face a side; what hangs in the middle stays; all else keeps to its lane
    /// or goes anywhere, as the options say.
    fn regions(&self, load: &RoadLoad, faces: Option<Side>) -> Vec<Region> {
        let Some(length) = self.found.trailer.inside_length.as_ref() else {
            return Vec::new();
        };
        let here = corner(load);
        let front = self.place.ball_to_front;
        let rear = front + length.value - load.extent.x;
        let right = self.place.inside_width * -0.5;
        let left = self.place.inside_width * 0.5 - load.extent.y;
        if rear < front || left < right {
            return Vec::new();
        }
        let along = |low: Length, high: Length| Region {
            from: Point::new(front, low, here.z),
            to: Point::new(rear, high, here.z),
            turned: false,
        };
        let near = Length::from_metres(AGAINST_WALL_METRES);
        let (at_left, at_right) = ((left - here.y).abs() < near, (here.y - right).abs() < near);
        let faces_a_side = matches!(faces, Some(Side::Left | Side::Right));
        match (at_left, at_right) {
            (false, false) if self.is_raised(load) => Vec::new(),
            (false, false) if self.options.across => vec![along(right, left)],
            (false, false) => vec![along(here.y, here.y)],
            _ if faces_a_side => vec![along(here.y, here.y)],
            _ => vec![
                along(here.y, here.y),
                if at_left {
                    along(right, right)
                } else {
                    along(left, left)
                },
            ],
        }
    }

    /// In something else or around it: both stay, because they belong together.
    fn is_stowed(&self, load: &RoadLoad) -> bool {
        let mut pairs = self.found.overlaps.iter().filter(|pair| pair.stowed);
        pairs.any(|pair| pair.first == load.item || pair.second == load.item)
    }

    /// On another thing or under one: both stay, because one carries the other.
    fn is_stacked(&self, load: &RoadLoad) -> bool {
        let near = |one: Length, other: Length| (one - other).abs().metres() < STANDS_ON_METRES;
        let low = corner(load);
        let high = low + load.extent;
        let mut others = self.found.loads.iter();
        others.any(|other| {
            let from = corner(other);
            let to = from + other.extent;
            let meets = low.x < to.x && from.x < high.x && low.y < to.y && from.y < high.y;
            let solid = other.item != load.item && !other.parked_only;
            meets && solid && (near(low.z, to.z) || near(high.z, from.z))
        })
    }

    fn is_raised(&self, load: &RoadLoad) -> bool {
        (corner(load).z - self.place.floor_height).metres() > RAISED_METRES
    }

    fn is_outside(&self, load: &RoadLoad) -> bool {
        let mut outside = self.found.outside.iter();
        outside.any(|out| out.item == load.item && out.wholly)
    }

    /// What is stowed lies in something that is solid already.
    fn is_solid(&self, load: &RoadLoad) -> bool {
        load.extent != Vector::ZERO && !self.is_stowed_inside(load) && !self.is_outside(load)
    }

    fn is_stowed_inside(&self, load: &RoadLoad) -> bool {
        let volume = |load: &RoadLoad| {
            load.extent.x.metres() * load.extent.y.metres() * load.extent.z.metres()
        };
        let mut pairs = self.found.overlaps.iter().filter(|pair| pair.stowed);
        pairs.any(|pair| {
            let other = match (pair.first == load.item, pair.second == load.item) {
                (true, _) => &pair.second,
                (_, true) => &pair.first,
                _ => return false,
            };
            let around = self.found.load(other.as_str());
            around.is_some_and(|around| volume(around) > volume(load))
        })
    }

    /// Swings of doors, and the free rooms of things that do not move.
    fn keep_clear(&self) -> Vec<KeepClear> {
        let stays = |id: &Id| {
            let mut moving = self
                .movable
                .iter()
                .filter_map(|at| self.found.loads.get(*at));
            !moving.any(|load| load.item == *id)
        };
        let doors = door_rooms(self.project, &self.found.trailer);
        let rooms = free_rooms(self.project, &[]);
        let rooms = rooms.into_iter().filter(|(id, ..)| stays(id));
        doors
            .into_iter()
            .chain(rooms.map(|(_, low, high)| (low, high)))
            .map(|(low, high)| self.clear_box(low, high))
            .collect()
    }

    /// A block between two corners of the box, as the engine has it: y runs the other way.
    fn clear_box(&self, low: Spot, high: Spot) -> KeepClear {
        let one = crate::frame::trailer_from_box(&self.place, low);
        let other = crate::frame::trailer_from_box(&self.place, high);
        KeepClear {
            from: Point::new(one.x, other.y, one.z),
            to: Point::new(other.x, one.y, other.z),
        }
    }

    fn limits(&self) -> Option<Limits> {
        let band = self.found.aims.tongue.as_ref()?;
        let limit = |kind| {
            let rating = self.found.ratings.iter().find(|rating| rating.kind == kind);
            rating.map(|rating| rating.limit.value)
        };
        let tongues = [
            RatingKind::CouplerTongue,
            RatingKind::HitchTongue,
            RatingKind::VehicleTongue,
        ];
        let axles = super::trailer::axle_count(&self.found.trailer) as f64;
        let sides = side_limits(self.found);
        Some(Limits {
            band: Band {
                low: band.low.value,
                high: band.high.value,
            },
            least_tongue: None,
            most_tongue: tongues.into_iter().filter_map(limit).reduce(Mass::min),
            most_axles: limit(RatingKind::Axle(0)).map(|each| each * axles),
            most_one_side: sides.most_one_side,
            most_difference: sides.most_difference,
        })
    }

    /// The moves of an answer, and the study of the trailer with them made.
    fn layout(&self, placing: &Placing) -> (Vec<Move>, RoadResult) {
        let moves: Vec<Move> = placing
            .moves
            .iter()
            .filter_map(|step| {
                let load = self.found.loads.get(*self.movable.get(step.item)?)?;
                let item = self.project.items.get(load.item.as_str())?;
                let corner = step.to.corner;
                let left = Point::new(corner.x, corner.y + load.extent.y, corner.z);
                Some(Move {
                    item: load.item.clone(),
                    from: item.body.spot.value().copied(),
                    to: box_from_trailer(&self.place, left),
                })
            })
            .collect();
        let spots: Vec<(Id, Spot)> = moves.iter().map(|m| (m.item.clone(), m.to)).collect();
        let after = road_with(self.project, &spots);
        (moves, after)
    }

    fn result(&self, placing: &Placing, moves: Vec<Move>, after: RoadResult) -> BetterLayout {
        let fills = |found: &RoadResult| found.fill_states().map(|(_, s)| s.clone()).collect();
        BetterLayout {
            before: fills(self.found),
            after: fills(&after),
            sway_before: self.found.sway.clone(),
            sway_after: after.sway,
            kept_before: placing
                .before
                .as_ref()
                .is_some_and(|l| l.score.keeps_limits()),
            kept_after: placing.after.score.keeps_limits(),
            blocked_after: after.blocked,
            proof: match placing.proof {
                Proof::Best => ProofOfBest::Best,
                Proof::CostsAtLeast { gap, .. } => ProofOfBest::WithinShare(gap),
                Proof::NoneKeepsLimits { least_violation } => {
                    ProofOfBest::NoneKeepsLimits(least_violation)
                }
                Proof::Unknown => ProofOfBest::Unknown,
            },
            tried: placing.evaluations,
            moves,
        }
    }
}

/// Corner nearest the ball, furthest right and lowest.
fn corner(load: &RoadLoad) -> Point {
    load.centre - load.extent * 0.5
}

/// Things whose room is blocked now and was not before, and those that block it.
fn newly_blocked(before: &[Blocked], after: &[Blocked]) -> Vec<Id> {
    let is_new = |now: &&Blocked| {
        !before
            .iter()
            .any(|old| old.owner == now.owner && old.by == now.by)
    };
    let mut ids = Vec::new();
    for blocked in after.iter().filter(is_new) {
        match &blocked.owner {
            crate::result::road::Blocker::Item(id) => ids.push(id.clone()),
            crate::result::road::Blocker::Opening(_) => ids.push(blocked.by.clone()),
        }
    }
    ids
}
