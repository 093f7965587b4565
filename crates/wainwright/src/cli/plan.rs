//! `plan`: what wiring to add, why, at what cost, and what stands in the way.
//! Not here: planning (the rules).

use super::args::PlanArgs;
use super::change;
use super::diff::diff;
use super::exit::{Status, Trouble};
use super::out::Out;
use super::show;
use super::table::{Align, print as print_table};
use crate::session::Session;
use crate::study::Study;
use crate::views::plan::obstacle_words;
use crate::views::plan_report::PlanView;
use wainwright_rules::plan::{ObstacleKind, Options, Plan, make};
use wainwright_units::{Length, Quantity, Ratio, System};

/// What a plan is called in the history of changes.
const TITLE: &str = "Add the planned wiring";

/// Makes the plan, and puts it into the file when asked to.
pub fn run(args: &PlanArgs, out: &mut Out) -> Result<Status, Trouble> {
    let session = Session::open(&args.file)?;
    let before = session.snapshot();
    let study = &before.study;
    let plan = make(&study.text, &study.project, &Options::default());
    let planned = Study::of(plan.text.as_str());
    let mut view = PlanView::of(&plan, study, &planned, args.file.to_str());
    if args.write && !plan.is_empty() {
        change::apply(&session, &before, &plan.edits, TITLE)?;
        view.applied = true;
    }
    if args.json {
        out.json(&view);
    } else {
        print(args, study, &plan, &view, out);
    }
    Ok(status(study, &planned, &plan))
}

/// As the planned wiring deserves. A plan that waits for a person, or that
/// could not read everything, is none that can be relied on.
fn status(before: &Study, planned: &Study, plan: &Plan) -> Status {
    let waits = plan
        .obstacles
        .iter()
        .any(|one| matches!(one.kind, ObstacleKind::Missing | ObstacleKind::NothingFits));
    if before.is_incomplete() || waits {
        Status::Incomplete(planned.worst())
    } else {
        Status::Found(planned.worst())
    }
}

fn print(args: &PlanArgs, before: &Study, plan: &Plan, view: &PlanView, out: &mut Out) {
    let units = show::units(&before.project);
    head(before, plan, view, units, out);
    added(view, units, out);
    decisions(plan, out);
    obstacles(plan, out);
    lengths(plan, out);
    left(view, out);
    if args.full {
        out.gap();
        change::print(&diff(&before.text, &plan.text), out);
    }
    out.gap();
    let file = args.file.display();
    if view.applied {
        out.line(format!("Written to {file}"));
    } else if !view.empty {
        let command = out.paint.dim(&format!("wainwright plan {file} --write"));
        out.line(command);
    }
}

fn head(before: &Study, plan: &Plan, view: &PlanView, units: System, out: &mut Out) {
    if before.is_incomplete() {
        out.wrapped("", "Part of the text could not be read; the plan leaves it out. `wainwright check` says where.");
    }
    if view.empty {
        let title = out.paint.bold("Nothing to add");
        out.line(title);
        return;
    }
    let title = format!(
        "{} and {} to add",
        count(view.items.len(), "thing", "things"),
        count(view.wires.len(), "wire", "wires")
    );
    let title = out.paint.bold(&title);
    out.line(title);
    let gap = Ratio::from_fraction(plan.gap()).show(units);
    let text = format!(
        "Cost {:.0} cost units; no wiring of this layout costs less than {:.0}, so at most {gap} could be saved by other sizes. Cost units are for comparing only, they are no money.",
        plan.cost, plan.lower_bound
    );
    out.wrapped("", &text);
}

fn added(view: &PlanView, units: System, out: &mut Out) {
    if !view.items.is_empty() {
        out.gap();
        let heads = [
            ("Thing", Align::Left),
            ("Kind", Align::Left),
            ("Called", Align::Left),
        ];
        let rows: Vec<Vec<String>> = view
            .items
            .iter()
            .map(|item| {
                let what = item.kind.map(str::to_owned).or_else(|| item.part.clone());
                vec![
                    item.id.clone(),
                    what.unwrap_or_default(),
                    item.label.clone().unwrap_or_default(),
                ]
            })
            .collect();
        print_table(out, &heads, &rows);
    }
    if !view.wires.is_empty() {
        out.gap();
        let heads = [
            ("Wire", Align::Left),
            ("From", Align::Left),
            ("To", Align::Left),
            ("Size", Align::Left),
            ("Length", Align::Right),
        ];
        let rows: Vec<Vec<String>> = view
            .wires
            .iter()
            .map(|wire| {
                let length = wire.metres.map(|m| Length::from_metres(m).show(units));
                let mark = if wire.length_assumed { "?" } else { "" };
                vec![
                    wire.id.clone(),
                    wire.from.clone(),
                    wire.to.clone(),
                    wire.size.clone().unwrap_or_else(|| "-".into()),
                    length.map_or_else(|| "-".into(), |text| format!("{text}{mark}")),
                ]
            })
            .collect();
        print_table(out, &heads, &rows);
    }
    for path in &view.changes {
        out.line(format!("  changes {path}"));
    }
}

fn decisions(plan: &Plan, out: &mut Out) {
    if plan.decisions.is_empty() {
        return;
    }
    out.gap();
    let title = out.paint.bold("What was decided, and why");
    out.line(title);
    for decision in &plan.decisions {
        out.hanging("  ", "    ", &decision.what);
        let text = format!("{} [{}]", decision.why, decision.source);
        out.hanging("    ", "    ", &text);
    }
}

fn obstacles(plan: &Plan, out: &mut Out) {
    let mut kinds: Vec<ObstacleKind> = plan.obstacles.iter().map(|one| one.kind).collect();
    kinds.sort_unstable();
    kinds.dedup();
    for kind in kinds {
        out.gap();
        let title = out.paint.bold(obstacle_words(kind));
        out.line(title);
        for one in plan.obstacles.iter().filter(|one| one.kind == kind) {
            out.hanging("  ", "    ", &one.text);
        }
    }
}

fn lengths(plan: &Plan, out: &mut Out) {
    if !plan.assumed_lengths.is_empty() {
        out.gap();
        let text = format!(
            "Length assumed, because an end has no place: {}",
            plan.assumed_lengths.join(", ")
        );
        out.hanging("", "  ", &text);
    }
}

fn left(view: &PlanView, out: &mut Out) {
    out.gap();
    let s = &view.summary;
    let text = format!(
        "Checked once planned: {} danger, {} warning, {} caution, {} notice",
        s.danger, s.warning, s.caution, s.notice
    );
    let text = out.paint.bold(&text);
    out.line(text);
    for finding in &view.findings {
        let text = format!("{}: {}", finding.severity, finding.headline);
        out.hanging("  ", "    ", &text);
    }
}

fn count(number: usize, one: &str, many: &str) -> String {
    match number {
        1 => format!("1 {one}"),
        _ => format!("{number} {many}"),
    }
}
