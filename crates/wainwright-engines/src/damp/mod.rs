//! Water inside walls, roof and floor, month by month, and water or mould on their inner surface.
//! Layers are those of `heat_loss`; climates and limits are the caller's.
//!
//! # Computes
//! Temperature, saturation and vapour through every section and rib; where vapour turns to water,
//! how much, and whether it dries within the year; the surface factor f_Rsi, the one that is
//! needed, the humidity that is allowed; the vapour layer or thickness with which it stays dry.
//!
//! # Equation
//! - Layers split so that each piece has R ≤ 0.25 m²K/W; x = Σ s_d, s_d = μ d.
//! - Vapour pressure: the lower convex hull of p_sat(x) between p_e and p_i; a place that is wet
//!   already is held at p_sat until it has dried.
//! - At each place on the hull g = δ₀ ((p₊ − p)/Δs₊ − (p − p₋)/Δs₋), δ₀ = 2·10⁻¹⁰ kg/(m·s·Pa).
//! - f_Rsi = (θ_si − θ_e)/(θ_i − θ_e) = 1 − R_si/R; needed: p_sat(θ_si) = p_i over the allowed
//!   humidity at the surface.
//!
//! # Assumptions and limits
//! Only vapour that diffuses counts. Air that streams through joints carries far more: joints of
//! foil and foam sealed on the warm side matter more than any figure here. No water is stored or
//! wicked by wood; each month is steady; sections do not exchange vapour. The zone around a metal
//! rib has one mean temperature, so its coldest line is colder than shown. With more vapour
//! resistance on the warm side less gets in, but less gets out in summer too; a search tests its
//! answer, and assumes that below it nothing is enough.
//!
//! # Valid range
//! −60 to 90 °C; relative humidity above 0 to 1; s_d together above zero; R of one layer up to
//! 50 m²K/W.
//!
//! # Example
//! ```
//! use wainwright_engines::damp::{Climate, Month, section_month};
//! use wainwright_engines::heat_loss::{Films, Flow, Layer, Section};
//! use wainwright_units::{Duration, Ratio, Temperature};
//! // A published wall, outside first: resistance and s_d of each layer.
//! let layers = [(0.16491754, 1.10), (0.02439024, 0.10), (0.80, 0.60), (0.06741573, 0.30), (0.01754386, 0.06)];
//! let wall = Section {
//!     share: Ratio::ONE,
//!     layers: layers.map(|(r, s_d)| Layer::known(r, s_d)).to_vec(),
//! };
//! let month = Month {
//!     climate: Climate {
//!         inside: Temperature::from_celsius(20.0),
//!         inside_humidity: Ratio::from_percent(55.0),
//!         outside: Temperature::from_celsius(5.0),
//!         outside_humidity: Ratio::from_percent(96.0),
//!     },
//!     duration: Duration::from_hours(720.0),
//! };
//! let films = Films { inside: 0.13, outside: 0.04 };
//! let ten = Temperature::from_celsius(10.0);
//! let found = section_month(&wall, Flow::Horizontal, ten, films, &month).unwrap();
//! assert!((found.stored_grams_per_m2() - 31.3975).abs() < 5e-5);
//! ```
//!
//! # Sources
//! - ISO 13788: saturation, surface humidity of 0.8, month by month (read in worked cases).
//! - H. Glaser, Kältetechnik 10 (1958) and 11 (1959): the graphical method (memory).

mod ask;
mod hull;
mod month;
mod nodes;
mod surface;
mod year;

pub use ask::{Allowed, foam_for_surface, foam_for_water, vapour_layer_for, with_vapour_layer};
pub use month::{Climate, Month, MonthWater, Node, section_month};
pub use nodes::{Place, Wet};
pub use surface::{Surface, surface};
pub use year::{WayYear, year};
