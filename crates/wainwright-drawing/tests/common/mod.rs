//! Seeded diagrams for the tests: radial ones, and ones without any sense.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]
#![allow(dead_code)]

pub mod nonsense;
pub mod overview;
pub mod reader;
pub mod scenes;

use wainwright_drawing::{Block, BlockKind, Diagram, End, Link, Pole, Terminal, Tone};

/// Small generator of even numbers; the same seed gives the same diagram.
pub struct Dice(u64);

impl Dice {
    pub fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1)
    }

    pub fn below(&mut self, limit: usize) -> usize {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        ((self.0 >> 33) as usize) % limit.max(1)
    }

    pub fn chance(&mut self, percent: usize) -> bool {
        self.below(100) < percent
    }
}

pub fn block(kind: BlockKind, id: &str, terminals: &[(&str, Pole)]) -> Block {
    Block {
        id: id.into(),
        title: format!("{} {id}", kind.words()),
        lines: vec![format!("fact of {id}")],
        kind,
        terminals: terminals
            .iter()
            .map(|(id, pole)| Terminal {
                id: (*id).into(),
                label: (*id).into(),
                pole: *pole,
                note: Some("15 A".into()),
            })
            .collect(),
        state: Tone::Calm,
        badge: None,
    }
}

pub fn link(number: usize, from: (&str, &str), to: (&str, &str), pole: Pole) -> Link {
    Link {
        id: format!("w{number}"),
        from: End::new(from.0, from.1),
        to: End::new(to.0, to.1),
        pole,
        label: format!("{} AWG · {number} ft", 2 * (number % 9)),
        value: (!number.is_multiple_of(3)).then(|| format!("{number}.5 A")),
        tone: Tone::Scale(number as f64 / 50.0),
        thickness: (number % 6) as u8,
        dashed: number.is_multiple_of(7),
    }
}

struct Sheet {
    diagram: Diagram,
    dice: Dice,
}

impl Sheet {
    fn add(&mut self, kind: BlockKind, id: &str, terminals: &[(&str, Pole)]) {
        self.diagram.blocks.push(block(kind, id, terminals));
    }

    /// Joins two ends, written `block.terminal`; turned round by chance.
    fn join(&mut self, a: &str, b: &str, pole: Pole) {
        let (mut a, mut b) = (a.split_once('.').unwrap(), b.split_once('.').unwrap());
        if self.dice.chance(30) {
            std::mem::swap(&mut a, &mut b);
        }
        let number = self.diagram.links.len();
        self.diagram.links.push(link(number, a, b, pole));
    }
}

const PAIR: &[(&str, Pole)] = &[("+", Pole::Plus), ("-", Pole::Minus)];
const THROUGH: &[(&str, Pole)] = &[("in", Pole::Plus), ("out", Pole::Plus)];

/// A camper-like diagram: one trunk, a fuse block, loads, and by chance
/// chains, a switch bank, several sources, a loop, a frame return.
pub fn radial(seed: u64, circuits: usize) -> Diagram {
    use Pole::{Minus, Plus};
    let mut s = Sheet {
        diagram: Diagram::default(),
        dice: Dice::new(seed),
    };
    let frame = s.dice.chance(25);
    let batteries = 1 + s.dice.below(3);
    s.add(BlockKind::Fuse, "main", THROUGH);
    s.add(BlockKind::BusBar, "pos", &[]);
    s.add(
        if frame {
            BlockKind::Frame
        } else {
            BlockKind::BusBar
        },
        "neg",
        &[],
    );
    s.add(BlockKind::Shunt, "shunt", &[("in", Minus), ("out", Minus)]);
    for n in 0..batteries {
        s.add(BlockKind::Battery, &format!("bat{n}"), PAIR);
        let (plus, minus) = match n {
            0 => ("main.in".into(), "shunt.in".into()),
            _ => (format!("bat{}.+", n - 1), format!("bat{}.-", n - 1)),
        };
        s.join(&format!("bat{n}.+"), &plus, Plus);
        s.join(&format!("bat{n}.-"), &minus, Minus);
    }
    s.join("main.out", "pos.1", Plus);
    s.join("shunt.out", "neg.0", Minus);
    for n in 0..s.dice.below(3) {
        let (id, breaker) = (format!("pv{n}"), format!("pvb{n}"));
        s.add(BlockKind::SolarModule, &id, PAIR);
        s.add(
            BlockKind::Controller,
            &format!("sc{n}"),
            &[
                ("pv+", Plus),
                ("pv-", Minus),
                ("out+", Plus),
                ("out-", Minus),
            ],
        );
        s.add(BlockKind::Breaker, &breaker, THROUGH);
        s.join(&format!("{id}.+"), &format!("sc{n}.pv+"), Plus);
        s.join(&format!("{id}.-"), &format!("sc{n}.pv-"), Minus);
        s.join(&format!("sc{n}.out+"), &format!("{breaker}.in"), Plus);
        s.join(&format!("{breaker}.out"), &format!("pos.s{n}"), Plus);
        s.join(&format!("sc{n}.out-"), &format!("neg.s{n}"), Minus);
    }
    s.add(
        BlockKind::FuseBlock,
        "fb",
        &[("in", Plus), ("1", Plus), ("2", Plus), ("99", Plus)],
    );
    s.join("pos.fb", "fb.in", Plus);
    let bank = s.dice.chance(60);
    if bank {
        s.add(
            BlockKind::SwitchBank,
            "bank",
            &[("in1", Plus), ("out1", Plus)],
        );
        s.join("fb.b", "bank.in1", Plus);
    }
    for n in 0..circuits {
        let id = format!("load{n}");
        s.add(BlockKind::Load, &id, PAIR);
        let feed = match s.dice.below(10) {
            0 if n > 0 => format!("load{}.+", s.dice.below(n)),
            1 | 2 if bank => {
                s.join(&format!("bank.in{n}"), &format!("bank.in{}", n + 1), Plus);
                format!("bank.out{}", n + 1)
            }
            3 => "pos.direct".into(),
            _ => format!("fb.{n}"),
        };
        s.join(&feed, &format!("{id}.+"), Plus);
        let back = match s.dice.below(8) {
            0 if n > 0 => format!("load{}.-", s.dice.below(n)),
            _ => format!("neg.{n}"),
        };
        s.join(&format!("{id}.-"), &back, Minus);
    }
    if s.dice.chance(30) {
        s.join("fb.99", "pos.loop", Plus);
        s.join("bat0.+", "fb.in", Plus);
    }
    s.diagram
}

