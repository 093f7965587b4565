//! `unfused-source-stretch`: conductor on the plus side that no device
//! protects, longer than the rule profile allows. One finding for each
//! source. Not here: devices that are too big (`oversized-fuse`).

use crate::finding::{Finding, Subject};
use crate::remedy::{added, feeds};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{Graph, limits, names, subjects, words};
use wainwright_analysis::known::Known;
use wainwright_analysis::result::{Assessment, ConsumerResult, Guard, Role, Side, WireResult};
use wainwright_model::Project;
use wainwright_units::{Length, System};

/// The rule.
pub(crate) struct UnfusedSourceStretch;

static DOC: RuleDoc = RuleDoc {
    id: "unfused-source-stretch",
    title: "Wire between a source and its first fuse is too long",
    worst: Severity::Danger,
    what: "A conductor on the plus side can be fed by a source without any fuse or breaker in \
           between, and ends farther from the source than the rule profile allows (United \
           States 7 in, or 40 in where sheathed all the way; European Union 200 mm). Sources that \
           cannot push more than the wire bears are left out.",
    why: "Nothing ends a short circuit on this stretch. A battery pushes hundreds of amperes \
          through it until the wire glows, on the wall it is clipped to.",
    example: "The main fuse sits 30 in from the battery. A chafed spot in that stretch carries \
              1400 A; the 6 AWG wire reaches the end of its insulation in a second.",
    what_to_do: "Put the fuse at the source: a terminal-mounted or class T fuse on the battery, \
                 the others within 7 in (200 mm) of where the power comes from.",
    sources: &[
        "position/unfused",
        "ANSI/ABYC E-11 and 33 CFR 183.455: every source counts.",
    ],
};

/// One unprotected conductor.
#[derive(Clone, Copy)]
struct Stretch<'a> {
    index: usize,
    wire: &'a WireResult,
    bare: Length,
    limit: &'a Known<Length>,
}

impl Rule for UnfusedSourceStretch {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let gives = |c: &&ConsumerResult| matches!(c.role, Role::Battery | Role::Source);
        let sources = assessment.consumers.iter().filter(gives);
        sources
            .filter_map(|source| find_one(assessment, project, source))
            .collect()
    }

    fn remedies(
        &self,
        finding: &Finding,
        assessment: &Assessment,
        project: &Project,
    ) -> Vec<Remedy> {
        let Some(source) = subjects::item(finding) else {
            return Vec::new();
        };
        let graph = Graph::new(assessment, project);
        let mut remedies = added::at_source(assessment, project, &graph, source.as_str());
        remedies.push(feeds::fuse_to_source(
            assessment,
            project,
            &graph,
            source.as_str(),
        ));
        Remedy::some(remedies)
    }
}

fn find_one(
    assessment: &Assessment,
    project: &Project,
    source: &ConsumerResult,
) -> Option<Finding> {
    let stretches = stretches(assessment, source);
    let worst = stretches.iter().max_by(|a, b| {
        let excess = |s: &Stretch<'_>| s.bare.metres() / s.limit.value.metres().max(1e-3);
        excess(a).total_cmp(&excess(b)).then(b.index.cmp(&a.index))
    })?;
    let system = limits::system(project);
    let severity = severity(assessment, source, &stretches);
    let headline = format!(
        "{} has no fuse between it and {}: {} of wire without protection, {} allowed{}.",
        words::capital(&names::wire(worst.wire)),
        names::consumer(source),
        words::length(worst.bare, system),
        words::length(worst.limit.value, system),
        more(stretches.len()),
    );
    let value = crate::finding::Amount::computed(
        "l",
        worst.bare.metres(),
        words::length(worst.bare, system),
    );
    let mut finding = Finding::new(
        DOC.id,
        severity,
        Subject::Item(source.item.clone()),
        headline,
    )
    .over(value, limits::length(worst.limit, system))
    .also(Subject::Wire(worst.wire.id.clone()));
    for stretch in &stretches {
        finding = finding
            .also(Subject::Wire(stretch.wire.id.clone()))
            .assuming(assessment, &["wire", stretch.wire.id.as_str(), "length"]);
    }
    if let Some(sentence) = short(assessment, worst, system) {
        finding = finding.note(sentence);
    }
    if source.role == Role::Battery {
        finding = finding.note(
            "The protection circuit inside a battery does not replace a fuse: it is not made to \
             interrupt short circuits again and again.",
        );
    }
    Some(finding)
}

fn stretches<'a>(assessment: &'a Assessment, source: &ConsumerResult) -> Vec<Stretch<'a>> {
    let wires = assessment.wires.iter().enumerate();
    wires
        .filter(|(_, wire)| matches!(wire.side, Side::Plus | Side::Both))
        .filter_map(|(index, wire)| {
            let from_here = |guard: &&Guard| guard.source == source.item;
            let guard = wire.guards.iter().find(from_here)?;
            let bare = guard.bare_length?;
            let limit = match wire.sheathed {
                true => &assessment.limits.unfused_sheathed,
                false => &assessment.limits.unfused,
            };
            let too_long = limits::above(bare.metres(), limit.value.metres());
            let harmless = limits::source_is_harmless(wire, guard);
            (too_long && !harmless).then_some(Stretch {
                index,
                wire,
                bare,
                limit,
            })
        })
        .collect()
}

/// Danger where the fault study shows that a short on the stretch destroys
/// it or is never ended.
fn severity(
    assessment: &Assessment,
    source: &ConsumerResult,
    stretches: &[Stretch<'_>],
) -> Severity {
    let destroyed = stretches.iter().any(|stretch| {
        let ends = [stretch.wire.from_node, stretch.wire.to_node];
        assessment
            .faults
            .iter()
            .filter(|fault| ends.contains(&fault.node))
            .any(|fault| {
                let stress = fault
                    .largest
                    .stresses
                    .iter()
                    .find(|s| s.wire == stretch.index);
                stress.is_some_and(|stress| !stress.survives)
            })
    });
    if source.role == Role::Battery && destroyed {
        Severity::Danger
    } else {
        Severity::Warning
    }
}

/// What a short at the end of the stretch does.
fn short(assessment: &Assessment, worst: &Stretch<'_>, system: System) -> Option<String> {
    let ends = [worst.wire.from_node, worst.wire.to_node];
    let faults = assessment
        .faults
        .iter()
        .filter(|fault| ends.contains(&fault.node));
    let stress = faults
        .flat_map(|fault| &fault.largest.stresses)
        .filter(|stress| stress.wire == worst.index)
        .max_by(|a, b| a.hottest.total_cmp(&b.hottest))?;
    Some(format!(
        "A short circuit there drives {} through it and heats it to {}; its insulation bears {} for a few \
         seconds.",
        words::amps(stress.amps),
        words::heat(stress.hottest, system),
        words::heat(worst.wire.short_limit, system),
    ))
}

fn more(count: usize) -> String {
    match count {
        0 | 1 => String::new(),
        many => format!(
            "; the same goes for {}",
            words::counted(many - 1, "further wire")
        ),
    }
}
