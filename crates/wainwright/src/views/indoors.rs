//! The box as a room, as plain data with words: sides, cold night, sunny day, damp, air, warnings. Shared by pages and
//! the command line. Not here: the study, layout of any kind.

pub mod damp;
pub mod words;

use super::system::{AssumptionView, MissingView, assumed};
use damp::{AirView, DampView};
use serde::Serialize;
use wainwright_analysis::result::indoors::{
    ColdNight, IndoorsResult, PaneHeat, RibsFound, SideHeat, SideLayer, SunnyDay,
};
use wainwright_model::Project;
use wainwright_units::{Quantity, System};

/// Version of [`IndoorsView`].
pub const INDOORS_VERSION: u32 = 1;

/// The box as a room.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct IndoorsView {
    /// [`INDOORS_VERSION`].
    pub indoors: u32,
    /// Whether the person has begun this job.
    pub begun: bool,
    /// Heat that leaves with each kelvin [W/K].
    pub watts_per_kelvin: f64,
    /// Sides of the box.
    pub sides: Vec<SideView>,
    /// Openings in them.
    pub panes: Vec<PaneView>,
    /// The coldest night.
    pub night: Option<NightView>,
    /// A clear summer day.
    pub day: Option<DayView>,
    /// Water and mould; null without a climate.
    pub damp: Option<DampView>,
    /// Air through a night.
    pub air: Option<AirView>,
    /// Words of warning, as sentences.
    pub cautions: Vec<CautionView>,
    /// Values that stand in.
    pub assumptions: Vec<AssumptionView>,
    /// Values without which something is left out.
    pub missing: Vec<MissingView>,
    /// What could not be worked out.
    pub refused: Vec<String>,
}

/// A side of the box.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct SideView {
    /// Which, in words.
    pub side: &'static str,
    /// Whether any layer is described.
    pub described: bool,
    /// Lining, openings left out [m²].
    pub square_metres: f64,
    /// The same in words.
    pub area: String,
    /// Heat it lets through, ribs counted [W/(m²K)].
    pub u: f64,
    /// The same in words.
    pub lets_through: String,
    /// The same between the ribs, in words.
    pub between: String,
    /// What bridges it, as a sentence.
    pub ribs: Option<String>,
    /// Layers, outside first.
    pub layers: Vec<LayerView>,
}

/// One layer.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct LayerView {
    /// Its id; null for an air gap that follows.
    pub id: Option<String>,
    /// What it is called.
    pub label: String,
    /// What it is made of.
    pub material: Option<String>,
    /// Whether nobody said so.
    pub material_assumed: bool,
    /// How thick, in words.
    pub thickness: String,
    /// Resistance [m²K/W].
    pub resistance: f64,
    /// How much vapour it holds back, in words.
    pub vapour: String,
    /// Temperature of its outer and inner face on the coldest night [°C].
    pub celsius: Option<(f64, f64)>,
}

/// An opening.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PaneView {
    /// Its id.
    pub id: String,
    /// What it is called.
    pub label: String,
    /// Its side, in words.
    pub side: &'static str,
    /// Its area, in words.
    pub area: String,
    /// What it is closed with, in words.
    pub pane: &'static str,
    /// Whether nobody said so.
    pub pane_assumed: bool,
    /// Heat it lets through, in words.
    pub lets_through: String,
}

/// The coldest night.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct NightView {
    /// What it is reckoned with, as a sentence.
    pub with: String,
    /// Heat that leaves [W].
    pub watts: f64,
    /// By each way, largest first: words, watts, share.
    pub leaving: Vec<(String, f64, f64)>,
    /// Heat of all heaters aboard [W].
    pub heater_watts: f64,
    /// Heater that is advised [W].
    pub advised_watts: (f64, f64),
    /// Whether the heaters hold it.
    pub holds: Option<bool>,
    /// Verdict, as sentences.
    pub verdict: Vec<String>,
}

/// A clear summer day.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct DayView {
    /// What it is reckoned with, as a sentence.
    pub with: String,
    /// What a cooler must take out in the worst hour [W].
    pub watts: f64,
    /// By each way, largest first: words, watts, air temperature that would do the same [°C].
    pub coming: Vec<(String, f64, Option<f64>)>,
    /// Hour and watts through the day.
    pub hours: Vec<(f64, f64)>,
    /// Verdict, as a sentence.
    pub verdict: String,
}

/// A word of warning.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct CautionView {
    /// The sentence.
    pub text: &'static str,
    /// The items it is about, by what they are called.
    pub items: Vec<String>,
}

impl IndoorsView {
    /// The same as plain data with words.
    pub fn of(project: &Project, found: &IndoorsResult) -> Self {
        let units = units(project);
        let caution = |one: &wainwright_analysis::result::indoors::Caution| CautionView {
            text: words::caution(one.kind),
            items: one
                .items
                .iter()
                .map(|id| project.label_or_id("item", id.as_str()).to_owned())
                .collect(),
        };
        let people = found.room.people.value;
        Self {
            indoors: INDOORS_VERSION,
            begun: found.begun,
            watts_per_kelvin: found.lost_per_kelvin.value,
            sides: found
                .sides
                .iter()
                .map(|side| self::side(side, units))
                .collect(),
            panes: found
                .panes
                .iter()
                .map(|one| pane(one, project, units))
                .collect(),
            night: found.night.as_ref().map(|one| night(one, project, units)),
            day: found.day.as_ref().map(|one| day(one, project, units)),
            damp: damp::damp(found, project, units),
            air: found.air.as_ref().map(|air| damp::air(air, people, units)),
            cautions: found.cautions.iter().map(caution).collect(),
            assumptions: assumed(&found.assumptions),
            missing: found
                .missing
                .iter()
                .map(|one| MissingView {
                    path: one.path.join("."),
                    wanted: one.wanted,
                })
                .collect(),
            refused: found.refused.clone(),
        }
    }
}

