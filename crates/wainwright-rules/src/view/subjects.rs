//! From a finding's subjects back to the assessment: which wires, which
//! device, which gear. Not here: making findings.

use super::Graph;
use crate::finding::{Finding, Subject};
use wainwright_analysis::result::{Assessment, DeviceResult};
use wainwright_model::Id;

/// The wires a finding names, as indices.
pub(crate) fn wires(finding: &Finding, assessment: &Assessment) -> Vec<usize> {
    finding
        .subjects
        .iter()
        .filter_map(|subject| match subject {
            Subject::Wire(id) => assessment.wires.iter().position(|wire| wire.id == *id),
            _ => None,
        })
        .collect()
}

/// The first fuse or breaker a finding names.
pub(crate) fn device<'a>(
    finding: &Finding,
    assessment: &'a Assessment,
) -> Option<&'a DeviceResult> {
    finding.subjects.iter().find_map(|subject| match subject {
        Subject::Item(id) => assessment.device(id.as_str(), 0),
        Subject::Way(id, way) => assessment.device(id.as_str(), *way),
        _ => None,
    })
}

/// The first piece of gear a finding names.
pub(crate) fn item(finding: &Finding) -> Option<&Id> {
    items(finding).next()
}

/// Every piece of gear a finding names.
pub(crate) fn items(finding: &Finding) -> impl Iterator<Item = &Id> {
    finding.subjects.iter().filter_map(|subject| match subject {
        Subject::Item(id) | Subject::Terminal(id, _) | Subject::Way(id, _) => Some(id),
        _ => None,
    })
}

/// The other conductors of the same circuit: wires that serve exactly the
/// same gear as this one, on either side.
pub(crate) fn partners(assessment: &Assessment, graph: &Graph, wire: usize) -> Vec<usize> {
    let served = graph.behind(assessment, wire);
    if served.is_empty() {
        return Vec::new();
    }
    (0..assessment.wires.len())
        .filter(|other| *other != wire && graph.behind(assessment, *other) == served)
        .collect()
}

/// The other conductors of the circuits of all these wires.
pub(crate) fn all_partners(assessment: &Assessment, graph: &Graph, wires: &[usize]) -> Vec<usize> {
    let mut found: Vec<usize> = wires
        .iter()
        .flat_map(|wire| partners(assessment, graph, *wire))
        .collect();
    found.sort_unstable();
    found.dedup();
    found.retain(|wire| !wires.contains(wire));
    found
}
