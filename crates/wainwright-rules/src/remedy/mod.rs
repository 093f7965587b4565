//! Changes of the project text that rules propose: thicker wire, other fuse,
//! added fuse, other feed. Not here: whether they help (see [`crate::prove`]).

pub(crate) mod added;
pub(crate) mod edits;
pub(crate) mod feeds;
pub(crate) mod fuses;
pub(crate) mod hub;
pub(crate) mod likeness;
pub(crate) mod placing;
pub(crate) mod returns;
pub(crate) mod series;
pub(crate) mod sizes;
