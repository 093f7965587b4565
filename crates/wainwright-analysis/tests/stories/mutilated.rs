//! Whatever is done to a project file, it is assessed: lines taken out, put
//! elsewhere, doubled, values swapped for others and for nonsense.

use wainwright_analysis::result::Assessment;
use wainwright_analysis::{assess, catalogue, netlist, voltage_path};
use wainwright_model::parse;

const DEMOS: [&str; 2] = [
    include_str!("../../../../examples/dark-sky.toml"),
    include_str!("../../../../examples/dark-sky-metric.toml"),
];
const ROUNDS: usize = 250;
/// Right-hand sides that something may hold by mistake.
const ODD: [&str; 14] = [
    "\"0 A\"",
    "\"1e-9 ohm\"",
    "\"1000 m\"",
    "\"0.001 mm\"",
    "\"1e6 W\"",
    "\"-40 °C\"",
    "\"200 °C\"",
    "\"\"",
    "[]",
    "true",
    "99",
    "\"bat.+\"",
    "\"22 AWG\"",
    "\"99 %\"",
];

struct Dice(u64);

impl Dice {
    fn roll(&mut self, most: usize) -> usize {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        ((self.0 >> 33) as usize) % most.max(1)
    }
}

#[test]
fn mutilated_projects_are_still_assessed() {
    let mut dice = Dice(0x5eed);
    for round in 0..ROUNDS {
        let lines: Vec<&str> = DEMOS[round % 2].lines().collect();
        let mut text: Vec<String> = lines.iter().map(|line| (*line).to_owned()).collect();
        for _ in 0..=dice.roll(12) {
            mutilate(&mut text, &lines, &mut dice);
        }
        let project = parse(&text.join("\n"), catalogue()).project;
        let found = assess(&project);
        check(&found);
        let state = dice.roll(found.states.len());
        if let Some(gear) = found.consumers.get(dice.roll(found.consumers.len())) {
            voltage_path(&project, &found, gear.item.as_str(), state);
        }
        netlist(&project, state);
    }
}

fn mutilate(text: &mut Vec<String>, lines: &[&str], dice: &mut Dice) {
    let at = dice.roll(text.len());
    let other = lines[dice.roll(lines.len())].to_owned();
    match dice.roll(6) {
        0 => drop(text.remove(at)),
        1 => text.insert(at, other),
        2 => text[at] = other,
        3 => text.truncate(text.len() - dice.roll(text.len() / 4)),
        _ => {
            if let (Some((key, _)), value) = (text[at].split_once('='), dice.roll(ODD.len() * 2)) {
                let value = match ODD.get(value) {
                    Some(odd) => (*odd).to_owned(),
                    None => other
                        .split_once('=')
                        .map_or(other.clone(), |(_, v)| v.to_owned()),
                };
                text[at] = format!("{key}={value}");
            }
        }
    }
}

/// Every number is one, and every index points at something.
fn check(found: &Assessment) {
    for solved in &found.states {
        let volts = solved.node_volts.iter().flatten();
        assert!(volts.map(|v| v.volts()).all(f64::is_finite));
    }
    for wire in &found.wires {
        let states = wire.states.iter();
        assert!(
            states
                .clone()
                .all(|s| s.temperature.celsius().is_finite() && s.drop.volts().is_finite())
        );
        assert!(wire.together.is_none_or(|amps| amps.amperes() >= 0.0));
        let devices = wire.guards.iter().filter_map(|guard| guard.device);
        assert!(devices.max().is_none_or(|most| most < found.devices.len()));
    }
    for end in found.faults.iter().flat_map(|f| [&f.largest, &f.smallest]) {
        assert!(end.amps.amperes().is_finite());
        let devices = end
            .openings
            .iter()
            .map(|opening| opening.device)
            .chain(end.should_open);
        assert!(devices.max().is_none_or(|most| most < found.devices.len()));
    }
}
