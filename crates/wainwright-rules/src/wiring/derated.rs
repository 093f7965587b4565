//! Shared by `derated-by-bundle` and `derated-by-hot-place`: would this
//! conductor bear its load without one of the factors of the table? Not here:
//! the two rules.

use super::overloaded_chain::overloaded_jumpers;
use crate::finding::{Finding, Subject};
use crate::severity::Severity;
use crate::view::{Circuits, Graph, limits, names, words};
use std::collections::BTreeMap;
use wainwright_analysis::Ask;
use wainwright_analysis::result::{Assessment, TableAmpacity, WireResult};
use wainwright_model::Project;
use wainwright_units::Current;

/// A conductor that would bear its load in a better place.
#[derive(Clone, Copy)]
pub(crate) struct Case<'a> {
    /// The conductor.
    pub(crate) wire: &'a WireResult,
    /// Its index.
    index: usize,
    state: usize,
    /// The largest current it carries for long.
    pub(crate) amps: Current,
    /// What the table says of it.
    pub(crate) table: &'a TableAmpacity,
}

/// The conductors over their table value for which the place is to blame, by
/// the circuit they belong to; jumpers of an overloaded chain are left out.
pub(crate) fn by_circuit<'a>(
    assessment: &'a Assessment,
    project: &Project,
    blamed: impl Fn(&Case<'_>) -> bool,
) -> BTreeMap<usize, Vec<Case<'a>>> {
    let graph = Graph::new(assessment, project);
    let circuits = Circuits::new(assessment, &graph);
    let chained = overloaded_jumpers(assessment, &graph);
    let mut found: BTreeMap<usize, Vec<Case<'_>>> = BTreeMap::new();
    for index in (0..assessment.wires.len()).filter(|index| !chained.contains(index)) {
        if let Some(case) = case(assessment, index).filter(&blamed) {
            let name = circuits.name_of(index);
            found.entry(name).or_default().push(case);
        }
    }
    found
}

/// This conductor, when it is over its table value.
pub(crate) fn case(assessment: &Assessment, index: usize) -> Option<Case<'_>> {
    let wire = assessment.wires.get(index)?;
    let (state, amps) = over_table(assessment, wire)?;
    let table = wire.ampacity.table.as_ref()?;
    Some(Case {
        wire,
        index,
        state,
        amps,
        table,
    })
}

/// The finding about one circuit, worded for the conductor that is most over
/// its value.
pub(crate) fn about(
    assessment: &Assessment,
    rule: &'static str,
    name: usize,
    cases: &[Case<'_>],
    headline: impl Fn(&Case<'_>) -> String,
) -> Option<Finding> {
    let over = |case: &Case<'_>| case.amps.amperes() / case.table.current.amperes().max(1e-9);
    let worst = cases
        .iter()
        .max_by(|a, b| over(a).total_cmp(&over(b)).then(b.index.cmp(&a.index)))?;
    let wire = worst.wire;
    let subject = Subject::Wire(assessment.wires.get(name)?.id.clone());
    let mut finding = Finding::new(rule, Severity::Caution, subject, headline(worst))
        .also(Subject::Wire(wire.id.clone()))
        .over(limits::current("I", worst.amps), limits::ampacity(wire))
        .note(format!(
            "This is {}.",
            names::state(assessment, worst.state)
        ))
        .asking(Ask::WireAmpacity {
            wire: wire.id.to_string(),
        });
    let others: Vec<&WireResult> = cases
        .iter()
        .filter(|case| case.index != worst.index)
        .map(|case| case.wire)
        .collect();
    if !others.is_empty() {
        let others = words::capital(&names::together(&others, 6));
        finding = finding.note(format!("{others} of the same circuit: likewise."));
    }
    for case in cases {
        finding = finding
            .also(Subject::Wire(case.wire.id.clone()))
            .assuming(assessment, &["wire", case.wire.id.as_str()]);
    }
    Some(finding)
}

/// Ampacity by the table without its factor for bundling [A].
pub(crate) fn alone(table: &TableAmpacity) -> f64 {
    table.base.amperes() * table.hot.fraction() * table.foam.fraction()
}

/// Ampacity by the table in open air at the table's own temperature, the
/// bundle left as it is [A].
pub(crate) fn cool(table: &TableAmpacity) -> f64 {
    table.base.amperes() * table.bundle.fraction()
}

/// Whether the load would fit if only the place were better.
pub(crate) fn fits_elsewhere(wire: &WireResult, amps: Current) -> bool {
    let Some(table) = &wire.ampacity.table else {
        return false;
    };
    let fits = |allowed: f64| !limits::above(amps.amperes(), allowed);
    fits(alone(table)) || fits(cool(table))
}

/// The current and its state when the wire is over its table value and not
/// yet over the limit of its insulation; the hotter case belongs to
/// `overheated-conductor`.
fn over_table(assessment: &Assessment, wire: &WireResult) -> Option<(usize, Current)> {
    let table = wire.ampacity.table.as_ref()?;
    let (state, amps) = limits::most_amps(assessment, wire)?;
    let (_, worst) = limits::worst(wire)?;
    let cool = !limits::above(worst.temperature.celsius(), wire.limit.celsius());
    (cool && limits::above(amps.amperes(), table.current.amperes())).then_some((state, amps))
}
