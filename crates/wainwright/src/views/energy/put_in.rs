//! How a change that helps comes into the project: by edits where it is plain what to write, by a form where a person
//! has to decide. Not here: which changes help.

use wainwright_analysis::result::trip::HelpKind;
use wainwright_model::{Edit, FieldExt, Holds, Id, Project, Spec, Value, path};

/// Below this tilt a module counts as flat \[°\], as in the trip study.
const FLAT_BELOW: f64 = 5.0;

/// How a change comes into the project.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Way {
    /// By the edits of this key.
    Press(String),
    /// By a form: its address, and what to press there.
    Form(String, &'static str),
}

/// How this change comes into the project; none when there is nothing to write.
pub fn way(project: &Project, trip: &str, what: &HelpKind) -> Option<Way> {
    let form = |address: String, word| Some(Way::Form(address, word));
    match what {
        HelpKind::OneMoreModule(id) => form(format!("/add/item?copy={id}"), "Add one"),
        HelpKind::OneMoreBattery(id) => form(format!("/add/item?copy={id}"), "Add one"),
        HelpKind::Tilt(degrees) => Some(Way::Press(format!("tilt {degrees:.0}"))),
        HelpKind::ShoreDay(day) => Some(Way::Press(format!("shore {day}"))),
        HelpKind::TapDay(day) => Some(Way::Press(format!("tap {day}"))),
        HelpKind::InverterOff(id) => {
            let key = format!("inverter {id}");
            match use_of(project, id) {
                Some(used) => form(format!("/edit/use/{used}"), "Change its hours"),
                None => edits(project, trip, &key).map(|_| Way::Press(key)),
            }
        }
        HelpKind::HalfOf(id) => form(format!("/edit/use/{id}"), "Change it"),
        HelpKind::MoreWater(_) => tank(project, Holds::Fresh)
            .and_then(|id| form(format!("/edit/item/{id}"), "Change the tank")),
        HelpKind::MoreWaste(_) => tank(project, Holds::Grey)
            .and_then(|id| form(format!("/edit/item/{id}"), "Change the tank")),
        HelpKind::DriveLonger => form(format!("/edit/trip/{trip}"), "Change the trip"),
    }
}

/// The edits of a key; none when it does not fit the project any more.
pub fn edits(project: &Project, trip: &str, key: &str) -> Option<Vec<Edit>> {
    let (word, rest) = key.split_once(' ')?;
    let given = project.trips.get(trip)?;
    match word {
        "shore" => Some(vec![day(
            trip,
            "shore_days",
            given.shore_days.value(),
            rest,
        )?]),
        "tap" => Some(vec![day(trip, "tap_days", given.tap_days.value(), rest)?]),
        "tilt" => tilt(project, rest.parse().ok()?),
        "inverter" => inverter(project, rest),
        _ => None,
    }
}

/// One more day in a list of days of the trip.
fn day(trip: &str, field: &str, there: Option<&Vec<u32>>, day: &str) -> Option<Edit> {
    let mut days: Vec<u32> = there.cloned().unwrap_or_default();
    days.push(day.parse().ok()?);
    days.sort_unstable();
    days.dedup();
    let days = days.into_iter().map(|day| Value::Integer(day.into()));
    Some(Edit::Set {
        path: path(["trip", trip, field]),
        value: Value::List(days.collect()),
    })
}

/// Every flat module tilted.
fn tilt(project: &Project, degrees: u32) -> Option<Vec<Edit>> {
    let flat = project.items.iter().filter(|(_, item)| match &item.spec {
        Spec::SolarModule(module) => module
            .tilt
            .value()
            .is_none_or(|tilt| tilt.degrees() < FLAT_BELOW),
        _ => false,
    });
    let edits: Vec<Edit> = flat
        .map(|(id, _)| Edit::Set {
            path: path(["item", id.as_str(), "tilt"]),
            value: Value::Text(format!("{degrees} deg")),
        })
        .collect();
    (!edits.is_empty()).then_some(edits)
}

