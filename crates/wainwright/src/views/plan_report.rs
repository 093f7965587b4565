//! A wiring plan as plain data: what it adds, why, at what cost, what stands
//! in the way, what is left to find fault with. Not here: making it (the
//! rules), and its lists (see `lists`).

use super::finding::severity;
use super::{Summary, summary};
use crate::study::Study;
use serde::Serialize;
use wainwright_model::{Edit, FieldExt};
use wainwright_rules::Finding;
use wainwright_rules::plan::{Obstacle, ObstacleKind, Plan};

/// Version of [`PlanView`].
pub const PLAN_VERSION: u32 = 1;

/// Everything there is to say about one plan.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PlanView {
    /// [`PLAN_VERSION`].
    pub plan: u32,
    /// Version of the program.
    pub program: &'static str,
    /// The file, when there is one.
    pub file: Option<String>,
    /// Whether the file was changed.
    pub applied: bool,
    /// There is nothing to add.
    pub empty: bool,
    /// Items that are added.
    pub items: Vec<AddedItem>,
    /// Wires that are added.
    pub wires: Vec<AddedWire>,
    /// Values of elements already there that are changed, as paths.
    pub changes: Vec<String>,
    /// What was decided, and why.
    pub decisions: Vec<DecisionView>,
    /// What could not be done, or stands in the way.
    pub obstacles: Vec<ObstacleView>,
    /// Wires whose length was assumed.
    pub assumed_lengths: Vec<String>,
    /// Cost of what is added, in cost units.
    pub cost_units: f64,
    /// No wiring of this layout that meets the limits costs less, in cost units.
    pub bound_cost_units: f64,
    /// Share of the cost that better sizes might save at most.
    pub gap_share: f64,
    /// Number of findings of the planned project, and the worst.
    pub summary: Summary,
    /// Findings of the planned project, worst first.
    pub findings: Vec<LeftView>,
}

/// An item that is added.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct AddedItem {
    /// Its id.
    pub id: String,
    /// Its kind; none when only its part says it and that is unknown.
    pub kind: Option<&'static str>,
    /// What it is called.
    pub label: Option<String>,
    /// Its part.
    pub part: Option<String>,
}

/// A wire that is added.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct AddedWire {
    /// Its id.
    pub id: String,
    /// The terminal it starts at.
    pub from: String,
    /// The terminal it ends at.
    pub to: String,
    /// Nominal size.
    pub size: Option<String>,
    /// Its length [m].
    pub metres: Option<f64>,
    /// The length is a stand-in.
    pub length_assumed: bool,
}

/// One decision.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct DecisionView {
    /// What is added.
    pub what: String,
    /// Why.
    pub why: String,
    /// The rule or table it follows.
    pub source: &'static str,
    /// Items it is about.
    pub items: Vec<String>,
}

/// One obstacle.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct ObstacleView {
    /// `missing`, `gear`, `nothing-fits`, `unused` or `unsolved`.
    pub kind: &'static str,
    /// The sentence for people.
    pub text: String,
    /// Items it is about.
    pub items: Vec<String>,
}

/// A finding of the planned project.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct LeftView {
    /// Names the finding.
    pub key: String,
    /// `danger`, `warning`, `caution` or `notice`.
    pub severity: &'static str,
    /// Complete on its own.
    pub headline: String,
    /// It is bad, and the plan brings it or leaves it.
    pub unsolved: bool,
}

impl PlanView {
    /// The plan of `before`; `after` is the study of the planned text.
    pub fn of(plan: &Plan, before: &Study, after: &Study, file: Option<&str>) -> Self {
        Self {
            plan: PLAN_VERSION,
            program: env!("CARGO_PKG_VERSION"),
            file: file.map(str::to_owned),
            applied: false,
            empty: plan.is_empty(),
            items: items(before, after),
            wires: wires(before, after),
            changes: changes(plan, before),
            decisions: decisions(plan),
            obstacles: plan.obstacles.iter().map(obstacle).collect(),
            assumed_lengths: plan.assumed_lengths.clone(),
            cost_units: plan.cost,
            bound_cost_units: plan.lower_bound,
            gap_share: plan.gap(),
            summary: summary(after),
            findings: plan.findings.iter().map(|f| left(f, plan)).collect(),
        }
    }
}

fn items(before: &Study, after: &Study) -> Vec<AddedItem> {
    let all = after.project.items.iter();
    let new = all.filter(|(id, _)| !before.project.items.contains(id.as_str()));
    new.map(|(id, item)| AddedItem {
        id: id.to_string(),
        kind: wainwright_model::KINDS
            .iter()
            .find(|known| Some(&known.kind) == item.kind.value())
            .map(|known| known.name),
        label: item.label.value().cloned(),
        part: item.part.value().cloned(),
    })
    .collect()
}

fn wires(before: &Study, after: &Study) -> Vec<AddedWire> {
    let all = after.project.wires.iter();
    let new = all.filter(|(id, _)| !before.project.wires.contains(id.as_str()));
    new.map(|(id, wire)| {
        let found = after.assessment.wire(id.as_str());
        AddedWire {
            id: id.to_string(),
            from: wire
                .from
                .value()
                .map(ToString::to_string)
                .unwrap_or_default(),
            to: wire.to.value().map(ToString::to_string).unwrap_or_default(),
            size: found.map(|wire| wire.size.value.to_string()),
            metres: found.map(|wire| wire.length.value.metres()),
            length_assumed: found.is_some_and(|wire| wire.length.is_assumed()),
        }
    })
    .collect()
}

/// Values set in tables that were there before.
fn changes(plan: &Plan, before: &Study) -> Vec<String> {
    let old = |path: &[String]| match path {
        [element, id, ..] => before.project.contains(element, id) || !is_table_of_many(element),
        _ => false,
    };
    let edits = plan.edits.iter();
    edits
        .filter_map(|edit| match edit {
            Edit::Set { path, .. } | Edit::Unset { path } => old(path).then(|| path.join(".")),
            Edit::Remove { table } | Edit::Rename { table, .. } => Some(table.join(".")),
            Edit::Add { .. } => None,
        })
        .collect()
}

/// Whether an element has an id of its own, as items and wires do.
fn is_table_of_many(element: &str) -> bool {
    !["project", "trailer", "limits", "vehicle", "towing"].contains(&element)
}

fn decisions(plan: &Plan) -> Vec<DecisionView> {
    let all = plan.decisions.iter();
    all.map(|decision| DecisionView {
        what: decision.what.clone(),
        why: decision.why.clone(),
        source: decision.source,
        items: decision.items.clone(),
    })
    .collect()
}

fn obstacle(obstacle: &Obstacle) -> ObstacleView {
    ObstacleView {
        kind: match obstacle.kind {
            ObstacleKind::Missing => "missing",
            ObstacleKind::Gear => "gear",
            ObstacleKind::NothingFits => "nothing-fits",
            ObstacleKind::Unused => "unused",
            ObstacleKind::Unsolved => "unsolved",
        },
        text: obstacle.text.clone(),
        items: obstacle.items.clone(),
    }
}

fn left(finding: &Finding, plan: &Plan) -> LeftView {
    let key = finding.key();
    LeftView {
        unsolved: plan.unsolved.iter().any(|one| one.key() == key),
        key,
        severity: severity(finding.severity),
        headline: finding.headline.clone(),
    }
}
