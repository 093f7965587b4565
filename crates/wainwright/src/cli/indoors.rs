//! `indoors`: what walls let through, the cold night, the sunny day, water and mould, air to sleep in. Not here:
//! working it out (the study of the box as a room).

use super::args::IndoorsArgs;
use super::exit::{Status, Trouble};
use super::out::Out;
use super::table::{Align, print as print_table};
use crate::store;
use crate::study::Study;
use crate::views::indoors::damp::{AirView, DampView};
use crate::views::indoors::{DayView, IndoorsView, NightView, SideView};
use Align::{Left, Right};

/// Prints the box as a room.
pub fn run(args: &IndoorsArgs, out: &mut Out) -> Result<Status, Trouble> {
    let read = Study::of(store::read(&args.file)?);
    let found = wainwright_analysis::indoors::study(&read.project);
    let view = IndoorsView::of(&read.project, &found);
    if args.json {
        out.json(&view);
    } else {
        print(&view, out);
    }
    let whole = !read.is_incomplete() && view.missing.is_empty() && view.refused.is_empty();
    Ok(if whole {
        Status::Done
    } else {
        Status::Incomplete(None)
    })
}

fn print(view: &IndoorsView, out: &mut Out) {
    if !view.begun {
        out.wrapped(
            "",
            "Nobody has begun with this yet: add layers with [layer.<name>], and [living]. What follows are usual figures.",
        );
    }
    sides(view, out);
    if let Some(found) = &view.night {
        night(found, out);
    }
    if let Some(found) = &view.day {
        day(found, out);
    }
    match &view.damp {
        Some(found) => damp(found, out),
        None => out.wrapped("", "For damp, name a climate: [living] climate."),
    }
    if let Some(found) = &view.air {
        air(found, out);
    }
    for caution in &view.cautions {
        let about = if caution.items.is_empty() {
            String::new()
        } else {
            format!(" ({})", caution.items.join(", "))
        };
        out.hanging("! ", "  ", &format!("{}{about}", caution.text));
    }
    for missing in &view.missing {
        let text = format!("Left out: {} needs {}.", missing.path, missing.wanted);
        out.hanging("", "  ", &text);
    }
    for refused in &view.refused {
        out.hanging("", "  ", refused);
    }
}

fn heading(text: &str, out: &mut Out) {
    out.gap();
    let text = out.paint.bold(text);
    out.line(text);
}

fn sides(view: &IndoorsView, out: &mut Out) {
    heading("Sides", out);
    let heads = [
        ("Side", Left),
        ("Area", Right),
        ("Lets through", Right),
        ("Between the ribs", Right),
    ];
    let row = |side: &SideView| {
        vec![
            side.side.to_owned(),
            side.area.clone(),
            side.lets_through.clone(),
            if side.described {
                side.between.clone()
            } else {
                "not described".to_owned()
            },
        ]
    };
    let rows: Vec<Vec<String>> = view.sides.iter().map(row).collect();
    print_table(out, &heads, &rows);
    let rows: Vec<Vec<String>> = view
        .panes
        .iter()
        .map(|pane| {
            vec![
                pane.label.clone(),
                pane.area.clone(),
                pane.lets_through.clone(),
                pane.pane.to_owned(),
            ]
        })
        .collect();
    if !rows.is_empty() {
        let heads = [
            ("Opening", Left),
            ("Area", Right),
            ("Lets through", Right),
            ("Closed with", Left),
        ];
        print_table(out, &heads, &rows);
    }
}

fn night(found: &NightView, out: &mut Out) {
    heading("The coldest night", out);
    out.wrapped("  ", &found.with);
    let rows: Vec<Vec<String>> = found
        .leaving
        .iter()
        .map(|(words, watts, share)| {
            vec![
                words.clone(),
                format!("{watts:.0} W"),
                format!("{:.0} %", share * 100.0),
            ]
        })
        .collect();
    print_table(
        out,
        &[("Leaves by", Left), ("Heat", Right), ("Share", Right)],
        &rows,
    );
    out.wrapped("  ", &format!("Together {:.0} W.", found.watts));
    for sentence in &found.verdict {
        out.wrapped("  ", sentence);
    }
}

fn day(found: &DayView, out: &mut Out) {
    heading("A clear summer day", out);
    out.wrapped("  ", &found.with);
    let rows: Vec<Vec<String>> = found
        .coming
        .iter()
        .map(|(words, watts, _)| vec![words.clone(), format!("{watts:.0} W")])
        .collect();
    print_table(out, &[("Comes by", Left), ("Heat", Right)], &rows);
    out.wrapped("  ", &found.verdict);
}

fn damp(found: &DampView, out: &mut Out) {
    heading("Damp", out);
    out.wrapped("  ", &found.with);
    for side in &found.sides {
        out.line(format!("  {}", side.side));
        for way in &side.ways {
            out.hanging("    ", "      ", &way.verdict);
        }
        for help in &side.helps {
            out.hanging("    + ", "      ", help);
        }
    }
}

fn air(found: &AirView, out: &mut Out) {
    heading("Air to sleep in", out);
    out.wrapped("  ", &found.with);
    let rows: Vec<Vec<String>> = found
        .curves
        .iter()
        .map(|curve| {
            vec![
                curve.from.to_owned(),
                curve.airflow.clone(),
                format!("{:.0} ppm", curve.end_ppm),
                curve.humidity.map_or_else(
                    || "-".to_owned(),
                    |humidity| format!("{:.0} %", humidity.min(1.0) * 100.0),
                ),
            ]
        })
        .collect();
    let heads = [
        ("", Left),
        ("Air", Right),
        ("CO2 at the end", Right),
        ("Humidity by breath", Right),
    ];
    print_table(out, &heads, &rows);
    out.wrapped("  ", &found.open);
    for sentence in &found.needed {
        out.wrapped("  ", sentence);
    }
}
