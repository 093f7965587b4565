//! `oversized-fuse`: a fuse that lets more through than its conductors bear.
//! One finding for each circuit. Not here: stretches with no fuse at all
//! (`unfused-source-stretch`).

use super::fuse_behind_switch::feeds_behind;
use super::insulation_fails_in_short::LAST_GATE;
use super::overloaded_chain::chain_wires;
use crate::finding::{Finding, Subject};
use crate::remedy::{added, feeds, fuses, sizes};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{Circuits, Graph, limits, names, subjects, words};
use std::collections::BTreeMap;
use wainwright_analysis::Ask;
use wainwright_analysis::result::{Assessment, DeviceResult, Guard, Overload, WireResult};
use wainwright_model::Project;
use wainwright_units::{Current, Temperature};

/// The rule.
pub(crate) struct OversizedFuse;

static DOC: RuleDoc = RuleDoc {
    id: "oversized-fuse",
    title: "A fuse is too big for the wire behind it",
    worst: Severity::Danger,
    what: "The smallest fuse or breaker between a source and a conductor is rated above 1.07 \
           times what that conductor bears where it runs, and the source can push that much. A short \
           tap to a fuse of its own is left out: it may be as long as an unfused wire at a source. \
           Fuses of batteries in parallel count together. Jumpers of an overloaded chain and feeds \
           of a switch with its fuse behind it are told about there.",
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
        "Fuses of batteries in parallel count as their sum: Kirchhoff's first law; the heat at \
         that sum is taken as rising with the square of the current.",
    ],
};

/// One conductor a fuse is too big for.
pub(crate) struct Case<'a> {
    /// The conductor (index).
    pub(crate) wire: usize,
    result: &'a WireResult,
    /// The fuse, or those that feed the conductor side by side.
    devices: Vec<&'a DeviceResult>,
    /// Their rating together.
    rating: Current,
    overload: Option<Overload>,
    /// How bad it is.
    pub(crate) severity: Severity,
}

impl Rule for OversizedFuse {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let graph = Graph::new(assessment, project);
        let circuits = Circuits::new(assessment, &graph);
        let mut told = chain_wires(assessment, &graph);
        told.extend(feeds_behind(assessment, project, &graph));
        let mut by_circuit: BTreeMap<usize, Vec<Case<'_>>> = BTreeMap::new();
        for case in cases(assessment).filter(|case| !told.contains(&case.wire)) {
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
        let graph = Graph::new(assessment, project);
        let own = added::at_thin_starts(assessment, project, device, &wires);
        let moved = feeds::fuse_to_start(assessment, project, &graph, device, &wires);
        let swapped = match subjects::devices(finding, assessment).count() {
            1 => fuses::down(project, device),
            _ => Remedy::ladder(Vec::new()),
        };
        // Where a fuse can sit at the start of the wire nobody lays a wire
        // many times as thick to suit a fuse that was made for all.
        let mut thicker = sizes::thicker(assessment, &wires);
        if !(own.rungs.is_empty() && moved.rungs.is_empty()) {
            thicker.rungs.truncate(SIZES_UP);
        }
        let both = fuses::both(&swapped, &thicker);
        // A bundle can leave so little that nothing else is enough by itself.
        let apart = sizes::apart(assessment, &wires);
        let with_apart = [&moved, &own, &thicker].map(|more| fuses::both(&apart, more));
        let mut remedies = vec![moved, own, swapped, thicker, both, apart];
        remedies.extend(with_apart);
        Remedy::some(remedies)
    }
}

/// Most sizes up that are proposed where a fuse of its own would do: two even
/// gauge numbers are the double in metal and more. Judgement.
const SIZES_UP: usize = 2;

/// Every conductor whose fuse is too big, with the worst of its fuses.
pub(crate) fn cases(assessment: &Assessment) -> impl Iterator<Item = Case<'_>> {
    let wires = assessment.wires.iter().enumerate();
    wires
        .filter(|(_, wire)| !limits::is_tap(assessment, wire))
        .filter_map(|(index, wire)| {
            wire.guards
                .iter()
                .filter_map(|guard| case(assessment, index, wire, guard))
                .chain(side_by_side(assessment, index, wire))
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
    if limits::source_is_harmless(wire, guard) {
        return None;
    }
    let overload = guard.overload.clone();
    Case::new(index, wire, vec![device], device.rating.value, overload)
}

/// Batteries in parallel, each behind a fuse of its own: a fault or an
/// overload draws through all of them at once, so their sum counts, as far
/// as that much can come together in this conductor.
fn side_by_side<'a>(
    assessment: &'a Assessment,
    index: usize,
    wire: &'a WireResult,
) -> Option<Case<'a>> {
    let strong = || wire.guards.iter().filter(|g| g.self_limited.is_none());
    let mut found: Vec<usize> = strong().filter_map(|guard| guard.device).collect();
    found.sort_unstable();
    found.dedup();
    let devices: Vec<&DeviceResult> = found
        .iter()
        .filter_map(|device| assessment.devices.get(*device))
        .collect();
    if devices.len() < 2 {
        return None;
    }
    let sum: f64 = devices.iter().map(|d| d.rating.value.amperes()).sum();
    let amps = wire.together?.amperes().min(sum);
    let largest = strong().max_by(|a, b| {
        let rating = |guard: &Guard| {
            limits::guard_device(assessment, guard).map_or(0.0, |d| d.rating.value.amperes())
        };
        rating(a).total_cmp(&rating(b))
    })?;
    let single = limits::guard_device(assessment, largest)?
        .rating
        .value
        .amperes();
    let times = amps / single.max(1e-9);
    if times <= 1.0 + limits::EQUAL {
        return None;
    }
    let overload = largest
        .overload
        .as_ref()
        .map(|one| stronger(wire, one, times));
    Case::new(index, wire, devices, Current::from_amperes(amps), overload)
}

