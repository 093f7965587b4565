//! `module-voltage-above-controller`: modules in series bring more on a cold morning than their controller takes. Not
//! here: currents of modules (wires and fuses have their own rules).

use crate::finding::{Amount, Finding, Subject};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, names, words};
use wainwright_analysis::Assessment;
use wainwright_analysis::known::Known;
use wainwright_analysis::result::settings::ColdString;
use wainwright_model::Project;
use wainwright_units::Voltage;

/// The rule.
pub(crate) struct ModuleVoltageAboveController;

static DOC: RuleDoc = RuleDoc {
    id: "module-voltage-above-controller",
    title: "Modules bring more voltage than their controller takes",
    worst: Severity::Danger,
    what: "On the coldest morning the modules in series on a solar controller have more voltage without load than the controller may get.",
    why: "Cold modules give more voltage than their label says. A controller that gets more than it bears is destroyed at once, and may burn or pass the voltage on.",
    example: "Two modules of 48.6 V in series bring 109 V at -18 °C; the controller takes 100 V.",
    what_to_do: "Join fewer modules in series and more side by side, or take a controller for a higher voltage.",
    sources: &[
        "device/classes",
        "Data sheets of modules and controller, as typed in the project.",
    ],
};

impl Rule for ModuleVoltageAboveController {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let strings = assessment.settings.cold_strings.iter();
        strings
            .filter_map(|string| find_one(project, string, string.allowed.as_ref()?))
            .collect()
    }

    fn remedies(&self, _: &Finding, _: &Assessment, _: &Project) -> Vec<Remedy> {
        Vec::new()
    }
}

fn find_one(project: &Project, string: &ColdString, allowed: &Known<Voltage>) -> Option<Finding> {
    if !limits::above(string.cold.volts(), allowed.value.volts()) {
        return None;
    }
    let system = limits::system(project);
    let (volts, most) = words::voltages(string.cold, allowed.value);
    let coldest = words::air(string.coldest.value, system);
    let name = names::item(project, &string.controller);
    let headline = format!("{name} takes {most}; its modules bring {volts} at {coldest}.");
    // Above its limit on any day, or on a morning that the person named.
    let certain = string.open.value > allowed.value || !string.coldest.is_assumed();
    let severity = match certain {
        true => Severity::Danger,
        false => Severity::Warning,
    };
    let limit = Amount::based("U_max", allowed.value.volts(), most, &allowed.basis);
    let mut finding = Finding::new(
        DOC.id,
        severity,
        Subject::Item(string.controller.clone()),
        words::capital(&headline),
    )
    .over(Amount::computed("U_oc", string.cold.volts(), volts), limit)
    .note(format!(
        "Without load they have {} at room temperature.",
        words::volts(string.open.value)
    ));
    for module in &string.modules {
        finding = finding.also(Subject::Item(module.clone()));
    }
    if string.coldest.is_assumed() {
        finding
            .assumptions
            .push(vec!["living".into(), "winter_air".into()]);
        finding = finding.note("How cold it gets there is not typed; a cold place stands in.");
    }
    Some(finding)
}
