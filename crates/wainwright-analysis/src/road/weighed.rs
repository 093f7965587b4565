//! Weighings: what the scales say, and the bare trailer that follows from all of them together. Not here: whether the
//! figures in the text should be changed (the page offers it).

use super::loads::{Aboard, at_level};
use super::notes::RoadNotes;
use crate::result::road::{RoadWanted, ShellFound, ShellWeighed, WeighedLoads, WeighingResult};
use wainwright_engines::balance::Load;
use wainwright_engines::weigh_in::{
    AxleReadings, Beam, Measured, Passes, Shell, Weighing as Equation, beam, public_scale, shell,
    tongue_from_jack,
};
use wainwright_model::{Field, FieldExt, Id, Kind, Project, WeighedBy, Weighing};
use wainwright_units::{Length, Mass, Ratio};

/// What a public scale may be off by, either way, when nobody says: it shows steps of 20 lb.
const PUBLIC_SCALE_POUNDS: f64 = 10.0;
/// The same of any other scale: one part in a hundred of the reading (judgement).
const SCALE_SHARE: f64 = 0.01;
/// Least that any scale may be off by \[kg\] (judgement).
const LEAST_KILOGRAMS: f64 = 0.5;
/// How far a tape measure may be off, either way \[m\] (judgement).
const TAPE_METRES: f64 = 0.003;
/// Sum of squares for each spare reading above which weighings contradict each other (judgement).
const MOST_PER_FREEDOM: f64 = 3.0;
/// Residual in standard uncertainties above which one reading does (judgement).
const MOST_SIGMAS: f64 = 3.0;

/// What was aboard at a weighing.
pub(super) struct AtWeighing {
    pub(super) loads: Vec<Load>,
    pub(super) unknown: Vec<Id>,
}

/// Every weighing with the loads its readings give.
pub(super) fn weighings(
    project: &Project,
    ball_to_axle: Option<Length>,
    aboard: &Aboard,
    notes: &mut RoadNotes,
) -> Vec<WeighingResult> {
    let rows = project.weighings.iter();
    rows.filter_map(|(id, weighing)| {
        let by = *weighing.by.value()?;
        let mut desk = Desk {
            id,
            weighing,
            ball_to_axle,
            notes: &mut *notes,
        };
        Some(WeighingResult {
            loads: desk.loads(by),
            unknown_aboard: at(weighing, aboard).unknown,
            state: None,
            id: id.clone(),
            by,
        })
    })
    .collect()
}

/// What was aboard; everything but people when nothing is said.
pub(super) fn at(weighing: &Weighing, aboard: &Aboard) -> AtWeighing {
    let listed = weighing.aboard.value();
    let is_aboard = |id: &Id, kind: Kind| match listed {
        Some(ids) => ids.iter().any(|other| id.as_str() == other),
        None => kind != Kind::Person,
    };
    let full = |id: &Id| {
        let full = weighing.full.value();
        full.is_some_and(|ids| ids.iter().any(|other| id.as_str() == other))
    };
    let pairs = aboard.loads.iter().zip(&aboard.levels);
    let present = pairs.filter(|(load, _)| is_aboard(&load.item, load.kind) || full(&load.item));
    let loads = present.map(|(load, levels)| {
        // Tanks empty unless they were full; cargo as at the start.
        at_level(
            load,
            levels,
            usize::from(load.kind == Kind::Tank && full(&load.item)),
        )
    });
    let unknown = aboard.unsettled.iter();
    let unknown = unknown.filter(|item| is_aboard(&item.item, item.kind));
    AtWeighing {
        loads: loads.collect(),
        unknown: unknown.map(|item| item.item.clone()).collect(),
    }
}

