//! Places and sizes in the box, as a tape measure gives them.
//!
//! Here: reading and writing "24 in, 10 in, 30 in" and "13 in x 7 in x 9 in". Not here: the trailer frame (the units
//! crate has it; the analysis converts).

use crate::schema::ValueKind;
use crate::syntax::{Node, NodeValue};
use crate::value::{FieldValue, Mismatch, shown};
use std::fmt;
use wainwright_units::{Length, Quantity, QuantityError, System};

/// A place in the box. A distance is negative ahead of the box, outside its left wall or under its floor.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spot {
    /// From the inside of the front wall, backwards.
    pub from_front: Length,
    /// From the inside of the left wall, to the right.
    pub from_left: Length,
    /// Above the floor.
    pub above_floor: Length,
}

/// The size of a thing as it stands in the trailer.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Extent {
    /// Along the trailer.
    pub along: Length,
    /// Across it.
    pub across: Length,
    /// Upwards.
    pub up: Length,
}

impl Spot {
    /// Texts that are accepted.
    pub const EXAMPLES: &'static [&'static str] = &["24 in, 10 in, 30 in", "600 mm, 0 mm, 50 mm"];

    /// Reads three lengths with commas between: from the front wall, from the left wall, above the floor.
    ///
    /// # Errors
    /// Not three lengths, or one that is not understood.
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        let [from_front, from_left, above_floor] = three(
            text,
            |at, c| c == ';' || c == ',' && text[at + 1..].starts_with(char::is_whitespace),
            "three lengths with commas between: from the front wall, from the left wall, above the floor",
        )?;
        Ok(Self {
            from_front,
            from_left,
            above_floor,
        })
    }

    /// The spot as a person would type it, to the nearest sixteenth of an inch or millimetre.
    pub fn typed(self, system: System) -> String {
        [self.from_front, self.from_left, self.above_floor]
            .map(|length| typed(length, system))
            .join(", ")
    }
}

impl Extent {
    /// Texts that are accepted.
    pub const EXAMPLES: &'static [&'static str] =
        &["13 in x 7 in x 9 in", "330 mm x 172 mm x 245 mm"];

    /// Reads three lengths with x between: along the trailer, across it, up.
    ///
    /// # Errors
    /// Not three lengths, one that is not understood, or one below zero.
    pub fn parse(text: &str) -> Result<Self, QuantityError> {
        const EXPECTED: &str = "three lengths with x between: along the trailer, across it, up";
        let [along, across, up] = three(text, |_, c| matches!(c, 'x' | 'X' | '×'), EXPECTED)?;
        if let Some(below) = [along, across, up]
            .iter()
            .find(|length| length.metres() < 0.0)
        {
            return Err(QuantityError {
                column: 1,
                found: below.show(System::Metric),
                expected: "lengths of zero or more".into(),
                hint: None,
            });
        }
        Ok(Self { along, across, up })
    }

    /// The size as a person would type it, to the nearest sixteenth of an inch or millimetre.
    pub fn typed(self, system: System) -> String {
        [self.along, self.across, self.up]
            .map(|length| typed(length, system))
            .join(" x ")
    }
}

impl fmt::Display for Spot {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.typed(System::Metric))
    }
}

impl fmt::Display for Extent {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.typed(System::Metric))
    }
}

/// A length without quotes in it: inches and sixteenths, or millimetres.
fn typed(length: Length, system: System) -> String {
    match system {
        System::Metric => format!("{} mm", whole(length.millimetres())),
        System::Us => {
            let sixteenths = (length.inches() * 16.0).round();
            let (inches, mut part, mut of) = (
                (sixteenths.abs() / 16.0).floor(),
                sixteenths.abs() % 16.0,
                16.0,
            );
            while part > 0.0 && part % 2.0 == 0.0 {
                part /= 2.0;
                of /= 2.0;
            }
            let sign = if sixteenths < 0.0 { "-" } else { "" };
            match (inches > 0.0, part > 0.0) {
                (_, false) => format!("{sign}{inches} in"),
                (true, true) => format!("{sign}{inches}-{part}/{of} in"),
                (false, true) => format!("{sign}{part}/{of} in"),
            }
        }
    }
}

