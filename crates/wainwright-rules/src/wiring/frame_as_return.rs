//! `frame-as-return`: load current through the trailer's frame. One finding
//! for each frame. Not here: the one bond that a frame needs.

use crate::finding::{Amount, Finding, Subject};
use crate::remedy::returns;
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{Graph, limits, names, subjects, words};
use wainwright_analysis::result::{Assessment, WireResult};
use wainwright_model::{Id, Project, Spec};
use wainwright_units::Current;

/// The rule.
pub(crate) struct FrameAsReturn;

static DOC: RuleDoc = RuleDoc {
    id: "frame-as-return",
    title: "The frame carries load current",
    worst: Severity::Caution,
    what: "In a state that can last, current of a load flows through the trailer's frame instead \
           of a conductor of its own.",
    why: "Bolted and painted joints of a frame corrode; their resistance grows, heats, and takes \
          voltage from everything that shares them. Current also finds its way through hinges, \
          gas pipe and the hitch. Published rules allow it; in a trailer on wet roads it does \
          not last.",
    example: "A pump returns 7 A through the frame; the lug at the tongue has reached 40 mΩ.",
    what_to_do: "Run a return conductor for each load. Keep one bond between the battery's minus \
                 and the frame, for safety only.",
    sources: &[
        "NFPA 70 552.10 allows the chassis as return in park trailers.",
        "Keeping load current off the frame is a judgement of this project.",
    ],
};

/// Currents below this are no load current [A].
const NO_LOAD: f64 = 0.1;

impl Rule for FrameAsReturn {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let frames = project
            .items
            .iter()
            .filter(|(_, item)| matches!(item.spec, Spec::Frame(_)));
        frames
            .filter_map(|(id, _)| find_one(assessment, project, id))
            .collect()
    }

    fn remedies(
        &self,
        finding: &Finding,
        assessment: &Assessment,
        project: &Project,
    ) -> Vec<Remedy> {
        let Some(frame) = subjects::item(finding) else {
            return Vec::new();
        };
        let graph = Graph::new(assessment, project);
        let wires = subjects::wires(finding, assessment);
        Remedy::some(vec![returns::own_return(
            assessment, project, &graph, frame, &wires,
        )])
    }
}

fn find_one(assessment: &Assessment, project: &Project, frame: &Id) -> Option<Finding> {
    let carrying = carrying(assessment, frame);
    let (worst, state, amps) = carrying
        .iter()
        .max_by(|a, b| a.2.total_cmp(&b.2).then(b.0.id.cmp(&a.0.id)))?;
    let mut loads: Vec<&WireResult> = carrying.iter().map(|found| found.0).collect();
    // The strongest wire first: the others may carry less.
    loads.sort_by_key(|wire| wire.id != worst.id);
    let headline = format!(
        "{} carries up to {} of load current, through {}; it should carry none.",
        words::capital(&names::item(project, frame)),
        words::amps(*amps),
        names::together(&loads, 4),
    );
    let mut finding = Finding::new(
        DOC.id,
        Severity::Caution,
        Subject::Item(frame.clone()),
        headline,
    )
    .note(format!("This is {}.", names::state(assessment, *state)));
    finding.value = Some(Amount::computed("I", amps.amperes(), words::amps(*amps)));
    for (wire, _, _) in &carrying {
        finding = finding.also(Subject::Wire(wire.id.clone()));
    }
    Some(finding)
}

/// Wires that end at the frame and carry load current.
fn carrying<'a>(assessment: &'a Assessment, frame: &Id) -> Vec<(&'a WireResult, usize, Current)> {
    assessment
        .wires
        .iter()
        .filter(|wire| wire.from.0 == *frame || wire.to.0 == *frame)
        .filter_map(|wire| {
            let (state, amps) = limits::most_amps(assessment, wire)?;
            (amps.amperes() > NO_LOAD).then_some((wire, state, amps))
        })
        .collect()
}
