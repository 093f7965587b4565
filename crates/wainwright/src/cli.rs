//! The command line: which code runs which verb. Not here: the options
//! (see `args`) and what the verbs do (one file each).

mod app;
mod args;
mod bench;
mod cabinet;
mod change;
mod check;
mod diff;
mod exit;
mod explain;
mod fix;
mod indoors;
mod lining;
mod lists;
mod netlist;
mod out;
mod paint;
mod parts;
mod place;
mod plan;
mod road;
mod schema;
mod settings;
mod show;
mod start;
mod subject;
mod table;
mod trip;
mod trip_climate;
mod trip_size;
mod working;

use args::{Line, Verb};
use clap::Parser;
use exit::{Status, Trouble};
use out::Out;
use std::ffi::OsString;
use std::process::ExitCode;

/// Runs the program with its arguments, the program's name first.
pub fn run(args: impl IntoIterator<Item = OsString>) -> ExitCode {
    let line = match Line::try_parse_from(args) {
        Ok(line) => line,
        Err(error) => return exit::of_usage(&error),
    };
    let mut out = Out::to_stdout();
    let done = match line.verb {
        None => app::run(&line.app, &mut out),
        Some(verb) => run_verb(&verb, &mut out),
    };
    out.finish();
    exit::of(done)
}

fn run_verb(verb: &Verb, out: &mut Out) -> Result<Status, Trouble> {
    match verb {
        Verb::Check(args) => check::run(args, out),
        Verb::Explain(args) => explain::run(args, out),
        Verb::Working(args) => working::run(args, out),
        Verb::Fix(args) => fix::run(args, out),
        Verb::Wire(args) => bench::wire(args, out),
        Verb::Joint(args) => bench::joint(args, out),
        Verb::Plan(args) => plan::run(args, out),
        Verb::Lists(args) => lists::run(args, out),
        Verb::Lining(args) => lining::run(args, out),
        Verb::Indoors(args) => indoors::run(args, out),
        Verb::Cabinet(args) => cabinet::run(args, out),
        Verb::Road(args) => road::run(args, out),
        Verb::Settings(args) => settings::run(args, out),
        Verb::Place(args) => place::run(args, out),
        Verb::Trip(args) => trip::run(args, out),
        Verb::Size(args) => trip_size::run(args, out),
        Verb::Climate(args) => trip_climate::run(args, out),
        Verb::Netlist(args) => netlist::run(args, out),
        Verb::Parts(args) => parts::run(args, out),
        Verb::Schema(args) => schema::run(args, out),
        Verb::New(args) => start::run(args, out),
    }
}
