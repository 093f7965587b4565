//! `road`: where the weight goes in every state, what is left of each rating,
//! how the trailer follows, what is held. Not here: judgement (`check` finds
//! fault), a better layout (see `place`).

mod held;
mod weights;

use super::args::RoadArgs;
use super::exit::{Status, Trouble};
use super::out::Out;
use super::show;
use crate::store;
use crate::study::Study;
use crate::views::REPORT_VERSION;
use crate::views::basis::BasisView;
use crate::views::road::{RoadView, words};
use serde::Serialize;
use wainwright_analysis::result::road::{RoadResult, SwayResult};
use wainwright_units::{Quantity, System};

/// Said wherever damping is shown.
const NO_SAFE_SPEED: &str = "Damping is how fast a swing dies away: more is better, below zero it grows. Use it to compare two layouts. It is no safe speed.";

/// The part of the report about the road; the same fields as there.
#[derive(Debug, Serialize)]
struct RoadReport {
    report: u32,
    program: &'static str,
    file: Option<String>,
    name: Option<String>,
    road: RoadView,
}

/// What is needed to print a part.
#[derive(Clone, Copy)]
struct Shown<'s> {
    study: &'s Study,
    road: &'s RoadResult,
    units: System,
}

/// Prints the road study.
pub fn run(args: &RoadArgs, out: &mut Out) -> Result<Status, Trouble> {
    let study = Study::of(store::read(&args.file)?);
    let road = &study.assessment.road;
    if args.json {
        out.json(&RoadReport {
            report: REPORT_VERSION,
            program: env!("CARGO_PKG_VERSION"),
            file: args.file.to_str().map(str::to_owned),
            name: study.project.head.name.as_ref().map(|n| n.value.clone()),
            road: RoadView::of(road, &study.project),
        });
    } else {
        let units = show::units(&study.project);
        let study = &study;
        print(Shown { study, road, units }, out);
    }
    Ok(if study.is_incomplete() || road.states.is_empty() {
        Status::Incomplete(None)
    } else {
        Status::Done
    })
}

fn print(shown: Shown<'_>, out: &mut Out) {
    let road = shown.road;
    if !road.begun {
        out.wrapped("", "Nobody has begun with weights and places yet: type the trailer's sizes and weights, and mass, size and place of things.");
    }
    if road.states.is_empty() {
        out.wrapped("", "There is no weight to show yet.");
    } else {
        weights::states(shown, out);
        weights::ratings(shown, out);
        steady(shown, out);
    }
    held::holds(shown, out);
    held::crowd(shown, out);
    held::weighings(shown, out);
    unknowns(shown, out);
}

/// How it follows, stands and clears a ramp.
fn steady(shown: Shown<'_>, out: &mut Out) {
    let (road, units) = (shown.road, shown.units);
    out.gap();
    heading("How it follows", out);
    if !road.sway.is_empty() {
        out.wrapped("  ", NO_SAFE_SPEED);
    }
    for sway in &road.sway {
        out.hanging("  ", "    ", &damping(shown, sway));
    }
    if road.sway.iter().any(|sway| sway.vehicle_assumed) {
        out.wrapped(
            "  ",
            "Not all of the tow vehicle is typed; a usual one stands in.",
        );
    }
    let state = |index: usize| road.states.get(index);
    if let Some(worst) = road.worst {
        if let Some(tipping) = state(worst.highest_centre).and_then(|found| found.tipping) {
            let text = format!(
                "Tips on a side slope of {} when it stands on hard ground",
                tipping.side_slope.show(units)
            );
            out.hanging("  ", "    ", &text);
        }
        if let Some(found) = state(worst.most_yaw_radius) {
            let text = format!(
                "Yaw radius {}: how far its weight lies from its middle; nearer swings less",
                found.yaw_radius.show(units)
            );
            out.hanging("  ", "    ", &text);
        }
    }
    if let Some(departure) = &road.departure {
        let text = format!(
            "Departure angle {}: the steepest ramp the tail clears",
            departure.angle.show(units)
        );
        out.hanging("  ", "    ", &text);
    }
}

fn damping(shown: Shown<'_>, sway: &SwayResult) -> String {
    let value = sway.damping.map_or_else(
        || "does not swing".to_owned(),
        |damping| format!("damping {:.3}", damping.fraction()),
    );
    let against = sway.against_bare.map_or_else(String::new, |by| {
        format!(", {by:+.3} against the bare trailer")
    });
    let turns = if sway.diverges {
        ", the vehicle turns away"
    } else {
        ""
    };
    format!(
        "{} ({}), {}: {value}{against}{turns}",
        sway.speed.show(shown.units),
        if sway.planned { "planned" } else { "test" },
        words::state(&shown.study.project, shown.road, sway.state)
    )
}

/// What the figures rest on.
fn unknowns(shown: Shown<'_>, out: &mut Out) {
    let road = shown.road;
    out.gap();
    for one in &road.unsettled {
        let what = match (one.unweighed, one.unplaced) {
            (true, true) => "neither mass nor place is known",
            (true, false) => "its mass is not known",
            _ => "its place is not known",
        };
        let name = words::item(&shown.study.project, one.item.as_str());
        out.hanging("", "  ", &format!("Not counted: {name}, {what}"));
    }
    for missing in &road.missing {
        let text = format!(
            "Left out: {} needs {}",
            missing.path.join("."),
            words::wanted(missing.wanted)
        );
        out.hanging("", "  ", &text);
    }
    for assumed in &road.assumptions {
        let basis = BasisView::of(&assumed.basis).words();
        let text = format!("{} = {} ({basis})", assumed.path.join("."), assumed.value);
        out.hanging("", "  ", &text);
    }
    for refused in &road.refused {
        out.hanging("", "  ", &format!("Refused: {refused}"));
    }
}

fn heading(text: &str, out: &mut Out) {
    let text = out.paint.bold(text);
    out.line(text);
}
