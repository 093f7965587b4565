//! The wiring plan of the project, kept until the project changes: planning
//! takes longer than a page may. Not here: planning (the rules).

use crate::study::Study;
use std::sync::{Arc, Mutex, PoisonError};
use wainwright_rules::plan::{self, Options, Plan};

/// A plan and the project as it would be with it.
#[derive(Debug)]
pub struct Planned {
    /// The plan.
    pub plan: Plan,
    /// The planned project and all that follows from it.
    pub study: Study,
}

/// The last plan, with the project it is for.
#[derive(Debug, Default)]
pub struct Plans(Mutex<Option<(Arc<Study>, Arc<Planned>)>>);

impl Plans {
    /// The plan for a project, made when nobody asked for it yet.
    pub fn of(&self, study: &Arc<Study>) -> Arc<Planned> {
        // Whoever asks meanwhile waits for the same plan.
        let mut kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some((of, planned)) = &*kept
            && Arc::ptr_eq(of, study)
        {
            return Arc::clone(planned);
        }
        let plan = plan::make(&study.text, &study.project, &Options::default());
        let planned = Arc::new(Planned {
            study: Study::of(plan.text.as_str()),
            plan,
        });
        *kept = Some((Arc::clone(study), Arc::clone(&planned)));
        planned
    }
}
