//! `fuse-behind-switch`: the fuse of a circuit sits after the switch, so the
//! wire to the switch has none that fits it. Not here: wires whose fuse is
//! merely too big (`oversized-fuse`).

use super::overloaded_chain::chain_wires;
use super::oversized_fuse;
use crate::finding::{Finding, Subject};
use crate::remedy::{added, feeds, sizes};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{Graph, Link, limits, names, subjects, words};
use std::collections::{BTreeMap, BTreeSet};
use wainwright_analysis::result::{Assessment, DeviceResult, Guard, Side, WireResult};
use wainwright_model::{Id, Project};

/// The rule.
pub(crate) struct FuseBehindSwitch;

static DOC: RuleDoc = RuleDoc {
    id: "fuse-behind-switch",
    title: "The fuse sits on the load side of the switch",
    worst: Severity::Danger,
    what: "A fuse follows a switch, and the wires that feed the switch have no other fuse that \
           fits them: none at all, or one rated above 1.07 times what they bear.",
    why: "A fuse protects only what lies behind it. Switch panels often carry their fuses on the \
          output side: the gear's lead is safe, while the jumpers at the back of the panel, \
          which carry everything, are not.",
    example: "A six-way panel with a 15 A fuse behind each switch hangs on a 60 A main fuse with \
              16 AWG jumpers that bear 22 A.",
    what_to_do: "Fit a fuse that fits the feed at the start of the feed, or move each fuse ahead \
                 of its switch.",
    sources: &[
        "limit/ratios",
        "33 CFR 183.455: protection at the source of power.",
    ],
};

impl Rule for FuseBehindSwitch {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let graph = Graph::new(assessment, project);
        cases(assessment, project, &graph)
            .iter()
            .filter_map(|case| case.finding(assessment, project))
            .collect()
    }

    fn remedies(
        &self,
        finding: &Finding,
        assessment: &Assessment,
        project: &Project,
    ) -> Vec<Remedy> {
        let graph = Graph::new(assessment, project);
        let wires = subjects::wires(finding, assessment);
        let Some(switch) = subjects::item(finding) else {
            return Vec::new();
        };
        Remedy::some(vec![
            feeds::fuse_before_switch(assessment, project, &graph, switch.as_str()),
            added::at_feed(assessment, project, &graph, &wires),
            sizes::thicker(assessment, &wires),
        ])
    }
}

/// Every switch with fuses behind it; feeds that are jumpers of an overloaded
/// chain belong to the finding about the chain.
fn cases(assessment: &Assessment, project: &Project, graph: &Graph) -> Vec<Case> {
    let chained = chain_wires(assessment, graph);
    let mut by_switch: BTreeMap<usize, Case> = BTreeMap::new();
    for (index, device) in assessment.devices.iter().enumerate() {
        for (switch, way) in switches_before(graph, device) {
            let order = project.items.position(switch.as_str());
            let case = by_switch
                .entry(order.unwrap_or(usize::MAX))
                .or_insert_with(|| Case::new(&switch));
            case.devices.push(index);
            let mut feeds = feeds_of(assessment, graph, &switch, way);
            feeds.retain(|feed| !chained.contains(feed));
            case.add_feeds(feeds);
        }
    }
    by_switch.into_values().collect()
}

/// The first switch with a fuse behind it that one of these wires feeds.
pub(crate) fn switch_fed_by(assessment: &Assessment, graph: &Graph, wires: &[usize]) -> Option<Id> {
    let switches = assessment
        .devices
        .iter()
        .flat_map(|device| switches_before(graph, device));
    let fed = |(switch, way): &(Id, usize)| {
        let feeds = feeds_of(assessment, graph, switch, *way);
        feeds.iter().any(|feed| wires.contains(feed))
    };
    switches.into_iter().find(fed).map(|(switch, _)| switch)
}

/// The feeds this rule tells about (indices): that the fuse ahead is too big
/// for them is said here.
pub(crate) fn feeds_behind(
    assessment: &Assessment,
    project: &Project,
    graph: &Graph,
) -> BTreeSet<usize> {
    let told = |wire: &usize| {
        let wire = assessment.wires.get(*wire);
        wire.is_some_and(|wire| poorly_guarded(assessment, wire).is_some())
    };
    cases(assessment, project, graph)
        .into_iter()
        .flat_map(|case| case.feeds)
        .filter(told)
        .collect()
}

/// One switch or bank with the fuses behind it and the wires before it.
struct Case {
    switch: Id,
    devices: Vec<usize>,
    feeds: Vec<usize>,
}

