//! The cheapest choices for the parts of a plan that keep every drop: the
//! plan lowered to the sizing engine and its answer brought back. Not here:
//! which choices are offered, which drops are allowed (the rules).

use wainwright_engines::sizing::{
    Choice, Limit, Obstacle, Problem, Section, SizingError, least_cost,
};
use wainwright_units::{Current, Mass, Ratio, Resistance, Voltage};

/// A part of the wiring that gets one size and one fuse.
#[derive(Debug, Clone, PartialEq)]
pub struct SizedPart {
    /// The part whose fuse is the next one towards the battery.
    pub parent: Option<usize>,
    /// What it may be made of; each passes every test of its own.
    pub offers: Vec<Offer>,
    /// How many times its own rating the next fuse must have; zero where it
    /// does not matter.
    pub upstream_ratio: Ratio,
}

/// One choice for a part.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Offer {
    /// Cost, in any unit.
    pub cost: f64,
    /// Mass of its wire.
    pub mass: Mass,
    /// Voltage lost in it at the current it is designed for.
    pub drop: Voltage,
    /// Rating of its fuse.
    pub rating: Option<Current>,
}

/// A way to a piece of gear and back, with the drop its parts may have.
#[derive(Debug, Clone, PartialEq)]
pub struct DropLimit {
    /// The parts it passes, each once.
    pub parts: Vec<usize>,
    /// Most that may be lost in them.
    pub most: Voltage,
}

/// The cheapest choices.
#[derive(Debug, Clone, PartialEq)]
pub struct Cheapest {
    /// For each part the place of its offer.
    pub chosen: Vec<usize>,
    /// Nothing costs less than this.
    pub lower_bound: f64,
}

/// Why there are none.
#[derive(Debug, Clone, PartialEq)]
pub struct NoneFits {
    /// Ways whose drop cannot be kept, alone or together.
    pub limits: Vec<usize>,
    /// Parts without an offer, or whose fuse suits no fuse further up.
    pub parts: Vec<usize>,
}

/// The cheapest choices that keep every drop and every ratio of fuses.
///
/// # Errors
/// What stands in the way; nothing named where the search was given up.
pub fn cheapest(parts: &[SizedPart], limits: &[DropLimit]) -> Result<Cheapest, NoneFits> {
    let problem = Problem {
        sections: parts.iter().map(section).collect(),
        limits: limits.iter().map(limit).collect(),
        alike: Vec::new(),
    };
    match least_cost(&problem) {
        Ok(plan) => Ok(Cheapest {
            chosen: plan.chosen,
            lower_bound: plan.lower_bound,
        }),
        Err(SizingError::Impossible(obstacles)) => Err(named(&obstacles)),
        Err(_) => Err(named(&[])),
    }
}

fn section(part: &SizedPart) -> Section {
    let choice = |offer: &Offer| Choice {
        cost: offer.cost,
        mass: offer.mass,
        drop: offer.drop,
        resistance: Resistance::ZERO,
        device: offer.rating,
    };
    Section {
        parent: part.parent,
        choices: part.offers.iter().map(choice).collect(),
        upstream_ratio: part.upstream_ratio,
    }
}

fn limit(limit: &DropLimit) -> Limit {
    Limit {
        sections: limit.parts.clone(),
        most_drop: Some(limit.most),
        fault: None,
    }
}

fn named(obstacles: &[Obstacle]) -> NoneFits {
    let mut found = NoneFits {
        limits: Vec::new(),
        parts: Vec::new(),
    };
    for obstacle in obstacles {
        match obstacle {
            Obstacle::NoChoice { section } | Obstacle::Selectivity { section, .. } => {
                found.parts.push(*section);
            }
            Obstacle::Drop { limit, .. } | Obstacle::Resistance { limit, .. } => {
                found.limits.push(*limit);
            }
            Obstacle::Together { limits, sections } => {
                found.limits.extend(limits);
                found.parts.extend(sections);
            }
        }
    }
    found
}
