//! `foam-too-deep`: foam between ribs or battens stands higher than these. Not here: how well it insulates.

use super::place;
use crate::finding::{Finding, Subject};
use crate::remedy::edits::set_text;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, words};
use wainwright_analysis::Assessment;
use wainwright_analysis::lining::{LayerTrouble, checks};
use wainwright_model::Project;

/// The rule.
pub(crate) struct FoamTooDeep;

static DOC: RuleDoc = RuleDoc {
    id: "foam-too-deep",
    title: "Foam is deeper than its room",
    worst: Severity::Caution,
    what: "The foam between ribs or battens is thicker than these are deep, and planks or sheets come over it.",
    why: "The planks do not lie on the ribs: screws pull the foam together until it cracks, or the wall is not even.",
    example: "Foam of 1-1/2 in between ribs that are 1 in deep: it stands out by 1/2 in.",
    what_to_do: "Take thinner foam, or lay battens on the ribs and count them as a layer before the foam.",
    sources: &["Plain geometry."],
};

impl Rule for FoamTooDeep {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, _: &Assessment, project: &Project) -> Vec<Finding> {
        let system = limits::system(project);
        let mut found: Vec<Finding> = Vec::new();
        for check in checks(project) {
            let LayerTrouble::FoamTooDeep {
                foam,
                room,
                battens,
            } = check.what
            else {
                continue;
            };
            let subject = Subject::Layer(check.layer.clone());
            if found
                .iter()
                .any(|finding| finding.subjects.contains(&subject))
            {
                continue;
            }
            let between = if battens { "battens" } else { "ribs" };
            let headline = format!(
                "{}: {} of foam between {between} that are {} deep.",
                words::capital(&place(project, check.layer.as_str(), check.side)),
                words::length(foam, system),
                words::length(room, system),
            );
            found.push(Finding::new(DOC.id, Severity::Caution, subject, headline));
        }
        found
    }

    fn remedies(&self, finding: &Finding, _: &Assessment, project: &Project) -> Vec<Remedy> {
        let Some(depth) = &project.trailer.rib_depth else {
            return Vec::new();
        };
        let layers = finding.subjects.iter().filter_map(|subject| match subject {
            Subject::Layer(id) => Some(id),
            _ => None,
        });
        let remedies = layers.map(|id| {
            let edit = set_text(&["layer", id.as_str(), "thickness"], depth.text.clone());
            let title = format!("Take foam of {}, as deep as the ribs", depth.text);
            Remedy::one(title, vec![edit], COST)
        });
        remedies.collect()
    }
}

/// Other foam, in units of a plug-in fuse swapped. Judgement.
const COST: f64 = 20.0;
