//! A cabinet for equipment as plain data with words: what is where on its face, what fits, how warm it gets, the
//! template for paper. Shared by pages and the command line. Not here: the study, layout of any kind.

use super::indoors::{units, words};
use super::system::{AssumptionView, assumed};
use serde::Serialize;
use wainwright_analysis::cabinets;
use wainwright_analysis::result::cabinet::{
    CabinetAirFound, CabinetDevice, CabinetResult, CoolingFound, FaceRect, HeatFrom, Situation,
};
use wainwright_model::{MountedOn, Project};
use wainwright_units::{Length, Quantity, System};

/// Version of [`CabinetView`].
pub const CABINET_VERSION: u32 = 1;

/// A cabinet.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CabinetView {
    /// [`CABINET_VERSION`].
    pub cabinet: u32,
    /// Its id.
    pub id: String,
    /// What it is called.
    pub label: String,
    /// Its face, as a sentence; null without place and size.
    pub face: Option<String>,
    /// Clear inside of the face [mm]: width, height, depth behind it.
    pub inside_mm: Option<(f64, f64, f64)>,
    /// What it holds.
    pub devices: Vec<DeviceView>,
    /// Names in its list that are no items.
    pub unknown: Vec<String>,
    /// Pairs in the same place on face or board.
    pub overlaps: Vec<(String, String)>,
    /// How its fuses are reached, as a sentence.
    pub reach: String,
    /// Heat and air.
    pub air: CabinetAirView,
    /// What is drawn for the face [mm]; null without place and size.
    pub template: Option<TemplateView>,
    /// Values that stand in.
    pub assumptions: Vec<AssumptionView>,
    /// What could not be worked out.
    pub refused: Vec<String>,
}

/// A thing in a cabinet; places are in millimetres on the face, x to the right, y up from its lower left inside corner.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct DeviceView {
    /// The item.
    pub id: String,
    /// What it is called.
    pub label: String,
    /// `face`, `board` or null.
    pub mounted: Option<&'static str>,
    /// Its outline: x, y, width, height.
    pub rect_mm: Option<[f64; 4]>,
    /// From the inside of the face to its front.
    pub behind_mm: Option<f64>,
    /// Its hole: x, y, width, height.
    pub hole_mm: Option<[f64; 4]>,
    /// Whether that hole is round.
    pub round: bool,
    /// What is wrong with its place, as sentences.
    pub wrong: Vec<String>,
    /// Heat at camp, on the road, on shore power [W].
    pub watts: [f64; 3],
    /// How that is known, in words.
    pub heat_from: &'static str,
}

/// Heat and air of a cabinet.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CabinetAirView {
    /// When it is warmest, in words.
    pub situation: &'static str,
    /// Heat then [W].
    pub watts: f64,
    /// What takes it out, as a sentence.
    pub cooling: String,
    /// Air inside [°C]; null when it is not known.
    pub celsius: Option<f64>,
    /// Highest that the devices bear [°C].
    pub limit_celsius: f64,
    /// Air that wires and fuses in it are judged in [°C].
    pub wires_celsius: Option<f64>,
    /// Whether it stays below.
    pub holds: Option<bool>,
    /// Verdict, as sentences.
    pub verdict: Vec<String>,
}

/// What is drawn for the face in true size [mm].
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct TemplateView {
    /// The board: x, y, width, height.
    pub board: [f64; 4],
    /// The clear inside.
    pub inside: [f64; 4],
    /// Holes to cut.
    pub cuts: Vec<CutView>,
    /// Holes to drill: x, y, diameter.
    pub drills: Vec<[f64; 3]>,
    /// Outlines of what stands behind: what it is called, and x, y, width, height.
    pub outlines: Vec<(String, [f64; 4])>,
}

/// A hole to cut [mm].
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CutView {
    /// What it is for.
    pub label: String,
    /// x, y, width, height.
    pub rect: [f64; 4],
    /// Whether it is round.
    pub round: bool,
    /// Its middle.
    pub centre: [f64; 2],
}

impl CabinetView {
    /// The same as plain data with words.
    pub fn of(project: &Project, found: &CabinetResult) -> Self {
        let units = units(project);
        let name = |id: &wainwright_model::Id| project.label_or_id("item", id.as_str()).to_owned();
        Self {
            cabinet: CABINET_VERSION,
            id: found.cabinet.to_string(),
            label: found.label.clone(),
            face: found.face.map(|face| {
                format!(
                    "Its face looks to the {}: {} wide and {} high inside, {} deep.",
                    found.faces.value.as_str(),
                    face.width.show(units),
                    face.height.show(units),
                    face.depth.show(units)
                )
            }),
            inside_mm: found.face.map(|face| {
                let [width, height, depth] = [face.width, face.height, face.depth].map(millimetres);
                (width, height, depth)
            }),
            devices: found
                .devices
                .iter()
                .map(|one| device(one, project, units))
                .collect(),
            unknown: found.unknown.clone(),
            overlaps: found
                .overlaps
                .iter()
                .map(|(one, other)| (name(one), name(other)))
                .collect(),
            reach: reach(found),
            air: air(&found.air, project, units),
            template: template(project, found),
            assumptions: assumed(&found.assumptions),
            refused: found.refused.clone(),
        }
    }
}

