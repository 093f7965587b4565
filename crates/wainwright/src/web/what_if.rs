//! Situations tried out on the page: a copy of the project with one more
//! state is assessed; the file is not touched. Not here: which situations.

use super::view::Query;
use crate::study::Study;
use std::collections::BTreeSet;
use std::sync::{Arc, Mutex, PoisonError};
use wainwright_analysis::result::Assessment;
use wainwright_model::{BatteryState, Given, Id, Kind, Place, Project, State};

/// Id of the tried-out state, in the page's address and in the copy.
pub const WHAT_IF: &str = "what-if";

/// Most situations kept; each page asks for its own a few times in a row.
const MOST_KEPT: usize = 16;

/// A situation to try out.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Situation {
    /// What is on; everything else is off.
    pub on: BTreeSet<String>,
    /// How full the battery is.
    pub battery: BatteryState,
}

impl Situation {
    /// The situation a page asks for by its address.
    pub fn of(query: &Query) -> Self {
        let battery = query.get("battery").and_then(BatteryState::parse);
        Self {
            on: query.all("on").map(str::to_owned).collect(),
            battery: battery.unwrap_or(BatteryState::Resting),
        }
    }

    fn state(&self) -> State {
        State {
            label: given("what you switched on".into()),
            battery: given(self.battery),
            on: given(self.on.iter().cloned().collect()),
            ..State::default()
        }
    }
}

/// Gear that can be switched on and off in a situation, with its name.
pub fn switchable(project: &Project) -> Vec<(&Id, &str)> {
    let uses_power = |kind| matches!(kind, Kind::Load | Kind::Outlet | Kind::Inverter);
    let gear = project
        .items
        .iter()
        .filter(|(_, item)| uses_power(item.spec.kind()));
    gear.map(|(id, item)| {
        (
            id,
            item.label
                .as_ref()
                .map_or(id.as_str(), |label| label.value.as_str()),
        )
    })
    .collect()
}

/// What was tried out and what came of it.
type Tried = (Arc<Study>, Situation, Arc<Assessment>);

/// Situations tried out lately.
#[derive(Debug, Default)]
pub struct WhatIfs(Mutex<Vec<Tried>>);

impl WhatIfs {
    /// The assessment of the project with the situation as one more state.
    pub fn assess(&self, study: &Arc<Study>, situation: &Situation) -> Arc<Assessment> {
        let same = |(of, tried, _): &&Tried| Arc::ptr_eq(of, study) && tried == situation;
        if let Some((_, _, kept)) = self.kept().iter().find(same) {
            return Arc::clone(kept);
        }
        // Worked out without the lock, so that other pages do not wait.
        let project = with_state(&study.project, situation);
        let assessment = Arc::new(wainwright_analysis::assess(&project));
        let mut kept = self.kept();
        if kept.len() >= MOST_KEPT {
            kept.remove(0);
        }
        kept.push((
            Arc::clone(study),
            situation.clone(),
            Arc::clone(&assessment),
        ));
        assessment
    }

    fn kept(&self) -> std::sync::MutexGuard<'_, Vec<Tried>> {
        self.0.lock().unwrap_or_else(PoisonError::into_inner)
    }
}

/// A copy of the project with the situation as its last state.
pub fn with_state(project: &Project, situation: &Situation) -> Project {
    let mut copy = project.clone();
    if let Some(id) = Id::new(WHAT_IF) {
        // A state of that name in the file is shown under its own name.
        let _ = copy.states.insert(id, situation.state());
    }
    copy
}

fn given<T>(value: T) -> Option<Given<T>> {
    Some(Given {
        value,
        text: String::new(),
        at: Place::default(),
    })
}
