//! `wire` and `joint`: one wire or one joint tried without a project. Not
//! here: the computation.

use super::args::{Demo, JointArgs, RunWord, WireArgs};
use super::exit::{Status, Trouble};
use super::out::Out;
use super::working;
use crate::views::bench::{JointBenchView, WireBenchView};
use crate::views::working::WorkingView;
use wainwright_analysis::quick::{
    self, JointVerdict, QuickJoint, QuickProblem, QuickWire, WireQuestion,
};
use wainwright_analysis::result::Run;
use wainwright_rules::Severity;
use wainwright_units::{Current, Quantity, QuantityError, Resistance, System, WireSize};

/// What is asked about the wire, or why that was not understood.
fn question(args: &WireArgs) -> Result<WireQuestion, Trouble> {
    let size = WireSize::parse(&args.size).map_err(|e| misread("size", &args.size, &e))?;
    let air = args
        .air
        .as_deref()
        .map(|text| value("air", text))
        .transpose()?;
    Ok(WireQuestion {
        size,
        insulation: args.insulation.clone(),
        length: value("length", &args.length)?,
        both_ways: !args.one_way,
        current: value("current", &args.current)?,
        run: args.runs.run(),
        bundle: args.bundle,
        air,
        system: value("volts", &args.volts)?,
        tinned: args.tinned,
    })
}

/// Prints drop, temperature and largest fuse of one wire.
pub fn wire(args: &WireArgs, out: &mut Out) -> Result<Status, Trouble> {
    let question = question(args)?;
    let units = units(args.units);
    let found = quick::wire(&question, units).map_err(|problem| not_computed(&problem))?;
    if args.json {
        out.json(&WireBenchView::of(&question, &found));
    } else {
        print_wire(&question, &found, units, out);
        if args.working {
            out.gap();
            working::print("Working", &WorkingView::of(&found.steps), out);
        }
    }
    let too_hot = found.temperature > found.limit || question.current > found.ampacity.in_force;
    Ok(Status::Found(too_hot.then_some(Severity::Danger)))
}

/// Prints drop, heat and verdict of one joint.
pub fn joint(args: &JointArgs, out: &mut Out) -> Result<Status, Trouble> {
    let resistance: Resistance = value("resistance", &args.resistance)?;
    let current: Current = value("current", &args.current)?;
    let found = quick::joint(resistance, current, System::Metric);
    if args.json {
        out.json(&JointBenchView::of(
            resistance.ohms(),
            current.amperes(),
            &found,
        ));
    } else {
        print_joint(&found, out);
    }
    let worst = match found.verdict {
        JointVerdict::Cool => None,
        JointVerdict::Warm => Some(Severity::Caution),
        JointVerdict::Hot => Some(Severity::Danger),
    };
    Ok(Status::Found(worst))
}

fn print_wire(question: &WireQuestion, found: &QuickWire, units: System, out: &mut Out) {
    let ways = if question.both_ways {
        "there and back"
    } else {
        "one way"
    };
    let title = format!(
        "{} {}, {} {ways}, {}",
        question.size,
        question.insulation,
        question.length.show(units),
        question.current.show(units)
    );
    let title = out.paint.bold(&title);
    out.line(title);
    let rows = [
        (
            "Voltage lost",
            format!(
                "{}, {} of {}",
                found.drop.show(units),
                found.drop_share.show(units),
                question.system.show(units)
            ),
        ),
        (
            "Metal",
            format!(
                "{} in air of {}; the insulation bears {}",
                found.temperature.show(units),
                found.air.show(units),
                found.limit.show(units)
            ),
        ),
        ("Heat", found.heat.show(units)),
        ("Bears for ever", ampacity(found, units)),
        (
            "Largest blade fuse",
            found
                .largest_fuse
                .map_or_else(|| "none is small enough".into(), |a| a.show(units)),
        ),
    ];
    for (name, text) in rows {
        out.hanging(&format!("  {name:<20}"), "    ", &text);
    }
}

fn ampacity(found: &QuickWire, units: System) -> String {
    let in_force = found.ampacity.in_force.show(units);
    let computed = found.ampacity.computed.show(units);
    match &found.ampacity.table {
        Some(table) => format!(
            "{in_force}: {computed} by its heat balance, {} by {}",
            table.current.show(units),
            table.source
        ),
        None => format!("{in_force} by its heat balance; the tables do not have this size"),
    }
}

fn print_joint(found: &QuickJoint, out: &mut Out) {
    let show = System::Metric;
    let verdict = match found.verdict {
        JointVerdict::Cool => "cool enough for a small terminal",
        JointVerdict::Warm => "too hot for a small terminal, bearable for a large lug",
        JointVerdict::Hot => "too hot for any joint: clean, tighten or remake it",
    };
    out.line(format!(
        "Loses {} and makes {} of heat",
        found.drop.show(show),
        found.heat.show(show)
    ));
    out.wrapped(
        "",
        &format!(
            "{verdict} (limits: small terminal {}, large lug {})",
            found.small_limit.show(show),
            found.large_limit.show(show)
        ),
    );
}

fn units(units: Demo) -> System {
    match units {
        Demo::Us => System::Us,
        Demo::Metric => System::Metric,
    }
}

fn value<Q: Quantity>(option: &str, text: &str) -> Result<Q, Trouble> {
    Q::parse(text).map_err(|error| misread(option, text, &error))
}

fn misread(option: &str, text: &str, error: &QuantityError) -> Trouble {
    Trouble::Usage(format!("--{option} \"{text}\": {error}"))
}

fn not_computed(problem: &QuickProblem) -> Trouble {
    Trouble::NoSuch(match problem {
        QuickProblem::UnknownInsulation(known) => {
            format!("no such insulation class; there are: {}", known.join(", "))
        }
        QuickProblem::Melts => "this current melts the wire".into(),
        QuickProblem::Senseless(why) => why.clone(),
    })
}

impl RunWord {
    fn run(self) -> Run {
        match self {
            Self::Open => Run::Open,
            Self::Bundle => Run::Bundle,
            Self::Foam => Run::Foam,
            Self::Cavity => Run::Cavity,
            Self::Conduit => Run::Conduit,
        }
    }
}
