//! What a quantity is made of: its legal range, the units people type for it, the units it is
//! shown in. Plain constant tables. Not here: the tables themselves (`electrical`, `mechanical`,
//! `thermal`) and the code that reads them (`parse`, `show`).

/// The legal range of a quantity, in its base unit, both ends included.
///
/// One table serves typed input, property tests and form hints. It bounds what a person may
/// type, not what an engine may compute.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Legal {
    /// Lowest legal value \[base unit\].
    pub low: f64,
    /// Highest legal value \[base unit\].
    pub high: f64,
}

impl Legal {
    /// Whether `base` lies in the range; never true of NaN.
    #[must_use]
    pub fn contains(self, base: f64) -> bool {
        base >= self.low && base <= self.high
    }
}

/// The two ways lengths, masses, temperatures and volumes are shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum System {
    /// Feet and inches, pounds, degrees Fahrenheit, gallons.
    #[default]
    Us,
    /// Metres, kilograms, degrees Celsius, litres.
    Metric,
}

/// Everything but the name and the range that parsing and showing need to know.
#[derive(Debug)]
pub struct Definition {
    /// Units people may type; the first spelling of each is its symbol.
    pub units: &'static [Unit],
    /// Spellings that are refused with advice, such as `VA` for a power.
    pub refused: &'static [Refused],
    /// The highest number without a unit that is understood, as a value in base units.
    pub bare_up_to: Option<f64>,
    /// How it is shown in the Us system.
    pub us: Show,
    /// How it is shown in the Metric system.
    pub metric: Show,
}

impl Definition {
    /// A definition without advice whose values are shown the same way in both systems.
    pub(crate) const fn same_in_both(units: &'static [Unit], steps: &'static [Step]) -> Self {
        Definition {
            units,
            refused: &[],
            bare_up_to: None,
            us: Show::Steps(steps),
            metric: Show::Steps(steps),
        }
    }

    /// The same definition with spellings that are refused with advice.
    pub(crate) const fn refusing(mut self, refused: &'static [Refused]) -> Self {
        self.refused = refused;
        self
    }

    /// The same definition, where a bare number up to `most` is understood.
    pub(crate) const fn bare_up_to(mut self, most: f64) -> Self {
        self.bare_up_to = Some(most);
        self
    }
}

/// One unit: base value = (number − zero) · times / over.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Unit {
    /// Symbol first, then other spellings.
    pub spellings: &'static [&'static str],
    /// Multiplier to the base unit.
    pub times: f64,
    /// Divisor to the base unit; kept apart so that `650 mm` is exactly 0.65 m.
    pub over: f64,
    /// Reading of this unit's scale at base zero (32 for °F).
    pub zero: f64,
    /// Units of one non-zero group follow each other in one value, as feet and inches do.
    pub group: u8,
    /// Whether a lone comma before three digits is a thousands comma (see module `parse`).
    pub comma_thousands: bool,
    /// Whether the first letter is milli or mega, so that its case matters.
    pub case_of_m: bool,
}

impl Unit {
    /// A unit that is `times / over` base units.
    #[must_use]
    pub const fn new(spellings: &'static [&'static str], times: f64, over: f64) -> Self {
        Unit {
            spellings,
            times,
            over,
            zero: 0.0,
            group: 0,
            comma_thousands: false,
            case_of_m: false,
        }
    }

    /// The same unit with its scale's zero moved, as °F needs.
    #[must_use]
    pub const fn zero_at(mut self, reading: f64) -> Self {
        self.zero = reading;
        self
    }

    /// The same unit as a member of a compound such as `12 ft 6 in`.
    #[must_use]
    pub const fn grouped(mut self, group: u8) -> Self {
        self.group = group;
        self
    }

    /// The same unit, where nobody types three decimals, so that `1,200` must be 1200.
    #[must_use]
    pub const fn thousands(mut self) -> Self {
        self.comma_thousands = true;
        self
    }

    /// The same unit, whose first letter is milli or mega.
    #[must_use]
    pub const fn prefixed_m(mut self) -> Self {
        self.case_of_m = true;
        self
    }

    /// How many base units one of it is.
    #[must_use]
    pub fn size(&self) -> f64 {
        self.times / self.over
    }

    /// The spelling used in messages and by `show`.
    #[must_use]
    pub const fn symbol(&self) -> &'static str {
        match self.spellings {
            [symbol, ..] => symbol,
            [] => "",
        }
    }

    /// Base value of a number of this unit.
    #[must_use]
    pub fn to_base(&self, number: f64) -> f64 {
        (number - self.zero) * self.times / self.over
    }

    /// Number of this unit that makes a base value.
    #[must_use]
    pub fn number_of(&self, base: f64) -> f64 {
        base * self.over / self.times + self.zero
    }
}

/// Spellings that look right but are not this quantity, and what to type instead.
#[derive(Debug)]
pub struct Refused {
    /// The spellings.
    pub spellings: &'static [&'static str],
    /// What to type instead, as a sentence without a full stop.
    pub hint: &'static str,
}

/// How values are shown in one system.
#[derive(Debug)]
pub enum Show {
    /// The first step whose threshold the magnitude reaches; zero is shown in the base unit.
    Steps(&'static [Step]),
    /// `7' 3-5/8"`, to the nearest 1/16 in.
    FeetAndInches,
}

/// A unit to show from a magnitude on.
#[derive(Debug, Clone, Copy)]
pub struct Step {
    /// Smallest magnitude this step is used for \[base unit\].
    pub at_least: f64,
    /// Symbol of a unit in [`Definition::units`].
    pub symbol: &'static str,
    /// Rounding.
    pub round: Round,
}

impl Step {
    /// A step that keeps `digits` significant digits.
    #[must_use]
    pub const fn digits(at_least: f64, symbol: &'static str, digits: u8) -> Self {
        Step {
            at_least,
            symbol,
            round: Round::Digits(digits),
        }
    }

    /// A step that keeps `decimals` decimals.
    #[must_use]
    pub const fn decimals(at_least: f64, symbol: &'static str, decimals: u8) -> Self {
        Step {
            at_least,
            symbol,
            round: Round::Decimals(decimals),
        }
    }
}

/// Rounding of a shown number; whole numbers are never rounded to tens.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Round {
    /// So many significant digits.
    Digits(u8),
    /// So many decimals, for scales whose zero is a reading like any other.
    Decimals(u8),
}