/// Any blocks joined anyhow: unknown blocks, unknown terminals, loops, a wire from a terminal to itself.
pub fn senseless(seed: u64, blocks: usize, links: usize) -> Diagram {
    let mut s = Sheet {
        diagram: Diagram::default(),
        dice: Dice::new(seed),
    };
    for n in 0..blocks {
        let kind = BlockKind::ALL[s.dice.below(BlockKind::ALL.len())];
        let names = ["+", "-", "in", "out", "in1", "out1", "2", "pv+"];
        let count = s.dice.below(names.len());
        let terminals: Vec<(&str, Pole)> = names[..count]
            .iter()
            .map(|name| {
                (
                    *name,
                    if s.dice.chance(50) {
                        Pole::Plus
                    } else {
                        Pole::Minus
                    },
                )
            })
            .collect();
        s.add(kind, &format!("b{n}"), &terminals);
    }
    for _ in 0..links {
        let mut end = || {
            let names = ["+", "-", "in", "out", "in1", "out1", "2", "odd"];
            format!(
                "b{}.{}",
                s.dice.below(blocks + 1),
                names[s.dice.below(names.len())]
            )
        };
        let (a, b) = (end(), end());
        let pole = [Pole::Plus, Pole::Minus, Pole::Neutral][s.dice.below(3)];
        s.join(&a, &b, pole);
    }
    s.diagram
}

/// Texts do not lie on each other nor under a leader, and do not leave the sheet.
pub fn clear(name: &str, picture: &wainwright_drawing::Picture) {
    use wainwright_drawing::Rect;
    // Neighbouring lines share an edge; numbers are rounded.
    let inner = |r: &Rect| Rect::new(r.x + 0.01, r.y + 0.01, r.width - 0.02, r.height - 0.02);
    for (index, one) in picture.texts.iter().enumerate() {
        let r = &one.rect;
        let inside =
            r.x >= 0.0 && r.y >= 0.0 && r.right() <= picture.width && r.bottom() <= picture.height;
        assert!(
            inside,
            "{name}: {one:?} leaves {} by {}",
            picture.width, picture.height
        );
        for other in &picture.texts[index + 1..] {
            assert!(
                !inner(r).overlaps(&inner(&other.rect)),
                "{name}: {one:?} on {other:?}"
            );
        }
        for leader in &picture.leaders {
            // By sampling, another way than the drawing itself decides it.
            let [from, to] = leader;
            let steps = ((to.x - from.x).hypot(to.y - from.y) * 4.0).ceil().max(1.0) as usize;
            for step in 0..=steps {
                let share = step as f64 / steps as f64;
                let (x, y) = (
                    from.x + (to.x - from.x) * share,
                    from.y + (to.y - from.y) * share,
                );
                let box_ = inner(r);
                let hit = x > box_.x && x < box_.right() && y > box_.y && y < box_.bottom();
                assert!(!hit, "{name}: leader {leader:?} through {one:?}");
            }
        }
    }
}
