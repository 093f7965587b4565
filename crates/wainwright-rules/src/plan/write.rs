//! A sized draft as edits of the project text. Not here: what is in it.

use super::choose::Choice;
use super::draft::{Block, BlockWay, Draft, Guard, NewItem, NewKind, NewWire, Reach};
use super::limits;
use super::measure::Measured;
use crate::remedy::edits;
use wainwright_model::{ColourStandard as Named, Edit, FieldExt, Project, Region, Spec, Value};
use wainwright_reference::colour::{ColourRole, ColourStandard, conductor_colour};
use wainwright_reference::protection::Family;
use wainwright_units::{Current, Length, System};

/// Everything the text depends on.
pub(super) struct Writer<'a> {
    pub(super) project: &'a Project,
    pub(super) draft: &'a Draft,
    pub(super) choices: &'a [Choice],
    pub(super) measured: &'a Measured,
    /// Highest voltage in the system \[V\].
    pub(super) highest: f64,
}

/// Said at every wire whose length nobody measured.
const ASSUMED: &str =
    "Length assumed from the size of the trailer: measure the way before cutting.";
/// Said at every item that was given a place.
const PLACED: &str = "Its place is a proposal: beside the battery.";

impl Writer<'_> {
    /// The edits, items first.
    pub(super) fn edits(&self) -> Vec<Edit> {
        let items = self.draft.items.iter().map(|item| self.item(item));
        let old = self.old_items();
        let wires = self.draft.wires.iter().filter_map(|wire| self.wire(wire));
        items.chain(old).chain(wires).collect()
    }

    /// Ids of wires whose length was assumed.
    pub(super) fn assumed(&self) -> Vec<String> {
        let assumed = |wire: &&NewWire| matches!(wire.reach, Reach::Assumed(_));
        let wires = self.draft.wires.iter().filter(assumed);
        wires.map(|wire| wire.id.clone()).collect()
    }

    fn item(&self, item: &NewItem) -> Edit {
        let text = |text: &str| Value::Text(text.to_string());
        let mut fields: Vec<(&str, Value)> = vec![("label", text(&item.label))];
        match &item.kind {
            NewKind::Fuse { section } => fields.extend(self.fuse(*section)),
            NewKind::Switch {
                section,
                style,
                volts,
            } => {
                let amps = self.amps(*section) * limits::SWITCH_ROOM;
                fields.push(("kind", text("switch")));
                fields.push(("style", text(style.as_str())));
                fields.push(("rating", amps_text(step(&SWITCHES, amps))));
                fields.extend(marked(*volts));
            }
            NewKind::Bus { section, used } => {
                let amps = self.amps(*section);
                fields.push(("kind", text("bus-bar")));
                fields.push(("ways", Value::Integer(i64::from(ways(*used)))));
                fields.push(("rating", amps_text(step(&BARS, amps))));
                fields.extend(marked(self.highest));
            }
            NewKind::Block { .. } => {
                if let Some(block) = self.draft.blocks.get(&item.id) {
                    fields.push(("kind", text("fuse-block")));
                    fields.push(("family", text(Family::Blade.id())));
                    fields.push(("fuses", self.fuses(block)));
                    fields.push(("bus_rating", amps_text(block.most)));
                    fields.extend(marked(self.highest));
                }
            }
            NewKind::Splice => fields.push(("kind", text("splice"))),
            NewKind::Frame => fields.push(("kind", text("frame"))),
        }
        if let Some(spot) = item.spot {
            let system: System = self
                .project
                .head
                .units
                .value()
                .map_or(System::Metric, |units| (*units).into());
            fields.push(("spot", Value::Text(spot.typed(system))));
            fields.push(("note", text(PLACED)));
        }
        edits::add_item(&item.id, fields)
    }

    fn fuse(&self, section: usize) -> Vec<(&'static str, Value)> {
        let choice = self.choices.get(section);
        let family = choice.and_then(|c| c.family).unwrap_or(Family::Blade);
        let rating = choice.and_then(|c| c.rating).unwrap_or(0.0);
        let text = |text: &str| Value::Text(text.to_string());
        let mut fields = match family {
            Family::Breaker => vec![("kind", text("breaker")), ("reset", text("manual"))],
            _ => vec![("kind", text("fuse")), ("family", text(family.id()))],
        };
        fields.push(("rating", amps_text(rating)));
        if let Some(volts) = self.draft.device(section).and_then(|device| device.marked) {
            fields.push(("voltage", Value::Text(format!("{volts:.0} V"))));
        }
        fields
    }

    /// Fuses and blocks of the file that get what they lack.
    fn old_items(&self) -> Vec<Edit> {
        let mut found = Vec::new();
        for (section, choice) in self.draft.sections.iter().zip(self.choices) {
            let Guard::Own(device) = &section.guard else {
                continue;
            };
            let Some(item) = self.project.items.get(&device.item) else {
                continue;
            };
            if device.way != 0 || section.wires.is_empty() {
                continue;
            }
            let (rating, family) = match &item.spec {
                Spec::Fuse(fuse) => (fuse.rating.is_none(), fuse.family.is_none()),
                Spec::Breaker(breaker) => (breaker.rating.is_none(), false),
                _ => (false, false),
            };
            if let (true, Some(family)) = (family, choice.family) {
                found.push(edits::set_text(
                    &["item", &device.item, "family"],
                    family.id(),
                ));
            }
            if let (true, Some(rating)) = (rating, choice.rating) {
                let rating = edits::rating_text(Current::from_amperes(rating));
                found.push(edits::set_text(&["item", &device.item, "rating"], rating));
            }
        }
        for (id, block) in self.draft.blocks.iter().filter(|(_, block)| block.old) {
            let filled = |way: &BlockWay| way.fixed.is_none() && way.section.is_some();
            if block.ways.iter().any(filled) {
                found.push(edits::set(&["item", id, "fuses"], self.fuses(block)));
            }
        }
        found
    }

    fn fuses(&self, block: &Block) -> Value {
        let rating = |way: &BlockWay| {
            let chosen = way
                .section
                .and_then(|section| self.choices.get(section)?.rating);
            way.fixed.or(chosen)
        };
        let texts = block.ways.iter().map(|way| {
            let text = rating(way).map(|amps| edits::rating_text(Current::from_amperes(amps)));
            Value::Text(text.unwrap_or_default())
        });
        Value::List(texts.collect())
    }

    fn wire(&self, wire: &NewWire) -> Option<Edit> {
        let choice = self.choices.get(wire.section)?;
        let system = match crate::view::limits::region(self.project) {
            Region::Us => System::Us,
            Region::Eu => System::Metric,
        };
        let text = |text: String| Value::Text(text);
        let mut fields = vec![
            ("from", text(format!("{}.{}", wire.from.0, wire.from.1))),
            ("to", text(format!("{}.{}", wire.to.0, wire.to.1))),
            ("size", text(choice.size.to_string())),
            ("insulation", text(choice.insulation.clone())),
        ];
        match wire.reach {
            Reach::Cut(length) | Reach::Assumed(length) => {
                fields.push(("length", text(length_text(length, system))));
            }
            Reach::Routed => {}
        }
        if let Some(runs) = wire.runs {
            fields.push(("runs", text(runs.as_str().to_string())));
        }
        if let Some(bundle) = wire.bundle {
            fields.push(("bundle", Value::Integer(i64::from(bundle))));
        }
        if wire.sheathed {
            fields.push(("sheathed", Value::Bool(true)));
        }
        if let Some(colour) = self.colour(wire.role) {
            fields.push(("colour", text(colour)));
        }
        fields.push(("label", text(wire.label.clone())));
        if matches!(wire.reach, Reach::Assumed(_)) {
            fields.push(("note", text(ASSUMED.to_string())));
        }
        Some(edits::add_wire(&wire.id, fields))
    }

    fn colour(&self, role: ColourRole) -> Option<String> {
        let named = self.project.head.colours.value().copied();
        let standard = match (named, crate::view::limits::region(self.project)) {
            (Some(Named::AbycE11), _) | (None, Region::Us) => ColourStandard::Abyc,
            (Some(Named::Iso10133), _) | (None, Region::Eu) => ColourStandard::Iso10133,
            (Some(Named::Iec60445), _) => ColourStandard::Iec60445,
        };
        let found = conductor_colour(standard, role)?.value;
        Some(match found.stripe {
            Some(stripe) => format!("{}/{stripe}", found.main),
            None => found.main.to_string(),
        })
    }

    /// Current of a section \[A\].
    fn amps(&self, section: usize) -> f64 {
        let seen = self.measured.sections.get(section);
        let rated = self.draft.sections.get(section).map_or(0.0, |s| s.rated);
        seen.map_or(rated, |seen| seen.amps.max(rated))
    }
}