/// The bare trailer from every weighing whose load is known; `None` with too few kinds of readings.
pub(super) fn shell_found(
    project: &Project,
    results: &[WeighingResult],
    aboard: &Aboard,
    ball_to_axle: Length,
    in_use: Option<&Load>,
) -> Option<ShellFound> {
    let mut ids = Vec::new();
    let mut equations = Vec::new();
    for result in results {
        let weighing = project.weighings.get(result.id.as_str())?;
        let Some(loads) = result.loads.filter(|_| result.unknown_aboard.is_empty()) else {
            continue;
        };
        let axle = loads
            .axle
            .or_else(|| both_sides(project, results, result, weighing));
        if loads.tongue.is_none() && axle.is_none() && loads.whole.is_none() {
            continue;
        }
        let added = at(weighing, aboard).loads;
        equations.push(Equation {
            added: added
                .iter()
                .map(|load| (load.mass, load.centre.x))
                .collect(),
            tongue: loads.tongue,
            axle,
            whole: loads.whole,
        });
        ids.push(result.id.clone());
    }
    let found = shell(ball_to_axle, &equations).ok()?;
    Some(shell_result(&found, &ids, ball_to_axle, in_use))
}

/// Left wheels of this weighing and right wheels of another with the same things aboard are the axle load; counted
/// once, at the left one.
fn both_sides(
    project: &Project,
    results: &[WeighingResult],
    left: &WeighingResult,
    weighing: &Weighing,
) -> Option<Measured<Mass>> {
    let one = left.loads?.left?;
    let same = |other: &&WeighingResult| {
        let row = project.weighings.get(other.id.as_str());
        row.is_some_and(|row| {
            row.aboard.value() == weighing.aboard.value()
                && row.full.value() == weighing.full.value()
        })
    };
    let right = |result: &WeighingResult| result.loads?.right;
    let other = results.iter().filter(same).find_map(right)?;
    let sigma = one.sigma.kilograms().hypot(other.sigma.kilograms());
    Some(Measured {
        value: one.value + other.value,
        sigma: Mass::from_kilograms(sigma),
    })
}

fn shell_result(found: &Shell, ids: &[Id], length: Length, in_use: Option<&Load>) -> ShellFound {
    let metres = length.metres();
    let (moment, moment_sigma) = found.moment_kg_m;
    let mass_sigma = found.mass.sigma.kilograms();
    let (own, lever) = (mass_sigma, moment_sigma / metres);
    let variance = own * own + lever * lever - 2.0 * found.correlation * own * lever;
    let tongue = Measured {
        value: Mass::from_kilograms(found.mass.value.kilograms() - moment / metres),
        sigma: Mass::from_kilograms(variance.max(0.0).sqrt()),
    };
    let contradiction = found.contradiction(MOST_PER_FREEDOM, MOST_SIGMAS);
    let readings = found.residuals.iter().filter_map(|residual| {
        Some(ShellWeighed {
            weighing: ids.get(residual.weighing)?.clone(),
            scale: residual.scale,
            off: residual.off,
            sigmas: residual.sigmas,
        })
    });
    let used_tongue = |load: &Load| load.mass * (1.0 - load.centre.x / length);
    ShellFound {
        readings: readings.collect(),
        worst: contradiction.and_then(|found| ids.get(found.worst.weighing).cloned()),
        mass_change: in_use.map(|load| found.mass.value - load.mass),
        tongue_change: in_use.map(|load| tongue.value - used_tongue(load)),
        mass_change_share: in_use
            .map(|load| Ratio::from_fraction((found.mass.value - load.mass) / load.mass)),
        mass: found.mass,
        centre: found.centre,
        spare_readings: found.degrees_of_freedom,
        chi_squared: found.chi_squared,
        tongue,
        contradiction,
    }
}

struct Desk<'a> {
    id: &'a Id,
    weighing: &'a Weighing,
    ball_to_axle: Option<Length>,
    notes: &'a mut RoadNotes,
}

