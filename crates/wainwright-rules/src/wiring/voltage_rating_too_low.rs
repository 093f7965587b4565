//! `voltage-rating-too-low`: a fuse, switch or wire at a higher voltage than
//! it is rated for. Not here: interrupt current
//! (`interrupt-rating-too-low`).

use super::highest::highest_volts;
use crate::finding::{Amount, Finding, Subject};
use crate::remedy::{edits, fuses};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{Graph, names, subjects, words};
use wainwright_analysis::known::{Basis, Known};
use wainwright_analysis::result::{Assessment, DeviceResult, WireResult};
use wainwright_model::{Field, Id, Project, Spec};
use wainwright_units::{Current, Voltage};

/// The rule.
pub(crate) struct VoltageRatingTooLow;

static DOC: RuleDoc = RuleDoc {
    id: "voltage-rating-too-low",
    title: "A part is used above its rated voltage",
    worst: Severity::Danger,
    what: "A fuse, breaker, switch, bus bar or wire sits at a voltage above its rating: charging \
           voltage of the system, or the open-circuit voltage of the solar modules in series.",
    why: "Direct current does not pass through zero. A fuse or switch above its rated voltage \
          draws an arc when it opens and does not put it out; it burns on inside the part.",
    example: "Two modules in series give 44 V open circuit; the blade fuse in that line is rated \
              32 V.",
    what_to_do: "Use parts rated for the highest voltage that can occur, with cold modules in \
                 mind.",
    sources: &["protection/interrupt", "insulation/classes"],
};

impl Rule for VoltageRatingTooLow {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let graph = Graph::new(assessment, project);
        let volts = highest_volts(assessment, project, &graph);
        let at = |node: usize| {
            volts
                .get(&node)
                .copied()
                .unwrap_or(Voltage::from_volts(0.0))
        };
        let mut found = Vec::new();
        for device in &assessment.devices {
            found.extend(device_finding(
                project,
                device,
                at(device.nodes.0).max(at(device.nodes.1)),
            ));
        }
        for (id, item) in project.items.iter() {
            found.extend(rated(&item.spec).and_then(|rating| {
                let nodes = item.spec.terminals().into_iter();
                let highest = nodes
                    .filter_map(|terminal| graph.node(id.as_str(), &terminal))
                    .map(at)
                    .fold(Voltage::from_volts(0.0), Voltage::max);
                item_finding(project, id, rating, highest)
            }));
        }
        for wire in &assessment.wires {
            found.extend(wire_finding(
                assessment,
                wire,
                at(wire.from_node).max(at(wire.to_node)),
            ));
        }
        found
    }

    fn remedies(
        &self,
        finding: &Finding,
        assessment: &Assessment,
        project: &Project,
    ) -> Vec<Remedy> {
        let volts = finding.value.as_ref().map_or(0.0, |value| value.value);
        if let Some(device) = subjects::device(finding, assessment) {
            let fault = device.largest_fault.unwrap_or(Current::from_amperes(0.0));
            let volts = Voltage::from_volts(volts);
            return Remedy::some(vec![fuses::other_family(project, device, fault, volts)]);
        }
        let wires = subjects::wires(finding, assessment);
        if !wires.is_empty() {
            let class = match crate::view::limits::region(project) {
                wainwright_model::Region::Us => "boat-105",
                wainwright_model::Region::Eu => "h07v-k",
            };
            let changed = crate::remedy::sizes::insulation(assessment, &wires, class);
            return Remedy::some(vec![changed]);
        }
        let Some(item) = subjects::item(finding) else {
            return Vec::new();
        };
        let text = format!("{} V", volts.ceil());
        let title = format!(
            "Replace {} by one rated {text} DC",
            names::item(project, item)
        );
        let edit = edits::set_text(&["item", item.as_str(), "voltage"], text);
        Remedy::some(vec![Remedy::one(title, vec![edit], 8.0)])
    }
}

/// The voltage rating typed for gear that only passes current on.
fn rated(spec: &Spec) -> Option<Voltage> {
    let given = |field: &Field<Voltage>| field.as_ref().map(|given| given.value);
    match spec {
        Spec::Switch(switch) => given(&switch.voltage),
        Spec::SwitchBank(bank) => given(&bank.voltage),
        Spec::BusBar(bar) => given(&bar.voltage),
        _ => None,
    }
}

fn device_finding(project: &Project, device: &DeviceResult, volts: Voltage) -> Option<Finding> {
    let rating = device.volts_rating.as_ref()?;
    let subject = Subject::device(&device.item, device.way);
    let name = names::device(project, device);
    exceed(Severity::Danger, subject, &name, volts, rating)
}

fn item_finding(project: &Project, id: &Id, rating: Voltage, volts: Voltage) -> Option<Finding> {
    let rating = Known::new(rating, Basis::Computed);
    let name = names::item(project, id);
    exceed(
        Severity::Danger,
        Subject::Item(id.clone()),
        &name,
        volts,
        &rating,
    )
}

fn wire_finding(assessment: &Assessment, wire: &WireResult, volts: Voltage) -> Option<Finding> {
    let rating = Known::new(wire.volts_rating, wire.insulation.basis.clone());
    let subject = Subject::Wire(wire.id.clone());
    let finding = exceed(
        Severity::Warning,
        subject,
        &names::wire(wire),
        volts,
        &rating,
    )?;
    Some(finding.assuming(assessment, &["wire", wire.id.as_str(), "insulation"]))
}

fn exceed(
    severity: Severity,
    subject: Subject,
    name: &str,
    volts: Voltage,
    rating: &Known<Voltage>,
) -> Option<Finding> {
    if !crate::view::limits::above(volts.volts(), rating.value.volts()) {
        return None;
    }
    let (highest, rated) = words::voltages(volts, rating.value);
    let headline = format!(
        "{} sits at up to {highest}, it is rated {rated}.",
        words::capital(name),
    );
    let limit = Amount::based(
        "U_n",
        rating.value.volts(),
        words::volts(rating.value),
        &rating.basis,
    );
    let value = Amount::computed("U", volts.volts(), words::volts(volts));
    Some(Finding::new(DOC.id, severity, subject, headline).over(value, limit))
}
