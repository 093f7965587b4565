//! Words of the page in the units of the project. Not here: sentences that only one card has.

pub use crate::views::energy::words::{month, percent};
pub use crate::views::lining::words::side;

use crate::views::road::words::{item as item_name, opening};
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_analysis::result::indoors::{
    AirFrom, DampChange, DampHelp, LeavingBy, SideHeat, SideLayer, WayKind, WetPlace,
};
use wainwright_drawing::chart::Mark;
use wainwright_model::{Id, LayerKind};
use wainwright_units::{
    Area, Duration, Power, Quantity, System, Temperature, TemperatureDifference,
};

/// R of trade in the United States \[ft²·°F·h/Btu\] in one m²K/W: 0.3048² · 1.8 · 3600 / 1055.056 inverted.
const R_TRADE: f64 = 5.678_263;

/// How something fares.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fare {
    /// As it should be.
    Good,
    /// Near a limit.
    Near,
    /// Over a limit.
    Bad,
    /// A figure without a limit.
    Plain,
}

/// A word in its colour with a shape.
pub fn pill(fare: Fare, word: &str) -> Markup {
    let (class, mark) = match fare {
        Fare::Good => ("lasts", "M4 10.5 8.5 15 16 5.5"),
        Fare::Near => (
            "close",
            "M3 8.5c3-4 6 4 9 0s3-2 5-1M3 13.5c3-4 6 4 9 0s3-2 5-1",
        ),
        Fare::Bad => ("too-often", "M5 5l10 10M15 5 5 15"),
        Fare::Plain => ("plain-fare", "M4 10h12"),
    };
    html! {
        span.fares.(class) {
            svg viewBox="0 0 20 20" width="16" height="16" aria-hidden="true" focusable="false" { path d=(mark) {} }
            (word)
        }
    }
}

/// How much heat a square lets through, as people of these units say it.
pub fn u(view: &View, watts: f64) -> String {
    match view.units() {
        System::Metric => format!("U {watts:.2} W/(m²K)"),
        System::Us if watts > 0.0 => format!("R-{:.1}", R_TRADE / watts),
        System::Us => "unknown".into(),
    }
}

/// Square metres in a square foot, and in a square inch.
const SQUARE_FOOT: f64 = 0.3048 * 0.3048;
const SQUARE_INCH: f64 = 0.0254 * 0.0254;

/// An area as people of these units say it: small ones in square inches, not in square centimetres.
pub fn area(view: &View, area: Area) -> String {
    let metres = area.square_metres();
    match view.units() {
        System::Metric => view.show(area),
        System::Us if metres < SQUARE_FOOT => format!("{:.0} sq in", metres / SQUARE_INCH),
        System::Us => format!("{:.1} sq ft", metres / SQUARE_FOOT),
    }
}

/// A difference of temperatures.
pub fn difference(view: &View, difference: TemperatureDifference) -> String {
    match view.units() {
        System::Metric => format!("{:.0} K", difference.kelvins()),
        System::Us => format!("{:.0} °F", difference.kelvins() * 1.8),
    }
}

/// Heat in whole watts: what it is reckoned from is not known better.
pub fn heat(heat: Power) -> String {
    match heat.watts() {
        watts if watts.abs() >= 1000.0 => format!("{:.2} kW", watts / 1000.0),
        watts => format!("{watts:.0} W"),
    }
}

/// About how long.
pub fn time(time: Duration) -> String {
    match time.hours() {
        hours if hours < 1.5 => format!("about {:.0} min", hours * 60.0),
        hours => format!("about {hours:.1} h"),
    }
}

/// A way for heat to leave.
pub fn leaving(view: &View, by: &LeavingBy) -> String {
    match by {
        LeavingBy::Side(one) => side(*one).to_owned(),
        LeavingBy::Opening(id) => opening(&view.study().project, id.as_str()),
        LeavingBy::Leaks => "Air through gaps".into(),
        LeavingBy::Vents => "Air through openings that are always open".into(),
    }
}

/// Where air comes from.
pub fn from(from: AirFrom) -> &'static str {
    match from {
        AirFrom::Leaks => "Everything shut",
        AirFrom::Openings => "With the openings that are always open",
        AirFrom::Fan => "With the fan as well",
    }
}

