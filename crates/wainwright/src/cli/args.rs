//! Verbs and their options, as typed and as helped with. Not here: what
//! they do.

use super::exit;
use clap::{Args, Parser, Subcommand, ValueEnum};
use std::path::PathBuf;
use wainwright_rules::Severity;

/// Plans, checks and mends a cargo trailer that becomes a camper: wiring and weights.
///
/// Without a verb it opens the project in the browser of this computer.
#[derive(Debug, Parser)]
#[command(name = "wainwright", version, args_conflicts_with_subcommands = true)]
#[command(subcommand_value_name = "VERB", subcommand_help_heading = "Verbs")]
#[command(after_help = exit::HELP, after_long_help = exit::HELP)]
pub struct Line {
    #[command(subcommand)]
    pub verb: Option<Verb>,
    #[command(flatten)]
    pub app: AppArgs,
}

/// Options of the browser app.
#[derive(Debug, Args)]
pub struct AppArgs {
    /// Project file to open; without one, a copy of an example is opened
    pub file: Option<PathBuf>,
    /// The example to copy
    #[arg(long, value_enum, default_value_t = Demo::Us, conflicts_with = "file")]
    pub demo: Demo,
    /// Port of this computer to serve on; any free one when not given
    #[arg(long)]
    pub port: Option<u16>,
    /// Only print the address
    #[arg(long)]
    pub no_browser: bool,
}

/// The bundled examples.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Demo {
    /// Feet and AWG
    Us,
    /// Metres and mm²
    Metric,
}

#[derive(Debug, Subcommand)]
pub enum Verb {
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
    /// Plan the wiring that is not there yet: what to add, why, at what cost
    Plan(PlanArgs),
    /// Print the lists of the wiring: wires, terminals, fuses, labels, what to buy
    Lists(ListsArgs),
    /// Show where the weight goes: tongue, wheels, ratings, how it follows, what is held
    Road(RoadArgs),
    /// Show what to set on every charger and disconnect, and what does not agree
    Settings(SettingsArgs),
    /// Look for a better layout: what to move where
    Place(PlaceArgs),
    /// Show how often energy and water run out on a trip, and what helps most
    Trip(TripArgs),
    /// Show how many modules and batteries a trip needs
    Size(TripArgs),
    /// Show walls, ceiling and floor in pieces, how to cut them, and what runs short
    Lining(LiningArgs),
    /// Show the box as a room: heat, damp, air to sleep in
    Indoors(IndoorsArgs),
    /// Show what is where in a cabinet, what fits, how warm it gets
    Cabinet(CabinetArgs),
    /// Show the weather of the project's places, or read a weather file
    Climate(ClimateArgs),
    /// Print a state as a netlist for a circuit simulator, to check the solver with
    Netlist(NetlistArgs),
    /// List the parts that every project can use
    Parts(PartsArgs),
    /// Print the JSON Schema of the project file or of the report
    Schema(SchemaArgs),
    /// Write a small project file to begin with
    New(NewArgs),
}

#[derive(Debug, Args)]
pub struct CheckArgs {
    /// Project file
    pub file: PathBuf,
    /// Print everything as JSON
    #[arg(long)]
    pub json: bool,
    /// Show tables of all conductors, fuses, gear and short circuits as well
    #[arg(long)]
    pub full: bool,
    /// State the tables are for, such as "charging" or a state of the file
    #[arg(long)]
    pub state: Option<String>,
    /// Leave out findings less bad than this
    #[arg(long, value_enum, default_value_t = Word::Notice)]
    pub severity: Word,
    /// Do not look for fixes, which takes most of the time
    #[arg(long)]
    pub no_fixes: bool,
}

/// Signal words.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum Word {
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
    /// The same as the rules call it.
    pub fn severity(self) -> Severity {
        match self {
            Self::Notice => Severity::Notice,
            Self::Caution => Severity::Caution,
            Self::Warning => Severity::Warning,
            Self::Danger => Severity::Danger,
        }
    }
}

#[derive(Debug, Args)]
pub struct ExplainArgs {
    /// Id of the rule; without it, all rules are listed
    pub rule: Option<String>,
    /// Print as JSON
    #[arg(long)]
    pub json: bool,
}

