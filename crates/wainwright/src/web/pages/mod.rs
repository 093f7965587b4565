//! The pages, one file each. Not here: their frame and common pieces (see
//! `html`) and forms (see `form`).

pub mod bench;
pub mod circuits;
pub mod element;
pub mod file;
pub mod finding;
pub mod layout;
pub mod lists;
pub mod overview;
pub mod rules;
pub mod wiring;
pub mod wiring_line;
pub mod wiring_plan;
pub mod wiring_routes;
