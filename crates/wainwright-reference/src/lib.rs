//! Published tables with their sources, and the generic parts library.
//!
//! Every number is a row of a data file under `data/`, with document, edition, place, units and a mark that says how it is
//! known ([`Mark`]). The modules give typed access by topic; every value comes back as [`Sourced`].
//!
//! | looking for | module |
//! |---|---|
//! | copper area, diameter, resistance, constants | [`conductor`] |
//! | how much current a table allows, and the factors that lower it | [`ampacity`] |
//! | insulation classes and wall thickness | [`insulation`] |
//! | fuses and breakers: gates, ratings, interrupt, resistance, colours | [`protection`] |
//! | how far from a source protection may sit | [`position`] |
//! | resistance and heat of joints | [`joint`] |
//! | voltages, resistance and thresholds by chemistry | [`battery`] |
//! | at which voltages and temperatures a protection board opens and closes | [`protection_board`] |
//! | charging voltages, times, currents, margins by chemistry | [`charge_profile`] |
//! | efficiency and own draw of controllers, chargers, inverters, converters | [`device_class`] |
//! | household loads, fridges, heater, kettle, water, the usual day | [`household`] |
//! | shares, factors and smallest sizes used as limits | [`limit`] |
//! | foam and air around wires | [`surroundings`] |
//! | solar modules: heat, dirt, glass | [`solar`] |
//! | relative prices that rank fixes | [`cost`] |
//! | densities, allowances, holders, bars, main fuses of a wiring plan | [`plan`] |
//! | studs, terminals, how a wire is joined to an item | [`lug`] |
//! | colours of conductors | [`colour`] |
//! | tongue shares, hitch classes, coupling heights, sway thresholds | [`towing`] |
//! | tyres: load index, cornering stiffness | [`tyre`] |
//! | from which mass a trailer needs brakes | [`brake_law`] |
//! | measured figures of a class of tow vehicles | [`tow_vehicle`] |
//! | rolling, drag, fuel, road | [`road`] |
//! | accelerations, bolts, screws, wood, webbing | [`securing`] |
//! | boards, sheets, densities, movement of wood, joints | [`lumber`] |
//! | spacing of supports and fasteners, pilot holes | [`fastener`] |
//! | water as a load | [`water`] |
//! | climate of listed places by month, turbidity, spread of years | [`climate`] |
//! | chances of a day's clearness after another | [`weather_chain`] |
//! | whole tables of a measured cell, ageing, lead-acid figures | [`cell`] |
//! | conductivity, density, vapour resistance of linings and insulation | [`material`] |
//! | films, people, design conditions, fixed openings, cabinets | [`climate_room`] |
//! | usual box trailers to begin with | [`box_trailer`] |
//! | generic parts in the syntax of the project file | [`PARTS_TOML`] |
//!
//! Not here: equations, judgement about a design, the project.

mod id;
mod mark;
mod span;
mod store;
mod table;

pub mod ampacity;
pub mod battery;
pub mod box_trailer;
pub mod brake_law;
pub mod cell;
pub mod charge_profile;
pub mod climate;
pub mod climate_room;
pub mod colour;
pub mod conductor;
pub mod cost;
pub mod device_class;
pub mod fastener;
pub mod household;
pub mod insulation;
pub mod joint;
pub mod limit;
pub mod lug;
pub mod lumber;
pub mod material;
pub mod plan;
pub mod position;
pub mod protection;
pub mod protection_board;
pub mod road;
pub mod securing;
pub mod solar;
pub mod surroundings;
pub mod tow_vehicle;
pub mod towing;
pub mod tyre;
pub mod water;
pub mod weather_chain;

pub use mark::{Mark, Source, Sourced};
pub use span::Span;
pub use store::{load_errors, sources, sources_markdown, tables};
pub use table::{LoadError, REQUIRED_KEYS, Row, Table, load};

/// Generic parts without brands, in the `[part.<id>]` syntax of the project file.
///
/// Every part has `kind`, `label` and `source`; the model crate reads the text.
pub const PARTS_TOML: &str = include_str!("../data/parts.toml");
