//! Lining of one surface: battens, foam, planks, sheets, trims; wood that moves; odds of running
//! short. Cutting plans of boards and sheets are not here, nor tables of woods.
//!
//! # Computes
//! - Battens across ribs, at edges and round openings; foam between; planks course by course with
//!   joints on supports; sheets with joints on supports; trims.
//! - Every piece with number, place, size, notches, mass and centre; fasteners, tape, adhesive;
//!   where the area goes; how much board the planks take, as an estimate.
//! - A way to lay planks without a rip, if there is one.
//! - Moisture content of wood in air, its movement, gaps for that; length along a bowed ceiling.
//! - Odds that boards in hand run short, and how many more make them small.
//!
//! # Equation
//! - Courses: n = ⌈W/f⌉ with the measured face f, last one W − (n−1)f; if that is below the least
//!   width, first and last one (W − (n−2)f)/2 each.
//! - Joints: |x − x'| ≥ apart in neighbouring courses; within the same line only with so many courses
//!   between. Among patterns that keep this, the one with the lowest estimate is searched by
//!   going back and by changing one stretch at a time.
//! - Estimate: longest piece first, into the board where the least is left; the lowest total over
//!   the lengths on sale that new boards are begun with; every board then swapped for the cheapest
//!   that holds what it has. Never below the true least.
//! - Area: pieces + openings + gaps + rests = surface, the left side added up piece by piece and
//!   compared with slabs of the whole surface; a difference is refused.
//! - Movement: ΔD = D·C·ΔM. Moisture content: two-hydrate sorption model, see `emc_percent`.
//! - Arc over chord c with rise s: half angle 2·atan(2s/c), radius (c²/4 + s²)/(2s).
//! - Odds: number of good pieces by convolution, exact for pieces all alike; else simulated.
//!
//! # Assumptions and limits
//! - Flat rectangles; a bowed ceiling by its developed size. Round openings by their box.
//! - Boards are even: mass by area and thickness, the tongue as much as the groove lacks.
//! - Two ripped courses are not made from one board. The joint pattern is a good one, not proven to
//!   be the best. On a whole backing joints are tried at forty places of a stretch.
//! - A bad board is lost as a whole.
//!
//! # Valid range
//! Surfaces up to 100 m, 500 ribs, 200 openings, 2000 courses. Movement holds between 6 and 14 %
//! moisture and says so beyond; air from −1.1 to 60 °C.
//!
//! # Example
//! ```
//! use wainwright_engines::lining::*;
//! use wainwright_units::Length;
//! let inches = Length::from_inches;
//! let wall = Surface {
//!     width: inches(96.0),
//!     height: inches(74.0),
//!     ribs_run: Direction::Height,
//!     ribs: (0..=6)
//!         .map(|n| Rib { at: inches(16.0 * f64::from(n)), width: inches(1.5), depth: inches(1.5) })
//!         .collect(),
//!     openings: vec![],
//! };
//! let options = PlankOptions {
//!     runs: Direction::Width,
//!     face: inches(5.125),
//!     material: Material { thickness: inches(0.5), density_kg_m3: 445.0 },
//!     edge_gap: Length::ZERO,
//!     end_gap: Length::ZERO,
//!     opening_gap: Length::ZERO,
//!     least_rip: inches(2.5),
//!     least_piece: inches(12.0),
//!     longest: inches(96.0),
//!     stock: vec![StockLength { length: inches(96.0), price: 0.0 }],
//!     kerf: inches(0.125),
//!     stagger: Stagger { apart: inches(12.0), in_line: inches(6.0), courses_between: 2 },
//!     can_rip: true,
//!     hidden_edge: Length::ZERO,
//!     hidden_opening: Length::ZERO,
//!     loosen: Length::ZERO,
//!     may_lap: false,
//!     joint_worth: inches(12.0),
//!     fasteners_per_crossing: 1,
//!     fastener_spacing: inches(16.0),
//!     effort: 0,
//! };
//! let laid = planks(&wall, &wall.rib_backing(), &options).unwrap();
//! // Fifteen courses; 2.25 in for the last alone would be a sliver.
//! assert_eq!(laid.fit, Fit::Balanced);
//! assert_eq!(laid.planks.len(), 15);
//! assert!((laid.courses.first.inches() - 3.6875).abs() < 1e-9);
//! ```
//!
//! # Sources
//! - Course counts, face as measured: Western Wood Products Association, patterns (read). Nailing,
//!   gaps, joints: the caller's options.
//! - Joint rule: controlled random lay-up of plank decking (read).
//! - Movement: Wood Handbook, dimensional change coefficients (read). Moisture content: Wood
//!   Handbook, equation 4-5 (memory).
//! - Run layout, joint search, area check, arc, convolution: derived.

mod bow;
mod courses;
mod estimate;
mod foam;
mod furring;
mod joints;
mod lay;
mod moisture;
mod piece;
mod plane;
mod planks;
mod segments;
mod sheets;
mod shortage;
mod stack;
mod surface;
mod trims;

pub use bow::Bow;
pub use courses::{Courses, Fit};
pub use estimate::{Estimate, StockLength};
pub use foam::{Foam, FoamOptions, foam};
pub use furring::{Batten, BattenRole, Furring, FurringOptions, Spaced, furring};
pub use moisture::{
    GapAdvice, Movement, Planking, board_feet_per_square_foot, emc_percent, gap_advice,
    lineal_per_area, movement, wood_density,
};
pub use piece::{Load, Material, Piece, areal_mass, totals};
pub use planks::{OtherWay, Plank, PlankOptions, Planks, Shortfall, Stagger, planks};
pub use sheets::{SheetOptions, Sheets, sheets_on};
pub use shortage::{Alike, BoardPlan, Remaining, ShortOdds, shortage, shortage_alike, spares_for};
pub use stack::{Laid, Layer, Lining, line};
pub use surface::{
    Areas, Backing, Direction, MOST_LINES, MOST_OPENINGS, Opening, Rect, Rib, SupportLine, Surface,
};
pub use trims::{Side, Trim, TrimPlace, trims};
