//! What would change the odds: each change tried on the same weather as the trip itself. Not here: making the change
//! in the file.

use super::SEED;
use super::lower::TripInputs;
use super::run::{Outcome, Runs, chance};
use crate::result::trip::{Help, HelpKind, NoOutlook, RunsOut};
use wainwright_engines::trip::Happening;
use wainwright_units::{Angle, Mass, Ratio};

/// Tilt that is tried (judgement): as steep as a stand on a roof usually goes \[°\].
const TILT: f64 = 30.0;
/// Below this tilt a module counts as flat \[°\].
const FLAT_BELOW: f64 = 5.0;
/// Largest uses of which half is tried.
const USES_TRIED: usize = 3;
/// Normal deviate of a 95 % interval.
const Z95: f64 = 1.959_964;

/// Changes by how much they lower the odds, the best first.
pub(super) fn helps(inputs: &TripInputs, runs: usize) -> Result<Vec<Help>, NoOutlook> {
    let before = Runs::of(inputs, inputs.month(), runs, SEED)?.ran_out()?;
    let mut helps = Vec::new();
    for (what, changed, mass) in changes(inputs) {
        let of = match what {
            HelpKind::MoreWater(_) | HelpKind::TapDay(_) => RunsOut::Water,
            HelpKind::MoreWaste(_) => RunsOut::Waste,
            _ => RunsOut::Energy,
        };
        let own = |one: &Outcome| match of {
            RunsOut::Water => one.water,
            RunsOut::Waste => one.waste,
            RunsOut::Energy | RunsOut::Fuel => one.energy,
        };
        let after = Runs::of(&changed, inputs.month(), runs, SEED)?.ran_out()?;
        let (before, after): (Vec<bool>, Vec<bool>) = (
            before.iter().map(own).collect(),
            after.iter().map(own).collect(),
        );
        let (gain, margin) = paired(&before, &after);
        let out = after.iter().filter(|out| **out).count();
        helps.push(Help {
            what,
            of,
            chance: chance(out, after.len()),
            gain,
            margin,
            mass,
        });
    }
    helps.sort_by(|a, b| b.gain.fraction().total_cmp(&a.gain.fraction()));
    Ok(helps)
}

/// Mean of the differences of pairs, and half its 95 % interval.
fn paired(before: &[bool], after: &[bool]) -> (Ratio, Ratio) {
    let count = before.len().max(1) as f64;
    let gain = |(before, after): (&bool, &bool)| {
        f64::from(u8::from(*before)) - f64::from(u8::from(*after))
    };
    let all: Vec<f64> = before.iter().zip(after).map(gain).collect();
    let mean = all.iter().sum::<f64>() / count;
    let spread = all.iter().map(|one| (one - mean).powi(2)).sum::<f64>() / (count - 1.0).max(1.0);
    (
        Ratio::from_fraction(mean),
        Ratio::from_fraction(Z95 * (spread / count).sqrt()),
    )
}

