//! `trip`: how often energy and water run out on a trip, when, where energy goes, what helps, the other months. Not
//! here: simulating (the trip study), sizes (see `trip_size`).

use super::args::TripArgs;
use super::exit::{Status, Trouble};
use super::out::Out;
use super::show;
use super::table::{Align, print as print_table};
use crate::store;
use crate::study::Study;
use crate::views::energy::{TRIP_VERSION, Timeline, TripReport, TripView, months, why_none, words};
use wainwright_analysis::result::trip::{Band, EnergyShare, Help, NoOutlook, RunsOut, TripOutlook};
use wainwright_analysis::trips::{Effort, inputs, outlook};
use wainwright_model::Project;
use wainwright_rules::Severity;
use wainwright_units::{Energy, Quantity, Ratio, System, Volume};

/// Prints the outlook of a trip.
pub fn run(args: &TripArgs, out: &mut Out) -> Result<Status, Trouble> {
    let study = Study::of(store::read(&args.file)?);
    let trip = chosen(&study, args)?;
    let found = inputs(&study.project, &study.assessment, &trip)
        .and_then(|inputs| outlook(&inputs, effort(args)));
    let units = show::units(&study.project);
    if args.json {
        out.json(&report(args, &study, &trip, &found, units));
    } else {
        match &found {
            Ok(outlook) => print(outlook, &study, units, out),
            Err(why) => out.wrapped("", &why_none(why)),
        }
    }
    Ok(match &found {
        Err(_) => Status::Incomplete(None),
        Ok(_) if study.is_incomplete() => Status::Incomplete(None),
        Ok(outlook) => status(outlook),
    })
}

/// The trip that was asked for, or the first one.
pub fn chosen(study: &Study, args: &TripArgs) -> Result<String, Trouble> {
    let trips = &study.project.trips;
    match &args.trip {
        Some(id) if trips.contains(id) => Ok(id.clone()),
        Some(id) => {
            let all: Vec<&str> = trips.ids().map(|id| id.as_str()).collect();
            Err(Trouble::NoSuch(format!(
                "there is no trip \"{id}\"; the trips are: {}",
                all.join(", ")
            )))
        }
        None => trips.ids().next().map(ToString::to_string).ok_or_else(|| {
            Trouble::NoSuch(
                "there is no trip in this file; add a table such as [trip.weekend]".into(),
            )
        }),
    }
}

/// How many trips are simulated.
pub fn effort(args: &TripArgs) -> Effort {
    if args.quick {
        Effort::Quick
    } else {
        Effort::Full
    }
}

fn status(outlook: &TripOutlook) -> Status {
    match words::verdict(outlook.any, outlook.accepted.value) {
        words::Verdict::Lasts => Status::Done,
        words::Verdict::Close => Status::Found(Some(Severity::Notice)),
        words::Verdict::TooOften => Status::Found(Some(Severity::Caution)),
    }
}

fn report(
    args: &TripArgs,
    study: &Study,
    trip: &str,
    found: &Result<TripOutlook, NoOutlook>,
    units: System,
) -> TripReport {
    let project = &study.project;
    let view = |outlook: &TripOutlook| {
        TripView::of(outlook, &Timeline::of(project, outlook), project, units)
    };
    TripReport {
        trip_report: TRIP_VERSION,
        program: env!("CARGO_PKG_VERSION"),
        file: args.file.to_str().map(str::to_owned),
        trip: trip.to_owned(),
        label: project.label_or_id("trip", trip).to_owned(),
        why_none: found.as_ref().err().map(why_none),
        found: found.as_ref().ok().map(view),
    }
}

fn print(outlook: &TripOutlook, study: &Study, units: System, out: &mut Out) {
    let project = &study.project;
    let timeline = Timeline::of(project, outlook);
    odds(outlook, project, out);
    dawns(outlook, &timeline, units, out);
    shares(outlook, units, out);
    helps(outlook, project, units, out);
    year(outlook, units, out);
    rests(outlook, out);
}

