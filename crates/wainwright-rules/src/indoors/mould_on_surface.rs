//! `mould-on-surface`: an inner surface is so cold that mould grows on it. Not here: water inside the wall.

use super::words::{month, side, way};
use crate::finding::{Amount, Finding, Subject};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, words};
use wainwright_analysis::Assessment;
use wainwright_analysis::indoors;
use wainwright_model::{LayerKind, Project, Side};
use wainwright_units::Ratio;

/// The rule.
pub(crate) struct MouldOnSurface;

static DOC: RuleDoc = RuleDoc {
    id: "mould-on-surface",
    title: "An inner surface is cold enough for mould",
    worst: Severity::Caution,
    what: "In the coldest month the air at the inner surface of an insulated wall or ceiling is more humid than 80 %, behind furniture or at the ribs.",
    why: "Mould grows where the air at a surface stays above 80 % for days; it stains, smells and makes people ill.",
    example: "At 65 % in the room the planks over bare steel ribs are at 39 °F: water runs down them.",
    what_to_do: "Foam over the ribs, less humid air, no furniture tight against the wall.",
    sources: &[
        "ISO 13788: humidity at a surface of at most 0.8; film of 0.25 m²K/W against mould.",
        "room/design",
        "room/films",
    ],
};

impl Rule for MouldOnSurface {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, _: &Assessment, project: &Project) -> Vec<Finding> {
        if project.layers.is_empty() || project.living.humidity.is_none() {
            return Vec::new();
        }
        let Some(damp) = indoors::damp_alone(project) else {
            return Vec::new();
        };
        let insulated = |wanted: Side| {
            project.layers.iter().any(|(_, layer)| {
                let of = layer.of.as_ref().map(|of| of.value);
                let on = layer.on.as_ref();
                of == Some(LayerKind::Foam) && on.is_some_and(|on| on.value.contains(&wanted))
            })
        };
        let sides = damp.sides.iter().filter(|found| insulated(found.side));
        let ways = sides.flat_map(|side| side.ways.iter().map(move |way| (side, way)));
        let bad = ways.filter(|(_, way)| !way.mould.holds);
        let worst = bad.max_by(|a, b| a.1.mould.humidity.total_cmp(&b.1.mould.humidity));
        let Some((worst, found)) = worst else {
            return Vec::new();
        };
        let system = limits::system(project);
        let mould = found.mould;
        let shown = words::percent(mould.humidity.min(Ratio::ONE));
        let headline = format!(
            "In {} the inside of {} {} is at {}: the air there is {} humid, {} is the most without mould.",
            month(damp.coldest),
            side(worst.side),
            way(found.kind),
            words::air(mould.temperature, system),
            shown,
            words::percent(mould.limit),
        );
        let value = Amount::computed("φ", mould.humidity.fraction(), shown);
        let limit = Amount::computed("φ", mould.limit.fraction(), words::percent(mould.limit));
        vec![
            Finding::new(DOC.id, Severity::Caution, Subject::Trailer, headline)
                .over(value, limit)
                .note(format!(
                    "With air inside of {} or less it would stay below that; {} is typed.",
                    words::percent(mould.humidity_allowed),
                    words::percent(damp.humidity.value),
                )),
        ]
    }

    fn remedies(&self, _: &Finding, _: &Assessment, _: &Project) -> Vec<Remedy> {
        Vec::new()
    }
}
