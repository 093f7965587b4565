//! A camper's single-line overview, its fuse legend, and seeded nonsense.
#![allow(dead_code)]

use super::Dice;
use wainwright_drawing::legend::{FuseCard, Way};
use wainwright_drawing::sheet::{Fold, LabelGrid, Paper, Ratio, Sheet, WireLabel};
use wainwright_drawing::single_line::{Branch, Feed, Item, SingleLine};
use wainwright_drawing::{BlockKind, Tone};

pub fn item(kind: BlockKind, id: &str, title: &str, note: &str) -> Item {
    Item {
        id: id.into(),
        kind,
        title: title.into(),
        note: note.into(),
        words: format!("{title}, {note}"),
        tone: Tone::Calm,
        selected: false,
    }
}

fn circuit(id: &str, amps: &str, wire: &str, title: &str, note: &str) -> Branch {
    Branch {
        through: vec![item(BlockKind::Fuse, &format!("{id}-fuse"), "Fuse", amps)],
        wire: wire.into(),
        end: item(BlockKind::Load, id, title, note),
        branches: Vec::new(),
    }
}

pub fn overview() -> SingleLine {
    let feed = |kind: BlockKind, id: &str, title: &str, note: &str, wire: &str, amps: &str| Feed {
        source: item(kind, id, title, note),
        wire: wire.into(),
        through: vec![item(
            BlockKind::Breaker,
            &format!("{id}-brk"),
            "Breaker",
            amps,
        )],
    };
    let mut lights = circuit("lights", "5 A", "16 AWG · 31 ft", "Ceiling lights", "1.8 A");
    lights.end.tone = Tone::Bad;
    let mut fan = circuit(
        "fan",
        "5 A",
        "16 AWG · 14 ft",
        "Roof fan",
        "2.3 A at full speed",
    );
    fan.end.tone = Tone::Watch;
    let mut heater = circuit(
        "heater",
        "15 A",
        "12 AWG · 11 ft",
        "Air heater",
        "10 A while it starts",
    );
    heater.end.selected = true;
    let block = Branch {
        through: vec![item(BlockKind::Fuse, "fb-fuse", "Fuse", "60 A")],
        wire: "6 AWG · 3 ft".into(),
        end: item(BlockKind::FuseBlock, "fb", "Fuse block", "12 ways"),
        branches: vec![
            circuit("pump", "10 A", "14 AWG · 9 ft", "Water pump", "5 A"),
            lights,
            fan,
            circuit("fridge", "15 A", "10 AWG · 17 ft", "Fridge", "4.2 A"),
            heater,
            circuit(
                "usb",
                "10 A",
                "14 AWG · 22 ft",
                "USB outlets beside the bed",
                "up to 6 A",
            ),
        ],
    };
    let mut inverter = circuit("inv", "150 A", "2/0 AWG · 4 ft", "Inverter", "1000 W");
    inverter.end.kind = BlockKind::Inverter;
    SingleLine {
        sources: vec![
            feed(
                BlockKind::Controller,
                "mppt",
                "Solar controller",
                "30 A",
                "10 AWG · 5 ft",
                "40 A",
            ),
            feed(
                BlockKind::Charger,
                "dcdc",
                "Charger from the vehicle",
                "20 A",
                "8 AWG · 6 ft",
                "30 A",
            ),
            Feed {
                source: item(BlockKind::Battery, "bat", "House battery", "200 Ah LFP"),
                wire: "2/0 AWG · 2 ft".into(),
                through: vec![item(
                    BlockKind::Fuse,
                    "bat-fuse",
                    "Main fuse",
                    "200 A class T",
                )],
            },
        ],
        main: vec![
            item(BlockKind::Switch, "sw", "Main switch", "275 A"),
            item(BlockKind::Shunt, "sh", "Shunt", "500 A"),
        ],
        bus: "Plus bus bar".into(),
        branches: vec![inverter, block],
    }
}

const NAMES: &[&str] = &[
    "Pump",
    "A rather long name of some outlet beside the bed",
    "Lamp",
    "Unbreakablewordthatislonger",
    "",
];

fn any_item(dice: &mut Dice, id: usize) -> Item {
    let kind = BlockKind::ALL[dice.below(BlockKind::ALL.len())];
    let mut item = item(
        kind,
        &format!("i{id}"),
        NAMES[dice.below(NAMES.len())],
        ["5 A", "", "150 A slow and heavy"][dice.below(3)],
    );
    item.tone = [Tone::Calm, Tone::Bad, Tone::Watch, Tone::Off][dice.below(4)];
    item
}

