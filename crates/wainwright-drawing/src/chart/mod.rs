//! Charts as SVG: a margin bar, a time band, a voltage profile; courses over hours, twelve
//! months, combinations of two numbers, a ladder of voltages, a wall cut through, curves. They use
//! the same classes and custom properties as the schematic. Values arrive
//! computed; nothing is judged here.

mod bar;
mod build_up;
mod course;
mod curves;
mod ladder;
mod plot;
mod profile;
mod time_band;
mod trade_off;
mod year;

pub use bar::{Bar, bar};
pub use build_up::{BuildUp, Ply, WetMark, build_up};
pub use course::{Course, Lane, course};
pub use curves::{Curves, curves};
pub use ladder::{Ladder, Limit, Setting, ladder};
pub use plot::Mark;
pub use profile::{Profile, Step, profile};
pub use time_band::{TimeBand, time_band};
pub use trade_off::{Cell, TradeOff, trade_off};
pub use year::{MonthColumn, Year, year};

use crate::svg::writer::Writer;
use crate::svg::{Css, open};

/// Opens a chart: one picture with a sentence for those who do not see it.
fn open_chart(out: &mut Writer, words: &str, width: f64, height: f64, css: Css) {
    open(out, words, width, height, css);
    out.text("title", &[], words);
}
