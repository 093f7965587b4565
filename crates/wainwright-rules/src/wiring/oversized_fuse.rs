//! `oversized-fuse`: a fuse that lets more through than its conductors bear.
//! One finding for each fuse, naming the conductors. Not here: stretches with
//! no fuse at all (`unfused-source-stretch`).

use super::insulation_fails_in_short::LAST_GATE;
use crate::finding::{Finding, Subject};
use crate::remedy::{fuses, sizes};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, names, subjects, words};
use wainwright_analysis::Ask;
use wainwright_analysis::result::{Assessment, DeviceResult, Guard, Overload, WireResult};
use wainwright_model::Project;

/// The rule.
pub(crate) struct OversizedFuse;

static DOC: RuleDoc = RuleDoc {
    id: "oversized-fuse",
    title: "A fuse is too big for the wire behind it",
    worst: Severity::Danger,
    what: "The smallest fuse or breaker between a source and a conductor is rated above 1.07 \
           times what that conductor bears where it runs, and the source can push that much.",
    why: "A fuse protects the wire, not the gear. It may carry 1.10 times its rating for ever and \
          up to 1.35 times for an hour or more. If the wire cannot bear that, a stalled motor or \
          a poor short circuit cooks it while the fuse stays whole.",
    example: "A 30 A fuse feeds 16 AWG jumpers that bear 14 A inside foam. At 33 A, which the \
              fuse carries for ever, they reach 190 °C.",
    what_to_do: "Fit the next smaller fuse that still carries the load, or thicker wire, or a \
                 fuse of its own where the thin wire begins.",
    sources: &["limit/ratios", "ampacity/boat", "protection/gates"],
};

/// One conductor a fuse is too big for.
struct Case<'a> {
    wire: &'a WireResult,
    overload: Option<&'a Overload>,
    severity: Severity,
}

impl Rule for OversizedFuse {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let devices = assessment.devices.iter().enumerate();
        devices
            .filter_map(|(index, device)| {
                let cases = cases(assessment, index, device);
                find_one(assessment, project, device, &cases)
            })
            .collect()
    }

    fn remedies(
        &self,
        finding: &Finding,
        assessment: &Assessment,
        project: &Project,
    ) -> Vec<Remedy> {
        let Some(device) = subjects::device(finding, assessment) else {
            return Vec::new();
        };
        let wires = subjects::wires(finding, assessment);
        let (thicker, swapped) = (
            sizes::thicker(assessment, &wires),
            fuses::down(project, device),
        );
        let both = fuses::both(&swapped, &thicker);
        let own = fuses::at_thin_starts(assessment, project, device, &wires);
        Remedy::some(vec![swapped, thicker, own, both])
    }
}

fn cases<'a>(assessment: &'a Assessment, index: usize, device: &DeviceResult) -> Vec<Case<'a>> {
    let wires = assessment.wires.iter();
    wires
        .filter_map(|wire| case(assessment, wire, index, device))
        .collect()
}

fn case<'a>(
    assessment: &Assessment,
    wire: &'a WireResult,
    index: usize,
    device: &DeviceResult,
) -> Option<Case<'a>> {
    let mine = |guard: &&Guard| guard.device == Some(index);
    let harmful = |guard: &&Guard| !limits::source_is_harmless(wire, guard);
    let guard = wire.guards.iter().filter(harmful).find(mine)?;
    if named_elsewhere(assessment, wire, guard) {
        return None;
    }
    let rating = device.rating.value.amperes();
    let bears = wire.ampacity.in_force.amperes();
    if !limits::above(rating, bears * limits::rating_share()) {
        return None;
    }
    let overload = guard.overload.as_ref();
    Some(Case {
        wire,
        overload,
        severity: severity(wire, overload, rating),
    })
}

/// Whether an earlier source's device of the same rating already stands for
/// this wire: two sources that share the device next to the wire then share
/// one finding.
fn named_elsewhere(assessment: &Assessment, wire: &WireResult, guard: &Guard) -> bool {
    let rating = |guard: &Guard| limits::guard_device(assessment, guard).map(|d| d.rating.value);
    wire.guards
        .iter()
        .take_while(|other| other.source != guard.source)
        .filter(|other| !limits::source_is_harmless(wire, other))
        .any(|other| other.device != guard.device && rating(other) == rating(guard))
}

