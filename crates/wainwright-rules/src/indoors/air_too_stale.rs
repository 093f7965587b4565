//! `air-too-stale`: sleepers use up the air with what is always open. Not here: damp, alarms.

use super::words::area;
use crate::finding::{Amount, Finding, Subject};
use crate::remedy::edits;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, words};
use wainwright_analysis::Assessment;
use wainwright_analysis::indoors;
use wainwright_analysis::result::indoors::{AirFrom, FreshAir};
use wainwright_model::Project;

/// The rule.
pub(crate) struct AirTooStale;

/// Openings are offered a little larger than the least that holds.
const SPARE: f64 = 1.05;

static DOC: RuleDoc = RuleDoc {
    id: "air-too-stale",
    title: "The air goes stale over a night",
    worst: Severity::Warning,
    what: "With the people who sleep aboard, and only the openings that are never shut, carbon dioxide goes above 1500 ppm before morning.",
    why: "Stale air gives headaches and bad sleep, and where no fresh air comes in, damp stays and the gases of a fire do too.",
    example: "Two people in a 6 x 12 ft box with 9 sq in of openings wake up at 2900 ppm.",
    what_to_do: "Leave two openings open all night, one low and one high, large enough together, or run the fan. Shutting them for warmth is how people are poisoned.",
    sources: &["room/design", "room/people", "room/vents"],
};

impl Rule for AirTooStale {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, _: &Assessment, project: &Project) -> Vec<Finding> {
        let Some(found) = stale(project) else {
            return Vec::new();
        };
        let passive = found
            .curves
            .iter()
            .rfind(|curve| curve.from != AirFrom::Fan);
        let Some(curve) = passive else {
            return Vec::new();
        };
        let system = limits::system(project);
        let people = project
            .living
            .people
            .as_ref()
            .map_or(0, |people| people.value);
        let most = format!("{:.0} ppm", found.most_ppm);
        let end = format!("{:.0} ppm", curve.end_ppm);
        let headline = format!(
            "{} asleep with what is always open: carbon dioxide reaches {end} by morning; {most} is the most it should.",
            words::capital(&words::counted(people as usize, "person").replace("persons", "people")),
        );
        let mut finding = Finding::new(DOC.id, Severity::Warning, Subject::Trailer, headline).over(
            Amount::computed("C", curve.end_ppm, end),
            Amount::computed("C", found.most_ppm, most),
        );
        if let Some(opening) = found.needed.opening {
            let each = area(opening, system);
            finding = finding.note(format!(
                "In calm air two openings of {each} each, clear of mesh, {} apart in height, are enough.",
                words::length(found.needed.height.value, system)
            ));
        }
        if let Some(fan) = found.curves.iter().find(|curve| curve.from == AirFrom::Fan) {
            finding = finding.note(format!(
                "With the fan running it settles at {:.0} ppm.",
                fan.steady_ppm.unwrap_or(fan.end_ppm)
            ));
        }
        vec![finding]
    }

    fn remedies(&self, _: &Finding, _: &Assessment, project: &Project) -> Vec<Remedy> {
        let needed = stale(project).and_then(|found| found.needed.opening);
        let Some(each) = needed else {
            return Vec::new();
        };
        let both = each * (2.0 * SPARE);
        let system = limits::system(project);
        let title = format!(
            "Keep {} open at all times, half of it low and half high",
            area(both, system)
        );
        let edit = edits::set_text(&["living", "vent_area"], area(both, system));
        Remedy::some(vec![Remedy::one(title, vec![edit], 6.0)])
    }
}

/// Air that goes stale; `None` when it does not, or before anybody is said to sleep aboard.
fn stale(project: &Project) -> Option<FreshAir> {
    project.living.people.as_ref()?;
    let found = indoors::air_alone(project).0?;
    let passive = found
        .curves
        .iter()
        .rfind(|curve| curve.from != AirFrom::Fan)?;
    (passive.end_ppm > found.most_ppm).then_some(found)
}
