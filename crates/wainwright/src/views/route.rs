//! What runs behind which wall, with its distances from the edges: where not
//! to drill. Not here: how routes are found.

use serde::Serialize;
use wainwright_analysis::result::{Assessment, Stretch};
use wainwright_model::{Id, Side};
use wainwright_units::Length;

/// Shorter stretches beside trunks are left out [m].
const SHORT: f64 = 0.02;
/// Places so near are the same [m].
const NEAR: f64 = 0.001;
/// Runs beside trunks so near to one line are told as one [m]; less than the width of a wire.
const SAME_LINE: f64 = 0.005;

/// One straight run on one wall.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RunView {
    /// The trunk it is part of; none beside trunks.
    pub trunk: Option<String>,
    /// Distances from the edges of the wall, in the order they are measured.
    pub measures: Vec<MeasureView>,
    /// How far from the lining, at most.
    pub off_metres: f64,
    /// Wires in it.
    pub wires: Vec<String>,
    /// What hides it.
    pub behind: Option<String>,
}

/// Distance from one edge.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct MeasureView {
    /// `front`, `left` or `floor`.
    pub edge: &'static str,
    /// The smaller distance.
    pub least_metres: f64,
    /// The larger one.
    pub most_metres: f64,
}

/// All runs on a wall: trunks in file order, then wires beside trunks.
pub fn runs_on(assessment: &Assessment, side: Side) -> Vec<RunView> {
    let mut runs = Vec::new();
    for trunk in &assessment.routing.trunks {
        for stretch in on(&trunk.stretches, side) {
            runs.push(RunView {
                trunk: Some(trunk.id.to_string()),
                wires: wires_in(assessment, &trunk.id, stretch),
                behind: trunk.behind.clone(),
                ..run(stretch)
            });
        }
    }
    runs.extend(beside(assessment, side));
    runs
}

fn on(stretches: &[Stretch], side: Side) -> impl Iterator<Item = &Stretch> {
    stretches
        .iter()
        .filter(move |stretch| stretch.on == Some(side))
}

fn run(stretch: &Stretch) -> RunView {
    RunView {
        trunk: None,
        measures: stretch.measures.iter().map(measure).collect(),
        off_metres: stretch.off.metres(),
        wires: Vec::new(),
        behind: None,
    }
}

fn measure(measure: &wainwright_analysis::result::Measure) -> MeasureView {
    let (from, to) = (measure.from.metres(), measure.to.metres());
    MeasureView {
        edge: match measure.edge {
            Side::Front => "front",
            Side::Left => "left",
            _ => "floor",
        },
        least_metres: from.min(to),
        most_metres: from.max(to),
    }
}

/// Wires that lie in a stretch of a trunk.
fn wires_in(assessment: &Assessment, trunk: &Id, stretch: &Stretch) -> Vec<String> {
    let routes = assessment.routing.wires.iter();
    let inside = routes.filter(|wire| {
        let legs = wire.route.iter().flat_map(|route| &route.legs);
        legs.filter(|leg| leg.trunk.as_ref() == Some(trunk))
            .flat_map(|leg| &leg.stretches)
            .any(|own| own.length.metres() > NEAR && within(own, stretch))
    });
    inside.map(|wire| wire.wire.to_string()).collect()
}

/// Whether both ends of a stretch lie in the box round another.
fn within(own: &Stretch, other: &Stretch) -> bool {
    let axes = [
        |spot: &wainwright_model::Spot| spot.from_front,
        |spot: &wainwright_model::Spot| spot.from_left,
        |spot: &wainwright_model::Spot| spot.above_floor,
    ];
    [&own.from, &own.to].iter().all(|spot| {
        axes.iter().all(|axis| {
            let (a, b) = (axis(&other.from).metres(), axis(&other.to).metres());
            let at = axis(spot).metres();
            at >= a.min(b) - NEAR && at <= a.max(b) + NEAR
        })
    })
}

/// Stretches beside trunks; those that lie on one line and touch are one.
fn beside(assessment: &Assessment, side: Side) -> Vec<RunView> {
    let mut runs: Vec<RunView> = Vec::new();
    for wire in &assessment.routing.wires {
        let legs = wire.route.iter().flat_map(|route| &route.legs);
        let free = legs
            .filter(|leg| leg.trunk.is_none())
            .flat_map(|leg| &leg.stretches);
        for stretch in free.filter(|s| s.on == Some(side) && s.length.metres() > SHORT) {
            let mut own = run(stretch);
            own.wires.push(wire.wire.to_string());
            // What touches several runs joins them.
            while let Some(at) = runs.iter().position(|known| touch(known, &own)) {
                own = joined(runs.remove(at), own);
            }
            runs.push(own);
        }
    }
    runs.sort_by(|one, other| {
        let key = |run: &RunView| {
            run.measures
                .first()
                .map_or(0.0, |measure| measure.least_metres)
        };
        key(one).total_cmp(&key(other))
    });
    runs
}

/// Whether two runs lie on one line, level in one direction, and touch.
fn touch(one: &RunView, other: &RunView) -> bool {
    let pairs = || one.measures.iter().zip(&other.measures);
    let overlap = |a: &MeasureView, b: &MeasureView| {
        a.least_metres <= b.most_metres + SAME_LINE && b.least_metres <= a.most_metres + SAME_LINE
    };
    let on_line = |a: &MeasureView, b: &MeasureView| {
        a.is_level() && b.is_level() && (a.least_metres - b.least_metres).abs() <= SAME_LINE
    };
    one.measures.len() == other.measures.len()
        && pairs().all(|(a, b)| a.edge == b.edge && overlap(a, b))
        && pairs().any(|(a, b)| on_line(a, b))
}

fn joined(one: RunView, other: RunView) -> RunView {
    let measures = one.measures.iter().zip(&other.measures);
    let mut wires = one.wires;
    for wire in other.wires {
        if !wires.contains(&wire) {
            wires.push(wire);
        }
    }
    RunView {
        trunk: None,
        measures: measures
            .map(|(a, b)| MeasureView {
                edge: a.edge,
                least_metres: a.least_metres.min(b.least_metres),
                most_metres: a.most_metres.max(b.most_metres),
            })
            .collect(),
        off_metres: one.off_metres.max(other.off_metres),
        wires,
        behind: None,
    }
}

impl MeasureView {
    /// The smaller distance.
    pub fn least(&self) -> Length {
        Length::from_metres(self.least_metres)
    }

    /// The larger distance.
    pub fn most(&self) -> Length {
        Length::from_metres(self.most_metres)
    }

    /// Whether both are the same.
    pub fn is_level(&self) -> bool {
        self.most_metres - self.least_metres <= SAME_LINE
    }
}
