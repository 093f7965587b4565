//! When the device that should open does so, against how long the wire that
//! suffers most stands it. Not here: other devices and wires.

use super::Asked;
use crate::web::view::View;
use maud::{Markup, PreEscaped, html};
use wainwright_analysis::result::FaultEnd;
use wainwright_drawing::chart::{TimeBand, time_band};
use wainwright_drawing::{Css, Tone};

/// The chart, where both times are known well enough to be held together.
pub fn bands(view: &View, asked: &Asked, end: &FaultEnd) -> Markup {
    let chart = band(view, asked, end);
    html! {
        @if let Some(chart) = chart {
            div.chart { (PreEscaped(time_band(&chart, Css::OnPage))) }
        }
    }
}

fn band(view: &View, asked: &Asked, end: &FaultEnd) -> Option<TimeBand> {
    let opening = end.openings.first()?;
    let device = asked.assessment.devices.get(opening.device)?;
    let stress = end.stresses.iter().find(|stress| stress.stands.is_some())?;
    let wire = asked.assessment.wires.get(stress.wire)?;
    Some(TimeBand {
        device: format!("{} at {}", device.label, view.show(opening.amps)),
        earliest_seconds: Some(opening.earliest.seconds()),
        latest_seconds: opening.latest.map(|latest| latest.seconds()),
        conductor: format!("Wire {} stands {} for", wire.label, view.show(stress.amps)),
        withstand_seconds: stress.stands.map(|time| time.seconds()),
        tone: if stress.survives {
            Tone::Calm
        } else {
            Tone::Bad
        },
    })
}
