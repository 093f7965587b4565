//! Fresh air of a room people sleep in: carbon dioxide through a night, what openings, wind and
//! fans move, and how much air keeps it dry. Heat that the air carries is in `heat_loss`.
//!
//! # Computes
//! Carbon dioxide of a person; its concentration after each spell of a night; the airflow and the
//! openings that keep it below a limit; flow by warmth and by wind through openings in series; where
//! a fan's curve meets an opening; airflow for a humidity, and humidity for an airflow.
//!
//! # Equation
//! - C(t) = C∞ + (C₀ − C∞) exp(−Q t/V), C∞ = C_o + G/Q; without air C₀ + G t/V.
//! - G = RQ·B·M (T/p)·0.000211 [L/s; MJ/d, K, kPa], or 0.00276 A M RQ/(0.23 RQ + 0.77) [L/s; m²].
//! - Warmth: Q = C_d A √(2 g H |T_i − T_o|/T_i); wind: Q = C_d A v √ΔC_p; both: the root of the
//!   squares together. A of openings in series: 1/√Σ A^−2, side by side: Σ A.
//! - Fan: p_fan(Q) = ½ρ (Q/(C_d A))².
//! - Humidity: Q = G/(v_i − v_e), v the water per volume.
//!
//! # Assumptions and limits
//! Air is well mixed. Wind and warmth help each other; with a contrary wind the flow may stop. A
//! fan's curve is straight between its points. Flames need air of their own by their maker's plate,
//! and a fan that draws air out may draw fumes back: neither is judged here.
//!
//! # Valid range
//! Areas and flows zero or above; concentration as a share of volume in ppm, below 200 000.
//!
//! # Example
//! ```
//! use wainwright_engines::fresh_air::{Night, Spell, night};
//! use wainwright_units::{Airflow, Duration, Volume};
//! let asleep = Spell {
//!     duration: Duration::from_hours(8.0),
//!     co2_litres_per_second: 2.0 * 0.0037 * 0.95,
//!     airflow: Airflow::from_cubic_metres_per_hour(20.0),
//! };
//! let room = Night { volume: Volume::from_litres(12_700.0), outside_ppm: 420.0, start_ppm: 420.0 };
//! let found = night(&room, &[asleep]).unwrap();
//! assert!((found.peak_ppm - 1685.0).abs() < 0.5);
//! ```
//!
//! # Sources
//! - A. Persily, L. de Jonge, Indoor Air 27 (2017): carbon dioxide of people (table read, equation
//!   memory); ASHRAE Handbook Fundamentals: the form with body area (read).
//! - CIBSE and ASHRAE handbooks: flow by warmth and wind, openings in series (read, wind memory).

mod ask;
mod fan;
mod humidity;
mod night;
mod openings;
mod people;

pub use ask::{airflow_for_night, opening_for_night};
pub use fan::{FanPoint, fan_with_opening, opening_for_fan};
pub use humidity::{airflow_for_humidity, humidity_with};
pub use night::{Night, NightAir, Spell, airflow_for_ppm, night, steady_ppm};
pub use openings::{Natural, Openings, Weather, natural, parallel, series, stack, wind};
pub use people::{person_co2, person_co2_by_area};
