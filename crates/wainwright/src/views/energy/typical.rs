//! Typical uses of loads that nobody said the use of, from the table of households. Not here: how they count.

use super::put_in::unused;
use wainwright_model::{Edit, Id, Project, Value, path};
use wainwright_reference::household::{LoadPreset, TimeOfDay, load_preset, time_of_day};
use wainwright_units::{Duration, Quantity, System};

/// Words in the name of a load, and the row of the table it is then like.
const LIKE: [(&str, &str); 8] = [
    ("light", "led-lights"),
    ("lamp", "led-lights"),
    ("fan", "roof-fan"),
    ("heater", "air-heater"),
    ("pump", "water-pump"),
    ("laptop", "laptop"),
    ("router", "router"),
    ("phone", "phone"),
];

/// Said at every use that is put in this way.
const NOTE: &str = "typical hours of the table of households, not yours: change them";

/// What is plugged in where nobody said anything.
const PLUGGED: [(&str, &str, bool); 2] = [("phones", "phone", true), ("laptop", "laptop", false)];

/// Loads of these that a typical use is known of.
pub fn known(project: &Project, loads: &[Id]) -> usize {
    let all = loads.iter();
    all.filter(|id| like(project, id).is_some()).count()
}

/// Typical uses of these loads; and of phone and laptop where there is no use at all.
pub fn edits(project: &Project, loads: &[Id], units: System) -> Vec<Edit> {
    let of_items = loads.iter().filter_map(|id| {
        let (preset, time) = like(project, id)?;
        let mut fields = vec![("of".to_owned(), Value::from(id.as_str()))];
        fields.extend(times(&preset, time, units));
        Some(add(project, id.as_str(), fields))
    });
    let plugged = PLUGGED.iter().filter_map(|(id, row, per_person)| {
        let (preset, time) = row_of(row)?;
        let mut fields = vec![
            ("label".to_owned(), Value::from(preset.name)),
            (
                "power".to_owned(),
                Value::Text(preset.power.usual.show(units)),
            ),
        ];
        fields.extend(times(&preset, time, units));
        if *per_person {
            fields.push(("per_person".to_owned(), Value::Bool(true)));
        }
        Some(add(project, id, fields))
    });
    let nothing_yet = project.uses.iter().next().is_none();
    of_items.chain(plugged.filter(|_| nothing_yet)).collect()
}

fn like(project: &Project, id: &Id) -> Option<(LoadPreset, TimeOfDay)> {
    let name = project.label_or_id("item", id.as_str()).to_lowercase();
    let named = |(word, _): &&(&str, &str)| name.contains(word) || id.as_str().contains(word);
    let (_, row) = LIKE.iter().find(named)?;
    row_of(row)
}

fn row_of(row: &str) -> Option<(LoadPreset, TimeOfDay)> {
    Some((load_preset(row)?.value, time_of_day(row)?.value))
}

fn times(preset: &LoadPreset, time: TimeOfDay, units: System) -> Vec<(String, Value)> {
    let hours = hours(time)
        .into_iter()
        .map(|hour| Value::Integer(hour.into()));
    vec![
        (
            "per_day".into(),
            Value::Text(span(preset.hours.usual, units)),
        ),
        ("hours".into(), Value::List(hours.collect())),
        ("note".into(), Value::from(NOTE)),
    ]
}

fn span(time: Duration, units: System) -> String {
    time.show(units)
}

/// Hours from one to the other, over midnight if need be.
fn hours(time: TimeOfDay) -> Vec<u32> {
    let (from, to) = (time.from as u32 % 24, time.to as u32 % 24);
    let count = (to + 24 - from - 1) % 24 + 1;
    (0..count).map(|hour| (from + hour) % 24).collect()
}

fn add(project: &Project, id: &str, fields: Vec<(String, Value)>) -> Edit {
    Edit::Add {
        table: path(["use", &unused(project, id)]),
        fields,
        after: None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use wainwright_model::FieldExt;

    #[test]
    fn hours_go_over_midnight() {
        assert_eq!(
            hours(TimeOfDay {
                from: 18.0,
                to: 22.0
            }),
            [18, 19, 20, 21]
        );
        assert_eq!(
            hours(TimeOfDay {
                from: 22.0,
                to: 1.0
            }),
            [22, 23, 0]
        );
        assert_eq!(
            hours(TimeOfDay {
                from: 0.0,
                to: 24.0
            })
            .len(),
            24
        );
    }

    #[test]
    fn typical_uses_can_be_read_again() {
        let text = "wainwright = 1\n[item.galley-light]\nkind = \"load\"\npower = \"6 W\"\n[item.saw]\nkind = \"load\"\npower = \"60 W\"\n[trip.lake]\nnights = 2\n";
        let read = |text: &str| wainwright_model::parse(text, wainwright_analysis::catalogue());
        let project = read(text).project;
        let loads: Vec<Id> = project.items.ids().cloned().collect();
        assert_eq!(known(&project, &loads), 1, "nobody knows how a saw is used");
        let edits = edits(&project, &loads, System::Us);
        let after = wainwright_model::apply(text, &edits).unwrap().text;
        let after = read(&after);
        assert!(after.problems.is_empty(), "{:?}", after.problems);
        let ids: Vec<&str> = after.project.uses.ids().map(Id::as_str).collect();
        assert_eq!(ids, ["galley-light", "phones", "laptop"]);
        let light = after.project.uses.get("galley-light").unwrap();
        assert_eq!(light.per_day.value().unwrap().hours(), 4.0);
    }
}
