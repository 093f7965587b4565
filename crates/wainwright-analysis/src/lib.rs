//! From the project to one assessment with its working.
//!
//! Not here: judgement ("too small") and words for people.

pub mod cabinets;
mod circuit;
pub mod frame;
pub mod indoors;
pub mod known;
pub mod lining;
mod netlist;
mod path;
pub mod quick;
pub mod result;
pub mod road;
mod route;
pub mod settings;
pub mod sizing;
mod study;
mod takeoff;
pub mod trips;
pub mod weather;
pub mod working;

use std::sync::OnceLock;
use wainwright_model::Catalogue;

pub use netlist::{Netlist, netlist};
pub use path::{PathStep, voltage_path};
pub use result::Assessment;
pub use study::assess;
pub use takeoff::{schedules, takeoff, takeoff_with};
pub use working::{Ask, Working, working};

/// The bundled library of generic parts.
pub fn catalogue() -> &'static Catalogue {
    static CATALOGUE: OnceLock<Catalogue> = OnceLock::new();
    CATALOGUE.get_or_init(|| Catalogue::parse(wainwright_reference::PARTS_TOML).0)
}
