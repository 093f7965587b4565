//! Modules on their controllers as fields of panels. Not here: the light on them.

use super::bank::BankInputs;
use super::climate::ClimateFound;
use super::sources::lost_in_wire;
use crate::circuit::Notes;
use crate::known::Assumption;
use crate::result::Assessment;
use std::collections::{BTreeMap, BTreeSet};
use wainwright_engines::solar_power::{
    Controller, Losses, Module, Mounting, Shade, ShadeBlocks, series_share,
};
use wainwright_engines::sun::{Glass, Orientation};
use wainwright_engines::trip::{MOST_FIELDS, Panels, Solar};
use wainwright_model::{
    FieldExt, Id, Kind, Mounting as Mounted, Project, SolarController, SolarModule, Spec, Tracking,
    Trip,
};
use wainwright_reference::{device_class, solar};
use wainwright_units::{Angle, Current, Mass, Power, Ratio, Voltage};

/// Rated power of a module when nobody said (judgement): a small one.
const SMALL: Power = Power::from_watts(100.0);
/// Best voltage of a module for a switching controller when nothing of it is known (judgement): 36 cells.
const USUAL_BEST: Voltage = Voltage::from_volts(18.0);
/// Strings of cells in a module when nobody said (common practice, no source).
const STRINGS: u32 = 3;
/// From this tilt on rain rinses a module (judgement, as in the table of dirt) [°].
const RINSED_FROM: f64 = 10.0;

/// Modules that lie alike on one controller.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct FieldInputs {
    pub(super) controller: Option<Id>,
    pub(super) modules: Vec<Id>,
    pub(super) rated: Power,
    /// One module of it: rated power, mass.
    pub(super) unit: (Power, Option<Mass>),
    pub(super) tilt: Angle,
    /// Current of all its modules when shorted, in full light.
    pub(super) short: Current,
    pub(super) shade: Ratio,
    pub(super) panels: Panels,
    pub(super) solar: Solar,
}

pub(super) fn fields(
    project: &Project,
    assessment: &Assessment,
    trip: &Trip,
    climate: &ClimateFound,
    bank: &BankInputs,
    notes: &mut Notes,
) -> Vec<FieldInputs> {
    let towards_noon = Angle::from_degrees(if climate.place.latitude.degrees() < 0.0 {
        0.0
    } else {
        180.0
    });
    let mut groups: BTreeMap<(usize, i64, i64, u8), FieldInputs> = BTreeMap::new();
    let controllers: Vec<(&Id, &SolarController)> = project
        .items
        .iter()
        .filter_map(|(id, item)| match &item.spec {
            Spec::SolarController(spec) => Some((id, spec)),
            _ => None,
        })
        .collect();
    let ways = Ways::new(project);
    for (id, item) in project.items.iter() {
        let Spec::SolarModule(spec) = &item.spec else {
            continue;
        };
        // A module without a controller charges nothing.
        let Some(at) = ways.controller_of(id, &controllers) else {
            continue;
        };
        let Some((controller, settings)) = controllers.get(at).copied() else {
            continue;
        };
        let one = field(id, spec, notes, towards_noon, trip);
        let azimuth = one.panels.orientation.azimuth.degrees().round() as i64;
        let key = (
            at,
            one.tilt.degrees().round() as i64,
            azimuth,
            one.panels.mounting.still.round() as u8,
        );
        let (unit, shade) = ((one.rated, item.body.mass.value().copied()), one.shade);
        match groups.get_mut(&key) {
            Some(group) => {
                let whole = group.rated + one.rated;
                let part = one.rated / whole;
                group.shade = Ratio::from_fraction(
                    group.shade.fraction() * (1.0 - part) + shade.fraction() * part,
                );
                group.rated = whole;
                group.short += one.short;
                group.modules.push(id.clone());
            }
            None => {
                let own = controlled(controller, settings, assessment, bank, notes);
                let left = Ratio::from_fraction(own.left.fraction() * one.solar.left.fraction());
                let solar = Solar { left, ..own };
                groups.insert(
                    key,
                    FieldInputs {
                        controller: Some(controller.clone()),
                        unit,
                        solar,
                        ..one
                    },
                );
            }
        }
    }
    share_controllers(groups.into_values().take(MOST_FIELDS).collect())
}

