//! The pages, one file each. Not here: their frame and common pieces (see
//! `html`) and forms (see `form`).

pub mod finding;
pub mod overview;
