//! Results of the routes: where each wire runs in the box, how long it is for
//! that reason, what surrounds it there, what it crosses.
//!
//! Places are [`Spot`]s: from the inside of the front wall, from the inside of
//! the left wall, above the floor. Not here: judgement.

use super::Run;
use crate::known::Known;
use wainwright_model::{Id, Side, Spot};
use wainwright_units::{CrossSection, Length, Ratio, Temperature};

/// The routes of all wires.
#[derive(Debug, Clone, PartialEq)]
pub struct Routing {
    /// Whether a wire has both its ends in the box, or a trunk is drawn: before
    /// that, nobody has begun with routes.
    pub begun: bool,
    /// Trunks with at least two corners, in file order.
    pub trunks: Vec<TrunkRoute>,
    /// Every wire whose two ends name items, in file order; also those that
    /// have no size yet and so are no [`super::WireResult`].
    pub wires: Vec<WireRoute>,
    /// Gear that wires end at and that has no place in the box, in file order.
    pub unplaced: Vec<Unplaced>,
    /// Lengths with wires, outside trunks: each place counted once, however
    /// many wires lie there together.
    pub off_trunk: Length,
}

/// Gear without a place, and the wires that have no route for that reason.
#[derive(Debug, Clone, PartialEq)]
pub struct Unplaced {
    /// The gear.
    pub item: Id,
    /// Wires that end at it.
    pub wires: Vec<Id>,
}

/// A trunk with what lies in it.
#[derive(Debug, Clone, PartialEq)]
pub struct TrunkRoute {
    /// Its id.
    pub id: Id,
    /// What people call it.
    pub label: String,
    /// Its whole path, corner to corner.
    pub stretches: Vec<Stretch>,
    /// Length of the whole path.
    pub length: Length,
    /// What surrounds the wires in it.
    pub run: Known<Run>,
    /// Foam on each side of the wires, where it runs in foam and somebody said.
    pub foam_cover: Option<Known<Length>>,
    /// Hottest air in it, where somebody said.
    pub air: Option<Known<Temperature>>,
    /// What hides it.
    pub behind: Option<String>,
    /// Wires that use it, in file order.
    pub wires: Vec<Id>,
    /// Length of it that wires lie in.
    pub used: Length,
    /// Length of it that two wires or more lie in.
    pub shared: Length,
    /// The place in it with most wires; `None` when it is empty.
    pub fullest: Option<Fullest>,
    /// Openings it runs across.
    pub crosses: Vec<Id>,
}

/// Where most wires lie together.
#[derive(Debug, Clone, PartialEq)]
pub struct Fullest {
    /// Loaded conductors there; plus and minus of a circuit both count.
    pub loaded: u32,
    /// Where this begins, along the trunk from its first corner.
    pub from: Length,
    /// Where this ends.
    pub to: Length,
    /// The wires, in file order.
    pub wires: Vec<Id>,
    /// Area all of them fill, insulation included; those without a size count
    /// nothing.
    pub filled: CrossSection,
}

/// One wire with its route.
#[derive(Debug, Clone, PartialEq)]
pub struct WireRoute {
    /// Its id.
    pub wire: Id,
    /// The items at its ends.
    pub items: (Id, Id),
    /// The length that was typed, which always wins.
    pub typed: Option<Known<Length>>,
    /// Its route; `None` when `lacks` says why.
    pub route: Option<Route>,
    /// What is in the way of a route.
    pub lacks: Vec<Lack>,
}

/// Why a wire has no route.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Lack {
    /// This item has no place in the box.
    Spot(Id),
    /// The wire must follow this trunk, which has fewer than two corners.
    Trunk(Id),
    /// No route could be computed with these figures.
    NoRoute,
}

/// Where a wire runs.
#[derive(Debug, Clone, PartialEq)]
pub struct Route {
    /// From the wire's start to its end.
    pub legs: Vec<Leg>,
    /// Length along the legs.
    pub bare: Length,
    /// What is added to it.
    pub slack: Slack,
    /// Length to cut: `bare` and everything in `slack`. It is the wire's
    /// length in the study, where none was typed.
    pub cut: Length,
    /// Most loaded conductors side by side anywhere on the way.
    pub bundle: Bundle,
    /// What surrounds it, each surrounding once, in the order first met.
    pub surroundings: Vec<Surrounded>,
    /// Index into `surroundings` of the one in which it bears least current;
    /// the first one where the wire has no size yet.
    pub worst: usize,
    /// Openings it runs across.
    pub crosses: Vec<Id>,
    /// Walls and linings it goes through.
    pub passes: Vec<Pass>,
}

