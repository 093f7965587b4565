//! The row of places inside one of the main places: the sheets of a job that
//! belong together. Not here: the main places (`shell`).

use maud::{Markup, html};

/// A sheet: its address and its word.
pub type Sheet = (&'static str, &'static str);

/// The sheets of the place where things are put.
pub const LAYOUT: [Sheet; 4] = [
    ("/layout", "Floor"),
    ("/layout/road", "On the road"),
    ("/layout/hold", "Held down"),
    ("/layout/weigh", "Weighing"),
];

/// The sheets of the wiring.
pub const WIRING: [Sheet; 4] = [
    ("/wiring", "Schematic"),
    ("/wiring/line", "Single line"),
    ("/wiring/routes", "Routes"),
    ("/wiring/plan", "Plan the wiring"),
];

/// The lists to work and shop by.
pub const LISTS: [Sheet; 5] = [
    ("/lists", "Wires"),
    ("/lists/terminals", "Terminals"),
    ("/lists/fuses", "Fuses"),
    ("/lists/labels", "Labels"),
    ("/lists/buy", "To buy"),
];

/// Whether energy and water last.
pub const ENERGY: [Sheet; 5] = [
    ("/energy", "Trip"),
    ("/energy/size", "How much"),
    ("/energy/climate", "Weather"),
    ("/energy/settings", "Settings"),
    ("/energy/symptom", "Symptom"),
];

/// What goes on walls, ceiling and floor.
pub const LINING: [Sheet; 4] = [
    ("/lining", "Surfaces"),
    ("/lining/cut", "Cutting"),
    ("/lining/air", "Air and damp"),
    ("/lining/cabinet", "Cabinet"),
];

/// The row of sheets, `here` marked.
pub fn sheets(all: &[Sheet], here: &str) -> Markup {
    html! {
        nav.within aria-label="Sheets" {
            ul {
                @for (place, word) in all {
                    li { a href=(place) aria-current=[(*place == here).then_some("page")] { (word) } }
                }
            }
        }
    }
}
