//! `front-too-large`: the front of the trailer is larger than the tow vehicle may pull. Not
//! here: fuel.

use crate::finding::{Amount, Finding, Subject};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::limits;
use wainwright_analysis::Assessment;
use wainwright_analysis::result::road::FrontalCheck;
use wainwright_model::Project;
use wainwright_units::{Quantity, System};

/// The rule.
pub(crate) struct FrontTooLarge;

static DOC: RuleDoc = RuleDoc {
    id: "front-too-large",
    title: "The front of the trailer is too large for the tow vehicle",
    worst: Severity::Caution,
    what: "Width times height of the box is above the frontal area that the tow vehicle's manual allows.",
    why: "The manual's tow rating holds only below that area: engine and gearbox get too hot against the wind.",
    example: "A front of 38 sq ft behind a vehicle whose manual allows 30 sq ft.",
    what_to_do: "A lower box, or drive slower and with short climbs; ask the maker of the vehicle.",
    sources: &["The limit is that of the tow vehicle's manual."],
};

impl Rule for FrontTooLarge {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, _: &Project) -> Vec<Finding> {
        let check = assessment.road.frontal.as_ref();
        let over = |c: &&FrontalCheck| {
            limits::above(c.actual.square_metres(), c.limit.value.square_metres())
        };
        let Some(check) = check.filter(over) else {
            return Vec::new();
        };
        let (front, most) = (
            check.actual.show(System::Metric),
            check.limit.value.show(System::Metric),
        );
        let headline = format!("The front of the box is {front}; the tow vehicle may pull {most}.");
        let limit = Amount::based(
            "A_max",
            check.limit.value.square_metres(),
            most,
            &check.limit.basis,
        );
        let value = Amount::computed("A", check.actual.square_metres(), front);
        vec![Finding::new(DOC.id, Severity::Caution, Subject::Trailer, headline).over(value, limit)]
    }

    fn remedies(&self, _: &Finding, _: &Assessment, _: &Project) -> Vec<Remedy> {
        Vec::new()
    }
}
