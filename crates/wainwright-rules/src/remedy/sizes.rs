//! Thicker wire and other insulation. Not here: what wire costs and which
//! sizes are sold (see `series`).

use super::{edits, series};
use crate::rule::{Change, Remedy};
use crate::view::{names, words};
use wainwright_analysis::result::{Assessment, Run, WireResult};
use wainwright_model::{Edit, Project, Value};
use wainwright_units::{Current, Quantity, WireSize};

/// Thicker wire for all of these conductors: each rung names one size, and
/// every thinner one among them is brought up to it.
pub(crate) fn thicker(assessment: &Assessment, wires: &[usize]) -> Remedy {
    let chosen: Vec<&WireResult> = wires
        .iter()
        .filter_map(|index| assessment.wires.get(*index))
        .collect();
    let Some(thinnest) = chosen.iter().min_by(|a, b| a.metal.total_cmp(&b.metal)) else {
        return Remedy::ladder(Vec::new());
    };
    let rungs = series::larger(thinnest.size.value)
        .into_iter()
        .map(|target| to_size(&chosen, target))
        .collect();
    Remedy::ladder(rungs)
}

/// Thicker wire for these conductors, from the first size that may bear this
/// much: sizes that are far from it are not worth a trial.
pub(crate) fn thicker_for(assessment: &Assessment, wires: &[usize], amps: Current) -> Remedy {
    let chosen: Vec<&WireResult> = wires
        .iter()
        .filter_map(|index| assessment.wires.get(*index))
        .collect();
    let Some(thinnest) = chosen.iter().min_by(|a, b| a.metal.total_cmp(&b.metal)) else {
        return Remedy::ladder(Vec::new());
    };
    let may_bear = |target: &WireSize| {
        chosen.iter().all(|wire| {
            let times = series::area(*target) / series::area(wire.size.value);
            let most = wire.ampacity.in_force.amperes() * times.max(1.0).powf(MOST_POWER);
            most * HOPE >= amps.amperes()
        })
    };
    let rungs = series::larger(thinnest.size.value)
        .into_iter()
        .filter(may_bear)
        .map(|target| to_size(&chosen, target))
        .collect();
    Remedy::ladder(rungs)
}

/// Ampacity grows with no more than this power of the metal, in the tables of
/// 33 CFR 183.425 from 18 AWG to 4/0.
const MOST_POWER: f64 = 0.75;

/// A size is tried when it may bear this many times less than that; what it
/// bears the proof finds out.
const HOPE: f64 = 1.15;

/// Thicker wire for these conductors and for those that share their circuit.
pub(crate) fn thicker_with(assessment: &Assessment, wires: &[usize], more: &[usize]) -> Remedy {
    let mut all = wires.to_vec();
    all.extend(more.iter().filter(|index| !wires.contains(index)));
    all.sort_unstable();
    thicker(assessment, &all)
}

/// Thicker wire where it helps most for its cost: each rung thickens one
/// conductor by one more size, the one that saves most voltage per cost unit
/// in this state. Drop is taken as falling with nominal metal; whether that
/// was enough the proof finds out.
pub(crate) fn graded(assessment: &Assessment, wires: &[usize], state: usize) -> Remedy {
    let chosen: Vec<&WireResult> = wires
        .iter()
        .filter_map(|index| assessment.wires.get(*index))
        .collect();
    let mut sizes: Vec<WireSize> = chosen.iter().map(|wire| wire.size.value).collect();
    let mut rungs = Vec::new();
    while rungs.len() < MOST_STEPS {
        let Some((place, size)) = best_step(&chosen, &sizes, state) else {
            break;
        };
        if let Some(slot) = sizes.get_mut(place) {
            *slot = size;
        }
        rungs.push(resized(&chosen, &sizes));
    }
    Remedy::ladder(rungs)
}

/// Most one-size steps of a graded ladder.
const MOST_STEPS: usize = 40;

/// The conductor and its next size with the most voltage saved per cost unit.
fn best_step(wires: &[&WireResult], sizes: &[WireSize], state: usize) -> Option<(usize, WireSize)> {
    let worth = |wire: &WireResult, now: WireSize| {
        let next = series::larger(now).first().copied()?;
        let metal = |size: WireSize| series::area(size).base();
        let typed = wire.states.get(state)?.drop.volts().abs();
        let drop = typed * metal(wire.size.value) / metal(now);
        let saved = drop * (1.0 - metal(now) / metal(next));
        let laid = if now == wire.size.value {
            0.0
        } else {
            laying(wire, now)
        };
        let cost = (laying(wire, next) - laid).max(1e-3);
        Some((saved / cost, next))
    };
    wires
        .iter()
        .zip(sizes)
        .enumerate()
        .filter_map(|(place, (wire, now))| worth(wire, *now).map(|(w, next)| (place, w, next)))
        .max_by(|a, b| a.1.total_cmp(&b.1).then(b.0.cmp(&a.0)))
        .map(|(place, _, next)| (place, next))
}