/// Units of a project.
pub(super) fn units(project: &Project) -> System {
    let given = project.head.units.as_ref();
    given.map_or_else(System::default, |units| units.value.into())
}

fn side(found: &SideHeat, units: System) -> SideView {
    SideView {
        side: words::side(found.side),
        described: found.described,
        square_metres: found.area.square_metres(),
        area: words::wide(found.area, units),
        u: found.u.value,
        lets_through: words::lets_through(found.u.value, units),
        between: words::lets_through(found.u_clear, units),
        ribs: found.ribs.as_ref().map(|one| ribs(one, found, units)),
        layers: found.layers.iter().map(|one| layer(one, units)).collect(),
    }
}

fn ribs(ribs: &RibsFound, side: &SideHeat, units: System) -> String {
    let what = if ribs.metal { "Metal ribs" } else { "Battens" };
    let through = side.u_ribs.map_or_else(String::new, |u| {
        format!(", {} there", words::lets_through(u, units))
    });
    format!(
        "{what} {} wide every {}: {:.0} % of the side{through}.",
        ribs.width.value.show(units),
        ribs.spacing.value.show(units),
        ribs.share.percent()
    )
}

fn layer(layer: &SideLayer, units: System) -> LayerView {
    let material = layer.material.as_ref();
    LayerView {
        id: layer.layer.as_ref().map(ToString::to_string),
        label: layer.label.clone(),
        material: material.map(|known| known.value.clone()),
        material_assumed: material.is_some_and(|known| known.is_assumed()),
        thickness: layer.thickness.value.show(units),
        resistance: layer.resistance,
        vapour: words::holds_vapour(layer.vapour_metres, units),
        celsius: layer.faces.map(|(a, b)| (a.celsius(), b.celsius())),
    }
}

fn pane(found: &PaneHeat, project: &Project, units: System) -> PaneView {
    let id = found.opening.as_str();
    PaneView {
        id: id.to_owned(),
        label: project.label_or_id("opening", id).to_owned(),
        side: words::side(found.side),
        area: words::wide(found.area, units),
        pane: words::pane(found.kind.value),
        pane_assumed: found.kind.is_assumed(),
        lets_through: words::lets_through(found.u.value, units),
    }
}

fn night(found: &ColdNight, project: &Project, units: System) -> NightView {
    let leaving = found.leaving.iter().map(|one| {
        let words = words::leaving(&one.by, project);
        (words, one.heat.watts(), one.share.fraction())
    });
    let mut verdict = Vec::new();
    let (low, high) = found.advised;
    let advised = format!("{} to {}", low.show(units), high.show(units));
    let has = !found.heaters.is_empty();
    if !has {
        verdict.push(format!("No heater is aboard; {advised} are advised."));
    } else if found.there < found.total {
        verdict.push(format!(
            "The heaters give {}: not enough. {advised} are advised.",
            found.there.show(units)
        ));
    } else if found.there < low {
        verdict.push(format!(
            "The heaters give {}: enough to hold it, little to warm it up; {advised} are advised.",
            found.there.show(units)
        ));
    } else {
        verdict.push(format!(
            "The heaters give {}: enough.",
            found.there.show(units)
        ));
    }
    if let Some(warm) = found.warm_up {
        verdict.push(match warm.time {
            Some(time) => format!(
                "From as cold as outside it takes about {:.0} min to warm up air and lining; what stands in the room takes longer.",
                time.minutes()
            ),
            None => "They never warm it up from as cold as outside.".to_owned(),
        });
    }
    verdict.push(format!(
        "People give {} back, not counted.",
        found.people.show(units)
    ));
    NightView {
        with: format!(
            "{} outside, {} inside, {} changes of air an hour.",
            found.outside.value.show(units),
            found.inside.value.show(units),
            found.air_changes.value
        ),
        watts: found.total.watts(),
        leaving: leaving.collect(),
        heater_watts: found.there.watts(),
        advised_watts: (low.watts(), high.watts()),
        holds: has.then_some(found.there >= found.total),
        verdict,
    }
}

fn day(found: &SunnyDay, project: &Project, units: System) -> DayView {
    let mut coming: Vec<(String, f64, Option<f64>)> = Vec::new();
    for side in &found.sides {
        let words = words::side(side.side).to_owned();
        coming.push((words, side.heat.watts(), Some(side.sol_air.celsius())));
    }
    for pane in &found.panes {
        let label = project.label_or_id("opening", pane.opening.as_str());
        let watts = (pane.conducted + pane.sun).watts();
        coming.push((label.to_owned(), watts, None));
    }
    coming.push(("Air".to_owned(), found.air.watts(), None));
    coming.push((
        "People".to_owned(),
        (found.people + found.latent).watts(),
        None,
    ));
    coming.sort_by(|a, b| b.1.total_cmp(&a.1));
    DayView {
        with: format!(
            "A clear day in {}, parked the worst way round, at {:.0} o'clock standard time: {} outside, {} wanted inside.",
            super::energy::words::month(found.month),
            found.hour,
            found.outside.value.show(units),
            found.inside.value.show(units),
        ),
        watts: found.total.watts(),
        coming,
        hours: found
            .hours
            .iter()
            .map(|(hour, power)| (*hour, power.watts()))
            .collect(),
        verdict: format!(
            "A cooler of {} holds it, {} of that for the water of people's breath.",
            found.total.show(units),
            found.latent.show(units)
        ),
    }
}