/// Fields on the same controller share its current by their power; ratings and shade go into the panels.
fn share_controllers(mut fields: Vec<FieldInputs>) -> Vec<FieldInputs> {
    let whole = |fields: &[FieldInputs], of: &Option<Id>| -> Power {
        fields
            .iter()
            .filter(|field| field.controller == *of)
            .map(|field| field.rated)
            .sum()
    };
    let wholes: Vec<Power> = fields
        .iter()
        .map(|field| whole(&fields, &field.controller))
        .collect();
    for (field, whole) in fields.iter_mut().zip(wholes) {
        field.settle(field.rated / whole);
    }
    fields
}

impl FieldInputs {
    /// Panels of the rating and shade of the field, and its part of the controller's current.
    fn settle(&mut self, part: f64) {
        self.panels.module.rated = self.rated;
        self.panels.partial = ShadeBlocks::even(self.shade);
        match &mut self.solar.controller {
            Controller::Tracking { most, own, .. } => {
                *most = *most * part;
                *own = *own * part;
            }
            Controller::Switching {
                most,
                short_circuit,
            } => {
                *most = *most * part;
                *short_circuit = self.short;
            }
        }
    }

    /// The same with as many modules as give this power.
    pub(super) fn with_power(&self, rated: Power) -> Self {
        let mut more = self.clone();
        let times = rated / self.rated;
        more.rated = rated;
        more.panels.module.rated = rated;
        if let Controller::Switching { short_circuit, .. } = &mut more.solar.controller {
            *short_circuit = *short_circuit * times;
        }
        more
    }
}

fn field(id: &Id, spec: &SolarModule, notes: &mut Notes, noon: Angle, trip: &Trip) -> FieldInputs {
    let name = id.as_str();
    let rated = notes
        .given_or(
            &spec.power,
            &["item", name, "power"],
            SMALL,
            Assumption::UsualForKind,
        )
        .value;
    let tilt = spec.tilt.value().copied().unwrap_or(Angle::ZERO);
    let azimuth = spec.azimuth.value().copied().unwrap_or(noon);
    let mounted = match spec.mounting.value() {
        Some(Mounted::Free) => solar::Mounted::Free,
        Some(Mounted::Glued) => solar::Mounted::Glued,
        Some(Mounted::Raised) => solar::Mounted::Raised,
        None => {
            notes.assume_text(
                &["item", name, "mounting"],
                Mounted::Raised.as_str().into(),
                &super::run::usual(),
            );
            solar::Mounted::Raised
        }
    };
    let cooling = solar::cooling(mounted);
    let per_kelvin = spec.power_per_degree.value().map(|loss| loss.fraction());
    let per_kelvin = per_kelvin
        .or(solar::power_per_degree().map(|row| row.value))
        .unwrap_or(0.0);
    FieldInputs {
        controller: None,
        modules: vec![id.clone()],
        rated,
        unit: (rated, None),
        tilt,
        short: spec
            .short_current
            .value()
            .copied()
            .unwrap_or(rated / USUAL_BEST),
        shade: shade(spec, rated),
        panels: Panels {
            orientation: Orientation { tilt, azimuth },
            module: Module {
                rated,
                per_kelvin: -per_kelvin,
                dim_loss: solar::dim_loss().map_or(0.0, |row| row.value),
            },
            mounting: Mounting {
                still: cooling.map_or(25.0, |row| row.still.value),
                by_wind: cooling.map_or(0.0, |row| row.by_wind.value),
            },
            glass: Glass::MartinRuiz {
                coefficient: solar::glass().map_or(0.16, |row| row.value),
            },
            ground: solar::ground().map_or(Ratio::ZERO, |row| row.value),
            shade: light(trip),
            partial: ShadeBlocks::even(Ratio::ONE),
        },
        solar: Solar {
            controller: Controller::Tracking {
                efficiency: Ratio::ONE,
                own: Power::ZERO,
                most: Current::ZERO,
            },
            left: lasting(spec, tilt),
            absorption: Voltage::from_volts(f64::INFINITY),
            starts_alone: true,
        },
    }
}

/// Share left after dirt and mismatch.
fn lasting(spec: &SolarModule, tilt: Angle) -> Ratio {
    let usual = solar::dirt(tilt.degrees() >= RINSED_FROM).map_or(Ratio::ZERO, |row| row.value);
    Losses {
        soiling: spec.dirt.value().copied().unwrap_or(usual),
        mismatch: solar::mismatch().map_or(Ratio::ZERO, |row| row.value),
        ..Losses::NONE
    }
    .left()
}

