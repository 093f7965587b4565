//! `lining`: sides with their layers, cutting plans in order, what to buy, odds. Not here: working it out (the lining
//! study).

use super::args::LiningArgs;
use super::exit::{Status, Trouble};
use super::out::Out;
use super::show;
use super::table::{Align, print as print_table};
use crate::store;
use crate::study::Study;
use crate::views::lining::{LiningReport, spares, words};
use wainwright_analysis::lining::{inputs, study};
use wainwright_analysis::result::lining::{
    BarPlan, CutBar, CuttingJob, JobPlan, LaidLayer, LinedSurface, LiningResult, SheetPlan,
};
use wainwright_model::Project;
use wainwright_units::{Quantity, System};

/// Prints the lining.
pub fn run(args: &LiningArgs, out: &mut Out) -> Result<Status, Trouble> {
    let read = Study::of(store::read(&args.file)?);
    let units = show::units(&read.project);
    let found = study(&inputs(&read.project));
    if args.json {
        let file = args.file.to_str();
        out.json(&LiningReport::of(&found, &read.project, units, file));
    } else {
        print(&found, &read.project, units, args.pieces, out);
    }
    let whole = !read.is_incomplete() && !found.surfaces.is_empty() && found.refused.is_empty();
    Ok(if whole {
        Status::Done
    } else {
        Status::Incomplete(None)
    })
}

fn print(found: &LiningResult, project: &Project, units: System, pieces: bool, out: &mut Out) {
    if found.surfaces.is_empty() && found.missing.is_empty() {
        out.wrapped(
            "",
            "No layer yet. Add [layer.<name>] with the sides it is on, its kind, material and thickness.",
        );
        return;
    }
    for surface in &found.surfaces {
        self::surface(surface, project, units, pieces, out);
    }
    for job in &found.jobs {
        self::job(job, project, units, out);
    }
    left(found, project, units, out);
}

fn surface(surface: &LinedSurface, project: &Project, units: System, pieces: bool, out: &mut Out) {
    let title = format!(
        "{}, {} x {}",
        words::side(surface.side),
        words::tape(surface.width, units),
        words::tape(surface.height, units)
    );
    let title = out.paint.bold(&title);
    out.line(title);
    for layer in &surface.layers {
        out.hanging("  ", "    ", &self::layer(layer, project, units));
        if !layer.done {
            for shortfall in &layer.shortfalls {
                out.hanging("    ! ", "      ", &words::shortfall(shortfall, units));
            }
        }
        if pieces && !layer.done {
            self::pieces(layer, units, out);
        }
    }
    out.gap();
}

/// One layer in a line.
fn layer(layer: &LaidLayer, project: &Project, units: System) -> String {
    let label = project.label_or_id("layer", layer.layer.as_str());
    let mut parts = vec![format!("{} {label}", layer.position)];
    if layer.done {
        parts.push("done".to_owned());
    } else if !layer.pieces.is_empty() {
        parts.push(words::pieces_of(layer.kind, layer.pieces.len()));
    }
    if layer.fasteners > 0 && !layer.done {
        parts.push(format!("{} screws", layer.fasteners));
    }
    if let Some(mass) = layer.mass {
        parts.push(mass.show(units));
    }
    let line = parts.join(", ");
    match layer.fit.filter(|_| !layer.done) {
        Some(fit) => format!("{line}. {}", words::fit(fit, units)),
        None => line,
    }
}

fn pieces(layer: &LaidLayer, units: System, out: &mut Out) {
    let rows: Vec<Vec<String>> = layer
        .pieces
        .iter()
        .map(|piece| {
            let mut notes = Vec::new();
            if piece.ripped {
                notes.push("ripped");
            }
            if !piece.cuts.is_empty() {
                notes.push("notched");
            }
            vec![
                piece.mark.to_string(),
                words::tape(piece.length, units),
                words::tape(piece.width, units),
                words::tape(piece.rect.x, units),
                words::tape(piece.rect.y, units),
                notes.join(", "),
            ]
        })
        .collect();
    let heads = [
        ("Piece", Align::Left),
        ("Length", Align::Right),
        ("Width", Align::Right),
        ("From the left or front", Align::Right),
        ("Up", Align::Right),
        ("", Align::Left),
    ];
    print_table(out, &heads, &rows);
}

