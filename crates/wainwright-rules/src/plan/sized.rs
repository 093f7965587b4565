//! The account of sizes: for each section what it gets and why. Not here: how
//! the sizes were found (`choose`).

use super::account::Decision;
use super::choose::Choice;
use super::draft::{Draft, Guard, Section};
use super::measure::Measured;
use crate::view::words;
use wainwright_reference::insulation::insulation;
use wainwright_reference::protection::{interrupt_at, name};
use wainwright_units::{Current, Voltage};

/// One decision for each section with wires.
pub(super) fn decisions(
    draft: &Draft,
    choices: &[Choice],
    measured: &Measured,
    volts: f64,
) -> Vec<Decision> {
    let sections = draft.sections.iter().zip(choices).enumerate();
    sections
        .filter(|(_, (section, _))| !section.wires.is_empty())
        .map(|(index, (section, choice))| {
            let seen = measured.sections.get(index).copied().unwrap_or_default();
            let amps = amps(seen.amps.max(section.rated));
            Decision {
                what: what(section, choice),
                why: why(section, choice, &amps, seen.fault, volts),
                source: "33 CFR 183.425 Table 5 and ISO 10133 Annex A for the wire; ISO 8820-3 and makers' data for the fuse",
                items: items(draft, section),
            }
        })
        .collect()
}

fn what(section: &Section, choice: &Choice) -> String {
    let class = insulation(&choice.insulation).map_or(choice.insulation.as_str(), |c| c.name);
    let name = words::capital(&section.name);
    let wire = format!("{name}: {} {class}", choice.size);
    match (choice.rating, choice.family.and_then(name_of)) {
        (Some(rating), Some(family)) => format!("{wire}, {rating} A {family}."),
        _ => format!("{wire}."),
    }
}

fn name_of(family: wainwright_reference::protection::Family) -> Option<&'static str> {
    name(family).map(|found| found.value)
}

fn why(section: &Section, choice: &Choice, load: &str, fault: f64, volts: f64) -> String {
    match &section.guard {
        Guard::Own(_) => {
            let able = choice
                .family
                .and_then(|family| interrupt_at(family, Voltage::from_volts(volts)))
                .map(|most| most.value.amperes());
            let short = match able {
                Some(able) if fault > 0.0 => format!(
                    "; a short circuit behind it drives up to {}, it can open {}",
                    amps(fault),
                    amps(able)
                ),
                _ => String::new(),
            };
            format!(
                "It carries {load}, and the wire bears the rating of its fuse where it runs{short}."
            )
        }
        Guard::Sum(_) => {
            format!(
                "It carries {load} and bears what the fuses of all batteries let through together."
            )
        }
        Guard::Source(most) => format!(
            "The modules cannot give more than {}, which the wire bears in the hot roof.",
            amps(*most)
        ),
        Guard::Existing(_) => format!("It carries {load}; the fuse that is there protects it."),
        Guard::As(_) => "It must carry what the main fuse lets through until it opens.".to_string(),
    }
}

fn items(draft: &Draft, section: &Section) -> Vec<String> {
    let wires = section
        .wires
        .iter()
        .filter_map(|wire| draft.wires.get(*wire));
    let mut items: Vec<String> = wires
        .flat_map(|wire| [wire.from.0.clone(), wire.to.0.clone()])
        .collect();
    items.sort();
    items.dedup();
    items
}

fn amps(amperes: f64) -> String {
    words::amps(Current::from_amperes(amperes))
}
