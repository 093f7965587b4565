//! Reading helpers over the assessment that several rules share: names,
//! words for figures, and who is joined to whom. Not here: judgement.

pub(crate) mod chain;
pub(crate) mod circuits;
pub(crate) mod graph;
pub(crate) mod limits;
pub(crate) mod names;
pub(crate) mod road;
pub(crate) mod subjects;
pub(crate) mod words;

pub(crate) use circuits::Circuits;
pub(crate) use graph::{Graph, Link};
