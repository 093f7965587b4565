//! Keeps account of stand-in and missing values while a project is lowered,
//! and of where a given value came from.

use crate::known::{Assumption, Basis, Known};
use crate::result::{AssumedValue, Missing, Wanted};
use std::collections::BTreeMap;
use wainwright_model::{FieldExt, Given, Origin, Project};
use wainwright_units::{Quantity, System};

/// Stand-ins used and values missing.
#[derive(Default)]
pub(crate) struct Notes {
    pub(crate) assumed: Vec<AssumedValue>,
    pub(crate) missing: Vec<Missing>,
    /// Which of `assumed` stand for many elements.
    shared: Vec<usize>,
    shown_in: Option<System>,
    /// Source text of each part that has one.
    sources: BTreeMap<String, String>,
}

impl Notes {
    /// Empty notes for a project.
    pub(crate) fn new(project: &Project) -> Self {
        let used = project.items.iter();
        let used = used.filter_map(|(_, item)| item.part.value());
        let source = |id: &String| {
            let own = project.parts.get(id);
            let part = own.or_else(|| crate::catalogue().get(id))?;
            Some((id.clone(), part.source.value()?.clone()))
        };
        Self {
            shown_in: project.head.units.value().map(|u| (*u).into()),
            sources: used.filter_map(source).collect(),
            ..Self::default()
        }
    }

    /// Units for values shown as text.
    pub(crate) fn system(&self) -> System {
        self.shown_in.unwrap_or(System::Metric)
    }

    /// A given value with its basis.
    pub(crate) fn given<T: Clone>(&self, field: &Option<Given<T>>) -> Option<Known<T>> {
        let given = field.as_ref()?;
        Some(Known::new(given.value.clone(), self.basis(given)))
    }

    /// Where a given value came from.
    pub(crate) fn basis<T>(&self, given: &Given<T>) -> Basis {
        match &given.at.origin {
            Origin::Part(part) => Basis::Part {
                part: part.clone(),
                source: self.sources.get(part).cloned(),
            },
            Origin::File | Origin::Like(_) => Basis::Typed(given.at.clone()),
        }
    }

    /// A given value, or the stand-in, which is then noted.
    pub(crate) fn given_or<Q: Quantity>(
        &mut self,
        field: &Option<Given<Q>>,
        path: &[&str],
        stand_in: Q,
        why: Assumption,
    ) -> Known<Q> {
        match self.given(field) {
            Some(known) => known,
            None => self.assume(path, stand_in, why),
        }
    }

    /// A given value, or one that comes with its own basis, which is then noted.
    pub(crate) fn given_or_known<Q: Quantity>(
        &mut self,
        field: &Option<Given<Q>>,
        path: &[&str],
        stand_in: Known<Q>,
    ) -> Known<Q> {
        self.given(field).unwrap_or_else(|| {
            let shown = stand_in.value.show(self.system());
            self.assume_text(path, shown, &stand_in.basis);
            stand_in
        })
    }

    /// The word of a choice, or the stand-in, which is then noted.
    pub(crate) fn word_or<T>(
        &mut self,
        field: &Option<Given<T>>,
        path: &[&str],
        word: fn(&T) -> &'static str,
        stand_in: &'static str,
    ) -> &'static str {
        if let Some(given) = field.value() {
            return word(given);
        }
        let basis = Basis::Assumed(Assumption::UsualForKind);
        self.assume_text(path, stand_in.to_owned(), &basis);
        stand_in
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
        self.push(owned(path), value, basis);
    }

    fn push(&mut self, path: Vec<String>, value: String, basis: &Basis) {
        self.assumed.push(AssumedValue {
            path,
            value,
            basis: basis.clone(),
            also: Vec::new(),
        });
    }

    /// Records a stand-in that many elements share: one entry for all of them.
    pub(crate) fn assume_alike(&mut self, path: &[&str], value: String, basis: &Basis) {
        let ends = (path.first().copied(), path.last().copied());
        let same = |index: &&usize| {
            let known = &self.assumed[**index];
            let (first, last) = (known.path.first(), known.path.last());
            let known_ends = (first.map(String::as_str), last.map(String::as_str));
            known.value == value && known_ends == ends && known.basis == *basis
        };
        let path = owned(path);
        match self.shared.iter().find(same) {
            Some(index) => self.assumed[*index].also.push(path),
            None => {
                self.shared.push(self.assumed.len());
                self.push(path, value, basis);
            }
        }
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

    /// Brings the notes into the order of the file: what is about the whole
    /// project, then items, then wires.
    pub(crate) fn in_file_order(&mut self, project: &Project) {
        let place = |path: &[String]| {
            let id = path.get(1).map_or("", String::as_str);
            match path.first().map(String::as_str) {
                Some("item") => (1, project.items.position(id)),
                Some("wire") => (2, project.wires.position(id)),
                _ => (0, None),
            }
        };
        self.shared.clear();
        self.assumed.sort_by_key(|known| place(&known.path));
        self.missing.sort_by_key(|missing| place(&missing.path));
    }
}

fn owned(path: &[&str]) -> Vec<String> {
    path.iter().map(|part| (*part).to_owned()).collect()
}
