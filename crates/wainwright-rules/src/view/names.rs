//! What to call a conductor, a piece of gear, a fuse or a state in a
//! headline. Not here: figures (see `words`).

use super::words;
use wainwright_analysis::result::{
    Assessment, ConsumerResult, DeviceResult, Reclose, Run, StateKind, WireResult,
};
use wainwright_model::{Id, Project};

/// `the fridge lead` when a label was typed, else `wire fridge-pos`.
pub(crate) fn wire(wire: &WireResult) -> String {
    if wire.label.is_empty() || wire.label == wire.id.as_str() {
        format!("wire {}", wire.id)
    } else {
        format!("{} (wire {})", wire.label, wire.id)
    }
}

/// Names of several wires by index.
pub(crate) fn wires(assessment: &Assessment, indices: &[usize], most: usize) -> String {
    let ids: Vec<String> = indices
        .iter()
        .filter_map(|index| assessment.wires.get(*index))
        .map(|wire| wire.id.to_string())
        .collect();
    words::list(&ids, most)
}

/// The label of a piece of gear, or its id.
pub(crate) fn item(project: &Project, id: &Id) -> String {
    project
        .items
        .get(id.as_str())
        .and_then(|item| item.label.as_ref())
        .map(|label| label.value.trim())
        .filter(|label| !label.is_empty())
        .map_or_else(|| id.to_string(), str::to_string)
}

/// What a consumer or source is called.
pub(crate) fn consumer(consumer: &ConsumerResult) -> String {
    if consumer.label.is_empty() {
        consumer.item.to_string()
    } else {
        consumer.label.clone()
    }
}

/// `30 A fuse main`, `Main fuse (30 A)`, `15 A fuse in way 3 of Panel`.
pub(crate) fn device(project: &Project, device: &DeviceResult) -> String {
    let rating = words::amps(device.rating.value);
    let word = device_word(device);
    let name = item(project, &device.item);
    match device.way {
        0 if name == device.item.as_str() => format!("{rating} {word} {name}"),
        0 => format!("{name} ({rating})"),
        way => format!("{rating} {word} in way {way} of {name}"),
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