/// Rounded, and never minus zero.
fn whole(number: f64) -> f64 {
    number.round() + 0.0
}

/// Splits `text` where `separates` says so and reads three lengths.
fn three(
    text: &str,
    separates: impl Fn(usize, char) -> bool,
    expected: &str,
) -> Result<[Length; 3], QuantityError> {
    let mut pieces = Vec::new();
    let mut start = 0;
    for (at, c) in text.char_indices() {
        if separates(at, c) {
            pieces.push((start, &text[start..at]));
            start = at + c.len_utf8();
        }
    }
    pieces.push((start, &text[start..]));
    let [first, second, third] = pieces.as_slice() else {
        return Err(QuantityError {
            column: 1,
            found: match pieces.len() {
                1 if text.trim().is_empty() => "nothing".into(),
                1 => "one length".into(),
                n => format!("{n} lengths"),
            },
            expected: expected.into(),
            hint: None,
        });
    };
    Ok([one(text, *first)?, one(text, *second)?, one(text, *third)?])
}

fn one(text: &str, (start, piece): (usize, &str)) -> Result<Length, QuantityError> {
    let before =
        text[..start].chars().count() + piece.chars().take_while(|c| c.is_whitespace()).count();
    // Zero is zero in any unit.
    if piece.trim() == "0" {
        return Ok(Length::ZERO);
    }
    Length::parse(piece.trim()).map_err(|error| QuantityError {
        column: error.column + before,
        ..error
    })
}

macro_rules! from_text {
    ($($Type:ident),+) => { $(
        impl FieldValue for $Type {
            const KIND: ValueKind = ValueKind::$Type;

            fn read(node: &Node, _: &ValueKind) -> Result<Self, Mismatch> {
                match &node.value {
                    NodeValue::Text(text) => Ok(Self::parse(text)?),
                    _ => {
                        let example = Self::EXAMPLES.first().copied().unwrap_or("");
                        Err(Mismatch::new(shown(node), format!("a text such as \"{example}\"")))
                    }
                }
            }
        }
    )+ };
}

from_text!(Spot, Extent);

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn spots_and_sizes_are_read_as_typed() {
        let spot = Spot::parse("24 in, -1 ft 2 in, 0").unwrap();
        assert!((spot.from_front.inches() - 24.0).abs() < 1e-9);
        assert!((spot.from_left.inches() + 14.0).abs() < 1e-9);
        assert_eq!(spot.above_floor, Length::ZERO);
        let size = Extent::parse("13 in x 172 mm × 0.245 m").unwrap();
        assert!((size.along.inches() - 13.0).abs() < 1e-9);
        assert!((size.across.millimetres() - 172.0).abs() < 1e-9);
        assert!((size.up.millimetres() - 245.0).abs() < 1e-9);
    }

    #[test]
    fn a_slip_is_told_with_its_column() {
        let error = Spot::parse("24 in, 10 amps, 3 in").unwrap_err();
        assert!(error.column >= 8, "{error:?}");
        assert!(
            Spot::parse("24 in, 10 in")
                .unwrap_err()
                .found
                .contains("2 lengths")
        );
        assert!(Extent::parse("1 in x -1 in x 1 in").is_err());
        assert!(Spot::parse("").is_err());
    }

    #[test]
    fn what_is_typed_back_reads_the_same() {
        for (text, system, back) in [
            (
                "24 in, 10-3/8 in, -1/2 in",
                System::Us,
                "24 in, 10-3/8 in, -1/2 in",
            ),
            (
                "600 mm, 0 mm, -50 mm",
                System::Metric,
                "600 mm, 0 mm, -50 mm",
            ),
            ("2 ft, 1.03 in, 0.01 in", System::Us, "24 in, 1 in, 0 in"),
        ] {
            let spot = Spot::parse(text).unwrap();
            assert_eq!(spot.typed(system), back);
            assert!(Spot::parse(&spot.typed(system)).is_ok());
        }
    }
}
