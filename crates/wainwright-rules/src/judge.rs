//! Runs every rule over one assessment. Not here: fixes, which need many
//! more assessments (see [`crate::prove`]).

use crate::catalogue::catalogue;
use crate::finding::Finding;
use crate::severity::Severity;
use std::cmp::Ordering;
use wainwright_analysis::Assessment;
use wainwright_model::Project;

/// Everything that is wrong with this trailer, worst first: by severity,
/// then by margin, then in the order of the catalogue.
pub fn judge(project: &Project, assessment: &Assessment) -> Vec<Finding> {
    let mut findings: Vec<Finding> = catalogue()
        .iter()
        .flat_map(|rule| rule.find(assessment, project))
        .map(owning_up)
        .collect();
    findings.sort_by(|a, b| a.severity.cmp(&b.severity).then_with(|| by_margin(a, b)));
    findings
}

/// A danger that rests on a limit nobody could read says so itself.
fn owning_up(finding: Finding) -> Finding {
    if finding.severity == Severity::Danger && finding.from_memory {
        finding.note(
            "The limit used here was written from memory or stands in for an unknown value: \
             check it against the data sheet before relying on it.",
        )
    } else {
        finding
    }
}

/// Smallest margin first; findings without one come after those with one.
fn by_margin(a: &Finding, b: &Finding) -> Ordering {
    match (a.margin, b.margin) {
        (Some(x), Some(y)) => x.fraction().total_cmp(&y.fraction()),
        (Some(_), None) => Ordering::Less,
        (None, Some(_)) => Ordering::Greater,
        (None, None) => Ordering::Equal,
    }
}
