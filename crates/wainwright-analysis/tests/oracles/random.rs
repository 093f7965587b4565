//! Random small projects as text, together with the graph they describe. The
//! graph is kept by the generator and never read back from the code under test.

use std::collections::{BTreeMap, BTreeSet};
use std::fmt::Write;
use wainwright_analysis::catalogue;
use wainwright_model::Project;

/// A stream of numbers from a seed.
pub struct Dice(u64);

impl Dice {
    pub fn new(seed: u64) -> Self {
        let mut dice = Self(seed.wrapping_mul(0x9e37_79b9_7f4a_7c15) ^ 0x5eed);
        dice.roll(2);
        dice.roll(2);
        dice
    }

    /// A number below `most`.
    pub fn roll(&mut self, most: usize) -> usize {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1_442_695_040_888_963_407);
        ((self.0 >> 33) as usize) % most.max(1)
    }

    pub fn pick<'a, T>(&mut self, from: &'a [T]) -> &'a T {
        &from[self.roll(from.len())]
    }

    /// One in so many.
    pub fn chance(&mut self, of: usize) -> bool {
        self.roll(of) == 0
    }
}

/// What joins two points.
#[derive(Debug, Clone, PartialEq)]
pub enum Link {
    /// A wire with its length [m].
    Wire(String, f64),
    /// A fuse or breaker with its rating [A].
    Device(String, f64),
    /// A closed contact or joint.
    Other,
}

/// Gear between a plus and a minus point.
#[derive(Debug, Clone)]
pub struct Gear {
    pub item: String,
    pub plus: usize,
    pub minus: usize,
    /// What a source gives for long [A]; infinite for a battery.
    pub gives: Option<f64>,
}

/// A project and the graph it describes.
pub struct Made {
    pub text: String,
    pub links: Vec<(usize, usize, Link)>,
    pub gear: Vec<Gear>,
    pub points: usize,
}

impl Made {
    pub fn project(&self) -> Project {
        let parsed = wainwright_model::parse(&self.text, catalogue());
        assert_eq!(parsed.problems, vec![], "{}", self.text);
        parsed.project
    }

    /// Points reached from some, without the links that `cut` names.
    pub fn reach(&self, starts: &[usize], cut: &dyn Fn(&Link) -> bool) -> BTreeSet<usize> {
        let mut seen: BTreeSet<usize> = starts.iter().copied().collect();
        loop {
            let before = seen.len();
            for (a, b, link) in &self.links {
                if !cut(link) && (seen.contains(a) || seen.contains(b)) {
                    seen.extend([*a, *b]);
                }
            }
            if seen.len() == before {
                return seen;
            }
        }
    }

    pub fn wires(&self) -> impl Iterator<Item = (usize, usize, &str, f64)> {
        self.links.iter().filter_map(|(a, b, link)| match link {
            Link::Wire(id, metres) => Some((*a, *b, id.as_str(), *metres)),
            _ => None,
        })
    }

    pub fn devices(&self) -> Vec<(&str, f64)> {
        let devices = self.links.iter().filter_map(|(_, _, link)| match link {
            Link::Device(item, amps) => Some((item.as_str(), *amps)),
            _ => None,
        });
        devices.collect()
    }
}

/// Writes a project while keeping its graph.
struct Pen {
    dice: Dice,
    text: String,
    points: BTreeMap<String, usize>,
    links: Vec<(usize, usize, Link)>,
    gear: Vec<Gear>,
    count: usize,
}

impl Pen {
    /// The point of a terminal; all terminals of a bar are one.
    fn point(&mut self, terminal: &str) -> usize {
        let name = match terminal.split_once('.') {
            Some((bar, _)) if bar.starts_with("bar") => bar,
            _ => terminal,
        };
        let next = self.points.len();
        *self.points.entry(name.to_owned()).or_insert(next)
    }

    fn number(&mut self) -> usize {
        self.count += 1;
        self.count
    }

    fn wire(&mut self, from: &str, to: &str) {
        let id = format!("w{}", self.number());
        let metres = 0.1 * (1 + self.dice.roll(60)) as f64;
        let size = *self.dice.pick(&["14 AWG", "10 AWG", "4 AWG", "6 mm2"]);
        let (from, to) = if self.dice.chance(2) {
            (to, from)
        } else {
            (from, to)
        };
        let _ = write!(
            self.text,
            "[wire.{id}]\nfrom = \"{from}\"\nto = \"{to}\"\nsize = \"{size}\"\n\
             insulation = \"gxl\"\nlength = \"{metres:.1} m\"\n"
        );
        let ends = (self.point(from), self.point(to));
        self.links.push((ends.0, ends.1, Link::Wire(id, metres)));
    }

