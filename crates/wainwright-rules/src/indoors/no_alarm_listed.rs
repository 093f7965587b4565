//! `no-alarm-listed`: something burns aboard and no alarm is listed. Told by names, so only a notice. Not here: how
//! much air a fire needs.

use crate::finding::{Finding, Subject};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::road;
use wainwright_analysis::Assessment;
use wainwright_analysis::indoors;
use wainwright_analysis::result::indoors::CautionKind;
use wainwright_model::{Id, Project};

/// The rule.
pub(crate) struct NoAlarmListed;

static DOC: RuleDoc = RuleDoc {
    id: "no-alarm-listed",
    title: "Something burns aboard and no alarm is listed",
    worst: Severity::Notice,
    what: "A heater that burns fuel, a fuel tank or a gas bottle is aboard of a trailer that people sleep in, and nothing that is called an alarm.",
    why: "Carbon monoxide has no smell: people do not wake up. An alarm is the only thing that tells.",
    example: "A 2 kW air heater and two sleepers, and no alarm among 40 items.",
    what_to_do: "Fit an alarm for carbon monoxide near the bed, and one for gas near the floor where gas is aboard. Add it to the items; the program only knows it by its name.",
    sources: &["Judgement of this project: told by what items are called."],
};

impl Rule for NoAlarmListed {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, _: &Assessment, project: &Project) -> Vec<Finding> {
        if project
            .living
            .people
            .as_ref()
            .is_none_or(|people| people.value == 0)
        {
            return Vec::new();
        }
        let (_, cautions) = indoors::air_alone(project);
        let alarm = cautions.iter().find(|one| one.kind == CautionKind::NoAlarm);
        let Some((first, items)) = alarm.and_then(|one| Some((one.items.first()?, &one.items)))
        else {
            return Vec::new();
        };
        let items: Vec<&Id> = items.iter().collect();
        let headline = format!(
            "People sleep beside {}, and no alarm for carbon monoxide is listed.",
            road::items(project, &items)
        );
        let subject = Subject::Item(first.clone());
        vec![Finding::new(DOC.id, Severity::Notice, subject, headline)]
    }

    fn remedies(&self, _: &Finding, _: &Assessment, _: &Project) -> Vec<Remedy> {
        Vec::new()
    }
}