impl Desk<'_> {
    fn loads(&mut self, by: WeighedBy) -> Option<WeighedLoads> {
        let mut found = WeighedLoads::default();
        match by {
            WeighedBy::Tongue => found.tongue = Some(self.reading()?),
            WeighedBy::Axle => found.axle = Some(self.reading()?),
            WeighedBy::Whole => found.whole = Some(self.reading()?),
            WeighedBy::LeftWheels => found.left = Some(self.reading()?),
            WeighedBy::RightWheels => found.right = Some(self.reading()?),
            WeighedBy::Beam => found.tongue = Some(self.beam()?),
            WeighedBy::Jack => found.tongue = Some(self.jack()?),
            WeighedBy::PublicScale => return self.public_scale(),
        }
        Some(found)
    }

    fn beam(&mut self) -> Option<Measured<Mass>> {
        let own = self.weighing;
        let reading = self.reading()?;
        let support = self.needed("support_to_load", &own.support_to_load)?;
        let scale = self.needed("load_to_scale", &own.load_to_scale)?;
        let found = beam(&Beam {
            support_to_load: taped(support),
            load_to_scale: taped(scale),
            reading,
            bare: own.bare.value().copied().unwrap_or(Mass::ZERO),
        });
        found.ok()
    }

    fn jack(&mut self) -> Option<Measured<Mass>> {
        let own = self.weighing;
        let reading = self.reading()?;
        let behind = self.needed("jack_behind_ball", &own.jack_behind_ball)?;
        tongue_from_jack(reading, taped(behind), taped(self.ball_to_axle?)).ok()
    }

    fn public_scale(&mut self) -> Option<WeighedLoads> {
        let own = self.weighing;
        let coupled = AxleReadings {
            front: self.needed("coupled_front", &own.coupled_front)?,
            rear: self.needed("coupled_rear", &own.coupled_rear)?,
            trailer: self.needed("coupled_trailer", &own.coupled_trailer)?,
        };
        let alone = AxleReadings {
            front: self.needed("alone_front", &own.alone_front)?,
            rear: self.needed("alone_rear", &own.alone_rear)?,
            trailer: Mass::ZERO,
        };
        let either_way = own.accuracy.value().copied();
        let either_way = either_way.unwrap_or(Mass::from_pounds(PUBLIC_SCALE_POUNDS));
        let sigma = evenly_within(either_way);
        let found = public_scale(&Passes {
            coupled,
            alone,
            bars_tight: None,
            sigma,
            coupling_to_axle: None,
        })
        .ok()?;
        let axle = Measured {
            value: coupled.trailer,
            sigma,
        };
        Some(WeighedLoads {
            tongue: Some(found.tongue),
            axle: Some(axle),
            ..WeighedLoads::default()
        })
    }

    /// The reading with its standard uncertainty.
    fn reading(&mut self) -> Option<Measured<Mass>> {
        let own = self.weighing;
        let value = self.needed("reading", &own.reading)?;
        let usual = (value * SCALE_SHARE).max(Mass::from_kilograms(LEAST_KILOGRAMS));
        let either_way = own
            .accuracy
            .value()
            .copied()
            .filter(|off| *off > Mass::ZERO);
        Some(Measured {
            value,
            sigma: evenly_within(either_way.unwrap_or(usual)),
        })
    }

    fn needed<T: Copy>(&mut self, field: &str, given: &Field<T>) -> Option<T> {
        let found = given.value().copied();
        if found.is_none() {
            let wanted = match field {
                "support_to_load" | "load_to_scale" | "jack_behind_ball" => RoadWanted::SetUp,
                _ => RoadWanted::Reading,
            };
            self.notes
                .lack(&["weighing", self.id.as_str(), field], wanted);
        }
        found
    }
}

/// Evenly likely anywhere within so much either way.
fn evenly_within(either_way: Mass) -> Mass {
    let least = Mass::from_kilograms(LEAST_KILOGRAMS / 10.0);
    either_way.max(least) / 3.0_f64.sqrt()
}

fn taped(length: Length) -> Measured<Length> {
    Measured {
        value: length,
        sigma: Length::from_metres(TAPE_METRES / 3.0_f64.sqrt()),
    }
}
