//! Draws a realistic camper as a stand-alone SVG on standard output.
//! `cargo run -p wainwright-drawing --example sample > sample.svg`

use wainwright_drawing::{
    Block, BlockKind, Diagram, End, Link, Pole, Style, Terminal, Tone, layout, svg,
};

fn main() {
    println!("{}", svg(&layout(&camper()), &Style::default()));
}

/// Adds blocks and links with few words.
#[derive(Default)]
struct Sheet {
    diagram: Diagram,
}

impl Sheet {
    fn block(&mut self, kind: BlockKind, id: &str, title: &str, line: &str, terminals: &[&str]) {
        let terminal = |text: &&str| {
            let (id, note) = match text.split_once(' ') {
                Some((id, note)) => (id, Some(note.to_owned())),
                None => (*text, None),
            };
            Terminal {
                id: id.into(),
                label: match id {
                    "+" | "-" | "in" | "out" if kind != BlockKind::FuseBlock => String::new(),
                    _ => id.into(),
                },
                pole: if id.ends_with('-') {
                    Pole::Minus
                } else {
                    Pole::Plus
                },
                note,
            }
        };
        self.diagram.blocks.push(Block {
            id: id.into(),
            title: title.into(),
            lines: line
                .split('|')
                .filter(|l| !l.is_empty())
                .map(str::to_owned)
                .collect(),
            kind,
            terminals: terminals.iter().map(terminal).collect(),
            state: Tone::Calm,
            badge: None,
        });
    }

    fn minus(&mut self) {
        if let Some(block) = self.diagram.blocks.last_mut() {
            block
                .terminals
                .iter_mut()
                .for_each(|t| t.pole = Pole::Minus);
        }
    }

    fn link(&mut self, from: &str, to: &str, label: &str, amps: f64, thickness: u8) {
        let end = |text: &str| {
            let (block, terminal) = text.split_once('.').unwrap_or((text, ""));
            End::new(block, terminal)
        };
        let (from, to) = (end(from), end(to));
        let minus_block = |id: &str| id.starts_with("neg") || id == "shunt";
        let minus = from.terminal.ends_with('-')
            || to.terminal.ends_with('-')
            || minus_block(&from.block)
            || minus_block(&to.block);
        self.diagram.links.push(Link {
            id: format!("w{}", self.diagram.links.len() + 1),
            from,
            to,
            pole: if minus { Pole::Minus } else { Pole::Plus },
            label: label.into(),
            value: (amps > 0.0).then(|| format!("{amps:.1} A")),
            tone: Tone::Calm,
            thickness,
            dashed: false,
        });
    }
}

fn camper() -> Diagram {
    use BlockKind::*;
    let mut s = Sheet::default();
    s.block(
        Battery,
        "bat",
        "House battery",
        "280 Ah LFP|12.8 V",
        &["+", "-"],
    );
    s.block(Fuse, "main", "Main fuse", "Class T · 250 A", &["in", "out"]);
    s.block(Switch, "cut", "Battery switch", "300 A", &["in", "out"]);
    let ways: Vec<String> = (1..=8).map(|n| n.to_string()).collect();
    let ways: Vec<&str> = ways.iter().map(String::as_str).collect();
    s.block(BusBar, "pos", "Positive bus", "250 A", &ways);
    s.block(Fuse, "invf", "Inverter fuse", "250 A", &["in", "out"]);
    s.block(Inverter, "inv", "Inverter", "2000 W", &["+", "-"]);
    s.block(Fuse, "fbf", "Fuse block feed", "80 A", &["in", "out"]);
    let ratings = [20, 10, 15, 10, 15, 10, 5, 10, 15, 20, 7, 5];
    let mut fuses = vec!["in".to_owned()];
    fuses.extend(
        ratings
            .iter()
            .enumerate()
            .map(|(i, amps)| format!("{} {amps} A", i + 1)),
    );
    let fuses: Vec<&str> = fuses.iter().map(String::as_str).collect();
    s.block(FuseBlock, "fb", "Fuse block", "12 ways · 100 A", &fuses);
    s.block(
        SwitchBank,
        "bank",
        "Switch bank",
        "20 A each",
        &["in1", "out1", "in2", "out2", "in3", "out3", "in4", "out4"],
    );
    s.block(SolarModule, "pv1", "Front module", "200 W", &["+", "-"]);
    s.block(SolarModule, "pv2", "Rear module", "200 W", &["+", "-"]);
    s.block(
        Controller,
        "mppt",
        "Solar controller",
        "MPPT · 30 A",
        &["pv+", "pv-", "out+", "out-"],
    );
    s.block(Breaker, "pvb", "Solar breaker", "40 A", &["in", "out"]);
    s.block(Charger, "shore", "Shore charger", "40 A", &["+", "-"]);
    s.block(Supply, "tow", "Tow vehicle", "13.8 V", &["+", "-"]);
    s.block(
        Charger,
        "dcdc",
        "DC-DC charger",
        "20 A",
        &["in+", "in-", "out+", "out-"],
    );
    s.block(BusBar, "neg", "Negative bus", "250 A", &[]);
    s.minus();
    s.block(Shunt, "shunt", "Shunt", "500 A / 50 mV", &["in", "out"]);
    s.minus();
    s.link("bat.+", "main.in", "2/0 AWG · 1 ft", 96.0, 5);
    s.link("main.out", "cut.in", "2/0 AWG · 2 ft", 96.0, 5);
    s.link("cut.out", "pos.1", "2/0 AWG · 1 ft", 96.0, 5);
    s.link("pos.2", "invf.in", "2/0 AWG · 1 ft", 88.0, 5);
    s.link("invf.out", "inv.+", "2/0 AWG · 4 ft", 88.0, 5);
    s.link("pos.3", "fbf.in", "6 AWG · 1 ft", 31.0, 3);
    s.link("fbf.out", "fb.in", "6 AWG · 3 ft", 31.0, 3);
    s.link("mppt.out+", "pvb.in", "8 AWG · 3 ft", 14.0, 2);
    s.link("pvb.out", "pos.4", "8 AWG · 2 ft", 14.0, 2);
    s.link("shore.+", "pos.5", "6 AWG · 5 ft", 0.0, 3);
    s.link("tow.+", "dcdc.in+", "8 AWG · 24 ft", 0.0, 2);
    s.link("dcdc.out+", "pos.6", "8 AWG · 4 ft", 0.0, 2);
    s.link("pv1.+", "mppt.pv+", "10 AWG · 18 ft", 8.3, 1);
    s.link("pv1.-", "mppt.pv-", "10 AWG · 18 ft", 8.3, 1);
    s.link("pv2.+", "mppt.pv+", "10 AWG · 26 ft", 8.1, 1);
    s.link("pv2.-", "mppt.pv-", "10 AWG · 26 ft", 8.1, 1);
    for (id, part) in [
        ("mppt.out-", 2),
        ("shore.-", 3),
        ("dcdc.out-", 2),
        ("inv.-", 5),
    ] {
        s.link(id, &format!("neg.{id}"), "8 AWG · 6 ft", 14.0, part);
    }
    s.link("tow.-", "dcdc.in-", "8 AWG · 24 ft", 0.0, 2);
    s.link("bat.-", "shunt.in", "2/0 AWG · 1 ft", 96.0, 5);
    s.link("shunt.out", "neg.main", "2/0 AWG · 3 ft", 96.0, 5);
    loads(&mut s);
    mark(&mut s.diagram);
    s.diagram
}