/// A part of a route: along one trunk, or from one to the next.
#[derive(Debug, Clone, PartialEq)]
pub struct Leg {
    /// The trunk; `None` off the trunks.
    pub trunk: Option<Id>,
    /// Straight stretches, in order.
    pub stretches: Vec<Stretch>,
    /// Length of all of them.
    pub length: Length,
    /// Most loaded conductors side by side on this leg, this one counted.
    pub loaded: u32,
}

/// A straight part of a leg or of a trunk.
#[derive(Debug, Clone, PartialEq)]
pub struct Stretch {
    /// Where it begins.
    pub from: Spot,
    /// Where it ends.
    pub to: Spot,
    /// Its length.
    pub length: Length,
    /// The wall, roof or floor it runs on, where one is near all along.
    pub on: Option<Side>,
    /// How far it is from the inside of that wall, at most.
    pub off: Length,
    /// Distances from the edges of that wall: where not to drill.
    pub measures: Vec<Measure>,
}

/// Distance of a stretch from one edge.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Measure {
    /// The edge: front, left or floor.
    pub edge: Side,
    /// Distance where the stretch begins.
    pub from: Length,
    /// Distance where it ends.
    pub to: Length,
}

/// What is added to the bare length of a route.
#[derive(Debug, Clone, PartialEq)]
pub struct Slack {
    /// For bends, a share of the bare length.
    pub bends: Known<Length>,
    /// For the loop that keeps drops from running into a device.
    pub drop_loop: Known<Length>,
    /// To dress and to cut again, both ends together; `None` without a size.
    pub terminations: Option<Known<Length>>,
}

/// Conductors side by side.
#[derive(Debug, Clone, PartialEq)]
pub struct Bundle {
    /// Loaded conductors, this one counted.
    pub loaded: u32,
    /// The trunk in which that is; `None` off the trunks.
    pub trunk: Option<Id>,
    /// The other wires there, in file order.
    pub with: Vec<Id>,
}

/// One surrounding of a route.
#[derive(Debug, Clone, PartialEq)]
pub struct Surrounded {
    /// What it is.
    pub run: Known<Run>,
    /// Most loaded conductors side by side in it, this one counted.
    pub loaded: u32,
    /// Foam on each side, where somebody said.
    pub foam_cover: Option<Known<Length>>,
    /// Hottest air in it, where somebody said.
    pub air: Option<Known<Temperature>>,
    /// Length of wire in it; slack lies where the ends are.
    pub length: Length,
    /// Trunks that are so; empty off the trunks.
    pub trunks: Vec<Id>,
}

/// Where a route goes through something.
#[derive(Debug, Clone, PartialEq)]
pub struct Pass {
    /// What it goes through.
    pub through: Through,
    /// Where.
    pub at: Spot,
}

/// What a route goes through.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Through {
    /// A wall, the roof or the floor of the box.
    Wall(Side),
    /// The lining before a trunk that lies in foam or in a cavity.
    Lining(Id),
}

impl Default for Routing {
    fn default() -> Self {
        Self {
            begun: false,
            trunks: Vec::new(),
            wires: Vec::new(),
            unplaced: Vec::new(),
            off_trunk: Length::ZERO,
        }
    }
}

impl Routing {
    /// The route of a wire.
    pub fn wire(&self, id: &str) -> Option<&WireRoute> {
        self.wires.iter().find(|wire| wire.wire == *id)
    }

    /// A trunk with what lies in it.
    pub fn trunk(&self, id: &str) -> Option<&TrunkRoute> {
        self.trunks.iter().find(|trunk| trunk.id == *id)
    }
}

impl WireRoute {
    /// The typed length as a share of the bare length of its route: well below
    /// one, it is too short to follow that route.
    pub fn typed_share(&self) -> Option<Ratio> {
        let bare = self.route.as_ref()?.bare.metres();
        let typed = self.typed.as_ref()?.value.metres();
        (bare > 0.0).then(|| Ratio::from_fraction(typed / bare))
    }
}