fn job(job: &CuttingJob, project: &Project, units: System, out: &mut Out) {
    let title = out.paint.bold(&words::job(job, units));
    out.line(title);
    match &job.plan {
        JobPlan::Bars(plan) => bars(plan, job, project, units, out),
        JobPlan::Sheets(plan) => sheets(plan, job, project, units, out),
        JobPlan::None(why) => out.wrapped("  ", &words::no_plan(why, units)),
    }
    let cost = match &job.plan {
        JobPlan::Bars(plan) => plan.cost,
        JobPlan::Sheets(plan) => plan.cost,
        JobPlan::None(_) => None,
    };
    for (index, stock) in job.stocks.iter().enumerate() {
        let name = words::stock(stock, project, units);
        let mut parts = Vec::new();
        if stock.used_owned > 0 {
            parts.push(format!("{} from the shed", stock.used_owned));
        }
        if stock.buy > 0 {
            parts.push(format!("buy {}", stock.buy));
        }
        let spares = spares(job, index);
        if spares > 0 {
            parts.push(format!("{spares} more as spares"));
        }
        if !parts.is_empty() {
            out.hanging("  ", "    ", &format!("{name}: {}", parts.join(", ")));
        }
    }
    if let Some(cost) = cost {
        let cost = words::cost(cost, project);
        out.hanging("  ", "    ", &format!("Cost without spares {cost}."));
    }
    let said = [
        words::proof(job, project),
        words::rips(job),
        job.other
            .as_ref()
            .map(|other| words::other(other, job, project)),
        job.short.as_ref().map(|short| words::odds(job, short)),
    ];
    for text in said.into_iter().flatten() {
        out.hanging("  ", "    ", &text);
    }
    out.gap();
}

fn bars(plan: &BarPlan, job: &CuttingJob, project: &Project, units: System, out: &mut Out) {
    for (number, bar) in plan.bars.iter().enumerate() {
        let name = job
            .stocks
            .get(bar.stock)
            .map_or_else(String::new, |stock| words::stock(stock, project, units));
        let text = format!("{:>3}  {name}: {}", number + 1, bar_line(bar, units));
        out.hanging("  ", "       ", &text);
    }
}

fn bar_line(bar: &CutBar, units: System) -> String {
    let mut parts: Vec<String> = bar
        .pieces
        .iter()
        .map(|(mark, length)| format!("{mark} {}", words::tape(*length, units)))
        .collect();
    let left = words::tape(bar.offcut, units);
    if bar.keep {
        parts.push(format!("keep {left}"));
    } else {
        parts.push(format!("left {left}"));
    }
    if bar.owned {
        parts.push("from the shed".to_owned());
    }
    parts.join(", ")
}

fn sheets(plan: &SheetPlan, job: &CuttingJob, project: &Project, units: System, out: &mut Out) {
    for (number, sheet) in plan.sheets.iter().enumerate() {
        let name = job
            .stocks
            .get(sheet.stock)
            .map_or_else(String::new, |stock| words::stock(stock, project, units));
        let shed = if sheet.owned { ", from the shed" } else { "" };
        let pieces: Vec<String> = sheet
            .pieces
            .iter()
            .map(|piece| {
                format!(
                    "{} {} x {}",
                    piece.mark,
                    words::tape(piece.place.width, units),
                    words::tape(piece.place.height, units)
                )
            })
            .collect();
        let text = format!("{:>3}  {name}{shed}: {}", number + 1, pieces.join(", "));
        out.hanging("  ", "       ", &text);
        for (number, cut) in sheet.cuts.iter().enumerate() {
            let way = if cut.upright { "upright" } else { "level" };
            let rip = if cut.rip { ", a rip" } else { "" };
            let text = format!(
                "cut {}: part {}, {way}, at {}{rip}",
                number + 1,
                cut.part,
                words::tape(cut.setting, units)
            );
            out.hanging("       ", "         ", &text);
        }
    }
    if !plan.missing.is_empty() {
        let marks: Vec<String> = plan.missing.iter().map(ToString::to_string).collect();
        out.hanging("  ! ", "    ", &format!("Not cut: {}", marks.join(", ")));
    }
}

/// What is to come in all, and what is missing.
fn left(found: &LiningResult, project: &Project, units: System, out: &mut Out) {
    if found.mass_to_come.kilograms() > 0.0 {
        let screws = found.supplies.fasteners;
        let mass = found.mass_to_come.show(units);
        out.wrapped(
            "",
            &format!("Still to come: {mass}, {screws} screws. Everything to buy: `wainwright lists` with the word buy."),
        );
    }
    for missing in &found.missing {
        let text = format!(
            "Missing: {}: {}.",
            missing.path.join("."),
            words::wanted(missing.wanted)
        );
        out.hanging("", "  ", &text);
    }
    for refused in &found.refused {
        let layer = refused.layer.as_ref();
        let layer = layer.map_or("", |id| project.label_or_id("layer", id.as_str()));
        let side = refused.side.map_or("", words::side);
        out.hanging(
            "! ",
            "  ",
            &format!("{side}, {layer}: {}", refused.sentence),
        );
    }
    for assumed in &found.assumptions {
        let text = format!("Stand-in: {} = {}", assumed.path.join("."), assumed.value);
        out.hanging("", "  ", &text);
    }
}
