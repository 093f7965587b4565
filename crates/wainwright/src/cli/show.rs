//! Tables of an assessment for one state: conductors, fuses, gear, short
//! circuits. Not here: findings (see `check`).

use super::out::Out;
use super::table::{Align, print};
use crate::views::device::id_of;
use crate::views::gear::role;
use crate::views::state::{state_id, state_label, terminal};
use wainwright_analysis::result::{Assessment, FaultEnd, Outcome};
use wainwright_model::Project;
use wainwright_units::{Quantity, System};

use Align::{Left, Right};

/// Units a project is shown in.
pub fn units(project: &Project) -> System {
    let given = project.head.units.as_ref();
    given.map_or_else(System::default, |u| u.value.into())
}

/// One line for each state: what the solver found.
pub fn states(out: &mut Out, assessment: &Assessment, units: System) {
    for state in &assessment.states {
        let id = state_id(&state.kind);
        let text = format!(
            "{id}: {}: {}",
            state_label(state),
            outcome(&state.outcome, units)
        );
        out.hanging("  ", "    ", &text);
    }
}

/// Every conductor in one state.
pub fn conductors(out: &mut Out, assessment: &Assessment, state: usize, units: System) {
    let heads = [
        ("Conductor", Left),
        ("Size", Left),
        ("Length", Right),
        ("Current", Right),
        ("Bears", Right),
        ("Metal", Right),
        ("Limit", Right),
        ("Drop", Right),
    ];
    let rows: Vec<Vec<String>> = assessment
        .wires
        .iter()
        .map(|wire| {
            let there = wire.states.get(state);
            let shown = |text: Option<String>| text.unwrap_or_else(|| "-".into());
            vec![
                wire.id.to_string(),
                marked(wire.size.value.to_string(), wire.size.is_assumed()),
                marked(wire.length.value.show(units), wire.length.is_assumed()),
                shown(there.map(|t| t.amps.abs().show(units))),
                wire.ampacity.in_force.show(units),
                shown(there.map(|t| t.temperature.show(units))),
                wire.limit.show(units),
                shown(there.map(|t| t.drop.abs().show(units))),
            ]
        })
        .collect();
    print(out, &heads, &rows);
}

/// Every fuse and breaker in one state.
pub fn devices(out: &mut Out, assessment: &Assessment, state: usize, units: System) {
    let heads = [
        ("Fuse or breaker", Left),
        ("Family", Left),
        ("Rating", Right),
        ("Current", Right),
        ("Share", Right),
        ("Largest fault", Right),
    ];
    let rows: Vec<Vec<String>> = assessment
        .devices
        .iter()
        .map(|device| {
            let there = device.states.get(state);
            vec![
                id_of(device),
                device.family.clone(),
                marked(device.rating.value.show(units), device.rating.is_assumed()),
                there.map_or_else(|| "-".into(), |t| t.amps.show(units)),
                there.map_or_else(|| "-".into(), |t| t.share.show(units)),
                device
                    .largest_fault
                    .map_or_else(|| "-".into(), |a| a.show(units)),
            ]
        })
        .collect();
    print(out, &heads, &rows);
}

/// All gear in one state.
pub fn gear(out: &mut Out, assessment: &Assessment, state: usize, units: System) {
    let heads = [
        ("Gear", Left),
        ("", Left),
        ("Volts", Right),
        ("Current", Right),
        ("Power", Right),
        ("Drop", Right),
    ];
    let rows: Vec<Vec<String>> = assessment
        .consumers
        .iter()
        .map(|gear| {
            let there = gear.states.get(state);
            let shown = |text: Option<String>| text.unwrap_or_else(|| "-".into());
            vec![
                gear.item.to_string(),
                role(gear.role).to_owned(),
                shown(there.and_then(|t| t.volts).map(|v| v.show(units))),
                shown(there.map(|t| t.amps.show(units))),
                shown(there.map(|t| t.power.show(units))),
                shown(there.and_then(|t| t.drop_share).map(|d| d.show(units))),
            ]
        })
        .collect();
    print(out, &heads, &rows);
}

/// Short circuits at every live node.
pub fn faults(out: &mut Out, assessment: &Assessment, units: System) {
    let heads = [
        ("Short circuit at", Left),
        ("Smallest", Right),
        ("Off after", Right),
        ("Largest", Right),
        ("Off after", Right),
        ("Opens first", Left),
    ];
    let rows: Vec<Vec<String>> = assessment
        .faults
        .iter()
        .map(|fault| {
            let first = fault.smallest.openings.first();
            let device = first.and_then(|o| assessment.devices.get(o.device));
            vec![
                terminal(&fault.at),
                fault.smallest.amps.show(units),
                cleared(&fault.smallest, units),
                fault.largest.amps.show(units),
                cleared(&fault.largest, units),
                device.map_or_else(|| "nothing".into(), id_of),
            ]
        })
        .collect();
    print(out, &heads, &rows);
}

fn outcome(outcome: &Outcome, units: System) -> String {
    match outcome {
        Outcome::Steady { loads, losses, .. } => format!(
            "{} taken, {} lost on the way",
            loads.show(units),
            losses.show(units)
        ),
        Outcome::Collapse {
            carried,
            wanted,
            weakest,
            ..
        } => {
            let place = weakest
                .as_ref()
                .map_or_else(String::new, |i| format!(", {i} gives way first"));
            format!(
                "cannot be supplied: {} of {} can be carried{place}",
                carried.show(units),
                wanted.show(units)
            )
        }
        Outcome::Empty => "nothing to compute: no source, or no circuit".into(),
    }
}

fn cleared(end: &FaultEnd, units: System) -> String {
    let damaged = end.stresses.iter().any(|s| !s.survives);
    match end.cleared {
        None => "never for certain".into(),
        Some((_, latest)) if damaged => format!("{}, too late", latest.show(units)),
        Some((_, latest)) => latest.show(units),
    }
}

/// A stand-in is marked, so that nobody takes it for a measurement.
fn marked(text: String, assumed: bool) -> String {
    if assumed { format!("{text}?") } else { text }
}
