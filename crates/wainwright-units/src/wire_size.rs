//! Nominal wire sizes: American wire gauge, SAE gauge, metric cross-section.
//! Not here: the real metal area of SAE and metric wire, and resistances (reference tables).

use std::fmt;

use crate::definition::System;
use crate::electrical::CrossSection;
use crate::error::QuantityError;
use crate::geometry::Length;
use crate::quantity::Quantity;

/// A step of the American wire gauge, 36 to 1 and 1/0 to 4/0.
///
/// ASTM B258 defines it: 39 equal ratios between 0.0050 in (36) and 0.4600 in (4/0).
/// Ordered from thin to thick.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Awg(i8);

impl Awg {
    /// The gauge with number `number`, where 0, −1, −2, −3 are 1/0, 2/0, 3/0, 4/0.
    #[must_use]
    pub const fn new(number: i8) -> Option<Self> {
        if number >= -3 && number <= 36 {
            Some(Awg(number))
        } else {
            None
        }
    }

    /// Gauge number, where 0, −1, −2, −3 are 1/0, 2/0, 3/0, 4/0.
    #[must_use]
    pub const fn number(self) -> i8 {
        self.0
    }

    /// Every step from 36 (thinnest) to 4/0 (thickest).
    pub fn all() -> impl DoubleEndedIterator<Item = Awg> {
        (-3..=36).rev().map(Awg)
    }

    /// The next thicker step, none above 4/0.
    #[must_use]
    pub const fn thicker(self) -> Option<Self> {
        Awg::new(self.0 - 1)
    }

    /// The next thinner step, none below 36.
    #[must_use]
    pub const fn thinner(self) -> Option<Self> {
        Awg::new(self.0 + 1)
    }

    /// Diameter of the solid round wire of this gauge (ASTM B258): 0.005 in · 92^((36−n)/39).
    #[must_use]
    pub fn diameter(self) -> Length {
        Length::from_inches(0.005 * 92_f64.powf((36.0 - f64::from(self.0)) / 39.0))
    }

    /// Metal area of the solid round wire of this gauge (ASTM B258).
    #[must_use]
    pub fn area(self) -> CrossSection {
        let diameter = self.diameter().millimetres();
        CrossSection::from_square_millimetres(std::f64::consts::FRAC_PI_4 * diameter * diameter)
    }

    /// Reads the number alone: `10`, `2/0`, `00`.
    #[must_use]
    pub fn from_digits(digits: &str) -> Option<Self> {
        match digits {
            "0" | "1/0" => Some(Awg(0)),
            "00" | "2/0" => Some(Awg(-1)),
            "000" | "3/0" => Some(Awg(-2)),
            "0000" | "4/0" => Some(Awg(-3)),
            _ if digits.starts_with('0') || digits.starts_with('+') => None,
            _ => digits
                .parse()
                .ok()
                .filter(|number| *number >= 1)
                .and_then(Awg::new),
        }
    }
}

impl fmt::Display for Awg {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.0 > 0 {
            write!(out, "{}", self.0)
        } else {
            write!(out, "{}/0", 1 - self.0)
        }
    }
}

impl PartialOrd for Awg {
    fn partial_cmp(&self, other: &Self) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Awg {
    fn cmp(&self, other: &Self) -> std::cmp::Ordering {
        other.0.cmp(&self.0)
    }
}

/// The size printed on a wire. Equal numbers of different kinds are different sizes: 10 SAE
/// has about a tenth less copper than 10 AWG.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum WireSize {
    /// American wire gauge.
    Awg(Awg),
    /// SAE gauge, numbered like AWG but with less metal.
    Sae(Awg),
    /// Nominal metal cross-section.
    Metric(CrossSection),
}

impl WireSize {
    /// Texts that are accepted.
    pub const EXAMPLES: &'static [&'static str] = &["10 AWG", "2/0 AWG", "10 SAE", "16 mm2"];

    /// Reads what a person typed.
    ///
    /// # Errors
    /// A text that is not a wire size, such as a bare number or a gauge that does not exist.
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        crate::parse::wire_size(text)
    }
}

impl fmt::Display for WireSize {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            WireSize::Awg(gauge) => write!(out, "{gauge} AWG"),
            WireSize::Sae(gauge) => write!(out, "{gauge} SAE"),
            WireSize::Metric(area) => out.write_str(&area.show(System::Metric)),
        }
    }
}
