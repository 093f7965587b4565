//! What a wiring plan adds, counted, and what its obstacles are called. Not
//! here: planning (the rules), a plan as plain data (see `plan_report`).

use serde::Serialize;
use wainwright_model::{Edit, Value};
use wainwright_rules::plan::{ObstacleKind, Plan};

/// What a plan adds.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize)]
pub struct Added {
    /// Kinds of items with their number, in the order they are first added.
    pub items: Vec<(String, usize)>,
    /// Number of wires.
    pub wires: usize,
    /// Number of values it fills in where something is there already.
    pub changed: usize,
}

/// Counts what a plan adds.
pub fn added(plan: &Plan) -> Added {
    let mut added = Added::default();
    for edit in &plan.edits {
        match edit {
            Edit::Add { table, fields, .. } => match table.first().map(String::as_str) {
                Some("wire") => added.wires += 1,
                Some("item") => added.item(fields),
                _ => {}
            },
            _ => added.changed += 1,
        }
    }
    added
}

impl Added {
    fn item(&mut self, fields: &[(String, Value)]) {
        let kind = fields
            .iter()
            .find(|(name, _)| name == "kind" || name == "part");
        let kind = match kind {
            Some((_, Value::Text(kind))) => kind.as_str(),
            _ => "item",
        };
        match self.items.iter_mut().find(|(known, _)| known == kind) {
            Some((_, number)) => *number += 1,
            None => self.items.push((kind.to_owned(), 1)),
        }
    }
}

/// What sort of obstacle, as a heading.
pub fn obstacle_words(kind: ObstacleKind) -> &'static str {
    match kind {
        ObstacleKind::Missing => "For you to decide or type",
        ObstacleKind::Gear => "Gear that does not go together, whatever the wiring is",
        ObstacleKind::NothingFits => "Nothing that is sold fits",
        ObstacleKind::Unused => "In the file, but not used",
        ObstacleKind::Unsolved => "Still wrong after planning",
    }
}
