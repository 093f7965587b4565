//! `cabinet-too-hot`: the air in a cabinet gets warmer than its devices bear. Not here: wires and fuses in it, which
//! are judged at that air.

use super::words::area;
use crate::finding::{Amount, Finding, Subject};
use crate::remedy::edits;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, names, words};
use wainwright_analysis::Assessment;
use wainwright_analysis::cabinets;
use wainwright_analysis::result::cabinet::{CabinetDevice, CabinetResult};
use wainwright_model::{Id, Project};
use wainwright_units::{Airflow, Quantity, System};

/// The rule.
pub(crate) struct CabinetTooHot;

/// Openings and fans are offered a little larger than the least that holds.
const SPARE: f64 = 1.1;

static DOC: RuleDoc = RuleDoc {
    id: "cabinet-too-hot",
    title: "A cabinet gets too hot for what is in it",
    worst: Severity::Warning,
    what: "With the heat of the devices that work together, the air in a cabinet gets hotter on a hot day than the battery in it bears, or than 122 °F (50 °C).",
    why: "Chargers and inverters give less or stop, batteries age, fuses open early.",
    example: "124 W in a closed plywood cabinet at 104 °F outside: 128 °F inside.",
    what_to_do: "A low and a high opening, or a fan. Above about 60 W plan a fan; warm devices low, openings high.",
    sources: &[
        "Heat balance of the air of a cabinet; openings by warmth.",
        "room/cabinet_skin",
        "room/vents",
        "device/classes",
    ],
};

impl Rule for CabinetTooHot {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let all = hot(assessment, project);
        all.iter()
            .filter_map(|cabinet| find_one(project, cabinet))
            .collect()
    }

    fn remedies(
        &self,
        finding: &Finding,
        assessment: &Assessment,
        project: &Project,
    ) -> Vec<Remedy> {
        let all = hot(assessment, project);
        let about = |cabinet: &&CabinetResult| {
            let subject = hottest(cabinet).map(|device| Subject::Item(device.item.clone()));
            subject.is_some_and(|subject| finding.subjects.first() == Some(&subject))
        };
        let Some(cabinet) = all.iter().find(about) else {
            return Vec::new();
        };
        let (id, system) = (cabinet.cabinet.as_str(), limits::system(project));
        let mut remedies = Vec::new();
        if let Some(each) = cabinet.air.opening_for_limit {
            let text = area(each * SPARE, system);
            let title = format!("Open {text} low down and as much high up, clear of mesh");
            let edits = ["low_opening", "high_opening"]
                .map(|field| edits::set_text(&["cabinet", id, field], text.clone()));
            remedies.push(Remedy::one(title, edits.to_vec(), 4.0));
        }
        if let Some(fan) = cabinet.air.fan_for_limit {
            let text = flow(fan * SPARE, system);
            let title = format!("A fan that moves {text} in place");
            let edit = edits::set_text(&["cabinet", id, "fan_flow"], text);
            remedies.push(Remedy::one(title, vec![edit], 8.0));
        }
        Remedy::some(remedies)
    }
}

/// Cabinets that get too hot.
fn hot(assessment: &Assessment, project: &Project) -> Vec<CabinetResult> {
    if project.cabinets.is_empty() {
        return Vec::new();
    }
    let mut all = cabinets::study(project, Some(assessment));
    all.retain(|cabinet| {
        let air = &cabinet.air;
        air.inside.is_some_and(|inside| inside > air.limit.0.value)
    });
    all
}

/// The device that gives off most.
fn hottest(cabinet: &CabinetResult) -> Option<&CabinetDevice> {
    let at = cabinet.air.situation.index();
    let heat = |device: &&CabinetDevice| device.heat.get(at).map_or(0.0, |heat| heat.watts());
    let devices = cabinet.devices.iter();
    devices.max_by(|a, b| heat(a).total_cmp(&heat(b)))
}

fn find_one(project: &Project, cabinet: &CabinetResult) -> Option<Finding> {
    let (air, device) = (&cabinet.air, hottest(cabinet)?);
    let (inside, limit) = (air.inside?, &air.limit);
    let system = limits::system(project);
    let headline = format!(
        "{}: {} of heat make the air inside {} at {} around it; {} is the most {} bears.",
        cabinet.label,
        words::watts(air.heat),
        words::air(inside, system),
        words::air(air.ambient.value, system),
        words::air(limit.0.value, system),
        limit.1.as_ref().map_or_else(
            || "gear of that kind".to_owned(),
            |id: &Id| names::item(project, id)
        ),
    );
    let limit = Amount::based(
        "θ",
        limit.0.value.celsius(),
        words::air(limit.0.value, system),
        &limit.0.basis,
    );
    let mut finding = Finding::new(
        DOC.id,
        Severity::Warning,
        Subject::Item(device.item.clone()),
        headline,
    )
    .over(limits::heat("θ", inside, system), limit);
    let share = device.heat.get(air.situation.index())?;
    finding = finding.note(format!(
        "Most of it, {}, comes from {}.",
        words::watts(*share),
        names::item(project, &device.item)
    ));
    Some(finding)
}

/// A flow of air as a person would type it, rounded up.
fn flow(flow: Airflow, system: System) -> String {
    let per_hour = flow.cubic_metres_per_hour();
    let rounded = match system {
        System::Us => (per_hour / 1.699_010_8).ceil() * 1.699_010_8,
        System::Metric => per_hour.ceil(),
    };
    Airflow::from_cubic_metres_per_hour(rounded).show(system)
}
