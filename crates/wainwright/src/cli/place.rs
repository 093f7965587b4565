//! `place`: a better layout, what it brings, and the moves in the file. Not
//! here: looking for it (the road study).

use super::args::PlaceArgs;
use super::change;
use super::exit::{Status, Trouble};
use super::out::Out;
use super::show;
use super::table::{Align, print as print_table};
use crate::session::Session;
use crate::study::Study;
use crate::views::place::{Figures, PlaceView, blocked, proof_words, why_none};
use crate::views::road::words;
use wainwright_analysis::result::road::{BetterLayout, Move};
use wainwright_analysis::road::{LayoutOptions, better_layout};
use wainwright_model::{Edit, Value, path};
use wainwright_rules::Severity;
use wainwright_units::{Quantity, System};

/// What the moves are called in the history of changes.
const TITLE: &str = "Move things to a better layout";

/// Looks for a layout, and makes the moves when asked to.
pub fn run(args: &PlaceArgs, out: &mut Out) -> Result<Status, Trouble> {
    let session = Session::open(&args.file)?;
    let before = session.snapshot();
    let study = &before.study;
    let units = show::units(&study.project);
    let options = LayoutOptions::default();
    let result = better_layout(&study.project, &study.assessment.road, &options);
    let mut view = PlaceView::of(&result, &study.project, units, args.file.to_str());
    if let Ok(found) = &result
        && args.write
        && !found.moves.is_empty()
    {
        let edits: Vec<Edit> = found.moves.iter().map(|one| edit(one, units)).collect();
        change::apply(&session, &before, &edits, TITLE)?;
        view.applied = true;
    }
    if args.json {
        out.json(&view);
    } else {
        match &result {
            Ok(found) => print(args, study, found, view.applied, out),
            Err(why) => out.wrapped("", &why_none(why)),
        }
    }
    Ok(match &result {
        Err(_) => Status::Incomplete(None),
        Ok(_) if study.is_incomplete() => Status::Incomplete(None),
        Ok(found) if found.kept_after => Status::Done,
        Ok(_) => Status::Found(Some(Severity::Warning)),
    })
}

fn edit(one: &Move, units: System) -> Edit {
    Edit::Set {
        path: path(["item", one.item.as_str(), "spot"]),
        value: Value::Text(one.to.typed(units)),
    }
}

fn print(args: &PlaceArgs, study: &Study, found: &BetterLayout, applied: bool, out: &mut Out) {
    let units = show::units(&study.project);
    let title = out.paint.bold(&verdict(found));
    out.line(title);
    if !found.moves.is_empty() {
        moves(study, found, units, out);
        compared(found, units, out);
        out.wrapped(
            "",
            "Damping is for comparing two layouts. It is no safe speed.",
        );
    }
    out.wrapped("", &proof_words(found, units));
    for still in blocked(found, &study.project) {
        out.hanging("", "  ", &format!("Still in the way: {still}"));
    }
    if found.moves.is_empty() {
        return;
    }
    out.gap();
    let file = args.file.display();
    if applied {
        out.line(format!("Written to {file}"));
        out.wrapped("", "Lift heavy things with two people.");
    } else {
        let command = out.paint.dim(&format!("wainwright place {file} --write"));
        out.line(command);
    }
}

fn verdict(found: &BetterLayout) -> String {
    let count = match found.moves.len() {
        0 => return "Nothing better was found".into(),
        1 => "1 move".to_owned(),
        count => format!("{count} moves"),
    };
    match (found.kept_before, found.kept_after) {
        (false, true) => format!("{count} put it right"),
        (true, true) => format!("{count} make it better"),
        _ => format!("{count} bring it nearer"),
    }
}

/// Places as they are typed in the file.
fn moves(study: &Study, found: &BetterLayout, units: System, out: &mut Out) {
    out.gap();
    let heads = [
        ("Thing", Align::Left),
        ("Now", Align::Left),
        ("Goes to", Align::Left),
    ];
    let rows: Vec<Vec<String>> = found
        .moves
        .iter()
        .map(|one| {
            vec![
                words::item(&study.project, one.item.as_str()),
                one.from
                    .map_or_else(|| "not placed".into(), |spot| spot.typed(units)),
                one.to.typed(units),
            ]
        })
        .collect();
    print_table(out, &heads, &rows);
    out.wrapped(
        "  ",
        "Each place: from the front wall, from the left wall, above the floor.",
    );
}

fn compared(found: &BetterLayout, units: System, out: &mut Out) {
    out.gap();
    let before = Figures::of(&found.before, &found.sway_before);
    let after = Figures::of(&found.after, &found.sway_after);
    let heads = [
        ("Worst over all fill states", Align::Left),
        ("Now", Align::Right),
        ("After", Align::Right),
    ];
    let damping = |figures: &Figures| {
        let value = figures.damping.map(|damping| damping.fraction());
        value.map_or_else(|| "-".into(), |value| format!("{value:.3}"))
    };
    let row = |name: &str, of: &dyn Fn(&Figures) -> String| {
        vec![name.to_owned(), of(&before), of(&after)]
    };
    let rows = vec![
        row("Least share of the tongue", &|f| {
            shown(f.least_share, units)
        }),
        row("Highest share of the tongue", &|f| {
            shown(f.most_share, units)
        }),
        row("Left and right differ by", &|f| {
            shown(f.side_difference, units)
        }),
        row("Yaw radius", &|f| shown(f.yaw_radius, units)),
        row("Height of the centre of gravity", &|f| {
            shown(f.centre_height, units)
        }),
        row("Damping", &damping),
    ];
    print_table(out, &heads, &rows);
}

fn shown(value: Option<impl Quantity>, units: System) -> String {
    value.map_or_else(|| "-".into(), |value| value.show(units))
}
