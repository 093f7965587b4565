//! The pages, one file each. Not here: their frame and common pieces (see
//! `html`) and forms (see `form`).

pub mod air;
pub mod bench;
pub mod cabinet;
pub mod circuits;
pub mod element;
pub mod energy;
pub mod file;
pub mod finding;
pub mod layout;
pub mod lining;
pub mod lists;
pub mod overview;
pub mod rules;
pub mod settings;
pub mod symptom;
pub mod wiring;
pub mod wiring_line;
pub mod wiring_plan;
pub mod wiring_routes;