fn any_branch(dice: &mut Dice, depth: usize) -> Branch {
    let inner = if depth < 3 && dice.chance(25) {
        dice.below(5)
    } else {
        0
    };
    Branch {
        through: (0..dice.below(3)).map(|id| any_item(dice, id)).collect(),
        wire: [
            "",
            "14 AWG · 9 ft",
            "2/0 AWG welding cable · 14 ft in conduit",
            "10 AWG",
        ][dice.below(4)]
        .into(),
        end: any_item(dice, 9),
        branches: (0..inner).map(|_| any_branch(dice, depth + 1)).collect(),
    }
}

pub fn senseless(seed: u64) -> SingleLine {
    let mut dice = Dice::new(seed);
    let dice = &mut dice;
    let feeds = dice.below(5);
    let main = dice.below(4);
    let branches = dice.below(9);
    SingleLine {
        sources: (0..feeds)
            .map(|id| Feed {
                source: any_item(dice, id),
                wire: "8 AWG · 6 ft".into(),
                through: (0..dice.below(3)).map(|id| any_item(dice, id)).collect(),
            })
            .collect(),
        main: (0..main).map(|id| any_item(dice, id)).collect(),
        bus: NAMES[dice.below(NAMES.len())].into(),
        branches: (0..branches).map(|_| any_branch(dice, 0)).collect(),
    }
}

pub fn card() -> FuseCard {
    let ways = [
        ("1", "10 A", "red", "Water pump", "14 AWG"),
        ("2", "5 A", "tan", "Ceiling lights", "16 AWG"),
        ("3", "5 A", "tan", "Roof fan", "16 AWG"),
        ("4", "15 A", "light blue", "Fridge", "10 AWG"),
        ("5", "15 A", "light blue", "Air heater", "12 AWG"),
        ("6", "10 A", "red", "USB outlets beside the bed", "14 AWG"),
        ("7", "20 A", "yellow", "Rear outlet", "10 AWG"),
        ("8", "30 A", "light green", "Awning", "8 AWG"),
        ("9", "7.5 A", "brown", "Radio", "16 AWG"),
        ("10", "25 A", "natural", "Step", "10 AWG"),
        ("11", "3 A", "violet", "Monitor", "18 AWG"),
        ("12", "", "", "spare", ""),
    ];
    let way = |(number, rating, colour, circuit, detail): (&str, &str, &str, &str, &str)| Way {
        id: format!("way{number}"),
        number: number.into(),
        rating: rating.into(),
        colour: colour.into(),
        circuit: circuit.into(),
        detail: detail.into(),
        words: format!("Way {number}: {circuit}, {rating}"),
        tone: if number == "2" { Tone::Bad } else { Tone::Calm },
        selected: number == "5",
    };
    FuseCard {
        title: "Fuse block".into(),
        subtitle: "front wall, behind the left cabinet door".into(),
        ways: ways.map(way).to_vec(),
        notes: vec!["Put in no larger fuse than printed here. Main switch off before work.".into()],
        ..FuseCard::default()
    }
}

pub fn sheet(paper: Paper, landscape: bool) -> Sheet {
    Sheet {
        paper,
        landscape,
        title: "Floor plan".into(),
        subtitle: "Weekend camper, 14 by 7".into(),
        number_text: "Sheet 1 of 4".into(),
        date_text: "2026-03-14".into(),
        note: "Check measures on the trailer before drilling.".into(),
    }
}

pub fn ratios() -> Vec<Ratio> {
    [
        (12.0, "1 in = 1 ft"),
        (16.0, "3/4 in = 1 ft"),
        (24.0, "1/2 in = 1 ft"),
        (32.0, "3/8 in = 1 ft"),
        (48.0, "1/4 in = 1 ft"),
    ]
    .map(|(real_per_paper, text)| Ratio {
        real_per_paper,
        text: text.into(),
    })
    .to_vec()
}

pub fn grid() -> LabelGrid {
    LabelGrid {
        paper: Paper::Letter,
        landscape: false,
        columns: 4,
        rows: 10,
        cell_width_mm: 45.0,
        cell_height_mm: 24.0,
        left_mm: 15.0,
        top_mm: 15.0,
        gap_across_mm: 2.0,
        gap_down_mm: 1.0,
        used: 3,
        cut_marks: true,
        fold: Fold::Flag,
    }
}

pub fn labels(count: usize) -> Vec<WireLabel> {
    let label = |number: usize| WireLabel {
        name: format!("W{number}"),
        lines: vec![
            format!("fuse block {number} to pump"),
            "14 AWG · 10 A".into(),
        ],
    };
    (1..=count).map(label).collect()
}