/// Ratings of switches that are sold \[A\]: judgement.
const SWITCHES: [f64; 8] = [30.0, 50.0, 100.0, 150.0, 275.0, 350.0, 500.0, 600.0];
/// Ratings of bus bars that are sold \[A\]: judgement.
const BARS: [f64; 5] = [100.0, 150.0, 250.0, 400.0, 600.0];
/// Most voltage that parts without a mark are good for \[V\]: those for 12 and
/// 24 V.
const UNMARKED: f64 = 32.0;

fn step(sold: &[f64], least: f64) -> f64 {
    let found = sold.iter().copied().find(|rating| *rating >= least);
    found.unwrap_or_else(|| (least / 100.0).ceil() * 100.0)
}

/// Whole feet where it is whole feet.
fn length_text(length: Length, system: System) -> String {
    let feet = length.inches() / 12.0;
    match system {
        System::Us if feet >= 3.0 && (feet - feet.round()).abs() < 1e-6 => {
            format!("{feet:.0} ft")
        }
        System::Us if (length.inches() - length.inches().round()).abs() < 1e-6 => {
            format!("{:.0} in", length.inches())
        }
        _ => edits::length_text(length, system),
    }
}

/// The voltage a part must be marked for, above what usual parts bear.
fn marked(volts: f64) -> Option<(&'static str, Value)> {
    let text = format!("{:.0} V", volts.ceil());
    (volts > UNMARKED).then_some(("voltage", Value::Text(text)))
}

/// Studs of a bar with so many in use: two to spare, and an even number.
fn ways(used: u32) -> u32 {
    (used + 2).div_ceil(2) * 2
}

fn amps_text(amps: f64) -> Value {
    Value::Text(edits::rating_text(Current::from_amperes(amps)))
}
