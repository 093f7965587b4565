//! `heater-too-small`: the heaters aboard do not hold the air on the coldest night. Not here: how long fuel lasts.

use crate::finding::{Amount, Finding, Subject};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, words};
use wainwright_analysis::Assessment;
use wainwright_analysis::indoors;
use wainwright_model::Project;

/// The rule.
pub(crate) struct HeaterTooSmall;

static DOC: RuleDoc = RuleDoc {
    id: "heater-too-small",
    title: "The heater is too small for the coldest night",
    worst: Severity::Caution,
    what: "On the coldest night it is slept in, walls, openings and air take away more heat than the heaters aboard give at full power.",
    why: "The air inside gets colder than wanted, damp turns to water sooner, water freezes in the pipes.",
    example: "At 18 °F outside 1.6 kW leave a box whose heater gives 1 kW.",
    what_to_do: "More foam, fewer gaps, a larger heater, or a warmer sleeping bag.",
    sources: &["material/heat", "room/films", "room/panes"],
};

impl Rule for HeaterTooSmall {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, _: &Assessment, project: &Project) -> Vec<Finding> {
        if project.layers.is_empty() || project.living.winter_air.is_none() {
            return Vec::new();
        }
        let Some(night) = indoors::night_alone(project) else {
            return Vec::new();
        };
        let heater = night.heaters.first().filter(|_| night.total > night.there);
        let Some(heater) = heater else {
            return Vec::new();
        };
        let system = limits::system(project);
        let (total, there) = (words::watts(night.total), words::watts(night.there));
        let headline = format!(
            "At {} outside {total} leave the box to keep {} inside; the heaters give {there}.",
            words::air(night.outside.value, system),
            words::air(night.inside.value, system),
        );
        let subject = Subject::Item(heater.item.clone());
        let finding = Finding::new(DOC.id, Severity::Caution, subject, headline).over(
            Amount::computed("P", night.total.watts(), total),
            Amount::computed("P", night.there.watts(), there),
        );
        vec![finding.note(format!(
            "To warm it up as well, {} to {} are advised.",
            words::watts(night.advised.0),
            words::watts(night.advised.1),
        ))]
    }

    fn remedies(&self, _: &Finding, _: &Assessment, _: &Project) -> Vec<Remedy> {
        Vec::new()
    }
}