#[derive(Debug, Args)]
pub struct WorkingArgs {
    /// Project file
    pub file: PathBuf,
    /// A wire or item of the file, "item.terminal", or the key of a finding
    pub subject: String,
    /// State to show it in; the worst or first one when not given
    #[arg(long)]
    pub state: Option<String>,
    /// Print as JSON
    #[arg(long)]
    pub json: bool,
}

#[derive(Debug, Args)]
pub struct NetlistArgs {
    /// Project file
    pub file: PathBuf,
    /// State to print; the first one when not given
    #[arg(long)]
    pub state: Option<String>,
}

#[derive(Debug, Args)]
pub struct PlanArgs {
    /// Project file
    pub file: PathBuf,
    /// Put what is planned into the file
    #[arg(long)]
    pub write: bool,
    /// Show the new lines of the file as well
    #[arg(long)]
    pub full: bool,
    /// Print as JSON
    #[arg(long)]
    pub json: bool,
}

#[derive(Debug, Args)]
pub struct ListsArgs {
    /// Project file
    pub file: PathBuf,
    /// Which list; all of them when not given
    #[arg(value_enum)]
    pub list: Option<ListWord>,
    /// Print one list for a spreadsheet: cells apart by commas
    #[arg(long, requires = "list", conflicts_with = "json")]
    pub csv: bool,
    /// Print all lists as JSON
    #[arg(long)]
    pub json: bool,
}

/// The lists of the wiring.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum ListWord {
    /// Every wire with size, colour, cut length and route
    Wires,
    /// What ends on each terminal
    Terminals,
    /// What each fuse of a block is for
    Fuses,
    /// What the flag labels at both ends of each wire say
    Labels,
    /// What to buy, what is there already, how to cut it
    Buy,
}

impl ListWord {
    /// Every list, in the order they are printed in.
    pub const ALL: [Self; 5] = [
        Self::Wires,
        Self::Terminals,
        Self::Fuses,
        Self::Labels,
        Self::Buy,
    ];
}

#[derive(Debug, Args)]
pub struct RoadArgs {
    /// Project file
    pub file: PathBuf,
    /// Print as JSON
    #[arg(long)]
    pub json: bool,
}

#[derive(Debug, Args)]
pub struct SettingsArgs {
    /// Project file
    pub file: PathBuf,
    /// Print as JSON
    #[arg(long)]
    pub json: bool,
}

#[derive(Debug, Args)]
pub struct PlaceArgs {
    /// Project file
    pub file: PathBuf,
    /// Make the moves in the file
    #[arg(long)]
    pub write: bool,
    /// Print as JSON
    #[arg(long)]
    pub json: bool,
}

#[derive(Debug, Args)]
pub struct TripArgs {
    /// Project file
    pub file: PathBuf,
    /// Which trip; the first of the file when not given
    pub trip: Option<String>,
    /// Fewer trips are simulated: odds within a few of a hundred
    #[arg(long)]
    pub quick: bool,
    /// Print as JSON
    #[arg(long)]
    pub json: bool,
}

#[derive(Debug, Args)]
pub struct LiningArgs {
    /// Project file
    pub file: PathBuf,
    /// Show every piece with its place as well
    #[arg(long)]
    pub pieces: bool,
    /// Print as JSON
    #[arg(long)]
    pub json: bool,
}

#[derive(Debug, Args)]
pub struct IndoorsArgs {
    /// Project file
    pub file: PathBuf,
    /// Print as JSON
    #[arg(long)]
    pub json: bool,
}

#[derive(Debug, Args)]
pub struct CabinetArgs {
    /// Project file
    pub file: PathBuf,
    /// Id of one cabinet; all of them when none is given
    pub id: Option<String>,
    /// Print as JSON
    #[arg(long)]
    pub json: bool,
}