fn reach(found: &CabinetResult) -> String {
    match (found.fuses.len(), &found.door) {
        (0, _) => "No fuses are in it.".to_owned(),
        (count, Some(door)) if door.value => format!("{count} with fuses in it, reached by hand."),
        (count, Some(_)) => format!("{count} with fuses in it, reached with a tool only."),
        (count, None) => format!("{count} with fuses in it; say whether it opens by hand (door)."),
    }
}

fn device(found: &CabinetDevice, project: &Project, units: System) -> DeviceView {
    let mut wrong = Vec::new();
    if found.rect.is_none() {
        wrong.push("Place or size is not given.".to_owned());
    }
    if found.inside == Some(false) {
        wrong.push("Sticks out of the cabinet.".to_owned());
    }
    if let Some(depth) = found.depth.filter(|depth| !depth.fits) {
        wrong.push(format!(
            "Needs {} of depth, there are {}.",
            depth.needed.show(units),
            depth.there.show(units)
        ));
    }
    for id in found.clear.iter().flat_map(|clear| &clear.blocked_by) {
        let other = project.label_or_id("item", id.as_str());
        wrong.push(format!("{other} stands in the room it needs before it."));
    }
    DeviceView {
        id: found.item.to_string(),
        label: found.label.clone(),
        mounted: found.mounted.map(|mounted| match mounted {
            MountedOn::Face => "face",
            MountedOn::Board => "board",
        }),
        rect_mm: found.rect.map(rect),
        behind_mm: found.behind.map(millimetres),
        hole_mm: found.hole.map(|hole| rect(hole.rect)),
        round: found.hole.is_some_and(|hole| hole.round),
        wrong,
        watts: found.heat.map(|heat| heat.watts()),
        heat_from: match found.heat_from {
            HeatFrom::Typed => "typed",
            HeatFrom::Efficiency => "by its efficiency",
            HeatFrom::Joints => "by the currents through its joints",
            HeatFrom::None => "none known",
        },
    }
}

/// When devices work together, in words.
pub const fn situation(situation: Situation) -> &'static str {
    match situation {
        Situation::Camp => "in the sun at camp",
        Situation::Driving => "on the road",
        Situation::Shore => "on shore power",
    }
}

fn air(found: &CabinetAirFound, project: &Project, units: System) -> CabinetAirView {
    let limit = found.limit.0.value;
    let cooling = match found.cooling {
        CoolingFound::Closed => "Closed: only its boards let heat out.".to_owned(),
        CoolingFound::Fan(flow) => format!("A fan moves {}.", flow.show(units)),
        CoolingFound::Openings { low, high, height } => format!(
            "{} open low down, {} high up; {} from the middle of the heat to the high ones.",
            words::small(low, units),
            words::small(high, units),
            height.show(units)
        ),
    };
    CabinetAirView {
        situation: situation(found.situation),
        watts: found.heat.watts(),
        cooling,
        celsius: found.inside.map(wainwright_units::Temperature::celsius),
        limit_celsius: limit.celsius(),
        wires_celsius: found.for_wires.map(wainwright_units::Temperature::celsius),
        holds: found.inside.map(|inside| inside <= limit),
        verdict: verdict(found, project, units),
    }
}

fn verdict(found: &CabinetAirFound, project: &Project, units: System) -> Vec<String> {
    let limit = found.limit.0.value;
    let Some(inside) = found.inside else {
        return vec!["Give place and size of the cabinet to see how warm it gets.".to_owned()];
    };
    let bears = found.limit.1.as_ref().map_or_else(
        || "what gear of that kind bears".to_owned(),
        |id| format!("what {} bears", project.label_or_id("item", id.as_str())),
    );
    let mut all = vec![format!(
        "Warmest {}: {} of heat, {} inside at {} around it; {} is {bears}.",
        situation(found.situation),
        found.heat.show(units),
        inside.show(units),
        found.ambient.value.show(units),
        limit.show(units)
    )];
    if inside > limit {
        let mut ways = Vec::new();
        if let Some(each) = found.opening_for_limit {
            ways.push(format!(
                "openings of {} each, low and high",
                words::small(each, units)
            ));
        }
        if let Some(fan) = found.fan_for_limit {
            ways.push(format!("a fan that moves {} in place", fan.show(units)));
        }
        if !ways.is_empty() {
            all.push(format!("Enough would be {}.", ways.join(", or ")));
        }
    }
    if let Some(wires) = found.for_wires {
        all.push(format!(
            "Wires and fuses in it are judged in air of up to {}.",
            wires.show(units)
        ));
    }
    all
}

fn template(project: &Project, found: &CabinetResult) -> Option<TemplateView> {
    let found = cabinets::template(found)?;
    let name = |id: &wainwright_model::Id| project.label_or_id("item", id.as_str()).to_owned();
    let outlines = found.outlines.iter();
    Some(TemplateView {
        board: rect(found.board),
        inside: rect(found.inside),
        cuts: found
            .cuts
            .iter()
            .map(|cut| CutView {
                label: name(&cut.item),
                rect: rect(cut.hole.rect),
                round: cut.hole.round,
                centre: [millimetres(cut.centre.0), millimetres(cut.centre.1)],
            })
            .collect(),
        drills: found
            .drills
            .iter()
            .map(|drill| [drill.x, drill.y, drill.diameter].map(millimetres))
            .collect(),
        outlines: outlines
            .map(|(id, outline)| (name(id), rect(*outline)))
            .collect(),
    })
}

fn rect(found: FaceRect) -> [f64; 4] {
    [found.x, found.y, found.width, found.height].map(millimetres)
}

fn millimetres(length: Length) -> f64 {
    length.millimetres()
}
