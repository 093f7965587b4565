//! What can be chosen in a form: parts, terminals, wires, items, insulation.
//! Not here: words that the file format itself lists.

use crate::web::html::finding::label;
use crate::web::html::loose::terminal_words;
use crate::web::view::View;
use maud::{Markup, html};
use std::collections::BTreeSet;
use wainwright_model::{Kind, Part, Spec, Table};

/// One line of a list.
#[derive(Debug, Clone)]
pub struct Choice {
    /// As in the file.
    pub value: String,
    /// For people.
    pub words: String,
    /// Heading it stands under.
    pub group: Option<String>,
}

impl Choice {
    /// A word that stands for itself.
    pub fn plain(word: &str) -> Self {
        Self {
            value: word.into(),
            words: word.into(),
            group: None,
        }
    }
}

/// Parts of the project and of the library; of one kind when it is known.
pub fn parts(view: &View, kind: Kind) -> Vec<Choice> {
    let of_kind = move |part: &Part| kind == Kind::Unknown || part.spec.kind() == kind;
    let listed = |parts: &Table<Part>, group: &str| -> Vec<Choice> {
        let fitting = parts.iter().filter(|(_, part)| of_kind(part));
        fitting
            .map(|(id, part)| Choice {
                value: id.to_string(),
                words: part
                    .label
                    .as_ref()
                    .map_or_else(|| id.to_string(), |l| l.value.clone()),
                group: Some(group.to_owned()),
            })
            .collect()
    };
    let mut all = listed(&view.study().project.parts, "Parts of this project");
    all.extend(listed(wainwright_analysis::catalogue().parts(), "Library"));
    all
}

/// Every climate or every trip.
pub fn rows(view: &View, element: &str) -> Vec<Choice> {
    let project = &view.study().project;
    let ids: Vec<&wainwright_model::Id> = match element {
        "climate" => project.climates.ids().collect(),
        "trip" => project.trips.ids().collect(),
        _ => Vec::new(),
    };
    let choice = |id: &wainwright_model::Id| Choice {
        value: id.to_string(),
        words: label(view, element, id.as_str()),
        group: None,
    };
    ids.into_iter().map(choice).collect()
}

/// Every wire but one.
pub fn wires(view: &View, except: Option<&str>) -> Vec<Choice> {
    let ids = view.study().project.wires.ids().map(ToString::to_string);
    ids.filter(|id| Some(id.as_str()) != except)
        .map(|id| Choice {
            words: label(view, "wire", &id),
            value: id,
            group: None,
        })
        .collect()
}

/// Every terminal, by item; those nothing is joined to yet are marked free.
pub fn terminals(view: &View, chosen: &str) -> Vec<Choice> {
    let project = &view.study().project;
    let ends = project
        .wires
        .iter()
        .flat_map(|(_, wire)| [&wire.from, &wire.to]);
    let used: BTreeSet<String> = ends.flatten().map(|end| end.value.to_string()).collect();
    let mut all = Vec::new();
    for (id, item) in &project.items {
        let group = label(view, "item", id.as_str());
        for name in names(id.as_str(), &item.spec, &used, chosen) {
            let value = format!("{id}.{name}");
            let free = if used.contains(&value) {
                ""
            } else {
                " · free"
            };
            let terminal = terminal_words(view, id.as_str(), &name);
            all.push(Choice {
                words: format!("{group}: {terminal}{free}"),
                value,
                group: Some(group.clone()),
            });
        }
    }
    all
}

/// Terminals of an item. A frame takes any name: those in use are listed, and
/// a new lug.
fn names(id: &str, spec: &Spec, used: &BTreeSet<String>, chosen: &str) -> Vec<String> {
    let listed = spec.terminals();
    if !listed.is_empty() || !spec.kind().is_wired() {
        return listed;
    }
    let prefix = format!("{id}.");
    let mine = used.iter().map(String::as_str).chain([chosen]);
    let mut names: BTreeSet<String> = mine
        .filter_map(|end| end.strip_prefix(&prefix))
        .map(str::to_owned)
        .collect();
    let fresh = (1..)
        .map(|number| format!("lug{number}"))
        .find(|name| !names.contains(name));
    names.extend(fresh);
    names.into_iter().collect()
}

/// The trunks there are, by id, to be typed in order.
pub fn trunks(view: &View) -> Markup {
    let project = &view.study().project;
    html! {
        @if !project.trunks.is_empty() {
            p.hint {
                "Trunks: "
                @for (number, id) in project.trunks.ids().enumerate() {
                    @if number > 0 { ", " }
                    code { (id) }
                    @if let Some(label) = project.label("trunk", id.as_str()) { " (" (label) ")" }
                }
                "."
            }
        }
    }
}

/// Items that make sense in a list of a state or a weighing.
pub fn items(view: &View, field: &str) -> Vec<Choice> {
    let fits = |kind: Kind| match field {
        "charging" => matches!(
            kind,
            Kind::SolarController
                | Kind::SolarModule
                | Kind::ShoreCharger
                | Kind::DcdcCharger
                | Kind::VehicleSupply
        ),
        "full" => kind == Kind::Tank,
        "aboard" | "holds" => true,
        "inverter" => kind == Kind::Inverter,
        _ => matches!(kind, Kind::Load | Kind::Outlet | Kind::Inverter),
    };
    let fitting = view
        .study()
        .project
        .items
        .iter()
        .filter(|(_, item)| fits(item.spec.kind()));
    fitting
        .map(|(id, _)| Choice {
            value: id.to_string(),
            words: label(view, "item", id.as_str()),
            group: None,
        })
        .collect()
}

/// Names of insulation to choose from while typing.
pub fn insulations() -> Markup {
    html! {
        datalist #insulations {
            @for id in wainwright_reference::insulation::insulation_ids() {
                @let name = wainwright_reference::insulation::insulation(id).map_or(id, |found| found.name);
                option value=(id) { (name) }
            }
        }
    }
}

/// Usual sizes of wire, thick ones last, to choose from while typing.
const SIZES: [&str; 24] = [
    "18 AWG", "16 AWG", "14 AWG", "12 AWG", "10 AWG", "8 AWG", "6 AWG", "4 AWG", "2 AWG", "1 AWG",
    "1/0 AWG", "2/0 AWG", "4/0 AWG", "1 mm2", "1.5 mm2", "2.5 mm2", "4 mm2", "6 mm2", "10 mm2",
    "16 mm2", "25 mm2", "35 mm2", "50 mm2", "70 mm2",
];

/// Sizes of wire to choose from while typing.
pub fn sizes() -> Markup {
    html! {
        datalist #sizes { @for size in SIZES { option value=(size) {} } }
    }
}

#[cfg(test)]
mod tests {
    #[test]
    fn every_size_offered_can_be_read() {
        for size in super::SIZES {
            assert!(wainwright_units::WireSize::parse(size).is_ok(), "{size}");
        }
    }
}
