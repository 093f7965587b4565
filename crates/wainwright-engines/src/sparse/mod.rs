//! Sparse symmetric elimination for conductance matrices.
//!
//! [`Structure`] orders the nodes so that little new coupling appears; [`Factor`] eliminates them
//! as a star-to-mesh transformation, which is LDLᵀ without a single subtraction.
//! Not here: what the conductances mean, and any iteration.

mod ordering;
mod star_mesh;

pub use ordering::Structure;
pub use star_mesh::{Factor, NotPositive};