#[derive(Debug, Args)]
pub struct ClimateArgs {
    /// Project file
    pub file: PathBuf,
    /// Weather file to read: EPW, TMY3, or days as date,ghi_kwh_m2,tmin_c,tmax_c
    #[arg(long)]
    pub import: Option<PathBuf>,
    /// Where the file is from, when it does not say it, such as "39.7 deg"
    #[arg(long, allow_hyphen_values = true, requires = "longitude")]
    pub latitude: Option<String>,
    /// East positive, such as "-105.2 deg"
    #[arg(long, allow_hyphen_values = true, requires = "latitude")]
    pub longitude: Option<String>,
    /// Height over the sea, such as "1600 m"
    #[arg(long, allow_hyphen_values = true)]
    pub altitude: Option<String>,
    /// Id of the climate in the project; made from the name of the place when not given
    #[arg(long, requires = "import")]
    pub id: Option<String>,
    /// Put it in the project
    #[arg(long, requires = "import")]
    pub write: bool,
    /// Print as JSON
    #[arg(long)]
    pub json: bool,
}

#[derive(Debug, Args)]
pub struct FixArgs {
    /// Project file
    pub file: PathBuf,
    /// Key of the finding; without it, all findings and fixes are listed
    pub key: Option<String>,
    /// Which of its fixes
    #[arg(long, default_value_t = 1)]
    pub number: usize,
    /// Show the change of the text and leave the file as it is
    #[arg(long)]
    pub dry_run: bool,
    /// Print as JSON
    #[arg(long)]
    pub json: bool,
}

#[derive(Debug, Args)]
pub struct WireArgs {
    /// Nominal size, such as "10 AWG" or "6 mm2"
    #[arg(long)]
    pub size: String,
    /// Length one way, such as "12 ft"
    #[arg(long)]
    pub length: String,
    /// Current, such as "20 A"
    #[arg(long)]
    pub current: String,
    /// Insulation class, such as "gxl"; the weakest common one when not given
    #[arg(long, default_value = "gpt")]
    pub insulation: String,
    /// Where it runs
    #[arg(long, value_enum, default_value_t = RunWord::Open)]
    pub runs: RunWord,
    /// Loaded conductors side by side, this one counted
    #[arg(long, default_value_t = 1)]
    pub bundle: u32,
    /// Air around it, such as "40 °C"; the usual one for the place when not given
    #[arg(long, allow_hyphen_values = true)]
    pub air: Option<String>,
    /// System voltage, which the drop is a share of
    #[arg(long, default_value = "12.8 V")]
    pub volts: String,
    /// The current comes back another way, such as through the frame
    #[arg(long)]
    pub one_way: bool,
    /// Tinned strands
    #[arg(long)]
    pub tinned: bool,
    /// Units to show
    #[arg(long, value_enum, default_value_t = Demo::Us)]
    pub units: Demo,
    /// Show the working
    #[arg(long)]
    pub working: bool,
    /// Print as JSON
    #[arg(long)]
    pub json: bool,
}

/// Where a wire runs.
#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum RunWord {
    /// Single, in open air
    Open,
    /// Tied up with other wires
    Bundle,
    /// Inside foam insulation
    Foam,
    /// In a hot roof or wall cavity
    Cavity,
    /// In a tube or loom
    Conduit,
}

#[derive(Debug, Args)]
pub struct JointArgs {
    /// Its resistance, such as "50 mohm"
    #[arg(long)]
    pub resistance: String,
    /// Current through it, such as "10 A"
    #[arg(long)]
    pub current: String,
    /// Print as JSON
    #[arg(long)]
    pub json: bool,
}

#[derive(Debug, Args)]
pub struct PartsArgs {
    /// Only this kind, such as "fuse"
    #[arg(long)]
    pub kind: Option<String>,
    /// Print as JSON
    #[arg(long)]
    pub json: bool,
}

#[derive(Debug, Args)]
pub struct SchemaArgs {
    /// Of what
    #[arg(value_enum)]
    pub of: SchemaOf,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub enum SchemaOf {
    /// The project file
    Project,
    /// What `check --json` prints; `road --json` prints part of it
    Report,
    /// What `plan --json` prints
    Plan,
    /// What `lists --json` prints
    Lists,
    /// What `place --json` prints
    Place,
}

#[derive(Debug, Args)]
pub struct NewArgs {
    /// Name of the file to write; an existing file is left as it is
    pub file: PathBuf,
    /// Feet and AWG, or metres and mm²
    #[arg(long, value_enum, default_value_t = Demo::Us)]
    pub units: Demo,
}