/// The inverter stands by in the hours in which something on it is used, and in no others.
fn inverter(project: &Project, id: &str) -> Option<Vec<Edit>> {
    project.items.get(id)?;
    let on_it = project
        .uses
        .iter()
        .filter(|(_, one)| one.inverter.value().map(String::as_str) == Some(id));
    let mut hours: Vec<u32> = Vec::new();
    for (_, one) in on_it {
        // Spread over the whole day: the inverter cannot be off.
        hours.extend(one.hours.value().filter(|hours| !hours.is_empty())?);
    }
    hours.sort_unstable();
    hours.dedup();
    if hours.is_empty() {
        return None;
    }
    let count = hours.len();
    let hours = hours.into_iter().map(|hour| Value::Integer(hour.into()));
    Some(vec![Edit::Add {
        table: path(["use", &unused(project, &format!("{id}-on"))]),
        fields: vec![
            ("of".into(), Value::from(id)),
            ("per_day".into(), Value::Text(format!("{count} h"))),
            ("hours".into(), Value::List(hours.collect())),
        ],
        after: None,
    }])
}

/// An id that no use has yet.
pub fn unused(project: &Project, wanted: &str) -> String {
    let numbered = (2..).map(|number| format!("{wanted}-{number}"));
    let mut all = std::iter::once(wanted.to_owned()).chain(numbered);
    all.find(|id| !project.uses.contains(id))
        .unwrap_or_else(|| wanted.to_owned())
}

fn use_of<'p>(project: &'p Project, item: &Id) -> Option<&'p Id> {
    let mut uses = project.uses.iter();
    uses.find(|(_, one)| one.of.value().map(String::as_str) == Some(item.as_str()))
        .map(|(id, _)| id)
}

fn tank(project: &Project, holds: Holds) -> Option<&Id> {
    let mut items = project.items.iter();
    items
        .find(|(_, item)| match &item.spec {
            Spec::Tank(tank) => tank.holds.value() == Some(&holds),
            _ => false,
        })
        .map(|(id, _)| id)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn project(text: &str) -> Project {
        wainwright_model::parse(text, wainwright_analysis::catalogue()).project
    }

    const TEXT: &str = "[item.inverter]\nkind = \"inverter\"\n[item.sun]\nkind = \"solar-module\"\n[item.stand]\nkind = \"solar-module\"\ntilt = \"40 deg\"\n\
        [trip.lake]\nshore_days = [4]\n[use.laptop]\npower = \"35 W\"\ninverter = \"inverter\"\nper_day = \"2 h\"\nhours = [20, 21]\n";

    #[test]
    fn days_are_added_in_order() {
        let edits = edits(&project(TEXT), "lake", "shore 2").unwrap();
        let days = Value::List(vec![Value::Integer(2), Value::Integer(4)]);
        assert_eq!(
            edits,
            [Edit::Set {
                path: path(["trip", "lake", "shore_days"]),
                value: days
            }]
        );
    }

    #[test]
    fn only_flat_modules_are_tilted() {
        let edits = edits(&project(TEXT), "lake", "tilt 30").unwrap();
        assert_eq!(
            edits,
            [Edit::Set {
                path: path(["item", "sun", "tilt"]),
                value: Value::from("30 deg")
            }]
        );
    }

    #[test]
    fn an_inverter_is_on_in_the_hours_of_what_is_used_on_it() {
        let before = project(TEXT);
        let edits = edits(&before, "lake", "inverter inverter").unwrap();
        let after = wainwright_model::apply(TEXT, &edits).unwrap().text;
        let after = project(&after);
        let used = after.uses.get("inverter-on").unwrap();
        assert_eq!(used.hours.value(), Some(&vec![20, 21]));
        let id = Id::new("inverter").unwrap();
        assert_eq!(
            way(&after, "lake", &HelpKind::InverterOff(id)),
            Some(Way::Form(
                "/edit/use/inverter-on".into(),
                "Change its hours"
            ))
        );
    }

    #[test]
    fn a_key_that_fits_nothing_changes_nothing() {
        let project = project(TEXT);
        for key in ["", "shore", "shore x", "inverter gone", "burn 3"] {
            assert_eq!(edits(&project, "lake", key), None, "{key}");
        }
        assert_eq!(edits(&project, "sea", "shore 2"), None);
    }
}
