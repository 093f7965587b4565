//! `things-collide`: two things are in the same place. Not
//! here: doors and free rooms (`door-blocked`).

use crate::finding::{Finding, Subject};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, names, words};
use wainwright_analysis::Assessment;
use wainwright_analysis::result::road::Overlap;
use wainwright_model::Project;

/// The rule.
pub(crate) struct ThingsCollide;

static DOC: RuleDoc = RuleDoc {
    id: "things-collide",
    title: "Two things are in the same place",
    worst: Severity::Caution,
    what: "The boxes of two things overlap in all three directions; a thing that lies wholly inside another, as a tank under a bed, is not meant.",
    why: "One of them will not fit, and every weight and wire length rests on both.",
    example: "The water tank reaches 2 in into the battery box.",
    what_to_do: "Move one of them, or correct its size.",
    sources: &["Plain geometry."],
};

impl Rule for ThingsCollide {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let real = |o: &&Overlap| {
            !o.stowed
                && [o.along, o.across, o.up]
                    .iter()
                    .all(|l| l.millimetres() > SLIP)
        };
        let system = limits::system(project);
        let overlaps = assessment.road.overlaps.iter().filter(real);
        let one = |o: &Overlap| {
            let least = o.along.min(o.across).min(o.up);
            let headline = format!(
                "{} and {} are {} into each other.",
                words::capital(&names::item(project, &o.first)),
                names::item(project, &o.second),
                words::length(least, system),
            );
            Finding::new(
                DOC.id,
                Severity::Caution,
                Subject::Item(o.first.clone()),
                headline,
            )
            .also(Subject::Item(o.second.clone()))
        };
        overlaps.map(one).collect()
    }

    fn remedies(&self, _: &Finding, _: &Assessment, _: &Project) -> Vec<Remedy> {
        Vec::new()
    }
}

/// Overlaps up to here are slips of the tape \[mm\]. Judgement.
const SLIP: f64 = 10.0;