fn resized(wires: &[&WireResult], sizes: &[WireSize]) -> Change {
    let changed: Vec<(&WireResult, WireSize)> = wires
        .iter()
        .zip(sizes)
        .filter(|(wire, size)| wire.size.value != **size)
        .map(|(wire, size)| (*wire, *size))
        .collect();
    let mut used: Vec<WireSize> = changed.iter().map(|(_, size)| *size).collect();
    used.sort_by(|a, b| series::area(*a).total_cmp(&series::area(*b)));
    used.dedup();
    let parts: Vec<String> = used
        .iter()
        .map(|size| {
            let alike = changed.iter().filter(|(_, other)| other == size);
            let alike: Vec<&WireResult> = alike.map(|(wire, _)| *wire).collect();
            format!("{size} for {}", of(&alike))
        })
        .collect();
    let edits = changed
        .iter()
        .flat_map(|(wire, size)| resize(wire, *size))
        .collect();
    let cost = changed.iter().map(|(wire, size)| laying(wire, *size)).sum();
    Change {
        title: format!("Use {}", words::list(&parts, 6)),
        edits,
        cost,
    }
}

/// Another insulation for these conductors.
pub(crate) fn insulation(assessment: &Assessment, wires: &[usize], class: &str) -> Remedy {
    let chosen: Vec<&WireResult> = wires
        .iter()
        .filter_map(|index| assessment.wires.get(*index))
        .collect();
    let edits = chosen
        .iter()
        .map(|wire| edits::set_text(&["wire", wire.id.as_str(), "insulation"], class))
        .collect();
    let cost = chosen
        .iter()
        .map(|wire| laying(wire, wire.size.value))
        .sum();
    let name =
        wainwright_reference::insulation::insulation(class).map_or(class, |known| known.name);
    let title = format!("Use {name} for {}", of(&chosen));
    Remedy::one(title, edits, cost)
}

/// Another way of running these conductors, for example `conduit`.
pub(crate) fn run(
    assessment: &Assessment,
    wires: &[usize],
    runs: &str,
    verb: &str,
    place: &str,
) -> Remedy {
    let chosen: Vec<&WireResult> = wires
        .iter()
        .filter_map(|index| assessment.wires.get(*index))
        .collect();
    let edits = chosen
        .iter()
        .map(|wire| edits::set_text(&["wire", wire.id.as_str(), "runs"], runs))
        .collect();
    let cost =
        chosen.iter().map(|w| w.length.value.metres()).sum::<f64>() * series::work_per_metre();
    let title = format!("{verb} {} {place}", of(&chosen));
    Remedy::one(title, edits, 1.0 + cost)
}

/// Runs those of these conductors that lie among others apart from them. The
/// number typed goes before the one that follows from the route.
pub(crate) fn apart(assessment: &Assessment, wires: &[usize]) -> Remedy {
    let chosen: Vec<&WireResult> = wires
        .iter()
        .filter_map(|index| assessment.wires.get(*index))
        .filter(|wire| wire.bundle.value > 1 || wire.run.value == Run::Bundle)
        .collect();
    if chosen.is_empty() {
        return Remedy::ladder(Vec::new());
    }
    let lay = |wire: &&WireResult| {
        let id = wire.id.as_str();
        let alone = edits::set(&["wire", id, "bundle"], Value::Integer(1));
        let bundled = wire.run.value == Run::Bundle;
        let open = bundled.then(|| edits::set_text(&["wire", id, "runs"], "open"));
        std::iter::once(alone).chain(open)
    };
    let edits = chosen.iter().flat_map(lay).collect();
    let metres: f64 = chosen.iter().map(|wire| wire.length.value.metres()).sum();
    let title = format!(
        "Run {} apart from the others, with air around",
        crate::view::names::together(&chosen, 6)
    );
    Remedy::one(title, edits, 1.0 + metres)
}

/// Edits that give one wire a size; a lead that came with the gear is then
/// no longer that lead.
pub(crate) fn resize(wire: &WireResult, size: WireSize) -> Vec<Edit> {
    let mut edits = vec![edits::set_size(&wire.id, size)];
    if wire.supplied {
        edits.push(edits::set(
            &["wire", wire.id.as_str(), "supplied"],
            Value::Bool(false),
        ));
    }
    edits
}

/// What laying this wire in this size costs.
pub(crate) fn laying(wire: &WireResult, size: WireSize) -> f64 {
    let metres = wire.length.value.metres().max(0.1);
    metres * (series::wire_per_metre(size) + series::work_per_metre()) + 2.0 * series::joint(size)
}

/// The insulation to propose where heat or foam rules the present one out.
pub(crate) fn better_insulation(project: &Project) -> &'static str {
    match crate::view::limits::region(project) {
        wainwright_model::Region::Us => "gxl",
        wainwright_model::Region::Eu => "silicone",
    }
}

fn to_size(chosen: &[&WireResult], target: WireSize) -> Change {
    let area = series::area(target);
    let thin: Vec<&&WireResult> = chosen
        .iter()
        .filter(|w| series::area(w.size.value).base() < area.base() - 1e-9)
        .collect();
    let edits = thin.iter().flat_map(|wire| resize(wire, target)).collect();
    let cost = thin.iter().map(|wire| laying(wire, target)).sum();
    let supplied = thin.iter().filter(|w| w.supplied).count();
    let lead = if supplied == thin.len() && supplied > 0 {
        "Replace"
    } else {
        "Use"
    };
    let names: Vec<&WireResult> = thin.into_iter().copied().collect();
    let title = match lead {
        "Replace" => format!("Replace the supplied {} by {target}", of(&names)),
        _ => format!("Use {target} for {}", of(&names)),
    };
    Change { title, edits, cost }
}

fn of(wires: &[&WireResult]) -> String {
    names::together(wires, 9)
}
