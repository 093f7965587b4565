//! Heat through walls, roof and floor, and what a room of them needs: heating on a night, cooling
//! on a sunny day. The layers are those of `damp` too. Conductivities and climates are the caller's.
//!
//! # Computes
//! Resistance of air layers, of layers with wood or metal ribs, and of walls of C-studs; heat
//! transmittance, temperatures through a wall; what every face, window, air and person brings into a
//! room, heater and cooler, time to warm up; how thick a layer must be.
//!
//! # Equation
//! - Air layer: R = 1/(h_a + E h_r), h_r = 4σT³, 1/E = 1/ε₁ + 1/ε₂ − 1; h_a = max(1.25, 0.025/d)
//!   sideways, max(1.95, 0.025/d) up, max(0.12 d^−0.44, 0.025/d) down.
//! - Combined method: 1/R' = Σ f/(R_si + ΣR + R_se) over the sections, R'' = R_si +
//!   Σ over layers of (Σ f/R)^−1 + R_se, R = (R' + R'')/2, U = 1/R; error at most (R' − R'')/2R.
//! - Metal ribs, zone method: a zone of width W = m + 2d around each rib, layers in parallel inside
//!   it; U = (W/S) U_zone + (1 − W/S) U_clear.
//! - C-studs: zone width from a published polynomial, resistances of cavity and stud in parallel.
//! - Wood across the grain: k = G (0.1941 + 0.004064 x) + 0.01864, x the moisture in percent.
//! - Screws: ΔU = 0.8 λ A n/d₀ (R₁/R)².
//! - Face: Q = U A (t_e − t_i), sol-air t_e = t_o + (α/h_o) I − sky; window: U A (t_o − t_i) + g A I;
//!   air: V ρc (t_o − t_i).
//! - Warming up: t = τ ln((T∞ − T₀)/(T∞ − T)), τ = C/K, T∞ = t_o + P/K.
//!
//! # Assumptions and limits
//! Steady, one-dimensional within a section. The combined method does not hold for insulation that
//! metal bridges; the zone method is a hand rule for it, and the stud equation was fitted to studs
//! of 90 mm (3½ in) and deeper. Air layers: difference of up to 5 K. An open air layer takes all
//! that is outside of it out of the count. Water that outside air brings is not in the latent heat.
//!
//! # Valid range
//! Resistances and areas zero or above; shares of the sections sum to one; temperatures −60 to 90 °C.
//!
//! # Example
//! ```
//! use wainwright_engines::heat_loss::{BuildUp, Films, Flow, Layer, Section, transmittance};
//! use wainwright_units::{Length, Ratio, Temperature, ThermalConductivity};
//! let k = ThermalConductivity::from_watts_per_kelvin_metre;
//! let lining = Layer::solid(Length::from_millimetres(12.7), k(0.12), 50.0);
//! let cavity = |conductivity, mu| Layer::solid(Length::from_millimetres(38.1), k(conductivity), mu);
//! let section = |percent, fill| Section { share: Ratio::from_percent(percent), layers: vec![fill, lining] };
//! let wall = BuildUp {
//!     flow: Flow::Horizontal,
//!     air_layers_at: Temperature::from_celsius(10.0),
//!     sections: vec![section(90.625, cavity(0.02575, 60.0)), section(9.375, cavity(0.12, 50.0))],
//!     metal: None,
//! };
//! let found = transmittance(&wall, Films { inside: 0.13, outside: 0.04 }).unwrap();
//! assert!((found.watts_per_m2_kelvin - 0.6992).abs() < 5e-5);
//! ```
//!
//! # Sources
//! - ISO 6946: combined method (read in a worked example), air layers and screws (memory).
//! - AISI S250-21: walls of C-studs (read).
//! - Wood Handbook of the US forest products laboratory: conductivity of wood, ± 20 % (read).
//! - ASHRAE Handbook Fundamentals: zone method (memory), sol-air temperature (read).

mod air_layer;
mod layers;
mod room;
mod studs;
mod thickness;
mod transmittance;
mod warm_up;
mod wood;
mod zone;

pub use air_layer::air_layer;
pub use layers::{BuildUp, Films, Flow, Gaps, Layer, Matter, MetalRibs, Section};
pub use room::{
    AirExchange, Balance, Cooler, Face, FaceHeat, Gain, Room, Window, WindowHeat, air_changes,
    balance, cooler, heater,
};
pub use studs::{Screws, StudWall, StudZone, Studs, screws, stud_wall};
pub use thickness::thickness_for;
pub use transmittance::{Profile, Transmittance, profile, transmittance};
pub use warm_up::{Warming, power_for_warm_up, warm_up};
pub use wood::wood_conductivity;
pub use zone::Zone;

pub(crate) use layers::Resolved;
pub(crate) use thickness::range as thickness_range;
pub(crate) use transmittance::temperatures;
pub(crate) use zone::ways;
