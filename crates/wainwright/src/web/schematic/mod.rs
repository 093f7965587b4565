//! The wiring of a project in one state as a diagram, ready to be laid out.
//! Not here: layout and drawing (another crate), colours (`tone`), the short
//! facts below a title (`facts`).

pub mod facts;
mod tone;

pub use tone::{Colour, Tones};

use crate::study::Study;
use std::collections::{BTreeMap, BTreeSet};
use wainwright_analysis::result::{Assessment, ConsumerResult, Run, Side, WireResult};
use wainwright_drawing::{Block, BlockKind, Diagram, End, Link, Pole, Terminal};
use wainwright_model::{Item, Kind, Spec};
use wainwright_units::{Quantity, System};

/// What the diagram shows.
#[derive(Debug, Clone, Copy)]
pub struct Shown<'a> {
    /// The project and what is wrong with it.
    pub study: &'a Study,
    /// The assessment shown; it may have one more state than the study's.
    pub assessment: &'a Assessment,
    /// Index of the state, when any was solved.
    pub state: Option<usize>,
    /// What colours mean.
    pub colour: Colour,
    /// Units of all texts.
    pub units: System,
}

/// The whole wiring.
pub fn diagram(shown: &Shown<'_>) -> Diagram {
    let tones = Tones::of(shown);
    let ends = used_terminals(shown.assessment);
    let items = shown.study.project.items.iter();
    let items = items.filter(|(_, item)| item.spec.kind().is_wired());
    let blocks = items.map(|(id, item)| block(shown, &tones, &ends, id.as_str(), item));
    let wires = shown.assessment.wires.iter();
    Diagram {
        blocks: blocks.collect(),
        links: wires.map(|wire| link(shown, &tones, wire)).collect(),
    }
}

fn used_terminals(assessment: &Assessment) -> BTreeMap<&str, BTreeSet<&str>> {
    let mut used: BTreeMap<&str, BTreeSet<&str>> = BTreeMap::new();
    for (item, terminal) in assessment
        .wires
        .iter()
        .flat_map(|wire| [&wire.from, &wire.to])
    {
        used.entry(item.as_str()).or_default().insert(terminal);
    }
    used
}

fn block(
    shown: &Shown<'_>,
    tones: &Tones<'_>,
    ends: &BTreeMap<&str, BTreeSet<&str>>,
    id: &str,
    item: &Item,
) -> Block {
    let gear = shown
        .assessment
        .consumers
        .iter()
        .find(|gear| gear.item == *id);
    let there = gear.and_then(|gear| live_fact(shown, gear));
    let label = item.label.as_ref().map_or(id, |label| label.value.as_str());
    let used = ends.get(id);
    let is_used = |name: &str| used.is_some_and(|used| used.contains(name));
    let mut names = item.spec.terminals();
    if item.spec.ways().is_none() && names.len() > 4 {
        // Nobody said how many ways it has: only those in use are known.
        names.retain(|name| is_used(name));
    }
    Block {
        id: id.to_owned(),
        title: label.to_owned(),
        lines: facts::facts(&item.spec).into_iter().chain(there).collect(),
        kind: kind(item.spec.kind()),
        terminals: names
            .iter()
            .map(|name| terminal(shown, id, item, name))
            .collect(),
        state: tones.item(id, gear),
        badge: tones.badge(id),
    }
}

/// What a piece of gear has and takes in the state shown.
fn live_fact(shown: &Shown<'_>, gear: &ConsumerResult) -> Option<String> {
    let there = gear.states.get(shown.state?)?;
    let volts = there.volts?;
    let volts = volts.show(shown.units);
    Some(if there.dropped_out {
        format!("{volts}: too low")
    } else {
        format!("{volts} · {}", there.amps.show(shown.units))
    })
}

