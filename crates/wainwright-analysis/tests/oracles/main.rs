//! Oracles: independent, slow methods agree with the assessment on random
//! small projects, and a general-purpose circuit simulator on the demos.

mod guards;
mod ngspice;
mod random;
mod volts;
