//! Small charts as SVG: a margin bar, a time band, a voltage profile. They use
//! the same classes and custom properties as the schematic. Values arrive
//! computed; nothing is judged here.

mod bar;
mod profile;
mod time_band;

pub use bar::{Bar, bar};
pub use profile::{Profile, Step, profile};
pub use time_band::{TimeBand, time_band};

use crate::svg::writer::Writer;
use crate::svg::{Css, open};

/// Opens a chart: one picture with a sentence for those who do not see it.
fn open_chart(out: &mut Writer, words: &str, width: f64, height: f64, css: Css) {
    open(out, words, width, height, css);
    out.text("title", &[], words);
}
