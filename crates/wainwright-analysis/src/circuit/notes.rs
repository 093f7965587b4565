//! Keeps account of stand-in and missing values while a project is lowered.

use crate::known::{Assumption, Basis, Known};
use crate::result::{AssumedValue, Missing, Wanted};
use wainwright_model::{Given, Origin};
use wainwright_units::{Quantity, System};

/// Stand-ins used and values missing, in the order met.
#[derive(Default)]
pub(crate) struct Notes {
    pub(crate) assumed: Vec<AssumedValue>,
    pub(crate) missing: Vec<Missing>,
    pub(crate) shown_in: Option<System>,
}

impl Notes {
    /// Units for values shown as text.
    pub(crate) fn system(&self) -> System {
        self.shown_in.unwrap_or(System::Metric)
    }

    /// Records that a value is missing and its owner was left out.
    pub(crate) fn lack(&mut self, path: &[&str], wanted: Wanted) {
        self.missing.push(Missing {
            path: owned(path),
            wanted,
        });
    }

    /// Records a stand-in shown as text.
    pub(crate) fn assume_text(&mut self, path: &[&str], value: String, basis: &Basis) {
        self.assumed.push(AssumedValue {
            path: owned(path),
            value,
            basis: basis.clone(),
        });
    }

    /// Records a stand-in quantity and hands it back as known.
    pub(crate) fn assume<Q: Quantity>(
        &mut self,
        path: &[&str],
        value: Q,
        why: Assumption,
    ) -> Known<Q> {
        let known = Known::assumed(value, why);
        let shown = value.show(self.system());
        self.assume_text(path, shown, &known.basis);
        known
    }
}

/// A given value with its basis; the part's own source is filled in by the caller's item.
pub(crate) fn given<T: Clone>(
    field: &Option<Given<T>>,
    part_source: Option<&str>,
) -> Option<Known<T>> {
    let given = field.as_ref()?;
    let basis = match &given.at.origin {
        Origin::Part(part) => Basis::Part {
            part: part.clone(),
            source: part_source.map(str::to_owned),
        },
        _ => Basis::Typed(given.at.clone()),
    };
    Some(Known::new(given.value.clone(), basis))
}

/// A given value, or the stand-in, which is then noted.
pub(crate) fn given_or<Q: Quantity>(
    field: &Option<Given<Q>>,
    notes: &mut Notes,
    path: &[&str],
    stand_in: Q,
    why: Assumption,
) -> Known<Q> {
    match given(field, None) {
        Some(known) => known,
        None => notes.assume(path, stand_in, why),
    }
}

fn owned(path: &[&str]) -> Vec<String> {
    path.iter().map(|part| (*part).to_owned()).collect()
}