/// Whether the worst fast overload lies where the standards promise opening
/// times: above their last gate they promise no shorter one, and what the
/// wire goes through there is not shown.
fn shown(overload: &Overload, rating: f64) -> bool {
    overload.fast_region_amps.amperes() <= LAST_GATE * rating
}

/// Danger where the fuse lets the insulation be destroyed, warning where it
/// lets the insulation run above its limit or breaks the 150 % rule.
fn severity(wire: &WireResult, overload: Option<&Overload>, rating: f64) -> Severity {
    let destroyed = wire.short_limit.celsius();
    let over = |t: wainwright_units::Temperature, limit: f64| limits::above(t.celsius(), limit);
    if let Some(overload) = overload {
        let fast = shown(overload, rating) && over(overload.fast_region, destroyed);
        if fast || over(overload.slow_region, destroyed) {
            return Severity::Danger;
        }
        if over(overload.carried_for_ever, wire.limit.celsius()) {
            return Severity::Warning;
        }
    }
    let table = wire
        .ampacity
        .table
        .as_ref()
        .map(|table| table.base.amperes());
    match table {
        Some(base) if limits::above(rating, base * limits::table_share()) => Severity::Warning,
        _ => Severity::Caution,
    }
}

fn find_one(
    assessment: &Assessment,
    project: &Project,
    device: &DeviceResult,
    cases: &[Case<'_>],
) -> Option<Finding> {
    let weakest = |a: &&Case<'_>, b: &&Case<'_>| {
        let bears = |case: &Case<'_>| case.wire.ampacity.in_force;
        a.severity
            .cmp(&b.severity)
            .then(bears(a).total_cmp(&bears(b)))
    };
    let worst = cases.iter().min_by(weakest)?;
    let mut finding = Finding::new(
        DOC.id,
        worst.severity,
        Subject::device(&device.item, device.way),
        headline(project, device, worst, cases.len()),
    );
    let others = cases.iter().filter(|case| case.wire.id != worst.wire.id);
    for case in std::iter::once(worst).chain(others) {
        finding = finding
            .also(Subject::Wire(case.wire.id.clone()))
            .assuming(assessment, &["wire", case.wire.id.as_str()]);
    }
    for sentence in consequences(device, worst) {
        finding = finding.note(sentence);
    }
    // A danger is judged by the opening gates, which are written from memory.
    Some(
        finding
            .over(
                limits::current("I_n", device.rating.value),
                limits::largest_rating(worst.wire),
            )
            .memory(worst.severity == Severity::Danger || limits::ampacity_from_memory(worst.wire))
            .asking(Ask::WireAmpacity {
                wire: worst.wire.id.to_string(),
            }),
    )
}

fn headline(project: &Project, device: &DeviceResult, worst: &Case<'_>, count: usize) -> String {
    let more = match count {
        1 => String::new(),
        many => format!(", and for {} more", words::counted(many - 1, "wire")),
    };
    format!(
        "The {} is too big for {}{more}: the wire bears {} {}.",
        names::device(project, device),
        names::wire(worst.wire),
        words::amps(worst.wire.ampacity.in_force),
        names::place(project, worst.wire),
    )
}

fn consequences(device: &DeviceResult, worst: &Case<'_>) -> Vec<String> {
    let rating = device.rating.value;
    let mut sentences = Vec::new();
    if let Some(overload) = worst.overload {
        sentences.push(format!(
            "At {}, which this {} carries for ever, wire {} reaches {}; its insulation bears {}.",
            words::amps(rating * 1.10),
            names::device_word(device),
            worst.wire.id,
            words::heat(overload.carried_for_ever),
            words::heat(worst.wire.limit),
        ));
        let destroyed = overload.fast_region.celsius() > worst.wire.short_limit.celsius();
        if destroyed && shown(overload, rating.amperes()) {
            sentences.push(format!(
                "At {} it reaches {} before the {} has certainly opened: the insulation fails.",
                words::amps(overload.fast_region_amps),
                words::heat(overload.fast_region),
                names::device_word(device),
            ));
        }
    }
    sentences
}
