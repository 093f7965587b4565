//! Seeded project texts, sound and broken, for the fuzz tests.
//!
//! Not here: any expectation.

/// A full project text.
pub const FIXTURE: &str = include_str!("../fixtures/v1.toml");

/// A small generator of numbers, the same on every run (xorshift64*, Vigna 2016).
pub struct Dice(u64);

impl Dice {
    /// A generator from a seed.
    pub fn new(seed: u64) -> Self {
        Self(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15) | 1)
    }

    fn next(&mut self) -> u64 {
        self.0 ^= self.0 >> 12;
        self.0 ^= self.0 << 25;
        self.0 ^= self.0 >> 27;
        self.0.wrapping_mul(0x2545_F491_4F6C_DD1D)
    }

    /// A number from 0 to below `limit`.
    pub fn below(&mut self, limit: usize) -> usize {
        ((self.next() >> 32) as usize) % limit.max(1)
    }

    /// One out of a list.
    pub fn pick<T: Copy>(&mut self, list: &[T]) -> T {
        list[self.below(list.len())]
    }
}

const MARKS: &[&str] = &[
    "[",
    "]",
    "[[",
    "]]",
    "{",
    "}",
    "=",
    ".",
    ",",
    "\"",
    "'",
    "\"\"\"",
    "'''",
    "#",
    "\n",
    "\r\n",
    "\r",
    "\\",
    "\\\"",
    " ",
    "\t",
    "\u{feff}",
    "\0",
    "é",
    "Ω",
    "🚐",
    "-",
    "+",
    "0",
    "1e9",
    "true",
    "inf",
    "1979-05-27",
    "item",
    "wire",
    "a",
    "b",
    "kind",
];
const HEADERS: &[&str] = &[
    "[project]",
    "[trailer]",
    "[limits]",
    "[item.a]",
    "[item.b]",
    "[item.\"c d\"]",
    "[wire.w]",
    "[wire.x]",
    "[state.s]",
    "[part.p]",
    "[trunk.t]",
    "[opening.o]",
    "[stock.k]",
    "[weighing.g]",
    "[vehicle]",
    "[towing]",
    "[item]",
    "[[item]]",
    "[item.a.b.c]",
    "[ item . a ]",
    "[wire",
    "[unknown.thing]",
    "[]",
    "[.]",
];
const KEYS: &[&str] = &[
    "wainwright",
    "name",
    "kind",
    "part",
    "power",
    "current",
    "from",
    "to",
    "like",
    "size",
    "length",
    "on",
    "off",
    "ways",
    "fuses",
    "label",
    "note",
    "item.a.kind",
    "a.b.c",
    "\"quoted\"",
    "'single'",
    "item . b",
    "rating",
    "spot",
    "path",
    "route",
    "mass",
    "price",
    "full",
    "x",
    "",
    "a b",
];
const VALUES: &[&str] = &[
    "1",
    "\"load\"",
    "\"fuse\"",
    "\"fuse-block\"",
    "\"bus-bar\"",
    "\"60 W\"",
    "\"60 A\"",
    "60",
    "60 W",
    "\"10 AWG\"",
    "'3 ft'",
    "\"a.+\"",
    "\"b.1\"",
    "\"a\"",
    "\"w\"",
    "\"x\"",
    "[]",
    "[\"a\", \"b\"]",
    "[\"5 A\", \"\"]",
    "[",
    "[1,\n 2,\n]",
    "[\"a\",\n",
    "{}",
    "{ kind = \"load\" }",
    "{ a = { b = 1 } }",
    "{ a.b = 1, a.c = 2 }",
    "{",
    "\"\"\"\nlong\n\"\"\"",
    "\"\"\"never",
    "'''x'''",
    "\"open",
    "\"\\q\"",
    "\"\\u00e9\"",
    "true",
    "false",
    "1979-05-27",
    "0x1F",
    "1_000",
    "1__0",
    "nan",
    "1e999",
    "99999999999999999999",
    "\"p\"",
    "0.8",
    "\"80 %\"",
    "\"24 in, 10 in, 0\"",
    "\"13 in x 7 in x 9 in\"",
    "[\"0, 0, 0\", \"1 m, 0, 0\"]",
    "[\"t\"]",
    "1.5",
    "",
    "# none",
];

/// A text for one case: noise, lines that look like a project, or a damaged piece of the fixture.
pub fn text(dice: &mut Dice) -> String {
    match dice.below(64) {
        0 => damaged(dice, FIXTURE.to_owned()),
        1 => cut(dice, FIXTURE).to_owned(),
        2..=13 => noise(dice),
        14..=41 => lines(dice),
        _ => {
            let piece = piece(dice);
            damaged(dice, piece)
        }
    }
}

fn noise(dice: &mut Dice) -> String {
    let count = dice.below(40);
    (0..count).map(|_| dice.pick(MARKS)).collect()
}

fn lines(dice: &mut Dice) -> String {
    let mut text = String::new();
    for _ in 0..dice.below(16) {
        match dice.below(8) {
            0 | 1 => text.push_str(dice.pick(HEADERS)),
            2 => text.push_str(dice.pick(&["", "# comment", "  ", "#\u{1}"])),
            _ => {
                text.push_str(dice.pick(&["", "", "  ", "\t"]));
                text.push_str(dice.pick(KEYS));
                text.push_str(dice.pick(&[" = ", "=", " =", " "]));
                text.push_str(dice.pick(VALUES));
                text.push_str(dice.pick(&["", "", " # c"]));
            }
        }
        text.push_str(dice.pick(&["\n", "\n", "\n", "\n", "\r\n", ""]));
    }
    text
}

/// Some lines of the fixture in a row.
fn piece(dice: &mut Dice) -> String {
    let all: Vec<&str> = FIXTURE.lines().collect();
    let start = dice.below(all.len());
    let end = (start + 1 + dice.below(24)).min(all.len());
    all[start..end].join("\n")
}

/// The text with a few places damaged.
fn damaged(dice: &mut Dice, mut text: String) -> String {
    for _ in 0..dice.below(5) {
        let at = place(dice, &text);
        match dice.below(5) {
            0 => text.insert_str(at, dice.pick(MARKS)),
            1 => text.insert_str(at, &format!("\n{}\n", dice.pick(HEADERS))),
            2 => text.insert_str(at, dice.pick(VALUES)),
            3 => text.truncate(at),
            _ => {
                let other = place(dice, &text);
                let (start, end) = (at.min(other), at.max(other));
                let end = place_near(&text, start + (end - start).min(12));
                text.replace_range(start..end, "");
            }
        }
    }
    text
}

fn cut<'t>(dice: &mut Dice, text: &'t str) -> &'t str {
    &text[..place(dice, text)]
}

fn place(dice: &mut Dice, text: &str) -> usize {
    let at = dice.below(text.len() + 1);
    place_near(text, at)
}

fn place_near(text: &str, mut at: usize) -> usize {
    while !text.is_char_boundary(at) {
        at -= 1;
    }
    at
}
