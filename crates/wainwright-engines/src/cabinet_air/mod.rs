//! How warm the air of a cabinet gets by the devices in it, with openings, with a fan, or closed.
//! Not here: what temperature a device bears, and heat of single wires (`conductor_heat`).
//!
//! # Computes
//! Heat of a device by its efficiency; temperature rise of the cabinet's air and where the heat
//! goes; the openings or the fan for a wanted rise; discharge coefficient of openings with mesh;
//! effective cooling area of a closed cabinet; films of a wall.
//!
//! # Equation
//! - Device: P = P_out (1/η − 1).
//! - P = ρ q c ΔT + K ΔT; openings: q = C_d A √(2 g H ΔT/T_i), A both openings in series.
//! - C_d = 1/√ΣK over the losses of one opening.
//! - Closed: ΔT = P/(k A), A the faces by weight: top 1.4, covered top 0.7, open sides 0.9, covered
//!   sides 0.5, floor none.
//! - Upright wall: Nu = (0.825 + 0.387 Ra^(1/6)/(1 + (0.492/Pr)^(9/16))^(8/27))²; radiation
//!   εσ(T₁² + T₂²)(T₁ + T₂).
//!
//! # Assumptions and limits
//! The air inside is well mixed: it is hotter under the top, and hottest at the device itself. The
//! height counts from the middle of the heat to the middle of the high opening. A fan is taken at
//! what it moves in place, not at its free flow. Sun on the cabinet is not counted.
//!
//! # Valid range
//! Heat zero or above; rises up to 400 K, far above what anything bears.
//!
//! # Example
//! ```
//! use wainwright_engines::cabinet_air::{Cabinet, Cooling, CountedAt, Vents, rise};
//! use wainwright_engines::moist_air::Carrier;
//! use wainwright_units::{Area, Length, Power, Ratio, Temperature};
//! let vent = Area::from_square_metres(0.01);
//! let cabinet = Cabinet {
//!     heat: Power::from_watts(100.0),
//!     skin_watts_per_kelvin: 0.0,
//!     ambient: Temperature::from_celsius(30.0),
//!     air: Carrier { kg_per_m3: 1.164, joules_per_kg_kelvin: 1005.0 },
//!     cooling: Cooling::Openings(Vents {
//!         low: vent,
//!         high: vent,
//!         coefficient: Ratio::from_fraction(0.6),
//!         height: Length::from_metres(0.5),
//!         counted_at: CountedAt::Incoming,
//!     }),
//! };
//! assert!((rise(&cabinet).unwrap().rise.kelvins() - 23.8).abs() < 0.05);
//! ```
//!
//! # Sources
//! - Flow by warmth through openings: heat balance (derived), coefficients of small openings (read).
//! - IEC TR 60890 and VDE 0660-500: effective cooling area (areas read, weights memory).
//! - S. Churchill, H. Chu, Int. J. Heat Mass Transfer 18 (1975): upright wall (memory).

mod area;
mod ask;
mod film;
mod rise;

pub use area::{Closed, Size, cooling_area, sealed_rise};
pub use ask::{fan_for_rise, opening_for_rise};
pub use film::{FilmAir, discharge_coefficient, radiant_film, upright_film};
pub use rise::{Cabinet, CabinetAir, Cooling, CountedAt, Vents, device_heat, rise};
