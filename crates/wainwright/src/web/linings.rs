//! The lining study of the project, kept until what it rests on changes: laying and cutting take longer than a page may.
//! Not here: the study (analysis).

use crate::study::Study;
use std::sync::{Arc, Mutex, PoisonError};
use wainwright_analysis::lining::{LiningInputs, inputs, study};
use wainwright_analysis::result::lining::LiningResult;

/// The last result, with what it rests on.
#[derive(Debug, Default)]
pub struct Linings(Mutex<Option<(LiningInputs, Arc<LiningResult>)>>);

impl Linings {
    /// The result for a project, worked out when nobody asked for it yet.
    pub fn of(&self, project: &Study) -> Arc<LiningResult> {
        let inputs = inputs(&project.project);
        // Whoever asks meanwhile waits for the same result.
        let mut kept = self.0.lock().unwrap_or_else(PoisonError::into_inner);
        if let Some((of, result)) = &*kept
            && *of == inputs
        {
            return Arc::clone(result);
        }
        let result = Arc::new(study(&inputs));
        *kept = Some((inputs, Arc::clone(&result)));
        result
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = include_str!("../../../../examples/dark-sky.toml");

    #[test]
    fn a_result_is_kept_while_what_it_rests_on_is_equal() {
        let linings = Linings::default();
        let first = linings.of(&Study::of(TEXT));
        let renamed = TEXT.replace("name = \"Dark-sky trailer\"", "name = \"Another\"");
        assert_ne!(renamed, TEXT);
        assert!(Arc::ptr_eq(
            &first,
            &linings.of(&Study::of(renamed.as_str()))
        ));
        let wider = TEXT.replace("stagger = \"12 in\"", "stagger = \"16 in\"");
        assert_ne!(wider, TEXT);
        assert!(!Arc::ptr_eq(
            &first,
            &linings.of(&Study::of(wider.as_str()))
        ));
    }
}