/// The overload of one fuse with the current so many times as large: the rise
/// above the air goes with the square of the current, better cooling and
/// higher resistance of hotter metal left out.
fn stronger(wire: &WireResult, one: &Overload, times: f64) -> Overload {
    let air = wire.air.value.celsius();
    let hotter = |t: Temperature| {
        Temperature::from_celsius(air + (t.celsius() - air).max(0.0) * times * times)
    };
    Overload {
        carried_for_ever: hotter(one.carried_for_ever),
        slow_region: hotter(one.slow_region),
        ..one.clone()
    }
}

impl<'a> Case<'a> {
    /// A case, when this rating is too big for the wire.
    fn new(
        index: usize,
        wire: &'a WireResult,
        devices: Vec<&'a DeviceResult>,
        rating: Current,
        overload: Option<Overload>,
    ) -> Option<Self> {
        let bears = wire.ampacity.in_force.amperes();
        let over = limits::above(rating.amperes(), bears * limits::rating_share());
        over.then(|| Self {
            wire: index,
            result: wire,
            severity: severity(wire, overload.as_ref(), rating.amperes()),
            devices,
            rating,
            overload,
        })
    }

    /// More severe, or as severe with a larger rating.
    fn is_worse(&self, other: &Self) -> bool {
        match self.severity == other.severity {
            true => self.rating > other.rating,
            false => self.severity < other.severity,
        }
    }

    /// `Main fuse (250 A)`, or all that feed the conductor side by side.
    pub(crate) fn names(&self, project: &Project) -> String {
        let names: Vec<String> = self
            .devices
            .iter()
            .map(|device| names::device(project, device))
            .collect();
        words::list(&names, 4)
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
    let wire = worst.result;
    let name = assessment.wires.get(name)?;
    let headline = headline(project, worst, cases.len());
    let subject = Subject::Wire(name.id.clone());
    let mut finding = Finding::new(DOC.id, worst.severity, subject, headline);
    for device in &worst.devices {
        finding = finding.also(Subject::device(&device.item, device.way));
    }
    // A danger is judged by the opening gates, which are written from memory.
    let from_memory = worst.severity == Severity::Danger || limits::ampacity_from_memory(wire);
    finding = finding
        .also(Subject::Wire(wire.id.clone()))
        .over(
            limits::current("I_n", worst.rating),
            limits::largest_rating(wire),
        )
        .memory(from_memory)
        .asking(Ask::WireAmpacity {
            wire: wire.id.to_string(),
        });
    for sentence in worst.consequences(project) {
        finding = finding.note(sentence);
    }
    let others: Vec<&WireResult> = cases
        .iter()
        .filter(|case| case.wire != worst.wire)
        .map(|case| case.result)
        .collect();
    if !others.is_empty() {
        let others = words::capital(&names::together(&others, 6));
        finding = finding.note(format!("{others} of the same circuit: likewise."));
    }
    for case in cases {
        finding = finding
            .also(Subject::Wire(case.result.id.clone()))
            .assuming(assessment, &["wire", case.result.id.as_str()]);
    }
    Some(finding)
}

fn headline(project: &Project, worst: &Case<'_>, count: usize) -> String {
    let more = match count {
        1 => String::new(),
        many => format!(" and {}", words::counted(many - 1, "more wire")),
    };
    let (verb, so) = match worst.devices.len() {
        1 => ("is", String::new()),
        _ => {
            let together = words::amps(worst.rating);
            ("are", format!(" together they let {together} through,"))
        }
    };
    let most = limits::largest_rating(worst.result);
    format!(
        "{} {verb} too big for {}{more}:{so} {} bears {} {}, so {} is the most its fuse may have.",
        words::capital(&worst.names(project)),
        names::wire(worst.result),
        names::again(worst.result),
        words::amps(worst.result.ampacity.in_force),
        names::place(project, worst.result),
        words::amps(Current::from_amperes(most.value)),
    )
}

impl Case<'_> {
    /// What the fuse lets happen to the conductor, in sentences.
    pub(crate) fn consequences(&self, project: &Project) -> Vec<String> {
        let Some(overload) = &self.overload else {
            return Vec::new();
        };
        let system = limits::system(project);
        let (wire, rating) = (self.result, self.rating);
        let (this, carries, word) = match self.devices.as_slice() {
            [one] => {
                let word = names::device_word(one);
                (format!("this {word}"), "carries", word)
            }
            _ => ("these together".to_string(), "carry", "last of them"),
        };
        let about = if self.devices.len() > 1 { "about " } else { "" };
        let mut sentences = vec![format!(
            "At {}, which {this} {carries} without ever opening, {} reaches {about}{}; its \
             insulation bears {}.",
            words::amps(rating * 1.10),
            names::again(wire),
            words::heat(overload.carried_for_ever, system),
            words::class(wire.limit, system),
        )];
        let destroyed = overload.fast_region.celsius() > wire.short_limit.celsius();
        if destroyed && shown(overload, rating.amperes()) {
            sentences.push(format!(
                "At {} it reaches {} before the {word} has certainly opened: the insulation fails.",
                words::amps(overload.fast_region_amps),
                words::heat(overload.fast_region, system),
            ));
        }
        sentences
    }
}
