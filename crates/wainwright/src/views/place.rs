//! A better layout as plain data and in words: what to move where, what it
//! brings. Not here: looking for it (the road study).

use super::road::words;
use serde::Serialize;
use wainwright_analysis::result::road::{BetterLayout, ProofOfBest, RoadState, SwayResult};
use wainwright_analysis::road::NoLayout;
use wainwright_model::{Project, Spot};
use wainwright_units::{Length, Mass, Quantity, Ratio, System};

/// Version of [`PlaceView`].
pub const PLACE_VERSION: u32 = 1;

/// A better layout.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PlaceView {
    /// [`PLACE_VERSION`].
    pub place: u32,
    /// Version of the program.
    pub program: &'static str,
    /// The file, when there is one.
    pub file: Option<String>,
    /// Whether the file was changed.
    pub applied: bool,
    /// Why there is no layout; none when there is one.
    pub why_none: Option<String>,
    /// What was found.
    pub found: Option<FoundView>,
}

/// What the search found.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct FoundView {
    /// What moves where.
    pub moves: Vec<MoveView>,
    /// The layout as it is keeps the limits.
    pub kept_before: bool,
    /// The found one does.
    pub kept_after: bool,
    /// Figures as it is, over all fill states.
    pub before: FiguresView,
    /// Figures afterwards.
    pub after: FiguresView,
    /// Doors and free rooms with something in them afterwards.
    pub blocked_after: Vec<String>,
    /// `best`, `within-share`, `none-keeps-limits` or `unknown`.
    pub proof: &'static str,
    /// The same as a sentence.
    pub proof_words: String,
    /// Layouts that were tried.
    pub tried: usize,
}

/// One thing moved.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct MoveView {
    /// The item.
    pub item: String,
    /// What people call it.
    pub label: String,
    /// From the front wall, from the left wall, above the floor [m]; none when it had no place.
    pub from_metres: Option<[f64; 3]>,
    /// The same afterwards [m].
    pub to_metres: [f64; 3],
}

/// Figures of one layout.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct FiguresView {
    /// Least share of the tongue.
    pub least_tongue_share: Option<f64>,
    /// Highest share of the tongue.
    pub most_tongue_share: Option<f64>,
    /// Most that left and right wheels differ by [kg].
    pub side_difference_kilograms: Option<f64>,
    /// Largest yaw radius [m].
    pub yaw_radius_metres: Option<f64>,
    /// Highest centre of gravity [m].
    pub centre_height_metres: Option<f64>,
    /// Least damping, for comparing only.
    pub damping_share: Option<f64>,
}

/// Figures of one layout, as quantities.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Figures {
    /// Least share of the tongue.
    pub least_share: Option<Ratio>,
    /// Highest share of the tongue.
    pub most_share: Option<Ratio>,
    /// Most that left and right wheels differ by.
    pub side_difference: Option<Mass>,
    /// Largest yaw radius.
    pub yaw_radius: Option<Length>,
    /// Highest centre of gravity.
    pub centre_height: Option<Length>,
    /// Least damping.
    pub damping: Option<Ratio>,
}

impl Figures {
    /// The worst of each over all states.
    pub fn of(states: &[RoadState], sway: &[SwayResult]) -> Self {
        let shares = || states.iter().map(|state| state.share);
        let differences = states.iter().map(|state| state.side_difference().abs());
        Self {
            least_share: shares().min_by(Ratio::total_cmp),
            most_share: shares().max_by(Ratio::total_cmp),
            side_difference: differences.max_by(Mass::total_cmp),
            yaw_radius: states
                .iter()
                .map(|state| state.yaw_radius)
                .max_by(Length::total_cmp),
            centre_height: states
                .iter()
                .map(|state| state.centre.z)
                .max_by(Length::total_cmp),
            damping: sway
                .iter()
                .filter_map(|one| one.damping)
                .min_by(Ratio::total_cmp),
        }
    }

    fn view(self) -> FiguresView {
        FiguresView {
            least_tongue_share: self.least_share.map(Ratio::fraction),
            most_tongue_share: self.most_share.map(Ratio::fraction),
            side_difference_kilograms: self.side_difference.map(Mass::kilograms),
            yaw_radius_metres: self.yaw_radius.map(Length::metres),
            centre_height_metres: self.centre_height.map(Length::metres),
            damping_share: self.damping.map(Ratio::fraction),
        }
    }
}

impl PlaceView {
    /// The same as plain data.
    pub fn of(
        result: &Result<BetterLayout, NoLayout>,
        project: &Project,
        units: System,
        file: Option<&str>,
    ) -> Self {
        Self {
            place: PLACE_VERSION,
            program: env!("CARGO_PKG_VERSION"),
            file: file.map(str::to_owned),
            applied: false,
            why_none: result.as_ref().err().map(why_none),
            found: result
                .as_ref()
                .ok()
                .map(|found| found_view(found, project, units)),
        }
    }
}

fn found_view(found: &BetterLayout, project: &Project, units: System) -> FoundView {
    let moves = found.moves.iter().map(|one| MoveView {
        item: one.item.to_string(),
        label: words::item(project, one.item.as_str()),
        from_metres: one.from.map(metres),
        to_metres: metres(one.to),
    });
    FoundView {
        moves: moves.collect(),
        kept_before: found.kept_before,
        kept_after: found.kept_after,
        before: Figures::of(&found.before, &found.sway_before).view(),
        after: Figures::of(&found.after, &found.sway_after).view(),
        blocked_after: blocked(found, project),
        proof: proof_id(found.proof),
        proof_words: proof_words(found, units),
        tried: found.tried,
    }
}

/// What is still in the way afterwards, in words.
pub fn blocked(found: &BetterLayout, project: &Project) -> Vec<String> {
    let all = found.blocked_after.iter();
    all.map(|still| {
        let by = words::item(project, still.by.as_str());
        format!("{by} before {}", words::blocker(project, &still.owner))
    })
    .collect()
}

/// What is known of it against all other layouts.
pub fn proof_words(found: &BetterLayout, units: System) -> String {
    let tried = match found.tried {
        1 => "1 layout was tried".to_owned(),
        count => format!("{count} layouts were tried"),
    };
    match found.proof {
        ProofOfBest::Best => format!("{tried}; within the steps of the search none is better."),
        ProofOfBest::WithinShare(share) => {
            format!(
                "{tried}; none is better by more than {}.",
                share.show(units)
            )
        }
        ProofOfBest::NoneKeepsLimits(by) => format!(
            "No layout of these things keeps all limits; {} is the least they are broken by. Take something out, or move the axle.",
            by.show(units)
        ),
        ProofOfBest::Unknown => format!("{tried}; whether there is a better one is not known."),
    }
}

/// Why no layout was looked for.
pub fn why_none(why: &NoLayout) -> String {
    match why {
        NoLayout::TrailerNotKnown => "Sizes or weights of the trailer are missing.".into(),
        NoLayout::NothingMoves => "Nothing that weighs enough may be moved: place, size or mass is missing, or everything is marked to stay.".into(),
        NoLayout::Refused(why) => format!("The search refused the figures: {why}."),
    }
}

fn proof_id(proof: ProofOfBest) -> &'static str {
    match proof {
        ProofOfBest::Best => "best",
        ProofOfBest::WithinShare(_) => "within-share",
        ProofOfBest::NoneKeepsLimits(_) => "none-keeps-limits",
        ProofOfBest::Unknown => "unknown",
    }
}

fn metres(spot: Spot) -> [f64; 3] {
    [spot.from_front, spot.from_left, spot.above_floor].map(Length::metres)
}
