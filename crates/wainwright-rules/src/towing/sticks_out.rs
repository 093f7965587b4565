//! `sticks-out`: a thing is partly inside the box and partly outside. Not
//! here: things wholly outside, as on the roof or the tongue.

use crate::finding::{Finding, Subject};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, names, words};
use wainwright_analysis::Assessment;
use wainwright_analysis::result::road::Outside;
use wainwright_model::Project;

/// The rule.
pub(crate) struct SticksOut;

static DOC: RuleDoc = RuleDoc {
    id: "sticks-out",
    title: "A thing sticks out of the box",
    worst: Severity::Notice,
    what: "A thing is partly inside the box and partly outside it; what lies wholly outside, as on the roof or on the tongue, is not meant.",
    why: "Its place or its size is a slip, and weights and wire lengths rest on them.",
    example: "The bed is 6 ft 2 in wide in a box of 6 ft: it sticks out by 2 in.",
    what_to_do: "Correct its size or move it.",
    sources: &["Plain geometry."],
};

impl Rule for SticksOut {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let system = limits::system(project);
        let one = |o: &Outside| {
            let sides = [
                (o.front, "front"),
                (o.rear, "rear"),
                (o.left, "left"),
                (o.right, "right"),
                (o.floor, "floor"),
                (o.roof, "roof"),
            ];
            let (most, side) = sides.into_iter().max_by(|a, b| a.0.total_cmp(&b.0))?;
            if o.wholly || most.millimetres() <= SLIP {
                return None;
            }
            let headline = format!(
                "{} sticks out of the box by {} at the {side}.",
                words::capital(&names::item(project, &o.item)),
                words::length(most, system),
            );
            let subject = Subject::Item(o.item.clone());
            Some(Finding::new(DOC.id, Severity::Notice, subject, headline))
        };
        assessment.road.outside.iter().filter_map(one).collect()
    }

    fn remedies(&self, _: &Finding, _: &Assessment, _: &Project) -> Vec<Remedy> {
        Vec::new()
    }
}

/// Less than this is a slip of the tape \[mm\]. Judgement.
const SLIP: f64 = 10.0;