fn terminal(shown: &Shown<'_>, id: &str, item: &Item, name: &str) -> Terminal {
    let node = shown.assessment.node_of(id, name);
    let side = node
        .and_then(|node| shown.assessment.nodes.get(node))
        .map(|node| node.side);
    let plain = matches!(name, "+" | "-" | "in" | "out") && item.spec.kind() != Kind::FuseBlock;
    Terminal {
        id: name.to_owned(),
        label: if plain {
            String::new()
        } else {
            name.to_owned()
        },
        pole: match (name.chars().last(), side) {
            (Some('+'), _) | (_, Some(Side::Plus)) => Pole::Plus,
            (Some('-'), _) | (_, Some(Side::Minus)) => Pole::Minus,
            _ => Pole::Neutral,
        },
        note: way_fuse(&item.spec, name),
    }
}

/// Rating of the fuse behind a way, as typed.
fn way_fuse(spec: &Spec, terminal: &str) -> Option<String> {
    let (fuses, way) = match spec {
        Spec::FuseBlock(block) => (block.fuses.as_ref()?, terminal),
        Spec::SwitchBank(bank) => (bank.fuses.as_ref()?, terminal.strip_prefix("out")?),
        _ => return None,
    };
    let way: usize = way.parse().ok()?;
    let rating = (*fuses.value.get(way.checked_sub(1)?)?)?;
    Some(rating.show(System::Us))
}

fn link(shown: &Shown<'_>, tones: &Tones<'_>, wire: &WireResult) -> Link {
    let there = shown.state.and_then(|state| wire.states.get(state));
    let label = format!(
        "{} · {}",
        wire.size.value,
        wire.length.value.show(shown.units)
    );
    Link {
        id: wire.id.to_string(),
        from: End::new(wire.from.0.as_str(), wire.from.1.as_str()),
        to: End::new(wire.to.0.as_str(), wire.to.1.as_str()),
        pole: match wire.side {
            Side::Plus => Pole::Plus,
            Side::Minus => Pole::Minus,
            Side::Both | Side::Neither => Pole::Neutral,
        },
        label,
        value: there.map(|there| match shown.colour {
            Colour::Temperature => there.temperature.show(shown.units),
            Colour::Drop => there.drop.abs().show(shown.units),
            Colour::Findings | Colour::Loading => there.amps.abs().show(shown.units),
        }),
        tone: tones.wire(wire),
        thickness: thickness(wire.metal.square_millimetres()),
        dashed: false,
    }
}

/// Thickness class by metal cross-section [mm²].
pub fn thickness(metal_mm2: f64) -> u8 {
    let steps = [1.6, 4.0, 9.0, 20.0, 40.0];
    steps.iter().filter(|step| metal_mm2 > **step).count() as u8
}

/// Word for where a conductor runs, for people.
pub fn run_words(run: Run) -> &'static str {
    match run {
        Run::Open => "in the open",
        Run::Bundle => "in a bundle",
        Run::Foam => "inside foam",
        Run::Cavity => "in a hot cavity",
        Run::Conduit => "in conduit",
    }
}

/// The picture of a kind of item.
pub fn kind(kind: Kind) -> BlockKind {
    match kind {
        Kind::Battery => BlockKind::Battery,
        Kind::SolarModule => BlockKind::SolarModule,
        Kind::SolarController => BlockKind::Controller,
        Kind::ShoreCharger | Kind::DcdcCharger => BlockKind::Charger,
        Kind::VehicleSupply => BlockKind::Supply,
        Kind::Inverter => BlockKind::Inverter,
        Kind::Fuse => BlockKind::Fuse,
        Kind::Breaker => BlockKind::Breaker,
        Kind::FuseBlock => BlockKind::FuseBlock,
        Kind::BusBar => BlockKind::BusBar,
        Kind::Switch => BlockKind::Switch,
        Kind::SwitchBank => BlockKind::SwitchBank,
        Kind::Shunt => BlockKind::Shunt,
        Kind::Outlet => BlockKind::Outlet,
        // The last four never come here: nothing is wired to them.
        Kind::Load | Kind::Unknown | Kind::Tank | Kind::Furniture | Kind::Cargo | Kind::Person => {
            BlockKind::Load
        }
        Kind::Frame => BlockKind::Frame,
        Kind::Splice => BlockKind::Splice,
    }
}
