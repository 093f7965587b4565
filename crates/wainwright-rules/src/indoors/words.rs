//! Sides and water in the words of a headline. Not here: figures with units of their own (`view::words`).

use wainwright_analysis::result::indoors::WayKind;
use wainwright_model::Side;
use wainwright_units::{Area, System};

/// Kilograms on a square metre in pounds on a square foot.
const POUNDS_PER_SQUARE_FOOT: f64 = 0.204_816;

/// `the left wall`, `the ceiling`.
pub(super) const fn side(side: Side) -> &'static str {
    match side {
        Side::Front => "the front wall",
        Side::Rear => "the rear wall",
        Side::Left => "the left wall",
        Side::Right => "the right wall",
        Side::Roof => "the ceiling",
        Side::Floor => "the floor",
    }
}

/// Where in a side: `behind the lining at its ribs`.
pub(super) const fn way(kind: WayKind) -> &'static str {
    match kind {
        WayKind::Between => "between the ribs",
        WayKind::AtBatten => "at the battens",
        WayKind::AtRib => "at the metal ribs",
    }
}

/// Water on an area: `4.2 kg/m²`, `0.86 lb/sq ft`, `120 g/m²`.
pub(super) fn water(grams_per_m2: f64, system: System) -> String {
    match system {
        System::Us => format!(
            "{:.2} lb/sq ft",
            grams_per_m2 / 1000.0 * POUNDS_PER_SQUARE_FOOT
        ),
        System::Metric if grams_per_m2 >= 1000.0 => format!("{:.1} kg/m²", grams_per_m2 / 1000.0),
        System::Metric => format!("{grams_per_m2:.0} g/m²"),
    }
}

/// Square inches in a square metre.
const SQUARE_INCHES: f64 = 1_550.003_1;

/// A small area as a person types it, rounded up: `22 sq in`, `140 cm²`.
pub(super) fn area(area: Area, system: System) -> String {
    let metres = area.square_metres();
    match system {
        System::Us => format!("{:.0} sq in", (metres * SQUARE_INCHES).ceil()),
        System::Metric => format!("{:.0} cm²", (metres * 1e4).ceil()),
    }
}

/// `January` for 1.
pub(super) fn month(month: u32) -> &'static str {
    const NAMES: [&str; 12] = [
        "January",
        "February",
        "March",
        "April",
        "May",
        "June",
        "July",
        "August",
        "September",
        "October",
        "November",
        "December",
    ];
    NAMES
        .get(month.saturating_sub(1) as usize)
        .copied()
        .unwrap_or("winter")
}
