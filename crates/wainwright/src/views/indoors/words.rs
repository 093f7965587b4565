//! Words and figures of the box as a room: what lets heat through, where water is, what helps. Not here: layout.

use wainwright_analysis::result::indoors::{
    AirFrom, CautionKind, DampChange, DampHelp, LeavingBy, PaneKind, SideHeat, WayKind, WetPlace,
};
use wainwright_model::{Project, Side};
use wainwright_units::{Area, Quantity, System};

/// Kilograms on a square metre in pounds on a square foot.
const POUNDS_PER_SQUARE_FOOT: f64 = 0.204_816;
/// R in h·ft²·°F/Btu of one m²K/W.
const R_VALUE: f64 = 5.678_263;
/// Square inches in a square metre.
const SQUARE_INCHES: f64 = 1_550.003_1;
/// Square feet in a square metre.
const SQUARE_FEET: f64 = 10.763_91;
/// From here on a layer counts as tight [m].
const TIGHT: f64 = 1000.0;

/// A side of the box.
pub const fn side(side: Side) -> &'static str {
    match side {
        Side::Front => "Front wall",
        Side::Rear => "Rear wall",
        Side::Left => "Left wall",
        Side::Right => "Right wall",
        Side::Roof => "Ceiling",
        Side::Floor => "Floor",
    }
}

/// What something lets through: `U 1.20 W/m²K`, `R-4.7`.
pub fn lets_through(u: f64, units: System) -> String {
    match units {
        System::Us if u > 0.0 => format!("R-{:.1}", R_VALUE / u),
        _ => format!("U {u:.2} W/m²K"),
    }
}

/// An area of a side: `72 sq ft`, `6.7 m²`.
pub fn wide(area: Area, units: System) -> String {
    match units {
        System::Us => format!("{:.0} sq ft", area.square_metres() * SQUARE_FEET),
        System::Metric => format!("{:.1} m²", area.square_metres()),
    }
}

/// An area of an opening: `22 sq in`, `140 cm²`.
pub fn small(area: Area, units: System) -> String {
    match units {
        System::Us => {
            let inches = area.square_metres() * SQUARE_INCHES;
            let decimals = usize::from(inches < 10.0);
            format!("{inches:.decimals$} sq in")
        }
        System::Metric => format!("{:.0} cm²", area.square_metres() * 1e4),
    }
}

/// How much vapour a layer holds back: `tight`, or still air as thick.
pub fn holds_vapour(metres: f64, units: System) -> String {
    if metres >= TIGHT {
        return "tight".to_owned();
    }
    match units {
        System::Us => format!("{:.1} ft of air", metres / 0.3048),
        System::Metric => format!("{metres:.2} m of air"),
    }
}

/// Water on an area.
pub fn water(grams_per_m2: f64, units: System) -> String {
    match units {
        System::Us => format!(
            "{:.2} lb/sq ft",
            grams_per_m2 / 1000.0 * POUNDS_PER_SQUARE_FOOT
        ),
        System::Metric if grams_per_m2 >= 1000.0 => format!("{:.1} kg/m²", grams_per_m2 / 1000.0),
        System::Metric => format!("{grams_per_m2:.0} g/m²"),
    }
}

/// One way through a side; `lone` where it is the only one.
pub const fn way(kind: WayKind, lone: bool) -> &'static str {
    match kind {
        WayKind::Between if lone => "everywhere",
        WayKind::Between => "between the ribs",
        WayKind::AtBatten => "at the battens",
        WayKind::AtRib => "at the metal ribs",
    }
}

/// Where water is in a side.
pub fn place(place: WetPlace, kind: WayKind, side: &SideHeat) -> String {
    let label = |index: usize| {
        let layer = side.layers.get(index);
        layer
            .map_or("the lining", |layer| layer.label.as_str())
            .to_owned()
    };
    let last = side.ribs.as_ref().map(|ribs| ribs.bridges.1);
    match place {
        WetPlace::After(index) if kind == WayKind::AtRib && last == Some(index) => {
            format!("between the rib and {}", label(index + 1))
        }
        WetPlace::Outer => "on the outer surface".to_owned(),
        WetPlace::Inner => "on the inner surface".to_owned(),
        WetPlace::In(index) => format!("in {}", label(index)),
        WetPlace::After(index) if index + 1 < side.layers.len() => {
            format!("between {} and {}", label(index), label(index + 1))
        }
        WetPlace::After(index) => format!("behind {}", label(index)),
    }
}

/// What an opening is closed with.
pub const fn pane(kind: PaneKind) -> &'static str {
    match kind {
        PaneKind::Single => "one pane",
        PaneKind::Double => "two panes",
        PaneKind::Solid => "solid",
    }
}

/// A way for heat to leave.
pub fn leaving(by: &LeavingBy, project: &Project) -> String {
    match by {
        LeavingBy::Side(found) => side(*found).to_owned(),
        LeavingBy::Opening(id) => project.label_or_id("opening", id.as_str()).to_owned(),
        LeavingBy::Leaks => "Air through gaps".to_owned(),
        LeavingBy::Vents => "Air through openings that stay open".to_owned(),
    }
}

/// Where air comes from.
pub const fn air(from: AirFrom) -> &'static str {
    match from {
        AirFrom::Leaks => "Everything shut",
        AirFrom::Openings => "With the openings that are always open",
        AirFrom::Fan => "And with the fan",
    }
}

/// A change that helps against damp, as a sentence.
pub fn help(help: &DampHelp, side: &SideHeat, project: &Project, units: System) -> String {
    let change = match &help.change {
        DampChange::Thickness { layer, thickness } => format!(
            "{} at least {} thick",
            project.label_or_id("layer", layer.as_str()),
            thickness.show(units)
        ),
        DampChange::OverRibs { like, thickness } => format!(
            "{} of the same foam as {} over the ribs",
            thickness.show(units),
            project.label_or_id("layer", like.as_str())
        ),
        DampChange::VapourLayer { before, metres } => {
            let at = side.layers.get(*before).map_or_else(
                || "on the inside".to_owned(),
                |layer| format!("behind {}", layer.label),
            );
            format!(
                "Foil or film {at}, as tight as {}",
                holds_vapour(*metres, units)
            )
        }
        DampChange::Humidity { most } => {
            format!("Air inside of at most {:.0} % humidity", most.percent())
        }
    };
    let cures = match (help.cures_water, help.cures_mould) {
        (true, true) => "keeps water and mould away",
        (true, false) => "keeps water out of it",
        _ => "keeps mould off it",
    };
    format!("{change}: {cures}.")
}

/// A word of warning, as a sentence.
pub const fn caution(kind: CautionKind) -> &'static str {
    match kind {
        CautionKind::NoAlarm => {
            "Something burns aboard and no alarm for carbon monoxide is listed. Fit one near the bed."
        }
        CautionKind::Burning => {
            "What burns aboard needs its own air and its own way out for fumes, by its maker's plate. Nothing here replaces that plate."
        }
        CautionKind::FanAndFire => {
            "A fan that draws air out can draw fumes back in: open a window when it runs beside a flame that takes its air from the room."
        }
        CautionKind::OneWayOut => {
            "Only one way out is listed. Two, on different sides, let people out when one is on fire or blocked."
        }
        CautionKind::FewOpenings => {
            "The openings that are always open are smaller than the published guidance for a room of this size."
        }
    }
}