fn odds(outlook: &TripOutlook, project: &Project, out: &mut Out) {
    let name = project.label_or_id("trip", outlook.trip.as_str());
    let title = out
        .paint
        .bold(&format!("{name}: {}", words::headline(outlook)));
    out.line(title);
    for odds in &outlook.odds {
        let verdict = words::verdict(odds.chance, outlook.accepted.value).word();
        let day = odds.day.map_or_else(String::new, |day| {
            format!(" When it does, {}.", words::day(day))
        });
        let text = format!(
            "{verdict}: {} It is {}.{day}",
            words::odds(odds, outlook.runs),
            words::interval(odds.chance)
        );
        out.hanging("  ", "    ", &text);
    }
    let accepted = format!(
        "Accepted: {}. From {} simulated trips.",
        words::of_hundred(outlook.accepted.value),
        outlook.runs
    );
    out.wrapped("  ", &accepted);
}

/// Bands at dawn, when the battery is lowest.
fn dawns(outlook: &TripOutlook, timeline: &Timeline, units: System, out: &mut Out) {
    let dawns = timeline.dawns();
    if dawns.is_empty() {
        return;
    }
    out.gap();
    let title = out.paint.bold(
        "At each dawn, in the middle trip; of the battery also: 1 in 10 is below, 1 in 10 above",
    );
    out.line(title);
    let share = |bands: &[Band], hour: usize| {
        let percent = |share: f64| words::percent(Ratio::from_fraction(share));
        bands.get(hour).map_or_else(
            || "-".into(),
            |band| {
                format!(
                    "{} ({}, {})",
                    percent(band.middle),
                    percent(band.low),
                    percent(band.high)
                )
            },
        )
    };
    let litres = |bands: &[Band], hour: usize| {
        let shown = |band: &Band| Volume::from_litres(band.middle).show(units);
        bands.get(hour).map_or_else(|| "-".into(), shown)
    };
    let heads = [
        ("Dawn", Align::Left),
        ("Battery", Align::Right),
        ("Fresh", Align::Right),
        ("Waste", Align::Right),
        ("Fuel", Align::Right),
    ];
    type Show<'s> = &'s dyn Fn(&[Band], usize) -> String;
    let stocks: [(&[Band], Show<'_>); 4] = [
        (&outlook.charge, &share),
        (&outlook.fresh, &litres),
        (&outlook.waste, &litres),
        (&outlook.fuel, &litres),
    ];
    let there = |index: usize| {
        index == 0
            || stocks
                .get(index - 1)
                .is_some_and(|(bands, _)| !bands.is_empty())
    };
    let rows: Vec<Vec<String>> = dawns
        .iter()
        .filter_map(|hour| {
            let at = outlook.hours.get(*hour)?;
            let mut row = vec![format!("day {}", at.day)];
            row.extend(stocks.iter().map(|(bands, show)| show(bands, *hour)));
            Some(row)
        })
        .collect();
    let keep = |cells: Vec<String>| -> Vec<String> {
        let cells = cells.into_iter().enumerate();
        cells
            .filter(|(index, _)| there(*index))
            .map(|(_, cell)| cell)
            .collect()
    };
    let heads: Vec<(&str, Align)> = heads
        .into_iter()
        .enumerate()
        .filter(|(index, _)| there(*index))
        .map(|(_, head)| head)
        .collect();
    let rows: Vec<Vec<String>> = rows.into_iter().map(keep).collect();
    print_table(out, &heads, &rows);
}

fn shares(outlook: &TripOutlook, units: System, out: &mut Out) {
    out.gap();
    let title = out
        .paint
        .bold("Where energy comes from and goes, mean over the whole trip");
    out.line(title);
    let energy = &outlook.energy;
    let row = |way: &str, name: &str, energy: Energy| {
        vec![way.to_owned(), name.to_owned(), energy.show(units)]
    };
    let sorted = |shares: &[EnergyShare]| {
        let mut all = shares.to_vec();
        all.sort_by(|one, other| other.energy.total_cmp(&one.energy));
        all
    };
    let mut rows = Vec::new();
    for share in sorted(&energy.given) {
        rows.push(row("from", &share.label, share.energy));
    }
    if energy.from_battery > Energy::ZERO {
        rows.push(row("from", "the battery", energy.from_battery));
    }
    for share in sorted(&energy.taken) {
        rows.push(row("to", &share.label, share.energy));
    }
    rows.push(row("to", "lost in the battery", energy.battery_losses));
    rows.push(row("not used", "sun that nobody could use", energy.spilled));
    rows.push(row("not there", "wanted and not given", energy.unserved));
    let heads = [
        ("", Align::Left),
        ("What", Align::Left),
        ("Energy", Align::Right),
    ];
    print_table(out, &heads, &rows);
}

fn helps(outlook: &TripOutlook, project: &Project, units: System, out: &mut Out) {
    if outlook.helps.is_empty() {
        return;
    }
    out.gap();
    let title = out
        .paint
        .bold("What helps most: of 100 trips, in so many it happens");
    out.line(title);
    let rows: Vec<Vec<String>> = outlook
        .helps
        .iter()
        .map(|help| {
            vec![
                help_words(help, project, units),
                words::percent(words::before(outlook, help.of)),
                words::percent(help.chance.share),
                format!("± {:.1}", help.margin.fraction() * 100.0),
                help.mass
                    .map_or_else(|| "-".into(), |mass| mass.show(units)),
            ]
        })
        .collect();
    let heads = [
        ("Change", Align::Left),
        ("Now", Align::Right),
        ("With", Align::Right),
        ("", Align::Right),
        ("Adds", Align::Right),
    ];
    print_table(out, &heads, &rows);
}

/// What would be done, and what against when that is not energy.
fn help_words(help: &Help, project: &Project, units: System) -> String {
    let what = words::help(project, &help.what, units);
    match help.of {
        RunsOut::Energy => what,
        of => format!("{}: {what}", words::name(of)),
    }
}

fn year(outlook: &TripOutlook, units: System, out: &mut Out) {
    if outlook.months.is_empty() {
        return;
    }
    out.gap();
    let title = out.paint.bold("The same trip in other months");
    out.line(title);
    out.wrapped("  ", &months::sentence(outlook));
    let rows: Vec<Vec<String>> = outlook
        .months
        .iter()
        .enumerate()
        .map(|(index, month)| {
            let mark = if month.month == outlook.weather.month {
                " *"
            } else {
                ""
            };
            vec![
                format!("{}{mark}", words::month(month.month)),
                words::percent(month.energy.share),
                months::fares(outlook, index).map_or_else(String::new, |one| one.word().to_owned()),
                month.sun.show(units),
                month.used.show(units),
                month.air.show(units),
            ]
        })
        .collect();
    let heads = [
        ("Month", Align::Left),
        ("Runs empty", Align::Right),
        ("", Align::Left),
        ("Sun a day", Align::Right),
        ("Used a day", Align::Right),
        ("Air", Align::Right),
    ];
    print_table(out, &heads, &rows);
}

fn rests(outlook: &TripOutlook, out: &mut Out) {
    out.gap();
    if !outlook.unused.is_empty() {
        let all: Vec<&str> = outlook.unused.iter().map(|id| id.as_str()).collect();
        let text = format!(
            "Not counted, because nobody said how long they are used: {}",
            all.join(", ")
        );
        out.hanging("", "  ", &text);
    }
    for assumed in &outlook.assumptions {
        let text = format!("Stand-in: {} = {}", assumed.path.join("."), assumed.value);
        out.hanging("", "  ", &text);
    }
}
