//! What a finding means for the next round of sizing: a thicker wire, a
//! larger fuse, another family, or an item of the file that is not used.

use super::choose::{Choice, Refused, device_key};
use super::desk::Desk;
use super::draft::Guard;
use super::limits;
use super::measure::ROOM;
use crate::finding::{Finding, Subject};
use crate::severity::Severity;
use crate::view::Graph;
use crate::wiring::shared_way::without_inverters;
use crate::wiring::voltage_drop::worst_drop;
use std::collections::BTreeSet;
use wainwright_analysis::Assessment;
use wainwright_analysis::result::Role;
use wainwright_reference::protection::ratings;

/// Tightens the draft; whether anything changed. `soft` takes milder
/// findings too.
pub(super) fn tighten(
    desk: &mut Desk<'_>,
    choices: &[Choice],
    (assessment, graph): (&Assessment, &Graph),
    findings: &[Finding],
    soft: bool,
) -> Result<bool, Refused> {
    let mut changed = false;
    for finding in findings {
        if is_shared(assessment, graph, finding) {
            continue;
        }
        let counts = finding.severity.at_least(Severity::Warning) || (soft && is_mild(finding));
        if counts {
            changed |= one(desk, choices, finding)?;
        }
    }
    Ok(changed)
}

/// Whether a finding is a caution that a plan mends where it can.
pub(super) fn is_mild(finding: &Finding) -> bool {
    finding.severity == Severity::Caution && MILD.contains(&finding.rule)
}

/// Whether a load is over its drop limit only while an inverter is at full
/// power on the same way.
pub(super) fn is_shared(assessment: &Assessment, graph: &Graph, finding: &Finding) -> bool {
    if finding.rule != "voltage-drop" || finding.severity != Severity::Caution {
        return false;
    }
    let named = finding.subjects.iter().find_map(|subject| match subject {
        Subject::Item(id) => assessment
            .consumers
            .iter()
            .find(|c| c.item == *id && c.role == Role::Load),
        _ => None,
    });
    let Some(load) = named else { return false };
    let limit = match load.critical {
        true => &assessment.limits.drop_critical,
        false => &assessment.limits.drop_other,
    };
    worst_drop(assessment, load)
        .and_then(|(state, ..)| without_inverters(assessment, graph, load, state))
        .is_some_and(|alone| alone.share.fraction() <= limit.value.fraction())
}

/// Cautions a plan mends as well where it can.
const MILD: [&str; 10] = [
    "interrupt-rating-too-low",
    "voltage-drop",
    "inverter-lead-weak",
    "derated-by-bundle",
    "derated-by-hot-place",
    "fuse-run-hard",
    "oversized-fuse",
    "overheated-conductor",
    "insulation-fails-in-short",
    "wire-below-minimum-size",
];

fn one(desk: &mut Desk<'_>, choices: &[Choice], finding: &Finding) -> Result<bool, Refused> {
    match finding.rule {
        "fuse-too-small" | "fuse-run-hard" => Ok(larger_fuse(desk, choices, finding)?),
        "interrupt-rating-too-low" | "voltage-rating-too-low" | "self-resetting-breaker" => {
            other_device(desk, choices, finding)
        }
        "switch-overloaded" => refuse(desk, finding),
        "voltage-drop" | "inverter-lead-weak" => Ok(less_drop(desk, finding)),
        "battery-overdrawn" => Ok(false),
        "oversized-fuse" if wired(desk, finding).is_empty() => {
            Ok(smaller_fuse(desk, choices, finding))
        }
        _ => Ok(thicker(desk, choices, finding)),
    }
}

/// Sections whose fuse a finding names.
fn fused(desk: &Desk<'_>, finding: &Finding) -> Vec<usize> {
    let named = |item: &str, way: usize| {
        finding.subjects.iter().any(|subject| match subject {
            Subject::Item(id) => way == 0 && id.as_str() == item,
            Subject::Way(id, number) => *number == way && id.as_str() == item,
            _ => false,
        })
    };
    (0..desk.draft.sections.len())
        .filter(|index| {
            let device = desk.draft.device(*index);
            device.is_some_and(|device| named(&device.item, device.way))
        })
        .collect()
}

/// Sections with a wire that a finding names.
fn wired(desk: &Desk<'_>, finding: &Finding) -> BTreeSet<usize> {
    let named = |id: &str| {
        finding
            .subjects
            .iter()
            .any(|s| matches!(s, Subject::Wire(wire) if wire.as_str() == id))
    };
    let wires = desk.draft.wires.iter().filter(|wire| named(&wire.id));
    wires.map(|wire| wire.section).collect()
}

/// Sections with a wire that ends at an item a finding names.
fn joined(desk: &Desk<'_>, finding: &Finding) -> BTreeSet<usize> {
    let named = |id: &str| {
        finding
            .subjects
            .iter()
            .any(|s| matches!(s, Subject::Item(item) if item.as_str() == id))
    };
    let wires = desk.draft.wires.iter();
    let ends = wires.filter(|wire| named(&wire.from.0) || named(&wire.to.0));
    ends.map(|wire| wire.section).collect()
}

