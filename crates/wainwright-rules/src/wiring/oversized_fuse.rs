//! `oversized-fuse`: a fuse that lets more through than its conductors bear.
//! One finding for each circuit. Not here: stretches with no fuse at all
//! (`unfused-source-stretch`).

use super::insulation_fails_in_short::LAST_GATE;
use crate::finding::{Finding, Subject};
use crate::remedy::{added, fuses, sizes};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{Circuits, Graph, limits, names, subjects, words};
use std::collections::BTreeMap;
use wainwright_analysis::Ask;
use wainwright_analysis::result::{Assessment, DeviceResult, Guard, Overload, WireResult};
use wainwright_model::Project;
use wainwright_units::Temperature;

/// The rule.
pub(crate) struct OversizedFuse;

static DOC: RuleDoc = RuleDoc {
    id: "oversized-fuse",
    title: "A fuse is too big for the wire behind it",
    worst: Severity::Danger,
    what: "The smallest fuse or breaker between a source and a conductor is rated above 1.07 \
           times what that conductor bears where it runs, and the source can push that much. A short \
           tap to a fuse of its own is left out: it may be as long as an unfused wire at a source.",
    why: "A fuse protects the wire, not the gear. It may carry 1.10 times its rating for ever and \
          up to 1.35 times for an hour or more. If the wire cannot bear that, a stalled motor or \
          a poor short circuit cooks it while the fuse stays whole.",
    example: "A 30 A fuse feeds 16 AWG jumpers that bear 14 A inside foam. At 33 A, which the \
              fuse carries for ever, they reach 190 °C.",
    what_to_do: "Fit the next smaller fuse that still carries the load, or thicker wire, or a \
                 fuse of its own where the thin wire begins.",
    sources: &[
        "limit/ratios",
        "ampacity/boat",
        "protection/gates",
        "33 CFR 183.455: below 50 V not above 150 % of the table's ampacity.",
    ],
};

/// One conductor a fuse is too big for.
pub(crate) struct Case<'a> {
    /// The conductor (index).
    pub(crate) wire: usize,
    result: &'a WireResult,
    device: &'a DeviceResult,
    overload: Option<&'a Overload>,
    /// How bad it is.
    pub(crate) severity: Severity,
}

impl Rule for OversizedFuse {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let circuits = Circuits::new(assessment, &Graph::new(assessment, project));
        let mut by_circuit: BTreeMap<usize, Vec<Case<'_>>> = BTreeMap::new();
        for case in cases(assessment) {
            by_circuit
                .entry(circuits.name_of(case.wire))
                .or_default()
                .push(case);
        }
        by_circuit
            .iter()
            .filter_map(|(name, cases)| about(assessment, project, *name, cases))
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
        let named = subjects::wires(finding, assessment);
        let bad: Vec<usize> = cases(assessment).map(|case| case.wire).collect();
        let wires: Vec<usize> = named
            .into_iter()
            .filter(|wire| bad.contains(wire))
            .collect();
        let (thicker, swapped) = (
            sizes::thicker(assessment, &wires),
            fuses::down(project, device),
        );
        let both = fuses::both(&swapped, &thicker);
        let own = added::at_thin_starts(assessment, project, device, &wires);
        Remedy::some(vec![swapped, thicker, own, both])
    }
}

/// Every conductor whose fuse is too big, with the worst of its fuses.
pub(crate) fn cases(assessment: &Assessment) -> impl Iterator<Item = Case<'_>> {
    let wires = assessment.wires.iter().enumerate();
    wires
        .filter(|(_, wire)| !limits::is_tap(assessment, wire))
        .filter_map(|(index, wire)| {
            wire.guards
                .iter()
                .filter_map(|guard| case(assessment, index, wire, guard))
                .reduce(|worst, other| if other.is_worse(&worst) { other } else { worst })
        })
}

fn case<'a>(
    assessment: &'a Assessment,
    index: usize,
    wire: &'a WireResult,
    guard: &'a Guard,
) -> Option<Case<'a>> {
    let device = limits::guard_device(assessment, guard)?;
    let rating = device.rating.value.amperes();
    let bears = wire.ampacity.in_force.amperes();
    let fits = !limits::above(rating, bears * limits::rating_share());
    if fits || limits::source_is_harmless(wire, guard) {
        return None;
    }
    let overload = guard.overload.as_ref();
    let severity = severity(wire, overload, rating);
    Some(Case {
        wire: index,
        result: wire,
        device,
        overload,
        severity,
    })
}

impl Case<'_> {
    /// More severe, or as severe with a larger fuse.
    fn is_worse(&self, other: &Self) -> bool {
        let rating = |case: &Self| case.device.rating.value.amperes();
        match self.severity == other.severity {
            true => rating(self) > rating(other),
            false => self.severity < other.severity,
        }
    }
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
    let over = |t: Temperature, limit: f64| limits::above(t.celsius(), limit);
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

fn about(
    assessment: &Assessment,
    project: &Project,
    name: usize,
    cases: &[Case<'_>],
) -> Option<Finding> {
    let bears = |case: &Case<'_>| case.result.ampacity.in_force;
    let order = |a: &&Case<'_>, b: &&Case<'_>| {
        a.severity
            .cmp(&b.severity)
            .then(bears(a).total_cmp(&bears(b)))
    };
    let worst = cases.iter().min_by(order)?;
    let (wire, device) = (worst.result, worst.device);
    let name = assessment.wires.get(name)?;
    let headline = headline(project, worst, cases.len());
    // A danger is judged by the opening gates, which are written from memory.
    let from_memory = worst.severity == Severity::Danger || limits::ampacity_from_memory(wire);
    let mut finding = Finding::new(
        DOC.id,
        worst.severity,
        Subject::Wire(name.id.clone()),
        headline,
    )
    .also(Subject::device(&device.item, device.way))
    .also(Subject::Wire(wire.id.clone()))
    .over(
        limits::current("I_n", device.rating.value),
        limits::largest_rating(wire),
    )
    .memory(from_memory)
    .asking(Ask::WireAmpacity {
        wire: wire.id.to_string(),
    });
    for case in cases {
        finding = finding
            .also(Subject::Wire(case.result.id.clone()))
            .assuming(assessment, &["wire", case.result.id.as_str()]);
    }
    Some(consequences(worst).into_iter().fold(finding, Finding::note))
}

fn headline(project: &Project, worst: &Case<'_>, count: usize) -> String {
    let more = match count {
        1 => String::new(),
        many => format!(" and {} more", words::counted(many - 1, "wire")),
    };
    format!(
        "The {} is too big for {}{more}: it bears {} {}.",
        names::device(project, worst.device),
        names::wire(worst.result),
        words::amps(worst.result.ampacity.in_force),
        names::place(project, worst.result),
    )
}

fn consequences(worst: &Case<'_>) -> Vec<String> {
    let Some(overload) = worst.overload else {
        return Vec::new();
    };
    let (wire, rating) = (worst.result, worst.device.rating.value);
    let word = names::device_word(worst.device);
    let mut sentences = vec![format!(
        "At {}, which this {word} carries for ever, wire {} reaches {}; its insulation bears {}.",
        words::amps(rating * 1.10),
        wire.id,
        words::heat(overload.carried_for_ever),
        words::heat(wire.limit),
    )];
    let destroyed = overload.fast_region.celsius() > wire.short_limit.celsius();
    if destroyed && shown(overload, rating.amperes()) {
        sentences.push(format!(
            "At {} it reaches {} before the {word} has certainly opened: the insulation fails.",
            words::amps(overload.fast_region_amps),
            words::heat(overload.fast_region),
        ));
    }
    sentences
}
