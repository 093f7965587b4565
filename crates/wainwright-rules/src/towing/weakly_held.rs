//! `weakly-held`: a thing is held more weakly than the rule asks. Not
//! here: things that nothing holds (`not-held`).

use crate::finding::{Amount, Finding, Subject, rests_on_memory};
use crate::remedy::edits;
use crate::rule::{Change, Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, names, subjects, words};
use wainwright_analysis::result::road::HoldResult;
use wainwright_analysis::{Ask, Assessment};
use wainwright_model::{Project, Value};
use wainwright_units::Force;

/// The rule.
pub(crate) struct WeaklyHeld;

static DOC: RuleDoc = RuleDoc {
    id: "weakly-held",
    title: "A thing is held more weakly than it should be",
    worst: Severity::Warning,
    what: "The fasteners of a thing, as typed, hold less than the force that the chosen rule asks of them.",
    why: "In a hard stop or a ditch a battery or a toolbox comes loose: it shorts, leaks, or flies at whoever is in the way.",
    example: "A 77 lb battery on four screws in plywood holds 700 N; three times its weight is 1030 N.",
    what_to_do: "More or thicker fasteners, bolts right through with large washers, or a strap rated for it.",
    sources: &["securing/profiles", "securing/wood", "securing/webbing"],
};

impl Rule for WeaklyHeld {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let found = &assessment.road;
        if !found.begun {
            return Vec::new();
        }
        let holds = found.holds.iter();
        holds.filter_map(|hold| find_one(project, hold)).collect()
    }

    fn remedies(
        &self,
        finding: &Finding,
        assessment: &Assessment,
        project: &Project,
    ) -> Vec<Remedy> {
        let hold = subjects::item(finding).and_then(|item| assessment.road.hold(item.as_str()));
        let Some((hold, strength)) = hold.and_then(|hold| Some((hold, hold.strength.as_ref()?)))
        else {
            return Vec::new();
        };
        let now = strength.count.value.max(1);
        let rungs = MORE
            .iter()
            .map(|times| now * times)
            .filter(|count| *count <= MOST);
        let rungs = rungs.map(|count| Change {
            title: format!(
                "Hold {} with {count} of them",
                names::item(project, &hold.item)
            ),
            edits: vec![edits::set(
                &["item", hold.item.as_str(), "held_count"],
                Value::Integer(i64::from(count)),
            )],
            cost: f64::from(count - now) * COST_EACH,
        });
        Remedy::some(vec![Remedy::ladder(rungs.collect())])
    }
}

/// Fasteners that are tried, as multiples of what is there.
const MORE: [u32; 4] = [2, 3, 4, 6];
/// Most fasteners of one thing that are proposed.
const MOST: u32 = 24;
/// What a fastener costs beside swapping a plug-in fuse.
const COST_EACH: f64 = 0.5;

fn find_one(project: &Project, hold: &HoldResult) -> Option<Finding> {
    let strength = hold.strength.as_ref()?;
    if strength.used.fraction() <= 1.0 + limits::EQUAL {
        return None;
    }
    let name = words::capital(&names::item(project, &hold.item));
    let (held, asked) = (newtons(strength.held), newtons(strength.asked));
    let headline = format!("{name} is held with {held}; the rule asks {asked}.");
    let limit = Amount::computed("F_asked", strength.asked.newtons(), asked);
    let mut finding = Finding::new(
        DOC.id,
        Severity::Warning,
        Subject::Item(hold.item.clone()),
        headline,
    )
    .under(
        Amount::computed("F_held", strength.held.newtons(), held),
        limit,
    )
    .memory(rests_on_memory(&strength.each.basis))
    .asking(Ask::TieDown {
        item: hold.item.to_string(),
    });
    if strength.derated.is_some() {
        finding = finding
            .note("Screws hold less in plywood than the formula for wood says; that is counted.");
    }
    Some(finding)
}

fn newtons(force: Force) -> String {
    format!("{:.0} N", force.newtons())
}
