//! No text makes the parser panic, accept a value outside the legal range, or point an error at
//! a place where the token it names is not. The texts are random but always the same.

use wainwright_units::{
    Airflow, Altitude, Angle, Area, Charge, CrossSection, Current, Duration, Energy, Force,
    FromText, Length, LineHeat, LineResistance, Mass, Power, Quantity, QuantityError, Ratio,
    Resistance, Speed, Stiffness, Temperature, TemperatureDifference, ThermalConductivity,
    ThermalResistivity, Torque, Voltage, Volume, WireSize,
};

const TEXTS: usize = 200_000;

/// As many texts as `WAINWRIGHT_FUZZ_CASES` asks for, or the usual number.
fn texts() -> usize {
    std::env::var("WAINWRIGHT_FUZZ_CASES")
        .ok()
        .and_then(|count| count.parse().ok())
        .unwrap_or(TEXTS)
}

/// Numbers as people type them.
const NUMBERS: &[&str] = &[
    "0", "1", "2", "5", "7", "10", "12", "16", "200", "5/8", "3-5/8", "3 5/8", "3½", "⅝", "0.03",
    "12.8", "1,5", "1,200", "1,200.5", "1e-3", "-5", "−40", "1/0", "2/0", "+4", ".5",
];

/// Units as people type them.
const UNITS: &[&str] = &[
    "ft",
    "in",
    "'",
    "\"",
    "′",
    "″",
    "’",
    "''",
    "m",
    "mm",
    "mm2",
    "mm²",
    "mm^2",
    "cm",
    "V",
    "mV",
    "MV",
    "A",
    "Ah",
    "W",
    "Wh",
    "kW",
    "Ω",
    "ohm",
    "mΩ",
    "°",
    "°C",
    "F",
    "lb",
    "oz",
    "kg",
    "gal",
    "L",
    "min",
    "h",
    "s",
    "ms",
    "%",
    "AWG",
    "SAE",
    "ga",
    "VA",
    "K·m/W",
    "W/(m·K)",
    "W/m",
    "ohm/1000 ft",
    "N·m",
    "in-lb",
    "fl oz",
    "sq in",
    "amp hours",
    "volts",
    "wombat",
];

/// Pieces that break careless parsers.
const ODD: &[&str] = &[
    "000",
    ".",
    ",",
    "-",
    "+",
    "/",
    "e",
    "e9",
    "e-3",
    "E999",
    " ",
    " ",
    "\u{a0}",
    "\t",
    "–",
    "m^2",
    "#",
    "/1000 ft",
    "inf",
    "NaN",
    "nan",
    "to",
    "\0",
    "\u{200b}",
    "\u{feff}",
    "\u{301}",
    "😀",
    "٣",
    "½½",
    "²",
    "(",
    ")",
    "*",
    "·",
    "^",
    "%%",
    "~",
    "…",
    "_",
    "\u{10ffff}",
    "\u{2126}",
    "ß",
    "İ",
    "½",
    "⅝",
    "'",
    "\"",
];

/// A small generator of the SplitMix64 kind.
struct Dice(u64);

impl Dice {
    fn below(&mut self, limit: usize) -> usize {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        ((mixed ^ (mixed >> 31)) % limit as u64) as usize
    }

    fn one_of(&mut self, pieces: &[&'static str]) -> &'static str {
        pieces[self.below(pieces.len())]
    }

    /// Numbers and units in turn, now and then with something odd between them.
    fn text(&mut self) -> String {
        let mut text = String::new();
        for _ in 0..[1, 1, 1, 2, 3][self.below(5)] {
            for pieces in [NUMBERS, &[" ", "", "  "], UNITS, &[" ", "", ""]] {
                if self.below(8) > 0 {
                    text.push_str(self.one_of(pieces));
                }
                match self.below(40) {
                    0..3 => text.push_str(self.one_of(ODD)),
                    3 => text.extend(char::from_u32(self.below(0x3000) as u32)),
                    _ => {}
                }
            }
        }
        text
    }
}

/// The promises of an error: its column lies in the text, and its token stands there.
fn keeps_promises(text: &str, error: &QuantityError) {
    let letters: Vec<char> = text.chars().collect();
    assert!(
        error.column >= 1 && error.column <= letters.len() + 1,
        "{text:?}: {error}"
    );
    let rest: String = letters.iter().skip(error.column - 1).collect();
    let shown = error.found.strip_suffix('…').unwrap_or(&error.found);
    assert!(
        rest.starts_with(shown) || error.found == "nothing",
        "{text:?}: {error}"
    );
    assert!(
        !error.expected.is_empty() && !error.found.is_empty(),
        "{text:?}: {error}"
    );
}

/// Reads the text; returns whether it was understood.
fn reads<Q: Quantity>(text: &str) -> bool {
    match Q::parse(text) {
        Ok(value) => {
            assert!(Q::LEGAL.contains(value.base()), "{}: {text:?}", Q::NAME);
            true
        }
        Err(error) => {
            keeps_promises(text, &error);
            false
        }
    }
}

const READERS: &[fn(&str) -> bool] = &[
    reads::<Length>,
    reads::<Voltage>,
    reads::<Current>,
    reads::<Resistance>,
    reads::<Power>,
    reads::<Charge>,
    reads::<Energy>,
    reads::<LineResistance>,
    reads::<CrossSection>,
    reads::<Area>,
    reads::<Volume>,
    reads::<Angle>,
    reads::<Mass>,
    reads::<Force>,
    reads::<Torque>,
    reads::<Stiffness>,
    reads::<Speed>,
    reads::<Airflow>,
    reads::<Altitude>,
    reads::<Duration>,
    reads::<Ratio>,
    reads::<Temperature>,
    reads::<TemperatureDifference>,
    reads::<LineHeat>,
    reads::<ThermalResistivity>,
    reads::<ThermalConductivity>,
];

#[test]
fn no_text_breaks_the_parser() {
    let mut dice = Dice(20);
    let mut understood = 0;
    for _ in 0..texts() {
        let text = dice.text();
        understood += usize::from(reads::<Length>(&text));
        understood += usize::from(READERS[dice.below(READERS.len())](&text));
        match WireSize::from_text(&text) {
            Ok(size) => assert_eq!(WireSize::parse(&text), Ok(size)),
            Err(error) => keeps_promises(&text, &error),
        }
    }
    // The texts must be plausible enough that many are understood, or the test proves little.
    assert!(
        understood > texts() / 20,
        "only {understood} texts were understood"
    );
}

/// Cutting a good text short anywhere, or doubling any part of it, does no harm either.
#[test]
fn cut_and_doubled_texts_do_no_harm() {
    let texts = [
        "7' 3-5/8\"",
        "1,200.5 mm",
        "2 h 30 min",
        "−5 °C",
        "3½ in",
        "3.5 K·m/W",
        "2/0 AWG",
        "1e-3 ohm/1000 ft",
    ];
    for text in texts {
        let letters: Vec<char> = text.chars().collect();
        for start in 0..=letters.len() {
            for end in start..=letters.len() {
                let cut: String = letters.iter().take(end).skip(start).collect();
                let doubled: String = letters[..end].iter().chain(&letters[start..]).collect();
                for reader in READERS {
                    reader(&cut);
                    reader(&doubled);
                }
                for text in [cut, doubled] {
                    if let Err(error) = WireSize::parse(&text) {
                        keeps_promises(&text, &error);
                    }
                }
            }
        }
    }
}
