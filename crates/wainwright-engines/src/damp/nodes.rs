//! Places in a section where vapour may turn to water: the surfaces of the layers and of the pieces
//! they are split into. Not here: pressures (`hull`).

use crate::heat_loss::{Resolved, temperatures};
use crate::refusal::{Refusal, above_zero, require};

/// Largest resistance of one piece of a layer [m²K/W] (ISO 13788; read).
const MOST_PER_PIECE: f64 = 0.25;

/// Most pieces of a layer; a metre of foam has about 160.
const MOST_PIECES: f64 = 200.0;

/// Places closer than this share of the whole s_d are one place.
const ONE_PLACE: f64 = 1e-12;

/// A place in a section; layers count from 0 at the outside.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Place {
    /// The outer surface.
    OuterSurface,
    /// Within a layer.
    Inside {
        /// That layer.
        layer: usize,
    },
    /// Where a layer meets the next one.
    Between {
        /// The outer one of the two.
        outer: usize,
    },
    /// The inner surface.
    InnerSurface,
}

/// Water at a place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Wet {
    /// Where.
    pub place: Place,
    /// How much [g/m²].
    pub grams_per_m2: f64,
}

/// The places of a section, outside first.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Nodes {
    /// What and where each is.
    pub places: Vec<Place>,
    /// s_d from the outside to it [m], rising.
    pub vapour_metres: Vec<f64>,
    /// Resistances from the outer surface that stand at it [m²K/W]: several where a layer lets
    /// vapour through freely.
    resistances: Vec<Vec<f64>>,
    section: Resolved,
}

impl Nodes {
    pub(super) fn new(section: &Resolved) -> Result<Self, Refusal> {
        let mut nodes = Self {
            places: vec![Place::OuterSurface],
            vapour_metres: vec![0.0],
            resistances: vec![vec![0.0]],
            section: section.clone(),
        };
        let whole: f64 = section.vapour_metres.iter().sum();
        above_zero("s_d of the section [m]", whole)?;
        let count = section.resistances.len();
        let (mut resistance, mut metres) = (0.0, 0.0);
        let both = section.resistances.iter().zip(&section.vapour_metres);
        for (layer, (&of_heat, &of_vapour)) in both.enumerate() {
            let pieces = (of_heat / MOST_PER_PIECE).ceil().max(1.0);
            require(
                "resistance of the layer [m²K/W]",
                of_heat,
                pieces <= MOST_PIECES,
                "50 or less",
            )
            .map_err(|refusal| refusal.at("layer", layer))?;
            let pieces = pieces as usize;
            for piece in 1..=pieces {
                let share = piece as f64 / pieces as f64;
                let place = match (piece == pieces, layer + 1 == count) {
                    (false, _) => Place::Inside { layer },
                    (true, false) => Place::Between { outer: layer },
                    (true, true) => Place::InnerSurface,
                };
                nodes.add(
                    place,
                    resistance + share * of_heat,
                    metres + share * of_vapour,
                    ONE_PLACE * whole,
                );
            }
            resistance += of_heat;
            metres += of_vapour;
        }
        Ok(nodes)
    }

    /// Adds a place, or joins it to the last one when no vapour resistance lies between. The joined
    /// place keeps the name of the outer one, but the inner surface stays the inner surface.
    fn add(&mut self, place: Place, resistance: f64, metres: f64, one: f64) {
        let last = self.vapour_metres.len() - 1;
        if metres - self.vapour_metres[last] > one {
            self.places.push(place);
            self.vapour_metres.push(metres);
            self.resistances.push(vec![resistance]);
            return;
        }
        self.resistances[last].push(resistance);
        if place == Place::InnerSurface {
            self.places[last] = place;
        }
    }

    /// Temperature of every place [°C], the lowest where several stand at one.
    pub(super) fn celsius(&self, inside: f64, outside: f64) -> Vec<f64> {
        let surfaces = temperatures(&self.section, inside, outside);
        let outer = surfaces.first().copied().unwrap_or(outside);
        let slope = (inside - outside) / self.section.total();
        let coldest = |at: &Vec<f64>| {
            at.iter()
                .map(|resistance| outer + slope * resistance)
                .fold(f64::INFINITY, f64::min)
        };
        self.resistances.iter().map(coldest).collect()
    }

    /// Temperature of the inner surface [°C].
    pub(super) fn inner_celsius(&self, inside: f64, outside: f64) -> f64 {
        temperatures(&self.section, inside, outside)
            .last()
            .copied()
            .unwrap_or(inside)
    }
}