fn loads(s: &mut Sheet) {
    use BlockKind::*;
    let direct = [
        ("fridge", "Fridge", "45 W", 4.2, "2"),
        ("heater", "Diesel heater", "120 W", 8.3, "3"),
        ("fan", "Roof fan", "36 W", 2.8, "4"),
        ("usb1", "USB outlet, bed", "3 A", 3.0, "5"),
        ("usb2", "USB outlet, desk", "3 A", 3.0, "6"),
        ("gas", "Gas alarm", "2 W", 0.2, "7"),
        ("radio", "Radio", "40 W", 2.9, "8"),
        ("tank", "Tank gauge", "1 W", 0.1, "12"),
    ];
    for (id, title, fact, amps, way) in direct {
        let kind = if title.contains("outlet") {
            Outlet
        } else {
            Load
        };
        s.block(kind, id, title, fact, &["+", "-"]);
        s.link(
            &format!("fb.{way}"),
            &format!("{id}.+"),
            "14 AWG · 12 ft",
            amps,
            0,
        );
        s.link(
            &format!("{id}.-"),
            &format!("neg.{id}"),
            "14 AWG · 12 ft",
            amps,
            0,
        );
    }
    s.link("fb.1", "bank.in1", "12 AWG · 6 ft", 7.9, 1);
    for way in 1..4 {
        let (from, to) = (format!("bank.in{way}"), format!("bank.in{}", way + 1));
        s.link(&from, &to, "14 AWG · 3 in", 5.0, 0);
    }
    let switched = [
        ("ceil", "Ceiling lights", "24 W", 1.9, "1"),
        ("strip", "Galley strip", "12 W", 1.0, "2"),
        ("pump", "Water pump", "60 W", 4.7, "3"),
        ("porch", "Porch light", "6 W", 0.5, "4"),
    ];
    for (id, title, fact, amps, way) in switched {
        s.block(Load, id, title, fact, &["+", "-"]);
        s.link(
            &format!("bank.out{way}"),
            &format!("{id}.+"),
            "16 AWG · 15 ft",
            amps,
            0,
        );
        s.link(
            &format!("{id}.-"),
            &format!("neg.{id}"),
            "16 AWG · 15 ft",
            amps,
            0,
        );
    }
}

/// Some findings, to see how they look.
fn mark(diagram: &mut Diagram) {
    for block in &mut diagram.blocks {
        match block.id.as_str() {
            "heater" => block.state = Tone::Watch,
            "bank" => {
                block.state = Tone::Bad;
                block.badge = Some("2".into());
            }
            "porch" => block.state = Tone::Off,
            _ => {}
        }
    }
    for link in &mut diagram.links {
        match (link.from.block.as_str(), link.to.block.as_str()) {
            ("fb", "bank") => link.tone = Tone::Bad,
            ("fb", "heater") => link.tone = Tone::Watch,
            ("bank", "porch") | ("porch", _) => link.tone = Tone::Off,
            _ => {}
        }
    }
}
