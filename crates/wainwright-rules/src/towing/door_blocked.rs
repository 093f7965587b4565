//! `door-blocked`: a door does not open, or a thing lacks the free room it needs. Not
//! here: things in the same place (`things-collide`).

use crate::finding::{Finding, Subject};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, names, words};
use wainwright_analysis::Assessment;
use wainwright_analysis::result::road::{Blocked, Blocker};
use wainwright_model::Project;

/// The rule.
pub(crate) struct DoorBlocked;

static DOC: RuleDoc = RuleDoc {
    id: "door-blocked",
    title: "A door or a free room is blocked",
    worst: Severity::Caution,
    what: "Something stands in the swing of a door that opens inwards, or in the room that a thing needs before its front.",
    why: "A door that does not open may be the way out in a fire; a charger without room gets hot, a fridge cannot be opened.",
    example: "The galley counter reaches 4 in into the swing of the side door.",
    what_to_do: "Move what stands in the way, or hang the door so that it opens outwards.",
    sources: &["Plain geometry."],
};

impl Rule for DoorBlocked {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let system = limits::system(project);
        let one = |b: &Blocked| {
            let least = b.along.min(b.across).min(b.up);
            if least.millimetres() <= SLIP {
                return None;
            }
            let (subject, room) = match &b.owner {
                Blocker::Opening(id) => {
                    let name = project.label_or_id("opening", id.as_str());
                    (Subject::Opening(id.clone()), format!("the swing of {name}"))
                }
                Blocker::Item(id) => {
                    let name = names::item(project, id);
                    (
                        Subject::Item(id.clone()),
                        format!("the free room of {name}"),
                    )
                }
            };
            let headline = format!(
                "{} reaches {} into {room}.",
                words::capital(&names::item(project, &b.by)),
                words::length(least, system),
            );
            let finding = Finding::new(DOC.id, Severity::Caution, subject, headline);
            Some(finding.also(Subject::Item(b.by.clone())))
        };
        assessment.road.blocked.iter().filter_map(one).collect()
    }

    fn remedies(&self, _: &Finding, _: &Assessment, _: &Project) -> Vec<Remedy> {
        Vec::new()
    }
}

/// Less than this is a slip of the tape \[mm\]. Judgement.
const SLIP: f64 = 10.0;
