//! Puts a new fuse into a wire: which rating, which end, which edits. Not
//! here: which wires need one (see `fuses` and the rules).

use super::{edits, series};
use crate::view::{Graph, limits, names};
use wainwright_analysis::result::{Assessment, WireResult};
use wainwright_model::{Edit, Project, Value};
use wainwright_units::{Current, Length};

/// The end of a wire nearer to power.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum End {
    /// Its `from` end.
    From,
    /// Its `to` end.
    To,
}

impl End {
    /// The key in the file.
    pub(crate) fn key(self) -> &'static str {
        match self {
            End::From => "from",
            End::To => "to",
        }
    }

    /// The other end.
    pub(crate) fn other(self) -> End {
        match self {
            End::From => End::To,
            End::To => End::From,
        }
    }

    /// Item and terminal at this end.
    pub(crate) fn terminal(self, wire: &WireResult) -> (&str, &str) {
        let (item, terminal) = match self {
            End::From => &wire.from,
            End::To => &wire.to,
        };
        (item.as_str(), terminal)
    }

    /// Node at this end.
    pub(crate) fn node(self, wire: &WireResult) -> usize {
        match self {
            End::From => wire.from_node,
            End::To => wire.to_node,
        }
    }
}

/// A fuse to put into a wire.
#[derive(Debug, Clone)]
pub(crate) struct NewFuse<'a> {
    /// The wire that gets it.
    pub(crate) wire: &'a WireResult,
    /// At which end of the wire.
    pub(crate) end: End,
    /// Its family.
    pub(crate) family: &'static str,
    /// Its rating.
    pub(crate) rating: Current,
}

/// The end of a wire that fewer links part from a node.
pub(crate) fn end_towards(graph: &Graph, wire: &WireResult, node: usize) -> Option<End> {
    let steps = |start: usize| graph.path(start, node).map(|path| path.len());
    match (steps(wire.from_node), steps(wire.to_node)) {
        (Some(from), Some(to)) => Some(if from <= to { End::From } else { End::To }),
        (Some(_), None) => Some(End::From),
        (None, Some(_)) => Some(End::To),
        (None, None) => None,
    }
}

/// Ratings of a family that carry the load of these wires and fit what they
/// bear: the smallest first. A continuous load must stay within the
/// profile's share; where no rating allows that, the bare load counts.
pub(crate) fn ratings_for(
    assessment: &Assessment,
    family: &str,
    wires: &[&WireResult],
) -> Vec<Current> {
    let load = wires
        .iter()
        .filter_map(|wire| limits::most_amps(assessment, wire))
        .map(|(_, amps)| amps.amperes())
        .fold(0.0, f64::max);
    let bears = wires
        .iter()
        .map(|wire| wire.ampacity.in_force.amperes())
        .fold(f64::INFINITY, f64::min);
    ratings_between(assessment, family, load, bears)
}

/// Ratings of a family that carry this load and fit a wire that bears this
/// much (both in amperes).
pub(crate) fn ratings_between(
    assessment: &Assessment,
    family: &str,
    load: f64,
    bears: f64,
) -> Vec<Current> {
    let most = bears * limits::rating_share();
    let share = assessment
        .limits
        .continuous_share
        .value
        .fraction()
        .clamp(0.1, 1.0);
    let between = |least: f64| -> Vec<Current> {
        series::ratings(family)
            .into_iter()
            .filter(|rating| !limits::above(least, rating.amperes()))
            .filter(|rating| !limits::above(rating.amperes(), most))
            .collect()
    };
    let roomy = between(load / share);
    if roomy.is_empty() {
        between(load)
    } else {
        roomy
    }
}

/// The cheapest family that can open the fault expected at a node, with the
/// ratings that fit the wires. Empty when no family fits.
pub(crate) fn choices(
    assessment: &Assessment,
    node: usize,
    wires: &[&WireResult],
) -> Vec<(&'static str, Current)> {
    let fault = assessment
        .faults
        .iter()
        .find(|fault| fault.node == node)
        .map_or(Current::from_amperes(0.0), |fault| fault.largest.amps);
    let volts = assessment.system_volts.as_ref().map(|known| known.value);
    let Some(volts) = volts else {
        return Vec::new();
    };
    let able = series::families_for(fault, volts, Current::from_amperes(0.0));
    able.into_iter()
        .map(|(family, _)| (family, ratings_for(assessment, family, wires)))
        .filter(|(_, ratings)| !ratings.is_empty())
        .take(2)
        .flat_map(|(family, ratings)| ratings.into_iter().map(move |rating| (family, rating)))
        .collect()
}

/// Edits that put the fuse into the wire: a fuse, a short wire to it like the
/// old one, and the old wire now starting behind the fuse.
pub(crate) fn insert(project: &Project, fuse: &NewFuse<'_>) -> Vec<Edit> {
    let wire = fuse.wire;
    let id = edits::free_item(project, &format!("{}-fuse", wire.id));
    let lead = edits::free_wire(project, &format!("{}-feed", wire.id));
    let (item, terminal) = fuse.end.terminal(wire);
    let text = |text: String| Value::Text(text);
    vec![
        edits::add_item(
            &id,
            vec![
                ("kind", text("fuse".to_string())),
                ("family", text(fuse.family.to_string())),
                ("rating", text(edits::rating_text(fuse.rating))),
            ],
        ),
        edits::add_wire(
            &lead,
            vec![
                ("from", text(format!("{item}.{terminal}"))),
                ("to", text(format!("{id}.in"))),
                ("like", text(wire.id.to_string())),
                (
                    "length",
                    text(edits::length_text(short_lead(), limits::system(project))),
                ),
                ("supplied", Value::Bool(false)),
            ],
        ),
        edits::set_end(&wire.id, fuse.end.key(), &id, "out"),
    ]
}

/// What it costs to put it in.
pub(crate) fn cost(fuse: &NewFuse<'_>) -> f64 {
    series::device(fuse.family) + series::add_device() + 4.0 * series::joint(fuse.wire.size.value)
}

/// In words.
pub(crate) fn title(fuse: &NewFuse<'_>) -> String {
    let (item, terminal) = fuse.end.terminal(fuse.wire);
    format!(
        "Give {} a fuse of its own at {item}.{terminal}: {} {}",
        names::wire(fuse.wire),
        edits::rating_text(fuse.rating),
        series::name(fuse.family),
    )
}

/// Length of the lead from a source to a new fuse: 4 in, inside every rule
/// profile's limit.
pub(crate) fn short_lead() -> Length {
    Length::from_inches(4.0)
}
