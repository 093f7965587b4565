//! Values as a person wants to read them: 3 or 4 significant digits in a fitting unit, and
//! never a zero for something that is not zero. What is shown can be typed again.

use crate::definition::{Definition, Round, Show, Step, System, Unit};

/// Numbers below this are written with a power of ten, which is clearer than many zeros.
const LEAST_PLAIN: f64 = 1e-4;
/// Numbers from this on are written with a power of ten: a float has no more digits.
const MOST_PLAIN: f64 = 1e15;

/// The value in the units of the system.
pub(crate) fn text(base: f64, definition: &Definition, system: System) -> String {
    if base.is_nan() {
        return "not a number".to_owned();
    }
    if base.is_infinite() {
        return infinite(base);
    }
    let show = match system {
        System::Us => &definition.us,
        System::Metric => &definition.metric,
    };
    match show {
        Show::FeetAndInches => feet_and_inches(base, definition.units),
        Show::Steps(steps) => stepped(base, definition.units, steps),
    }
}

/// A legal limit with four digits, rounded towards the inside so that it can be typed.
pub(crate) fn limit(number: f64, is_high: bool) -> String {
    if number == 0.0 {
        return "0".to_owned();
    }
    let size = 10_f64.powi(3 - leading_place(number));
    // A limit that has four digits only stays as it is, whatever the conversion left behind.
    let whole = number * size;
    let inside = if is_high {
        (whole + 1e-6).floor()
    } else {
        (whole - 1e-6).ceil()
    };
    plain(inside / size, (3 - leading_place(number)).max(0))
}

fn stepped(base: f64, units: &[Unit], steps: &[Step]) -> String {
    let Some((step, unit)) = chosen(base, units, steps) else {
        return base.to_string();
    };
    let number = unit.number_of(base);
    if number.is_infinite() {
        return infinite(base);
    }
    let number = rounded(number, step.round);
    let gap = if step.symbol == "°" { "" } else { " " };
    format!("{number}{gap}{}", step.symbol)
}

fn infinite(base: f64) -> String {
    if base > 0.0 { "infinite" } else { "-infinite" }.to_owned()
}

/// The step for a magnitude; zero is shown in the base unit, or else the largest.
fn chosen<'a>(base: f64, units: &'a [Unit], steps: &'a [Step]) -> Option<(&'a Step, &'a Unit)> {
    let home = units.first().map_or("", Unit::symbol);
    let step = if base == 0.0 {
        steps
            .iter()
            .find(|step| step.symbol == home)
            .or(steps.first())
    } else {
        steps
            .iter()
            .find(|step| base.abs() >= step.at_least)
            .or(steps.last())
    }?;
    units
        .iter()
        .find(|unit| unit.symbol() == step.symbol)
        .map(|unit| (step, unit))
}

fn rounded(number: f64, round: Round) -> String {
    if number == 0.0 {
        return "0".to_owned();
    }
    match round {
        Round::Decimals(decimals) => plain(number, i32::from(decimals)),
        Round::Digits(digits) if number.abs() < LEAST_PLAIN || number.abs() >= MOST_PLAIN => {
            format!("{number:.*e}", usize::from(digits.saturating_sub(1)))
        }
        Round::Digits(digits) => plain(number, i32::from(digits) - 1 - leading_place(number)),
    }
}

/// Place of the first digit: 0 for 1 to 9, 1 for 10 to 99, −1 for 0.1 to 0.9.
fn leading_place(number: f64) -> i32 {
    number.abs().log10().floor() as i32
}

/// A number with so many decimals, less the zeros at their end, and never `-0`.
fn plain(number: f64, decimals: i32) -> String {
    let text = format!("{number:.*}", decimals.clamp(0, 20) as usize);
    let short = if text.contains('.') {
        text.trim_end_matches('0').trim_end_matches('.')
    } else {
        text.as_str()
    };
    if short == "-0" {
        "0".to_owned()
    } else {
        short.to_owned()
    }
}

/// Feet, inches and sixteenths; decimals of an inch where a sixteenth would be too coarse.
fn feet_and_inches(metres: f64, units: &[Unit]) -> String {
    let sixteenths = metres * 10_000.0 / 254.0 * 16.0;
    if metres != 0.0 && sixteenths.abs() < 1.0 {
        return stepped(metres, units, &[Step::digits(0.0, "in", 3)]);
    }
    if sixteenths.abs() >= MOST_PLAIN {
        return stepped(metres, units, &[Step::digits(0.0, "ft", 4)]);
    }
    let whole = sixteenths.round().abs() as u64;
    let sign = if metres < 0.0 { "-" } else { "" };
    let (feet, inches, part) = (whole / 192, whole % 192 / 16, whole % 16);
    let inches = match (inches, sixteenths_text(part)) {
        (0, Some(fraction)) if feet == 0 => fraction,
        (inches, Some(fraction)) => format!("{inches}-{fraction}"),
        (inches, None) => inches.to_string(),
    };
    match (feet, inches.as_str()) {
        (0, _) => format!("{sign}{inches}\""),
        (_, "0") => format!("{sign}{feet}'"),
        _ => format!("{sign}{feet}' {inches}\""),
    }
}

/// A number of sixteenths in lowest terms, none for zero.
fn sixteenths_text(part: u64) -> Option<String> {
    if part == 0 {
        return None;
    }
    let halvings = part.trailing_zeros();
    Some(format!("{}/{}", part >> halvings, 16_u64 >> halvings))
}
