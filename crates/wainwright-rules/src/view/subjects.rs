//! From a finding's subjects back to the assessment: which wires, which
//! device, which gear. Not here: making findings.

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
    devices(finding, assessment).next()
}

/// Every fuse or breaker a finding names.
pub(crate) fn devices<'a>(
    finding: &Finding,
    assessment: &'a Assessment,
) -> impl Iterator<Item = &'a DeviceResult> {
    finding.subjects.iter().filter_map(|subject| match subject {
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
