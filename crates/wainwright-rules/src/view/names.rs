//! What to call a conductor, a piece of gear, a fuse or a state in a
//! headline. Not here: figures (see `words`).

use super::words;
use wainwright_analysis::result::{
    Assessment, ConsumerResult, DeviceResult, Reclose, Run, StateKind, WireResult,
};
use wainwright_model::{Id, Project};

/// `D2 (wire dcdc-bus)` when a label was typed, else `wire dcdc-bus`. For the
/// first time a sentence names it.
pub(crate) fn wire(wire: &WireResult) -> String {
    match has_label(wire) {
        true => format!("{} (wire {})", quoted(&wire.label), wire.id),
        false => format!("wire {}", wire.id),
    }
}

/// `D2`, or `wire dcdc-bus` where no label was typed. For every further time.
pub(crate) fn again(wire: &WireResult) -> String {
    match has_label(wire) {
        true => quoted(&wire.label),
        false => format!("wire {}", wire.id),
    }
}

fn has_label(wire: &WireResult) -> bool {
    !wire.label.is_empty() && wire.label != wire.id.as_str()
}

/// Several wires: `D2 (wire dcdc-bus)`, `wires L1+ and L1-`, `wires a, b and c`.
pub(crate) fn together(wires: &[&WireResult], most: usize) -> String {
    match wires {
        [one] => wire(one),
        _ => format!("wires {}", words::list(&bare(wires), most)),
    }
}

/// Labels, or ids where there is none.
fn bare(wires: &[&WireResult]) -> Vec<String> {
    wires
        .iter()
        .map(|wire| match has_label(wire) {
            true => quoted(&wire.label),
            false => wire.id.to_string(),
        })
        .collect()
}

/// A label as a sentence can bear it: in quotes where it has marks of its own
/// that a reader would take for the sentence's.
fn quoted(label: &str) -> String {
    match label.contains([',', ';', ':', '.', '(', ')', '!', '?']) {
        true => format!("“{label}”"),
        false => label.to_string(),
    }
}

/// The label of a piece of gear, or its id.
pub(crate) fn item(project: &Project, id: &Id) -> String {
    label(project, id).map_or_else(|| id.to_string(), |label| quoted(&label))
}

/// The label somebody typed, where it says more than the id.
fn label(project: &Project, id: &Id) -> Option<String> {
    let item = project.items.get(id.as_str())?;
    let label = item.label.as_ref()?.value.trim();
    (!label.is_empty() && label != id.as_str()).then(|| label.to_string())
}

/// What a consumer or source is called.
pub(crate) fn consumer(consumer: &ConsumerResult) -> String {
    if consumer.label.is_empty() {
        consumer.item.to_string()
    } else {
        quoted(&consumer.label)
    }
}

/// `the 30 A fuse main`, `Main fuse (30 A)`, `the 15 A fuse in way 3 of Panel`:
/// complete with its article, where it has one.
pub(crate) fn device(project: &Project, device: &DeviceResult) -> String {
    let rating = words::amps(device.rating.value);
    let word = device_word(device);
    match (device.way, label(project, &device.item)) {
        (0, None) => format!("the {rating} {word} {}", device.item),
        (0, Some(label)) => format!("{} ({rating})", quoted(&label)),
        (way, _) => {
            let panel = item(project, &device.item);
            format!("the {rating} {word} in way {way} of {panel}")
        }
    }
}

/// A terminal as people say it: `plus`, `minus`, else its name.
pub(crate) fn terminal(terminal: &str) -> &str {
    match terminal {
        "+" => "plus",
        "-" => "minus",
        other => other,
    }
}

/// `fuse` or `breaker`.
pub(crate) fn device_word(device: &DeviceResult) -> &'static str {
    match device.reclose {
        Reclose::Fuse => "fuse",
        Reclose::Manual | Reclose::Automatic | Reclose::Held => "breaker",
    }
}

/// `with everything on and the battery low`.
pub(crate) fn state(assessment: &Assessment, index: usize) -> String {
    let Some(state) = assessment.states.get(index) else {
        return "in an unknown state".to_string();
    };
    match &state.kind {
        StateKind::EverythingLow => "with everything on and the battery low".to_string(),
        StateKind::EverythingFull => "with everything on and the battery full".to_string(),
        StateKind::Hours => "with what runs for hours on and the battery low".to_string(),
        StateKind::Charging => "with every charger at work".to_string(),
        StateKind::Surge => "while the inverter surges".to_string(),
        StateKind::Named(id) => {
            let name = state.label.clone().unwrap_or_else(|| id.to_string());
            format!("in state “{name}”")
        }
    }
}

/// Where a wire runs: `in open air at 40 °C`, `inside foam at 60 °C, six loaded wires together`.
pub(crate) fn place(project: &Project, wire: &WireResult) -> String {
    let place = match wire.run.value {
        Run::Open | Run::Bundle => "in open air",
        Run::Foam => "inside foam",
        Run::Cavity => "in a hot roof or wall cavity",
        Run::Conduit => "in conduit",
    };
    let air = words::air(wire.air.value, super::limits::system(project));
    match wire.bundle.value {
        0 | 1 => format!("{place} at {air}"),
        many => format!(
            "{place} at {air}, {} together",
            words::counted(many as usize, "loaded wire")
        ),
    }
}
