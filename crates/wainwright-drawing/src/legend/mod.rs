//! The legend card of a fuse block: the block as it is mounted, and at each way
//! its fuse and what it feeds. Not here: ratings, the colours of ratings.
//!
//! ```
//! use wainwright_drawing::legend::{CardOptions, FuseCard, fuse_card};
//! assert!(fuse_card(&FuseCard::default(), &CardOptions::default()).width > 0.0);
//! ```

mod card;
mod data;

pub(crate) use card::SWATCHES;
pub use card::fuse_card;
pub use data::{CardOptions, Corner, FuseCard, Order, Way};