/// What people call an item.
pub fn item(view: &View, id: &Id) -> String {
    item_name(&view.study().project, id.as_str())
}

/// A way through a side.
pub fn way(kind: WayKind) -> &'static str {
    match kind {
        WayKind::Between => "between the ribs",
        WayKind::AtBatten => "at the battens",
        WayKind::AtRib => "at the metal ribs",
    }
}

/// A place in a side.
pub fn place(layers: &[SideLayer], at: WetPlace) -> String {
    let name = |index: usize| layers.get(index).map_or("a layer", |layer| &layer.label);
    match at {
        WetPlace::Outer => "on the outer surface".into(),
        WetPlace::Inner => "on the inner surface".into(),
        WetPlace::In(index) => format!("inside of {}", quoted(name(index))),
        WetPlace::After(index) => format!(
            "between {} and {}",
            quoted(name(index)),
            quoted(name(index + 1))
        ),
    }
}

fn quoted(name: &str) -> String {
    format!("“{name}”")
}

/// Water on a square metre.
pub fn grams(grams: f64) -> String {
    match grams {
        grams if grams < 1.0 => "less than 1 g/m²".into(),
        grams if grams >= 1000.0 => format!("{:.1} kg/m²", grams / 1000.0),
        grams => format!("{grams:.0} g/m²"),
    }
}

/// Class of a layer in drawings.
pub fn class(kind: LayerKind) -> &'static str {
    match kind {
        LayerKind::Skin => "skin",
        LayerKind::Battens => "battens",
        LayerKind::Foam => "foam",
        LayerKind::Planks => "planks",
        LayerKind::Sheets => "sheets",
        LayerKind::Film => "film",
        LayerKind::Air => "air",
    }
}

/// A change that helps against damp.
pub fn change(view: &View, side: &SideHeat, change: &DampChange) -> String {
    let layer = |id: &Id| quoted(view.study().project.label_or_id("layer", id.as_str()));
    match change {
        DampChange::Thickness {
            layer: id,
            thickness,
        } => format!(
            "Make {} at least {} thick",
            layer(id),
            view.show(*thickness)
        ),
        DampChange::OverRibs { like, thickness } => format!(
            "Put foam like {} over the ribs too, at least {} thick",
            layer(like),
            view.show(*thickness)
        ),
        DampChange::VapourLayer { before, metres } => {
            let place = match before.checked_sub(1).and_then(|last| side.layers.get(last)) {
                Some(last) => format!("on the inner side of {}", quoted(&last.label)),
                None => "on the inner side".into(),
            };
            format!(
                "Put a tight film {place}: worth at least {metres:.0} m of still air against vapour"
            )
        }
        DampChange::Humidity { most } => {
            format!("Keep the air inside at {} or drier", percent(*most))
        }
    }
}

/// What a change cures.
pub fn cures(help: &DampHelp) -> &'static str {
    match (help.cures_water, help.cures_mould) {
        (true, true) => "No water in the wall, no mould on it",
        (true, false) => "No water in the wall; mould stays likely",
        (false, true) => "No mould; water still forms in the wall",
        (false, false) => "Better, but not enough by itself",
    }
}

/// Round temperatures around a span [°C] in the person's units.
pub fn degrees(view: &View, low: f64, high: f64) -> ((f64, f64), Vec<Mark>) {
    let (step, of): (f64, fn(f64) -> Temperature) = match view.units() {
        System::Us => (20.0, Temperature::from_fahrenheit),
        System::Metric => (10.0, Temperature::from_celsius),
    };
    let number = |celsius: f64| match view.units() {
        System::Us => celsius * 1.8 + 32.0,
        System::Metric => celsius,
    };
    let first = (number(low.min(high)) / step).floor() as i32;
    let last = (number(low.max(high)) / step).ceil().min(100.0) as i32;
    let marks: Vec<Mark> = (first.max(-100)..=last)
        .map(|count| of(f64::from(count) * step))
        .map(|degrees| Mark::new(degrees.celsius(), degrees.show(view.units())))
        .collect();
    let span = (
        marks.first().map_or(low, |mark| mark.at),
        marks.last().map_or(high, |mark| mark.at),
    );
    (span, marks)
}
