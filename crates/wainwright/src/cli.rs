//! The command line: verbs, their options, and which code runs them. Not
//! here: what the verbs do (one file each).

mod app;
mod bench;
mod check;
mod diff;
mod exit;
mod explain;
mod fix;
mod out;
mod paint;
mod parts;
mod schema;
mod show;
mod start;
mod subject;
mod table;
mod working;

use clap::{Args, Parser, Subcommand, ValueEnum};
use exit::{Status, Trouble};
use out::Out;
use std::ffi::OsString;
use std::path::PathBuf;
use std::process::ExitCode;
use wainwright_rules::Severity;

/// Checks and mends the wiring of a cargo trailer that becomes a camper.
///
/// Without a verb it opens the project in the browser of this computer.
#[derive(Debug, Parser)]
#[command(name = "wainwright", version, args_conflicts_with_subcommands = true)]
#[command(after_help = exit::HELP, after_long_help = exit::HELP)]
struct Line {
    #[command(subcommand)]
    verb: Option<Verb>,
    #[command(flatten)]
    app: AppArgs,
}

/// Options of the browser app.
#[derive(Debug, Args)]
struct AppArgs {
    /// Project file to open; without one, a copy of an example is opened
    file: Option<PathBuf>,
    /// The example to copy
    #[arg(long, value_enum, default_value_t = Demo::Us, conflicts_with = "file")]
    demo: Demo,
    /// Port of this computer to serve on; any free one when not given
    #[arg(long)]
    port: Option<u16>,
    /// Only print the address
    #[arg(long)]
    no_browser: bool,
}

/// The bundled examples.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Demo {
    /// Feet, AWG, 12 V
    Us,
    /// Metres, mm²
    Metric,
}

#[derive(Debug, Subcommand)]
enum Verb {
    /// Say what is wrong with the wiring and what mends it
    Check(CheckArgs),
    /// Explain a rule, or list all rules
    Explain(ExplainArgs),
    /// Show how a number came about
    Working(WorkingArgs),
    /// Apply a proven fix to the file
    Fix(FixArgs),
    /// Try one wire without a project: drop, temperature, largest fuse
    Wire(WireArgs),
    /// Try one joint without a project: drop and heat
    Joint(JointArgs),
    /// List the parts that every project can use
    Parts(PartsArgs),
    /// Print the JSON Schema of the project file or of the report
    Schema(SchemaArgs),
    /// Write a small project file to begin with
    New(NewArgs),
}

#[derive(Debug, Args)]
struct CheckArgs {
    /// Project file
    file: PathBuf,
    /// Print everything as JSON
    #[arg(long)]
    json: bool,
    /// Show tables of all conductors, fuses, gear and short circuits as well
    #[arg(long)]
    full: bool,
    /// State the tables are for, such as "charging" or a state of the file
    #[arg(long)]
    state: Option<String>,
    /// Leave out findings less bad than this
    #[arg(long, value_enum, default_value_t = Word::Notice)]
    severity: Word,
    /// Do not look for fixes, which takes most of the time
    #[arg(long)]
    no_fixes: bool,
}

/// Signal words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum Word {
    /// Worth knowing
    Notice,
    /// Works, but with less margin than good practice
    Caution,
    /// People could be hurt or gear ruined
    Warning,
    /// Fire, shock or explosion
    Danger,
}

impl Word {
    fn severity(self) -> Severity {
        match self {
            Self::Notice => Severity::Notice,
            Self::Caution => Severity::Caution,
            Self::Warning => Severity::Warning,
            Self::Danger => Severity::Danger,
        }
    }
}

#[derive(Debug, Args)]
struct ExplainArgs {
    /// Id of the rule; without it, all rules are listed
    rule: Option<String>,
    /// Print as JSON
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Args)]
struct WorkingArgs {
    /// Project file
    file: PathBuf,
    /// A wire or item of the file, "item.terminal", or the key of a finding
    subject: String,
    /// State to show it in; the worst or first one when not given
    #[arg(long)]
    state: Option<String>,
    /// Print as JSON
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Args)]
struct FixArgs {
    /// Project file
    file: PathBuf,
    /// Key of the finding; without it, all findings and fixes are listed
    key: Option<String>,
    /// Which of its fixes
    #[arg(long, default_value_t = 1)]
    number: usize,
    /// Show the change of the text and leave the file as it is
    #[arg(long)]
    dry_run: bool,
    /// Print as JSON
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Args)]
struct WireArgs {
    /// Nominal size, such as "10 AWG" or "6 mm2"
    #[arg(long)]
    size: String,
    /// Length one way, such as "12 ft"
    #[arg(long)]
    length: String,
    /// Current, such as "20 A"
    #[arg(long)]
    current: String,
    /// Insulation class, such as "gxl"
    #[arg(long)]
    insulation: Option<String>,
    /// Where it runs: open, bundle, foam, cavity or conduit
    #[arg(long)]
    runs: Option<String>,
    /// Loaded conductors side by side
    #[arg(long)]
    bundle: Option<u32>,
    /// Foam on each side, such as "1 in"
    #[arg(long)]
    foam_cover: Option<String>,
    /// Air around it, such as "40 °C"
    #[arg(long, allow_hyphen_values = true)]
    air: Option<String>,
    /// System voltage for the drop in per cent, such as "12.8 V"
    #[arg(long)]
    volts: Option<String>,
    /// Show the working
    #[arg(long)]
    working: bool,
    /// Print as JSON
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Args)]
struct JointArgs {
    /// Its resistance, such as "50 mohm"
    #[arg(long)]
    resistance: String,
    /// Current through it, such as "10 A"
    #[arg(long)]
    current: String,
    /// A large lug, which sheds more heat than a small terminal
    #[arg(long)]
    lug: bool,
    /// Print as JSON
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Args)]
struct PartsArgs {
    /// Only this kind, such as "fuse"
    #[arg(long)]
    kind: Option<String>,
    /// Print as JSON
    #[arg(long)]
    json: bool,
}

#[derive(Debug, Args)]
struct SchemaArgs {
    /// Of what
    #[arg(value_enum)]
    of: SchemaOf,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
enum SchemaOf {
    /// The project file
    Project,
    /// What `check --json` prints
    Report,
}

#[derive(Debug, Args)]
struct NewArgs {
    /// Name of the file to write; an existing file is left as it is
    file: PathBuf,
    /// Feet and AWG, or metres and mm²
    #[arg(long, value_enum, default_value_t = Demo::Us)]
    units: Demo,
}

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
        Verb::Parts(args) => parts::run(args, out),
        Verb::Schema(args) => schema::run(args, out),
        Verb::New(args) => start::run(args, out),
    }
}