    /// Joins two terminals by a wire, or through a device, switch or splice.
    fn join(&mut self, from: &str, to: &str) {
        let through = self.dice.roll(7);
        if through < 3 {
            return self.wire(from, to);
        }
        let id = format!("x{}", self.number());
        let rating = *self.dice.pick(&[5.0, 10.0, 15.0, 20.0, 30.0, 40.0]);
        let (ends, link) = match through {
            3 | 4 => {
                let _ = write!(
                    self.text,
                    "[item.{id}]\nkind = \"fuse\"\nfamily = \"blade\"\nrating = \"{rating} A\"\n"
                );
                (["in", "out"], Link::Device(id.clone(), rating))
            }
            5 => {
                let _ = write!(
                    self.text,
                    "[item.{id}]\nkind = \"breaker\"\nrating = \"{rating} A\"\n"
                );
                (["in", "out"], Link::Device(id.clone(), rating))
            }
            _ => {
                let kind = *self.dice.pick(&["switch", "shunt"]);
                let _ = write!(self.text, "[item.{id}]\nkind = \"{kind}\"\n");
                (["in", "out"], Link::Other)
            }
        };
        let (near, far) = (format!("{id}.{}", ends[0]), format!("{id}.{}", ends[1]));
        self.wire(from, &near);
        self.wire(&far, to);
        let ends = (self.point(&near), self.point(&far));
        self.links.push((ends.0, ends.1, link));
    }

    /// Bars joined to a tree, with a few loops.
    fn bars(&mut self, side: &str, count: usize, loops: usize) -> Vec<String> {
        let bars: Vec<String> = (0..count).map(|n| format!("bar-{side}{n}")).collect();
        for bar in &bars {
            let _ = write!(self.text, "[item.{bar}]\nkind = \"bus-bar\"\n");
            self.point(&format!("{bar}.1"));
        }
        for n in 1..count {
            let other = self.dice.roll(n);
            self.join_bars(side, &bars[n], &bars[other]);
        }
        for _ in 0..loops {
            let (a, b) = (self.dice.roll(count), self.dice.roll(count));
            if a != b {
                self.join_bars(side, &bars[a], &bars[b]);
            }
        }
        bars
    }

    fn join_bars(&mut self, side: &str, from: &str, to: &str) {
        let (from, to) = (format!("{from}.2"), format!("{to}.3"));
        if side == "p" {
            self.join(&from, &to);
        } else {
            self.wire(&from, &to);
        }
    }

    fn gear(&mut self, id: &str, fields: &str, gives: Option<f64>, bars: [&[String]; 2]) {
        let _ = write!(self.text, "[item.{id}]\n{fields}\n");
        let (plus, minus) = (format!("{id}.+"), format!("{id}.-"));
        let on = [0, 1].map(|side| self.dice.pick(bars[side]).clone());
        self.join(&plus, &format!("{}.4", on[0]));
        self.wire(&minus, &format!("{}.5", on[1]));
        let gear = Gear {
            item: id.to_owned(),
            plus: self.point(&plus),
            minus: self.point(&minus),
            gives,
        };
        self.gear.push(gear);
    }
}

/// A random project: bars on both sides, batteries, chargers and loads.
pub fn make(seed: u64) -> Made {
    let mut pen = Pen {
        dice: Dice::new(seed),
        text: "wainwright = 1\n[project]\nregion = \"US\"\n".to_owned(),
        points: BTreeMap::new(),
        links: Vec::new(),
        gear: Vec::new(),
        count: 0,
    };
    let (plus, minus) = (1 + pen.dice.roll(4), 1 + pen.dice.roll(3));
    let loops = pen.dice.roll(3);
    let plus = pen.bars("p", plus, loops);
    let loops = pen.dice.roll(2);
    let minus = pen.bars("m", minus, loops);
    let bars = [plus.as_slice(), minus.as_slice()];
    for n in 0..1 + pen.dice.roll(2) {
        let fields = "kind = \"battery\"\nchemistry = \"lfp\"\ncells = 4\ncapacity = \"100 Ah\"";
        pen.gear(&format!("battery-{n}"), fields, Some(f64::INFINITY), bars);
    }
    for n in 0..pen.dice.roll(2) {
        let amps = *pen.dice.pick(&[10.0, 25.0]);
        let fields = format!(
            "kind = \"shore-charger\"\noutput_current = \"{amps} A\"\ncharge_voltage = \"14.2 V\""
        );
        pen.gear(&format!("charger-{n}"), &fields, Some(amps), bars);
    }
    for n in 0..1 + pen.dice.roll(3) {
        let demand = *pen.dice.pick(&[
            "current = \"2 A\"",
            "power = \"30 W\"",
            "resistance = \"6 ohm\"",
        ]);
        pen.gear(
            &format!("load-{n}"),
            &format!("kind = \"load\"\n{demand}"),
            None,
            bars,
        );
    }
    Made {
        text: pen.text,
        links: pen.links,
        gear: pen.gear,
        points: pen.points.len(),
    }
}
