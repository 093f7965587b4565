//! Keeps account of stand-ins and of what is missing while the road study lowers a project. Not here: which value
//! stands in.

use crate::circuit::Notes;
use crate::known::{Assumption, Basis, Known};
use crate::result::AssumedValue;
use crate::result::road::{RoadMissing, RoadWanted};
use wainwright_model::{Field, Given, Project};
use wainwright_reference::{Source, Sourced};
use wainwright_units::{Quantity, System};

/// Stand-ins used and values missing.
pub(crate) struct RoadNotes {
    notes: Notes,
    missing: Vec<RoadMissing>,
}

impl RoadNotes {
    pub(crate) fn new(project: &Project) -> Self {
        Self {
            notes: Notes::new(project),
            missing: Vec::new(),
        }
    }

    /// A given value with its basis.
    pub(crate) fn given<T: Clone>(&self, field: &Field<T>) -> Option<Known<T>> {
        self.notes.given(field)
    }

    /// Where a given value came from.
    pub(crate) fn basis<T>(&self, given: &Given<T>) -> Basis {
        self.notes.basis(given)
    }

    /// A given quantity, or the row that stands in, which is then noted.
    pub(crate) fn given_or_row<Q: Quantity>(
        &mut self,
        field: &Field<Q>,
        path: &[&str],
        row: Option<Sourced<Q>>,
    ) -> Option<Known<Q>> {
        if let Some(known) = self.notes.given(field) {
            return Some(known);
        }
        let row = row?;
        let shown = row.value.show(self.system());
        self.assume(path, shown, row.source);
        Some(usual(row.value))
    }

    /// The same for what is no quantity.
    pub(crate) fn given_or_word<T: Clone>(
        &mut self,
        field: &Field<T>,
        path: &[&str],
        stand_in: Option<Sourced<T>>,
        show: impl Fn(&T) -> String,
    ) -> Option<Known<T>> {
        if let Some(known) = self.notes.given(field) {
            return Some(known);
        }
        let row = stand_in?;
        self.assume(path, show(&row.value), row.source);
        Some(usual(row.value))
    }

    /// Notes a stand-in that rests on a row.
    pub(crate) fn assume(&mut self, path: &[&str], shown: String, source: &'static Source) {
        self.notes.assume_text(path, shown, &Basis::Table(source));
    }

    /// Notes a stand-in without a row.
    pub(crate) fn assume_because(&mut self, path: &[&str], shown: String, why: Assumption) {
        self.notes.assume_text(path, shown, &Basis::Assumed(why));
    }

    /// Notes that a value is missing.
    pub(crate) fn lack(&mut self, path: &[&str], wanted: RoadWanted) {
        let path: Vec<String> = path.iter().map(|part| (*part).to_owned()).collect();
        self.missing.push(RoadMissing { path, wanted });
    }

    /// Units for values shown as text.
    pub(crate) fn system(&self) -> System {
        self.notes.system()
    }

    /// Everything noted.
    pub(crate) fn into_parts(self) -> (Vec<AssumedValue>, Vec<RoadMissing>) {
        (self.notes.assumed, self.missing)
    }
}

/// A usual value.
pub(crate) fn usual<T>(value: T) -> Known<T> {
    Known::assumed(value, Assumption::UsualForKind)
}
