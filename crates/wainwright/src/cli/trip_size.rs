//! `size`: how many modules and batteries a trip needs. Not here: trying them (the trip study).

use super::args::TripArgs;
use super::exit::{Status, Trouble};
use super::out::Out;
use super::show;
use super::table::{Align, print as print_table};
use super::trip::{chosen, effort};
use crate::store;
use crate::study::Study;
use crate::views::energy::size::{SizeReport, holds, sentence};
use crate::views::energy::{why_none, words};
use wainwright_analysis::result::trip::{SizeChart, SizePoint};
use wainwright_analysis::trips::{inputs, sizes};
use wainwright_units::{Quantity, System};

/// Prints every combination.
pub fn run(args: &TripArgs, out: &mut Out) -> Result<Status, Trouble> {
    let study = Study::of(store::read(&args.file)?);
    let trip = chosen(&study, args)?;
    let units = show::units(&study.project);
    let found = inputs(&study.project, &study.assessment, &trip)
        .and_then(|inputs| sizes(&inputs, effort(args)));
    if args.json {
        let file = args.file.to_str();
        out.json(&SizeReport::of(&found, &trip, &study.project, units, file));
    } else {
        match &found {
            Ok(chart) => print(chart, &study, units, out),
            Err(why) => out.wrapped("", &why_none(why)),
        }
    }
    Ok(match found {
        Ok(_) if !study.is_incomplete() => Status::Done,
        _ => Status::Incomplete(None),
    })
}

fn print(chart: &SizeChart, study: &Study, units: System, out: &mut Out) {
    out.wrapped("", &sentence(chart, &study.project, units));
    out.wrapped("", "Empty: of 100 trips, in so many the battery runs empty. Smallest: no other one that holds has fewer of one and no more of the other.");
    out.gap();
    let row = |(at, point): (usize, &SizePoint)| {
        let mut marks = Vec::new();
        if chart.now == Some(at) {
            marks.push("now");
        }
        if chart.best.contains(&at) {
            marks.push("smallest");
        }
        vec![
            point.modules.to_string(),
            point.batteries.to_string(),
            point.power.show(units),
            point.energy.show(units),
            words::percent(point.chance.share),
            if holds(chart, point) {
                "holds"
            } else {
                "too few"
            }
            .to_owned(),
            point
                .mass
                .map_or_else(|| "-".into(), |mass| mass.show(units)),
            marks.join(", "),
        ]
    };
    let rows: Vec<Vec<String>> = chart.points.iter().enumerate().map(row).collect();
    let heads = [
        ("Mod.", Align::Right),
        ("Bat.", Align::Right),
        ("Power", Align::Right),
        ("Energy", Align::Right),
        ("Empty", Align::Right),
        ("", Align::Left),
        ("Mass", Align::Right),
        ("", Align::Left),
    ];
    print_table(out, &heads, &rows);
}
