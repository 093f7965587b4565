//! `coupler-underrated`: the coupler's D value is below what the outfit asks. Not
//! here: ratings in kilograms (`rating-exceeded`).

use crate::finding::{Amount, Finding, Subject};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::limits;
use wainwright_analysis::Assessment;
use wainwright_analysis::result::road::PullCheck;
use wainwright_model::Project;
use wainwright_units::Force;

/// The rule.
pub(crate) struct CouplerUnderrated;

static DOC: RuleDoc = RuleDoc {
    id: "coupler-underrated",
    title: "The D value of the coupler is too low",
    worst: Severity::Warning,
    what: "The D value that follows from the masses of tow vehicle and trailer is above the one on the coupler.",
    why: "The D value is the pull the coupling was tested for; above it the coupling may crack.",
    example: "2.4 t of vehicle and 1.6 t of trailer ask 9.4 kN; the coupler says 7.5 kN.",
    what_to_do: "A coupler and a ball with a higher D value, or a lighter trailer.",
    sources: &["UNECE Regulation 55: D = g T C / (T + C)."],
};

impl Rule for CouplerUnderrated {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, _: &Project) -> Vec<Finding> {
        let check = assessment.road.d_value.as_ref();
        let over = |c: &&PullCheck| limits::above(c.asked.newtons(), c.rated.value.newtons());
        let Some(check) = check.filter(over) else {
            return Vec::new();
        };
        let kilonewtons = |force: Force| format!("{:.2} kN", force.newtons() / 1000.0);
        let (asked, rated) = (kilonewtons(check.asked), kilonewtons(check.rated.value));
        let headline = format!("The outfit asks a D value of {asked}; the coupler has {rated}.");
        let limit = Amount::based("D", check.rated.value.newtons(), rated, &check.rated.basis);
        let value = Amount::computed("D_asked", check.asked.newtons(), asked);
        vec![Finding::new(DOC.id, Severity::Warning, Subject::Trailer, headline).over(value, limit)]
    }

    fn remedies(&self, _: &Finding, _: &Assessment, _: &Project) -> Vec<Remedy> {
        Vec::new()
    }
}
