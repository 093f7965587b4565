//! A day of the calendar, as a trip starts on one.
//!
//! Not here: hours, time zones, where the sun stands.

use crate::schema::ValueKind;
use crate::syntax::{Node, NodeValue};
use crate::value::{FieldValue, Mismatch, shown};
use std::fmt;

/// First and last year that are accepted: those the sun's position is found for.
const YEARS: std::ops::RangeInclusive<i32> = 2010..=2110;

/// A day of the present calendar.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Day {
    year: i32,
    month: u32,
    day: u32,
}

impl Day {
    /// Texts that are accepted.
    pub const EXAMPLES: &'static [&'static str] = &["2027-03-12", "2027-10-02"];

    /// The day, when there is one: year 2010 to 2110, month and day from 1.
    pub fn new(year: i32, month: u32, day: u32) -> Option<Self> {
        let there = YEARS.contains(&year)
            && (1..=12).contains(&month)
            && (1..=days_of(year, month)).contains(&day);
        there.then_some(Self { year, month, day })
    }

    /// Reads `year-month-day`, as in 2027-03-12.
    pub fn parse(text: &str) -> Option<Self> {
        let mut parts = text.trim().split('-');
        let (year, month, day) = (parts.next()?, parts.next()?, parts.next()?);
        let digits = |text: &str, most: usize| {
            (1..=most).contains(&text.len()) && text.bytes().all(|byte| byte.is_ascii_digit())
        };
        let fits = digits(year, 4) && digits(month, 2) && digits(day, 2) && parts.next().is_none();
        if !fits {
            return None;
        }
        Self::new(year.parse().ok()?, month.parse().ok()?, day.parse().ok()?)
    }

    /// The year.
    pub const fn year(self) -> i32 {
        self.year
    }

    /// The month, 1 to 12.
    pub const fn month(self) -> u32 {
        self.month
    }

    /// The day of the month, from 1.
    pub const fn day(self) -> u32 {
        self.day
    }
}

impl fmt::Display for Day {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{:04}-{:02}-{:02}", self.year, self.month, self.day)
    }
}

impl FieldValue for Day {
    const KIND: ValueKind = ValueKind::Day;

    fn read(node: &Node, _: &ValueKind) -> Result<Self, Mismatch> {
        let expected = format!(
            "a day such as \"2027-03-12\", year {} to {}, in quotes",
            YEARS.start(),
            YEARS.end()
        );
        match &node.value {
            NodeValue::Text(text) => {
                Self::parse(text).ok_or_else(|| Mismatch::new(shown(node), expected))
            }
            _ => Err(Mismatch::new(shown(node), expected)),
        }
    }
}

/// Days of a month.
const fn days_of(year: i32, month: u32) -> u32 {
    match month {
        2 if year % 4 == 0 && (year % 100 != 0 || year % 400 == 0) => 29,
        2 => 28,
        4 | 6 | 9 | 11 => 30,
        _ => 31,
    }
}

#[cfg(test)]
mod tests {
    use super::Day;

    #[test]
    fn days_are_those_of_the_calendar() {
        for text in ["2027-03-12", "2028-02-29", " 2030-12-31 "] {
            assert_eq!(Day::parse(text).unwrap().to_string(), text.trim());
        }
        assert_eq!(Day::parse("2027-3-2").unwrap().to_string(), "2027-03-02");
        for text in [
            "2027-02-29",
            "2100-02-29",
            "1999-01-01",
            "2027-13-01",
            "2027-00-10",
            "12.3.2027",
            "2027-03-12-1",
            "",
            "2027-+3-12",
        ] {
            assert_eq!(Day::parse(text), None, "{text}");
        }
    }
}
