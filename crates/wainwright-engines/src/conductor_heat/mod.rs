//! How hot a wire gets, steady and over time, where it really runs.
//! Published ampacity tables are not here: they are the limits that this is held against.
//!
//! # Computes
//! The temperature of a copper conductor from its current, alone in still air, in a bundle, or inside
//! foam; the current that brings it to a limit; its temperature over time.
//!
//! # Equation
//! - Heat of the conductor: q = I² R(θ) [W/m].
//! - Through its insulation: θ − Ts = q·T1, T1 = ρT/(2π)·ln(Do/dc).
//! - From its surface: q = π Do [h (Ts − Ta) + ε σ (Ts⁴ − Ta⁴)], h by Churchill and Chu,
//!   Nu = {0.60 + 0.387 Ra^(1/6) / [1 + (0.559/Pr)^(9/16)]^(8/27)}².
//! - Bundle of N wires, n loaded: surface of diameter Do √(N/0.70), heat n·q; to its centre in
//!   addition n·q·ρe/(4π) with ρe = 6 K·m/W.
//! - Foam, wire midway in a slab of half thickness z: the surface term is replaced by
//!   R' = ln(8z/(πD))/(2πk).
//! - Over time: C' dθ/dt = I²R(θ) − q_out(θ), C' = 3.45 S + 1.9 S_ins [J/(K·m)], areas in mm².
//!
//! # Assumptions and limits
//! - Horizontal wire, still air at sea level, walls at the temperature of the air.
//! - In a bundle all loaded wires carry the same current. Idle wires add surface, but never more than
//!   one bare wire's surface for each loaded one.
//! - Several loaded wires in foam are taken as a tight bundle that lies in the foam: the bundle's
//!   diameter goes into the shape factor, its heat through the foam, and its inner rise is added.
//! - Foam thinner than 1.5 diameters counts as 1.5 diameters, where the shape factor still holds.
//! - Over time the whole insulation warms with the conductor and the surface follows at once. The first
//!   seconds are therefore too cool; for those the adiabatic rule is used. Foam and the other wires
//!   of a bundle store no heat, which is on the hot side.
//!
//! # Valid range
//! Outer diameters from 1 mm to 30 mm (bundles to 100 mm), ambient −40 °C to 100 °C, conductor up to
//! the melting point of copper; beyond that an error says that the wire melts.
//!
//! # Example
//! ```
//! use wainwright_engines::conductor_heat::{Build, Surroundings, ampacity};
//! use wainwright_units::*;
//! let build = Build {
//!     metal: CrossSection::from_square_millimetres(5.26),
//!     conductor_diameter: Length::from_millimetres(2.95),
//!     outer_diameter: Length::from_millimetres(4.47),
//!     insulation_resistivity: ThermalResistivity::from_kelvin_metres_per_watt(3.5),
//!     emissivity: Ratio::from_fraction(0.9),
//!     resistance_at_20: LineResistance::from_ohms_per_metre(3.345e-3),
//! };
//! let (ambient, limit) = (Temperature::from_celsius(30.0), Temperature::from_celsius(105.0));
//! let alone = ampacity(&build, &Surroundings::Open, ambient, limit).unwrap();
//! let bundled = ampacity(&build, &Surroundings::Bundle { loaded: 6, total: 6 }, ambient, limit).unwrap();
//! assert!(bundled < alone);
//! ```
//!
//! # Sources
//! - S. W. Churchill and H. H. S. Chu, 1975, horizontal cylinder (memory); dry-air fits (memory).
//! - IEC 60287-1-1 and -2-1: heat balance, T1, thermal resistivities (read).
//! - Conduction shape factors of heat-transfer handbooks (memory).
//! - IEC 60853-2, share of the insulation's heat that a fast rise takes (memory).
//! - Bundle packing and resistivity: judgement, checked against published bundle factors.

pub(crate) mod air;
mod input;
mod path;
mod steady;
mod transient;

pub(crate) use path::HeatPath;
pub(crate) use transient::{Heating, Storage};

pub use input::{Build, HeatError, Surroundings};
pub use steady::{Steady, ampacity, steady};
pub use transient::{time_constant, time_to_reach, transient};
