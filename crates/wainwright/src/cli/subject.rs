//! From what a person types as the subject of a working to the numbers that
//! can be explained about it. Not here: the explaining.

use super::exit::Trouble;
use crate::study::Study;
use crate::views::device::id_of;
use crate::views::state::state_label;
use wainwright_analysis::Ask;
use wainwright_analysis::result::{Assessment, ConsumerResult, DeviceResult, WireResult};

/// A number that can be explained, and what people call it.
#[derive(Debug, Clone)]
pub struct Question {
    /// For people.
    pub title: String,
    /// For the analysis.
    pub ask: Ask,
}

/// Every number that can be explained about a subject: a finding's key, a
/// wire, an item, a way of it, or a terminal.
///
/// # Errors
/// When there is nothing of that name.
pub fn questions(
    study: &Study,
    subject: &str,
    state: Option<usize>,
) -> Result<Vec<Question>, Trouble> {
    if let Some(finding) = study.finding(subject) {
        let ask = finding.ask.clone();
        return ask
            .map(|ask| vec![question(&finding.headline, ask)])
            .ok_or_else(|| {
                no_such(
                    "this finding rests on no single number; ask for a wire or an item it names",
                )
            });
    }
    let a = &study.assessment;
    let wires = a
        .wires
        .iter()
        .filter(|w| names(subject, "wire", w.id.as_str()));
    let devices = a
        .devices
        .iter()
        .filter(|d| names(subject, "item", d.item.as_str()) || names(subject, "item", &id_of(d)));
    let gear = a
        .consumers
        .iter()
        .filter(|c| names(subject, "item", c.item.as_str()));
    let mut found: Vec<Question> = wires.flat_map(|w| of_wire(w, a, state)).collect();
    found.extend(devices.flat_map(|d| of_device(d, a, state)));
    found.extend(gear.flat_map(|c| of_gear(c, a, state)));
    found.extend(of_terminal(subject, a));
    if found.is_empty() {
        return Err(no_such(&format!(
            "there is no wire, fuse, gear or terminal \"{subject}\" with a number to explain; \
             `check FILE --full` lists them"
        )));
    }
    Ok(found)
}

fn of_wire(wire: &WireResult, a: &Assessment, state: Option<usize>) -> Vec<Question> {
    let id = &wire.id;
    let wire_id = || id.to_string();
    let bears = Ask::WireAmpacity { wire: wire_id() };
    let mut found = vec![question(&format!("What {id} bears for ever"), bears)];
    if let Some((state, name)) = named(a, state.or(wire.worst)) {
        let wire = wire_id();
        let ohms = Ask::WireResistance {
            wire: wire.clone(),
            state,
        };
        found.push(question(&format!("Resistance of {id} ({name})"), ohms));
        let drop = Ask::WireDrop {
            wire: wire.clone(),
            state,
        };
        found.push(question(&format!("Voltage drop along {id} ({name})"), drop));
        let heat = Ask::WireTemperature { wire, state };
        found.push(question(&format!("Temperature of {id} ({name})"), heat));
    }
    found
}

fn of_device(device: &DeviceResult, a: &Assessment, state: Option<usize>) -> Option<Question> {
    let (state, name) = named(a, state.or(device.continuous_amps.map(|(_, s)| s)))?;
    let (item, way) = (device.item.to_string(), device.way);
    let title = format!("Load on {} ({name})", id_of(device));
    Some(question(&title, Ask::DeviceShare { item, way, state }))
}

fn of_gear(gear: &ConsumerResult, a: &Assessment, state: Option<usize>) -> Option<Question> {
    let (state, name) = named(a, state)?;
    let item = gear.item.to_string();
    let title = format!("Voltage lost on the way to {item} ({name})");
    Some(question(&title, Ask::ConsumerDrop { item, state }))
}

fn of_terminal(subject: &str, a: &Assessment) -> Option<Question> {
    let subject = subject.strip_prefix("item.").unwrap_or(subject);
    let (item, terminal) = subject.split_once('.')?;
    let node = a.node_of(item, terminal)?;
    let title = format!("Short circuit at {item}.{terminal}");
    Some(question(&title, Ask::FaultCurrent { node }))
}

/// Whether a typed subject means this element, with or without its table.
fn names(subject: &str, table: &str, id: &str) -> bool {
    let with_table = subject
        .strip_prefix(table)
        .and_then(|rest| rest.strip_prefix('.'));
    subject == id || with_table == Some(id)
}

/// The state, or the first one, with its name.
fn named(a: &Assessment, state: Option<usize>) -> Option<(usize, String)> {
    let index = state.unwrap_or(0);
    Some((index, state_label(a.states.get(index)?)))
}

fn question(title: &str, ask: Ask) -> Question {
    let title = title.to_owned();
    Question { title, ask }
}

fn no_such(text: &str) -> Trouble {
    Trouble::NoSuch(text.to_owned())
}
