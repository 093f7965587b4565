//! `cabinet`: what is where on the face of a cabinet, what fits, how warm it gets. Not here: working it out.

use super::args::CabinetArgs;
use super::exit::{Status, Trouble};
use super::out::Out;
use super::table::{Align, print as print_table};
use crate::store;
use crate::study::Study;
use crate::views::cabinet::{CabinetView, DeviceView};
use crate::views::lining::words::tape;
use Align::{Left, Right};
use wainwright_analysis::cabinets;
use wainwright_units::{Length, System};

/// Prints one cabinet or all of them.
pub fn run(args: &CabinetArgs, out: &mut Out) -> Result<Status, Trouble> {
    let read = Study::of(store::read(&args.file)?);
    let all = cabinets::study(&read.project, Some(&read.assessment));
    let wanted = |id: &str| args.id.as_deref().is_none_or(|wanted| wanted == id);
    let views: Vec<CabinetView> = all
        .iter()
        .filter(|found| wanted(found.cabinet.as_str()))
        .map(|found| CabinetView::of(&read.project, found))
        .collect();
    if args.json {
        out.json(&views);
    } else {
        let units = super::show::units(&read.project);
        print(&views, args.id.as_deref(), units, out);
    }
    let whole = !read.is_incomplete() && !views.is_empty();
    Ok(if whole {
        Status::Done
    } else {
        Status::Incomplete(None)
    })
}

fn print(views: &[CabinetView], id: Option<&str>, units: System, out: &mut Out) {
    match (views.is_empty(), id) {
        (true, Some(id)) => out.wrapped("", &format!("There is no cabinet called {id}.")),
        (true, None) => out.wrapped(
            "",
            "No cabinet yet. Add [cabinet.<name>] with what it holds, its place and its size.",
        ),
        _ => {}
    }
    for view in views {
        let title = out.paint.bold(&view.label);
        out.line(title);
        if let Some(face) = &view.face {
            out.wrapped("  ", face);
        }
        devices(view, units, out);
        for (one, other) in &view.overlaps {
            out.hanging(
                "  ! ",
                "    ",
                &format!("{one} and {other} cover each other."),
            );
        }
        for name in &view.unknown {
            out.hanging(
                "  ! ",
                "    ",
                &format!("{name} is no item of this project."),
            );
        }
        out.wrapped("  ", &view.reach);
        out.wrapped("  ", &view.air.cooling);
        for sentence in &view.air.verdict {
            out.wrapped("  ", sentence);
        }
        if let Some(template) = view
            .template
            .as_ref()
            .filter(|found| !found.cuts.is_empty())
        {
            out.line("  Holes in the face, from its left lower inside corner, in mm:");
            for cut in &template.cuts {
                let [_, _, width, height] = cut.rect;
                let size = if cut.round {
                    format!("{width:.0} round")
                } else {
                    format!("{width:.0} x {height:.0}")
                };
                let [x, y] = cut.centre;
                out.line(format!(
                    "    {}: {size}, middle at {x:.0}, {y:.0}",
                    cut.label
                ));
            }
        }
        out.gap();
    }
}

fn devices(view: &CabinetView, units: System, out: &mut Out) {
    let heads = [
        ("Device", Left),
        ("From left", Right),
        ("Up", Right),
        ("Camp", Right),
        ("Road", Right),
        ("Shore", Right),
    ];
    let row = |device: &DeviceView| {
        let at = |index: usize| {
            let value = device.rect_mm.and_then(|rect| rect.get(index).copied());
            value.map_or_else(
                || "-".to_owned(),
                |mm| tape(Length::from_millimetres(mm), units),
            )
        };
        let [camp, road, shore] = device.watts.map(|watts| format!("{watts:.0} W"));
        vec![device.label.clone(), at(0), at(1), camp, road, shore]
    };
    let rows: Vec<Vec<String>> = view.devices.iter().map(row).collect();
    print_table(out, &heads, &rows);
    for device in &view.devices {
        for wrong in &device.wrong {
            out.hanging("  ! ", "    ", &format!("{}: {wrong}", device.label));
        }
    }
}
