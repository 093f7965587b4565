//! How large battery and modules would have to be: odds of every combination on the same weather. Not here: wiring
//! them.

use super::SEED;
use super::lower::TripInputs;
use super::run::{Runs, chance};
use crate::result::trip::{NoOutlook, SizeChart, SizePoint};
use wainwright_units::{Energy, Mass, Power};

/// Most modules and batteries that are tried beyond those that are there.
const MORE: u32 = 3;
/// Most of each that are tried.
const MOST: u32 = 8;

pub(super) fn sizes(inputs: &TripInputs, runs: usize) -> Result<SizeChart, NoOutlook> {
    let field = inputs
        .fields
        .iter()
        .max_by(|a, b| a.rated.watts().total_cmp(&b.rated.watts()));
    let all: Power = inputs.fields.iter().map(|field| field.rated).sum();
    let unit = field.map_or(Power::ZERO, |field| field.unit.0);
    let there = if unit > Power::ZERO {
        (all / unit).round() as u32
    } else {
        0
    };
    let batteries = (inputs.bank.count().round() as u32).max(1);
    let module_counts = if unit > Power::ZERO {
        0..=(there + MORE).min(MOST.max(there))
    } else {
        0..=0
    };
    let mut points = Vec::new();
    for modules in module_counts {
        for count in 1..=(batteries + MORE).min(MOST.max(batteries)) {
            points.push(point(inputs, runs, (modules, unit), count)?);
        }
    }
    let now = points
        .iter()
        .position(|point| point.modules == there && point.batteries == batteries);
    Ok(SizeChart {
        accepted: inputs.accepted.value,
        month: inputs.month(),
        module: field.and_then(|field| field.modules.first().cloned()),
        module_power: unit,
        battery: inputs.bank.items.first().cloned(),
        best: best(&points, inputs.accepted.value.fraction()),
        points,
        now,
        runs,
    })
}

fn point(
    inputs: &TripInputs,
    runs: usize,
    (modules, unit): (u32, Power),
    batteries: u32,
) -> Result<SizePoint, NoOutlook> {
    let mut tried = inputs.clone();
    let all: Power = inputs.fields.iter().map(|field| field.rated).sum();
    let power = unit * f64::from(modules);
    if modules == 0 {
        tried.fields.clear();
    } else {
        tried.fields = tried
            .fields
            .iter()
            .map(|field| field.with_power(field.rated * (power / all)))
            .collect();
    }
    tried.bank = tried.bank.with_batteries(f64::from(batteries));
    let out = Runs::of(&tried, inputs.month(), runs, SEED)?.energy_out()?;
    let mass = |unit: Option<Mass>, count: u32| {
        if count == 0 {
            Some(Mass::ZERO)
        } else {
            unit.map(|unit| unit * f64::from(count))
        }
    };
    let of_modules = mass(
        inputs.fields.first().and_then(|field| field.unit.1),
        modules,
    );
    let energy: Energy = tried.bank.energy();
    Ok(SizePoint {
        modules,
        batteries,
        power,
        energy,
        chance: chance(out, runs),
        mass: of_modules
            .zip(mass(inputs.bank.unit.1, batteries))
            .map(|(a, b)| a + b),
        price: None,
    })
}

/// Points that hold the odds and that no other such point beats in both numbers.
fn best(points: &[SizePoint], accepted: f64) -> Vec<usize> {
    let holds = |point: &SizePoint| point.chance.share.fraction() <= accepted;
    let beats = |a: &SizePoint, b: &SizePoint| {
        a.modules <= b.modules
            && a.batteries <= b.batteries
            && (a.modules, a.batteries) != (b.modules, b.batteries)
    };
    let held: Vec<usize> = (0..points.len()).filter(|at| holds(&points[*at])).collect();
    let unbeaten = |at: &usize| {
        !held
            .iter()
            .any(|other| beats(&points[*other], &points[*at]))
    };
    held.iter().copied().filter(unbeaten).collect()
}