/// Every change that makes sense for this trip.
fn changes(inputs: &TripInputs) -> Vec<(HelpKind, TripInputs, Option<Mass>)> {
    let mut all = Vec::new();
    let mut add = |what, mass, change: &dyn Fn(&mut TripInputs)| {
        let mut changed = inputs.clone();
        change(&mut changed);
        all.push((what, changed, mass));
    };
    if let Some((at, field, module)) = largest(inputs) {
        add(HelpKind::OneMoreModule(module), field.unit.1, &|changed| {
            let field = &mut changed.fields[at];
            *field = field.with_power(field.rated + field.unit.0);
        });
    }
    let flat = |tilt: Angle| tilt.degrees() < FLAT_BELOW;
    if inputs.fields.iter().any(|field| flat(field.tilt)) {
        add(HelpKind::Tilt(TILT), None, &|changed| {
            for field in changed.fields.iter_mut().filter(|field| flat(field.tilt)) {
                field.panels.orientation.tilt = Angle::from_degrees(TILT);
            }
        });
    }
    if let Some(battery) = inputs.bank.items.first() {
        add(
            HelpKind::OneMoreBattery(battery.clone()),
            inputs.bank.unit.1,
            &|changed| {
                changed.bank = changed.bank.with_batteries(changed.bank.count() + 1.0);
            },
        );
    }
    for stands_by in inputs.uses.iter().filter(|one| one.stands_by) {
        let Some(inverter) = stands_by.inverter.clone() else {
            continue;
        };
        add(HelpKind::InverterOff(inverter.clone()), None, &|changed| {
            switch_off(changed, &inverter)
        });
    }
    let mut uses: Vec<usize> = (0..inputs.uses.len())
        .filter(|at| inputs.uses[*at].used.is_some())
        .collect();
    uses.sort_by(|a, b| day_energy(inputs, *b).total_cmp(&day_energy(inputs, *a)));
    for at in uses.into_iter().take(USES_TRIED) {
        let Some(used) = inputs.uses[at].used.clone() else {
            continue;
        };
        add(HelpKind::HalfOf(used), None, &|changed| {
            for share in &mut changed.uses[at].load.day {
                *share = *share * 0.5;
            }
        });
    }
    let middle = inputs.hours.nights / 2 + 1;
    if inputs.sources.shore.is_some() {
        add(HelpKind::ShoreDay(middle), None, &|changed| {
            on_day(changed, middle, |happening| happening.shore = true);
        });
    }
    if inputs.sources.alternator.is_some()
        && inputs
            .hours
            .happenings
            .iter()
            .any(|happening| happening.driving)
    {
        add(HelpKind::DriveLonger, None, &drive_longer);
    }
    let water = inputs.water.water;
    if water.fresh_tank > wainwright_units::Volume::ZERO {
        add(
            HelpKind::MoreWater(water.fresh_tank * 1.5),
            None,
            &|changed| {
                changed.water.water.fresh_tank = water.fresh_tank * 1.5;
                changed.water.fresh = changed.water.fresh * 1.5;
            },
        );
        add(HelpKind::TapDay(middle), None, &|changed| {
            let noon = (24 * middle).saturating_sub(12 + changed.hours.first_hour) as usize;
            if let Some(hour) = changed.hours.happenings.get_mut(noon) {
                hour.tap = true;
            }
        });
    }
    if water.waste_tank > wainwright_units::Volume::ZERO {
        add(
            HelpKind::MoreWaste(water.waste_tank * 1.5),
            None,
            &|changed| {
                changed.water.water.waste_tank = water.waste_tank * 1.5;
            },
        );
    }
    all
}

/// The field with the most power, and a module of it.
fn largest(
    inputs: &TripInputs,
) -> Option<(usize, &super::solar::FieldInputs, wainwright_model::Id)> {
    let fields = inputs.fields.iter().enumerate();
    let (at, field) = fields.max_by(|a, b| a.1.rated.watts().total_cmp(&b.1.rated.watts()))?;
    Some((at, field, field.modules.first()?.clone()))
}

/// Energy that a use takes on a day of mild weather \[Wh\].
fn day_energy(inputs: &TripInputs, at: usize) -> f64 {
    let load = &inputs.uses[at].load;
    let air = inputs.air(inputs.month());
    (0..24).map(|hour| load.power(hour, air).watts()).sum()
}

/// The inverter stands by only in hours in which mains gear is used.
fn switch_off(changed: &mut TripInputs, inverter: &wainwright_model::Id) {
    let mut needed = [Ratio::ZERO; 24];
    let on_it =
        |one: &&super::uses::UseInputs| !one.stands_by && one.inverter.as_ref() == Some(inverter);
    for one in changed.uses.iter().filter(on_it) {
        for (needed, used) in needed.iter_mut().zip(one.load.day) {
            *needed = needed.max(used.min(Ratio::ONE));
        }
    }
    for one in changed
        .uses
        .iter_mut()
        .filter(|one| one.stands_by && one.inverter.as_ref() == Some(inverter))
    {
        one.load.day = needed;
    }
}

/// Changes the hours of a day from noon to the next noon.
fn on_day(changed: &mut TripInputs, day: u32, change: impl Fn(&mut Happening)) {
    let hours = changed.hours.first_hour;
    let from = (24 * (day - 1) + 12).saturating_sub(hours) as usize;
    for happening in changed.hours.happenings.iter_mut().skip(from).take(24) {
        change(happening);
    }
}

/// Every drive lasts an hour longer.
fn drive_longer(changed: &mut TripInputs) {
    let mut before = false;
    for happening in &mut changed.hours.happenings {
        let driving = happening.driving;
        happening.driving |= before;
        before = driving;
    }
}
