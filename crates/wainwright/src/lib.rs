//! The program behind the person: the open project (session), the file it
//! lives in (store), what is shown of it (views), the command line and the
//! pages. Not here: arithmetic on quantities, judgement, drawing.

pub mod cli;
pub mod session;
pub mod store;
pub mod study;
pub mod views;
pub mod web;
