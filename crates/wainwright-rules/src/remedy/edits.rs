//! Small builders for edits of the project text, and free names for what is
//! added. Not here: which edits mend what.

use wainwright_analysis::result::DeviceResult;
use wainwright_model::{Edit, Id, Project, Spec, Value};
use wainwright_units::{Current, Length, System, WireSize};

/// Sets one value.
pub(crate) fn set(path: &[&str], value: Value) -> Edit {
    Edit::Set {
        path: owned(path),
        value,
    }
}

/// Sets one text.
pub(crate) fn set_text(path: &[&str], text: impl Into<String>) -> Edit {
    set(path, Value::Text(text.into()))
}

/// Takes one value away.
pub(crate) fn unset(path: &[&str]) -> Edit {
    Edit::Unset { path: owned(path) }
}

/// Sets the size of a wire.
pub(crate) fn set_size(wire: &Id, size: WireSize) -> Edit {
    set_text(&["wire", wire.as_str(), "size"], size.to_string())
}

/// Sets one end (`from` or `to`) of a wire.
pub(crate) fn set_end(wire: &Id, end: &str, item: &str, terminal: &str) -> Edit {
    set_text(&["wire", wire.as_str(), end], format!("{item}.{terminal}"))
}

/// Sets the length of a wire.
pub(crate) fn set_length(wire: &Id, length: Length, system: System) -> Edit {
    set_text(
        &["wire", wire.as_str(), "length"],
        length_text(length, system),
    )
}

/// Adds a piece of gear.
pub(crate) fn add_item(id: &str, fields: Vec<(&str, Value)>) -> Edit {
    add(&["item", id], fields)
}

/// Adds a wire.
pub(crate) fn add_wire(id: &str, fields: Vec<(&str, Value)>) -> Edit {
    add(&["wire", id], fields)
}

/// Gives a fuse or breaker another rating; in a block or bank the whole list
/// of ratings is written anew with one entry changed.
pub(crate) fn set_rating(
    project: &Project,
    device: &DeviceResult,
    rating: Current,
) -> Option<Edit> {
    let id = device.item.as_str();
    if device.way == 0 {
        return Some(set_text(&["item", id, "rating"], rating_text(rating)));
    }
    let item = project.items.get(id)?;
    let fuses = match &item.spec {
        Spec::FuseBlock(block) => &block.fuses,
        Spec::SwitchBank(bank) => &bank.fuses,
        _ => return None,
    };
    let mut ratings = fuses.as_ref()?.value.clone();
    *ratings.get_mut(device.way - 1)? = Some(rating);
    let texts = ratings
        .into_iter()
        .map(|r| Value::Text(r.map_or(String::new(), rating_text)));
    Some(set(&["item", id, "fuses"], Value::List(texts.collect())))
}

/// `15 A`, `7.5 A`: a standard rating as it is printed.
pub(crate) fn rating_text(rating: Current) -> String {
    format!("{} A", rating.amperes())
}

/// A length to type, rounded up to a tenth of an inch or to a centimetre.
pub(crate) fn length_text(length: Length, system: System) -> String {
    match system {
        System::Us => format!("{:.1} in", (length.inches() * 10.0 - 1e-6).ceil() / 10.0),
        System::Metric => format!("{:.2} m", (length.metres() * 100.0 - 1e-6).ceil() / 100.0),
    }
}

/// An item id that is free: `base`, else `base-2`, `base-3` …
pub(crate) fn free_item(project: &Project, base: &str) -> String {
    free(base, |id| project.items.contains(id))
}

/// A wire id that is free.
pub(crate) fn free_wire(project: &Project, base: &str) -> String {
    free(base, |id| project.wires.contains(id))
}

/// Most numbers tried for a free id; a project cannot hold more elements.
const MOST_NAMES: usize = 10_000;

fn free(base: &str, taken: impl Fn(&str) -> bool) -> String {
    let short: String = base.chars().take(52).collect();
    if !taken(&short) {
        return short;
    }
    (2..MOST_NAMES)
        .map(|number| format!("{short}-{number}"))
        .find(|id| !taken(id))
        .unwrap_or(short)
}

fn add(table: &[&str], fields: Vec<(&str, Value)>) -> Edit {
    let fields = fields
        .into_iter()
        .map(|(key, value)| (key.to_string(), value))
        .collect();
    Edit::Add {
        table: owned(table),
        fields,
        after: None,
    }
}

fn owned(path: &[&str]) -> Vec<String> {
    path.iter().map(|part| (*part).to_string()).collect()
}