/// A fuse too big for a wire of the file: the largest of the new fuses that a
/// finding names is made smaller, where a smaller one carries the load.
fn smaller_fuse(desk: &mut Desk<'_>, choices: &[Choice], finding: &Finding) -> bool {
    let rating = |index: &usize| {
        choices
            .get(*index)
            .and_then(|choice| choice.rating)
            .unwrap_or(0.0)
    };
    let new = |index: &usize| {
        desk.draft
            .device(*index)
            .is_some_and(|device| device.fixed.is_none())
    };
    let named = fused(desk, finding);
    let largest = named
        .into_iter()
        .filter(new)
        .max_by(|a, b| rating(a).total_cmp(&rating(b)));
    let Some(index) = largest else { return false };
    let most = rating(&index) * 0.99;
    let load = desk
        .draft
        .sections
        .get(index)
        .map_or(0.0, |s| s.least.max(s.rated));
    match desk.draft.sections.get_mut(index) {
        Some(section) if load <= most => {
            section.most = section.most.min(most);
            section.wish = 0.0;
            true
        }
        _ => false,
    }
}

fn larger_fuse(
    desk: &mut Desk<'_>,
    choices: &[Choice],
    finding: &Finding,
) -> Result<bool, Refused> {
    let mut changed = false;
    for index in fused(desk, finding) {
        let Some(Guard::Own(device)) = desk.draft.sections.get(index).map(|s| s.guard.clone())
        else {
            continue;
        };
        if device.old && device.fixed.is_some() {
            return Err(Refused::new(device_key(&device), &finding.headline));
        }
        let now = choices
            .get(index)
            .and_then(|choice| choice.rating.zip(choice.family));
        let Some((rating, family)) = now else {
            continue;
        };
        let next = ratings(family).into_iter().map(|r| r.value.amperes());
        if let Some(next) = next.into_iter().find(|other| *other > rating + 1e-9) {
            desk.least(index, next);
            changed = true;
        }
    }
    Ok(changed)
}

fn other_device(
    desk: &mut Desk<'_>,
    choices: &[Choice],
    finding: &Finding,
) -> Result<bool, Refused> {
    let mut changed = false;
    for index in fused(desk, finding) {
        let family = choices.get(index).and_then(|choice| choice.family);
        let Some(Guard::Own(device)) = desk.draft.sections.get_mut(index).map(|s| &mut s.guard)
        else {
            continue;
        };
        if device.old && device.way == 0 && finding.severity.at_least(Severity::Warning) {
            return Err(Refused::new(device_key(device), &finding.headline));
        }
        if let Some(family) = family.filter(|_| device.way == 0)
            && device.families.len() > device.barred.len() + 1
            && !device.barred.contains(&family)
        {
            device.barred.push(family);
            changed = true;
        }
    }
    match changed || !finding.severity.at_least(Severity::Warning) {
        true => Ok(changed),
        false => refuse(desk, finding),
    }
}

/// Gives up an item of the file that was taken and does not do.
fn refuse(desk: &Desk<'_>, finding: &Finding) -> Result<bool, Refused> {
    let named = finding.subjects.iter().filter_map(|subject| match subject {
        Subject::Item(id) | Subject::Way(id, _) => Some(id.as_str()),
        _ => None,
    });
    let taken = |id: &&str| {
        desk.draft.adopted.iter().any(|other| other == id)
            || desk.draft.blocks.get(*id).is_some_and(|block| block.old)
    };
    match named.into_iter().find(taken) {
        Some(id) => Err(Refused::new(id, &finding.headline)),
        None => Ok(false),
    }
}

/// Plans a load to less of its drop limit.
fn less_drop(desk: &mut Desk<'_>, finding: &Finding) -> bool {
    let named = finding.subjects.iter().find_map(|subject| match subject {
        Subject::Item(id) => Some(id.to_string()),
        _ => None,
    });
    let Some(id) = named else { return false };
    let room = desk.rooms.entry(id).or_insert(ROOM);
    *room *= LESS;
    *room > LEAST
}

/// Each time a load is planned to this share of the share before.
const LESS: f64 = 0.93;
/// Below this share of the limit it is no use.
const LEAST: f64 = 0.4;

fn thicker(desk: &mut Desk<'_>, choices: &[Choice], finding: &Finding) -> bool {
    let mut sections = wired(desk, finding);
    if sections.is_empty() {
        sections.extend(fused(desk, finding));
    }
    if sections.is_empty() {
        sections.extend(joined(desk, finding));
    }
    let mut changed = false;
    let region = desk.survey.region();
    for index in sections {
        let Some(choice) = choices.get(index) else {
            continue;
        };
        let now = limits::area(choice.size);
        let next = limits::sizes(region)
            .into_iter()
            .find(|size| limits::area(*size) > now + 1e-9);
        if let (Some(next), Some(section)) = (next, desk.draft.sections.get_mut(index)) {
            let area = limits::area(next);
            if area > section.floor + 1e-9 {
                section.floor = area;
                changed = true;
            }
        }
    }
    changed
}
