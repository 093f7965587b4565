//! Which fields of a form are always seen: those that nearly everybody types.
//! The others are folded away while they are empty. Not here: which fields
//! there are.

use super::Form;
use wainwright_model::Kind;
use wainwright_model::schema::FieldSpec;

/// Of a wire.
const WIRE: [&str; 7] = [
    "from",
    "to",
    "size",
    "length",
    "insulation",
    "runs",
    "label",
];

/// Of a situation.
const STATE: [&str; 4] = ["label", "battery", "on", "charging"];

/// Of gear and parts of any kind: what stands on the name plate.
const GEAR: [&str; 16] = [
    "label",
    "chemistry",
    "cells",
    "capacity",
    "tracking",
    "power",
    "current",
    "output_current",
    "open_voltage",
    "short_current",
    "family",
    "rating",
    "reset",
    "fuses",
    "ways",
    "critical",
];

/// Of the trailer: what a tape measure, a thermometer and the papers say.
const TRAILER: [&str; 13] = [
    "inside_length",
    "inside_width",
    "inside_height",
    "summer_air",
    "roof_air",
    "ball_to_front",
    "ball_to_axle",
    "axles",
    "floor_height",
    "empty_mass",
    "empty_tongue",
    "gross_rating",
    "brakes",
];

/// Of a climate: a listed place, or where it is.
const CLIMATE: [&str; 5] = ["label", "listed", "latitude", "longitude", "altitude"];

/// Of a journey.
const TRIP: [&str; 8] = [
    "label",
    "to",
    "begins",
    "nights",
    "people",
    "driving_days",
    "driving",
    "charge",
];

/// Of how something is used.
const USE: [&str; 5] = ["label", "of", "power", "per_day", "hours"];

/// Of things without terminals: what makes them heavy and where they are.
const BODY: [&str; 5] = ["mass", "mass_end", "size", "spot", "holds"];

/// Whether a field is seen at once.
pub fn is_seen(form: &Form, spec: &FieldSpec) -> bool {
    // The kind was chosen before, and stands in the heading.
    let chosen = form.element.name == "item" && spec.name == "kind" && form.kind != Kind::Unknown;
    let filled = !form.texts(spec.name).is_empty() && !chosen;
    filled || form.errors.contains_key(spec.name) || spec.required || is_usual(form, spec.name)
}

fn is_usual(form: &Form, name: &str) -> bool {
    match form.element.name {
        "wire" => WIRE.contains(&name),
        "state" => STATE.contains(&name),
        "trailer" => TRAILER.contains(&name),
        "climate" => CLIMATE.contains(&name),
        "trip" => TRIP.contains(&name),
        "use" => USE.contains(&name),
        // A part brings the figures along.
        "item" if !form.text("part").is_empty() => matches!(name, "label" | "part"),
        "item" | "part" => match (name, form.kind) {
            ("part", _) => false,
            ("kind", kind) => kind == Kind::Unknown,
            ("resistance", Kind::Load | Kind::Shunt | Kind::Frame | Kind::Splice) => true,
            ("voltage", Kind::VehicleSupply) => true,
            (name, kind) if !kind.is_wired() && BODY.contains(&name) => true,
            (name, _) => GEAR.contains(&name),
        },
        _ => true,
    }
}
