//! What the feeds of a former chain start at: a fuse block or a bus bar. Not
//! here: how the chain's wires are moved to it (see `feeds`).

use super::{edits, placing, series};
use crate::view::{Graph, limits};
use wainwright_analysis::result::{Assessment, Side, WireResult};
use wainwright_model::{Edit, Project, Value};
use wainwright_units::Current;

/// Cost of a bus bar or fuse block, in cost units: as a large fuse holder.
/// Judgement.
const HUB: f64 = 15.0;

/// What the feeds of a former chain start at: a fuse block on the plus side,
/// a bus bar on the minus side, where no fuse belongs.
pub(crate) struct Hub {
    /// Its id in the project file.
    pub(crate) id: String,
    /// One rating for each feed; none on the minus side.
    ratings: Option<Vec<Current>>,
    feeds: usize,
}

impl Hub {
    /// The hub for a chain and its feed; nothing when no fuse fits a feed.
    pub(crate) fn new(
        assessment: &Assessment,
        project: &Project,
        graph: &Graph,
        feed: &WireResult,
        chain: &[&WireResult],
        head: usize,
    ) -> Option<Self> {
        let feeds = chain.len() + 1;
        if feed.side == Side::Minus {
            let id = edits::free_item(project, &format!("{}-bus", feed.id));
            return Some(Self {
                id,
                ratings: None,
                feeds,
            });
        }
        let first = *chain.first()?;
        let mut ratings = vec![rating(assessment, chain, feed, head, first)?];
        for jumper in chain {
            let far = placing::end_towards(graph, jumper, head)?
                .other()
                .node(jumper);
            ratings.push(rating(assessment, chain, jumper, far, jumper)?);
        }
        let id = edits::free_item(project, &format!("{}-block", feed.id));
        Some(Self {
            id,
            ratings: Some(ratings),
            feeds,
        })
    }

    /// The edit that adds it.
    pub(crate) fn item(&self) -> Edit {
        let text = |text: &str| Value::Text(text.to_string());
        let fields = match &self.ratings {
            Some(ratings) => {
                let texts = ratings.iter().map(|r| Value::Text(edits::rating_text(*r)));
                vec![
                    ("kind", text("fuse-block")),
                    ("family", text("blade")),
                    ("fuses", Value::List(texts.collect())),
                ]
            }
            None => {
                let ways = i64::try_from(self.feeds + 1).unwrap_or(i64::MAX);
                vec![("kind", text("bus-bar")), ("ways", Value::Integer(ways))]
            }
        };
        edits::add_item(&self.id, fields)
    }

    /// The terminal its own feed ends at.
    pub(crate) fn inlet(&self) -> &'static str {
        if self.ratings.is_some() { "in" } else { "1" }
    }

    /// The terminal a feed starts at, counted from 0.
    pub(crate) fn way(&self, feed: usize) -> String {
        let first = if self.ratings.is_some() { 1 } else { 2 };
        (feed + first).to_string()
    }

    /// What it is, in words.
    pub(crate) fn name(&self) -> &'static str {
        if self.ratings.is_some() {
            "fuse block"
        } else {
            "bus bar"
        }
    }

    /// What it costs, its fuses included.
    pub(crate) fn cost(&self) -> f64 {
        let fuses = self.ratings.as_ref().map_or(0, Vec::len) as f64;
        HUB + series::add_device() + fuses * series::fuse("blade")
    }
}

/// The largest blade fuse that fits a wire like `wire` and carries the gear
/// that hangs on `node`: what `inward` brings there less what the jumpers
/// take on from there.
fn rating(
    assessment: &Assessment,
    chain: &[&WireResult],
    inward: &WireResult,
    node: usize,
    wire: &WireResult,
) -> Option<Current> {
    let amps = |wire: &WireResult| {
        limits::most_amps(assessment, wire).map_or(0.0, |(_, amps)| amps.amperes())
    };
    let onward = chain
        .iter()
        .filter(|other| other.id != inward.id)
        .filter(|other| other.from_node == node || other.to_node == node)
        .map(|other| amps(other));
    let load = (amps(inward) - onward.sum::<f64>()).max(0.0);
    let bears = wire.ampacity.in_force.amperes();
    placing::ratings_between(assessment, "blade", load, bears)
        .last()
        .copied()
}