/// Share of its power that a module gives with the lasting shade on it.
fn shade(spec: &SolarModule, rated: Power) -> Ratio {
    let shaded = spec.shaded_strings.value().copied().unwrap_or(0);
    let substrings = spec.strings.value().copied().unwrap_or(STRINGS).max(shaded);
    let volts = spec.best_voltage.value().copied();
    let current = spec.best_current.value().copied();
    series_share(Shade {
        substrings,
        shaded,
        darkest: spec.shade_left.value().copied().unwrap_or(Ratio::ZERO),
        best_current: current
            .or(volts.map(|volts| rated / volts))
            .unwrap_or(Current::ZERO),
        best_power: rated,
    })
}

/// Light that trees and hills leave, as typed for the trip.
fn light(trip: &Trip) -> ShadeBlocks {
    let blocks = trip
        .light
        .value()
        .and_then(|all| <[Ratio; 12]>::try_from(all.as_slice()).ok());
    blocks.map_or_else(|| ShadeBlocks::even(Ratio::ONE), ShadeBlocks)
}

fn controlled(
    id: &Id,
    spec: &SolarController,
    assessment: &Assessment,
    bank: &BankInputs,
    notes: &mut Notes,
) -> Solar {
    let name = id.as_str();
    let most = spec
        .output_current
        .value()
        .copied()
        .unwrap_or(Current::from_amperes(f64::INFINITY));
    let word = notes.word_or(
        &spec.tracking,
        &["item", name, "tracking"],
        |t| t.as_str(),
        Tracking::Mppt.as_str(),
    );
    let class = device_class::tracking_controller();
    let class = class.as_ref();
    let controller = if word == Tracking::Pwm.as_str() {
        Controller::Switching {
            short_circuit: Current::ZERO,
            most,
        }
    } else {
        let usual = class.map_or(Ratio::ONE, |class| class.efficiency.value.usual);
        Controller::Tracking {
            efficiency: notes
                .given_or(
                    &spec.efficiency,
                    &["item", name, "efficiency"],
                    usual,
                    Assumption::UsualForKind,
                )
                .value,
            own: spec
                .own_power
                .value()
                .copied()
                .or(class.map(|class| class.own_draw.value.usual))
                .unwrap_or(Power::ZERO),
            most,
        }
    };
    Solar {
        controller,
        left: Ratio::ONE - lost_in_wire(assessment, name),
        absorption: spec.charge_voltage.value().copied().unwrap_or(bank.full_at),
        starts_alone: !spec.needs_battery.value().copied().unwrap_or(false),
    }
}

/// Which items conductors lead to, fuses, bars and switches passed through.
struct Ways<'a> {
    project: &'a Project,
    joined: BTreeMap<(&'a str, &'a str), Vec<(&'a str, &'a str)>>,
}

impl<'a> Ways<'a> {
    fn new(project: &'a Project) -> Self {
        let mut joined: BTreeMap<_, Vec<_>> = BTreeMap::new();
        for (_, wire) in project.wires.iter() {
            let (Some(from), Some(to)) = (wire.from.value(), wire.to.value()) else {
                continue;
            };
            let from = (from.item.as_str(), from.terminal.as_str());
            let to = (to.item.as_str(), to.terminal.as_str());
            joined.entry(from).or_default().push(to);
            joined.entry(to).or_default().push(from);
        }
        Self { project, joined }
    }

    /// The controller whose module side a module leads to; the only one there is for a module nothing leads from.
    fn controller_of(&self, module: &Id, controllers: &[(&Id, &SolarController)]) -> Option<usize> {
        let mut open = vec![(module.as_str(), "+")];
        let mut seen: BTreeSet<(&str, &str)> = open.iter().copied().collect();
        while let Some(place) = open.pop() {
            for &(item, terminal) in self.joined.get(&place).into_iter().flatten() {
                let at = controllers.iter().position(|(id, _)| id.as_str() == item);
                if at.is_some() && terminal.starts_with("pv") {
                    return at;
                }
                for next in self.through(item, terminal) {
                    if seen.insert(next) {
                        open.push(next);
                    }
                }
            }
        }
        (controllers.len() == 1).then_some(0)
    }

    /// Terminals that are reached inside an item from one of its terminals.
    fn through(&self, item: &'a str, terminal: &'a str) -> Vec<(&'a str, &'a str)> {
        let kind = self
            .project
            .items
            .get(item)
            .map_or(Kind::Unknown, |item| item.spec.kind());
        match kind {
            Kind::Splice | Kind::BusBar | Kind::Fuse | Kind::Breaker | Kind::Switch => {
                let all = self.joined.keys().filter(|(of, _)| *of == item);
                all.copied().collect()
            }
            // The minus of the next module in series leads on through that module.
            Kind::SolarModule if terminal == "-" => vec![(item, "+")],
            _ => Vec::new(),
        }
    }
}
