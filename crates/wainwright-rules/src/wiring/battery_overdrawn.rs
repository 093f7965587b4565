//! `battery-overdrawn`: more current from or into a battery than it allows.
//! Not here: conductors and fuses.

use crate::finding::{Amount, Finding, Subject};
use crate::rule::{Remedy, Rule, RuleDoc};
use crate::severity::Severity;
use crate::view::{limits, names, words};
use wainwright_analysis::known::Basis;
use wainwright_analysis::result::{Assessment, ConsumerResult, Role, StateKind};
use wainwright_model::{Battery, Given, Origin, Project, Spec};
use wainwright_units::Current;

/// The rule.
pub(crate) struct BatteryOverdrawn;

static DOC: RuleDoc = RuleDoc {
    id: "battery-overdrawn",
    title: "The battery must give or take more than it allows",
    worst: Severity::Warning,
    what: "In some state a battery gives more than its discharge limit, takes more than its \
           charge limit, or surges beyond the current at which its protection circuit opens.",
    why: "The battery switches itself off: everything is dark at once, and a charger left \
          without its battery can send its voltage up and ruin gear. Charging above the limit \
          shortens the life of the cells.",
    example: "A 1500 W inverter and the fridge draw 172 A at a low battery; its protection allows \
              100 A for long.",
    what_to_do: "A battery with a higher limit or two in parallel, less load at once, or a lower \
                 charge current in the charger's settings.",
    sources: &[
        "battery/chemistry",
        "Limits are those of the battery's own data sheet.",
    ],
};

impl Rule for BatteryOverdrawn {
    fn doc(&self) -> &'static RuleDoc {
        &DOC
    }

    fn find(&self, assessment: &Assessment, project: &Project) -> Vec<Finding> {
        let batteries = assessment
            .consumers
            .iter()
            .filter(|c| c.role == Role::Battery);
        batteries
            .filter_map(|battery| find_one(assessment, project, battery))
            .collect()
    }

    /// Which battery or load to give up is the builder's choice.
    fn remedies(&self, _: &Finding, _: &Assessment, _: &Project) -> Vec<Remedy> {
        Vec::new()
    }
}

/// One limit that is exceeded.
struct Excess {
    what: &'static str,
    amps: Current,
    limit: Given<Current>,
    state: usize,
}

fn find_one(
    assessment: &Assessment,
    project: &Project,
    battery: &ConsumerResult,
) -> Option<Finding> {
    let spec = match &project.items.get(battery.item.as_str())?.spec {
        Spec::Battery(spec) => spec,
        _ => return None,
    };
    let excesses = excesses(assessment, battery, spec);
    let over = |e: &Excess| e.amps.amperes() / e.limit.value.amperes().max(1e-9);
    let worst = excesses.iter().max_by(|a, b| over(a).total_cmp(&over(b)))?;
    let (amps, allowed) = words::currents(worst.amps, worst.limit.value);
    let headline = format!(
        "{} {} {amps} {}; it allows {allowed}.",
        words::capital(&names::consumer(battery)),
        worst.what,
        names::state(assessment, worst.state),
    );
    let basis = match &worst.limit.at.origin {
        Origin::Part(part) => Basis::Part {
            part: part.clone(),
            source: None,
        },
        _ => Basis::Typed(worst.limit.at.clone()),
    };
    let limit = Amount::based(
        "I_max",
        worst.limit.value.amperes(),
        words::amps(worst.limit.value),
        &basis,
    );
    let subject = Subject::Item(battery.item.clone());
    let mut finding = Finding::new(DOC.id, Severity::Warning, subject, headline)
        .over(limits::current("I", worst.amps), limit)
        .also(Subject::State(worst.state));
    for other in excesses.iter().filter(|e| e.what != worst.what) {
        finding = finding.note(format!(
            "It also {} {} {}; it allows {}.",
            other.what,
            words::amps(other.amps),
            names::state(assessment, other.state),
            words::amps(other.limit.value),
        ));
    }
    Some(finding)
}

fn excesses(assessment: &Assessment, battery: &ConsumerResult, spec: &Battery) -> Vec<Excess> {
    let lasting = |index: usize| assessment.states.get(index).is_some_and(|s| s.lasting);
    let surge = |index: usize| {
        assessment
            .states
            .get(index)
            .is_some_and(|s| s.kind == StateKind::Surge)
    };
    let given = |index: usize| battery.states.get(index).map(|s| s.amps.amperes());
    let worst = |which: &dyn Fn(usize) -> bool, sign: f64| {
        (0..assessment.states.len())
            .filter(|index| which(*index))
            .filter_map(|index| given(index).map(|amps| (index, amps * sign)))
            .max_by(|a, b| a.1.total_cmp(&b.1).then(b.0.cmp(&a.0)))
    };
    let check = |what, limit: &Option<Given<Current>>, found: Option<(usize, f64)>| {
        let (state, amps) = found?;
        let limit = limit.clone()?;
        limits::above(amps, limit.value.amperes()).then_some(Excess {
            what,
            amps: Current::from_amperes(amps),
            limit,
            state,
        })
    };
    [
        check("must give", &spec.discharge_limit, worst(&lasting, 1.0)),
        check("must take", &spec.charge_limit, worst(&lasting, -1.0)),
        check("switches off at", &spec.trip_current, worst(&surge, 1.0)),
    ]
    .into_iter()
    .flatten()
    .collect()
}
