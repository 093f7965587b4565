//! Solvers over plain structs: network, conductor heat, protection, faults; weight and towing;
//! sun, weather, battery, trips.
//!
//! Every engine is a folder with few public functions over plain values. Engines know units and
//! nothing else: no tables, no thresholds, no project, no user wording, no input or output.

#![allow(
    rustdoc::broken_intra_doc_links,
    reason = "units stand in brackets in doc comments"
)]

pub mod balance;
pub mod battery;
pub mod cabinet_air;
pub mod charging;
pub mod climate;
pub mod conductor;
pub mod conductor_heat;
pub mod cutting;
pub mod damp;
pub mod fault_currents;
pub mod faults;
pub mod fresh_air;
pub mod heat_loss;
pub mod lining;
pub mod moist_air;
pub mod network;
pub mod placing;
pub mod protection;
pub mod refusal;
pub mod road_load;
pub mod rollover;
pub mod routes;
pub mod sheets;
pub mod sizing;
pub mod solar_power;
pub mod sparse;
pub mod sun;
pub mod sway;
pub mod tie_down;
pub mod trip;
pub mod weather;
pub mod weather_file;
pub mod weigh_in;

mod sought;
pub use sought::Sought;