impl Case {
    fn new(switch: &Id) -> Self {
        Self {
            switch: switch.clone(),
            devices: Vec::new(),
            feeds: Vec::new(),
        }
    }

    fn add_feeds(&mut self, feeds: Vec<usize>) {
        for wire in feeds {
            if !self.feeds.contains(&wire) {
                self.feeds.push(wire);
            }
        }
        self.feeds.sort_unstable();
    }

    fn finding(&self, assessment: &Assessment, project: &Project) -> Option<Finding> {
        let mut bad: Vec<&WireResult> = self
            .feeds
            .iter()
            .filter_map(|index| assessment.wires.get(*index))
            .filter(|wire| poorly_guarded(assessment, wire).is_some())
            .collect();
        bad.sort_by(|a, b| a.ampacity.in_force.total_cmp(&b.ampacity.in_force));
        let worst = bad.first()?;
        let guard = poorly_guarded(assessment, worst)?;
        let device = limits::guard_device(assessment, guard);
        let oversized: Vec<oversized_fuse::Case<'_>> = oversized_fuse::cases(assessment)
            .filter(|case| self.feeds.contains(&case.wire))
            .collect();
        let severity = match device {
            None if guard.self_limited.is_none() => Severity::Danger,
            _ => Severity::Warning,
        };
        let severity = oversized
            .iter()
            .map(|case| case.severity)
            .fold(severity, Severity::min);
        let before = match device {
            Some(device) => format!("only {} is ahead of it", names::device(project, device)),
            None => "there is none ahead of it".to_string(),
        };
        let headline = format!(
            "The {} of {} {} behind the switch: {}, which feeds the switch and bears {}, has no \
             fuse that fits; {before}.",
            if self.devices.len() == 1 {
                "fuse"
            } else {
                "fuses"
            },
            names::item(project, &self.switch),
            if self.devices.len() == 1 {
                "sits"
            } else {
                "sit"
            },
            names::wire(worst),
            words::amps(worst.ampacity.in_force),
        );
        let mut finding = Finding::new(
            DOC.id,
            severity,
            Subject::Item(self.switch.clone()),
            headline,
        );
        for wire in &bad {
            finding = finding
                .also(Subject::Wire(wire.id.clone()))
                .assuming(assessment, &["wire", wire.id.as_str()]);
        }
        if let Some(worst) = oversized.iter().min_by_key(|case| case.severity) {
            for sentence in worst.consequences(project) {
                finding = finding.note(sentence);
            }
            finding = finding.memory(worst.severity == Severity::Danger);
        }
        if let Some(device) = device {
            let rating = limits::current("I_n", device.rating.value);
            finding = finding.over(rating, limits::largest_rating(worst));
        }
        Some(finding)
    }
}

/// The guard that does not fit this wire, when there is one.
fn poorly_guarded<'a>(assessment: &Assessment, wire: &'a WireResult) -> Option<&'a Guard> {
    let bears = wire.ampacity.in_force.amperes() * limits::rating_share();
    wire.guards
        .iter()
        .filter(|guard| !limits::source_is_harmless(wire, guard))
        .find(|guard| match limits::guard_device(assessment, guard) {
            Some(device) => limits::above(device.rating.value.amperes(), bears),
            None => guard.bare_length.is_some(),
        })
}

/// Switches whose contact leads straight to the supply side of a device,
/// along conductors only.
fn switches_before(graph: &Graph, device: &DeviceResult) -> Vec<(Id, usize)> {
    let near = graph.reach(device.nodes.0, |link| matches!(link, Link::Wire(_)));
    let mut found = Vec::new();
    for node in near {
        for (link, other) in graph.links_at(node) {
            let Link::Contact(id, way) = link else {
                continue;
            };
            let from_output = graph.node(id.as_str(), &inlet(*way)) == Some(other);
            if from_output && !found.contains(&(id.clone(), *way)) {
                found.push((id.clone(), *way));
            }
        }
    }
    found
}

/// Plus wires that end at the inlet of this switch.
fn feeds_of(assessment: &Assessment, graph: &Graph, switch: &Id, way: usize) -> Vec<usize> {
    let Some(node) = graph.node(switch.as_str(), &inlet(way)) else {
        return Vec::new();
    };
    let plus = |index: &usize| {
        assessment
            .wires
            .get(*index)
            .is_some_and(|wire| matches!(wire.side, Side::Plus | Side::Both))
    };
    graph
        .links_at(node)
        .filter_map(|(link, _)| match link {
            Link::Wire(index) => Some(*index),
            _ => None,
        })
        .filter(plus)
        .collect()
}

fn inlet(way: usize) -> String {
    match way {
        0 => "in".to_string(),
        way => format!("in{way}"),
    }
}
