//! What the parts of the settings study share: project, wiring, notes, the coldest morning. Not here: what is computed.

use super::facts::Facts;
use crate::circuit::Notes;
use crate::known::{Assumption, Basis, Known};
use wainwright_model::{Climate, FieldExt, Project};
use wainwright_reference::climate;
use wainwright_units::{Quantity, System, Temperature};

/// Coldest morning when nothing is known of the place (judgement): cold enough for most of a continent.
const COLDEST: Temperature = Temperature::from_celsius(-20.0);
/// How far the coldest morning of a year lies below the mean of the coldest month's daily lows (judgement) [K].
const BELOW_MEAN: f64 = 10.0;

/// Project, wiring, notes.
pub(super) struct Desk<'a> {
    pub(super) project: &'a Project,
    pub(super) facts: Facts,
    pub(super) notes: Notes,
    /// Paths of values that would make a card richer.
    pub(super) lacking: Vec<Vec<String>>,
    coldest: Option<Known<Temperature>>,
}

impl<'a> Desk<'a> {
    pub(super) fn new(project: &'a Project, facts: Facts) -> Self {
        Self {
            project,
            facts,
            notes: Notes::new(project),
            lacking: Vec::new(),
            coldest: None,
        }
    }

    /// Units for what is written into the file.
    pub(super) fn system(&self) -> System {
        self.notes.system()
    }

    /// Coldest morning: the night it is slept in, else that of the climates, else a stand-in. Noted once.
    pub(super) fn coldest(&mut self) -> Known<Temperature> {
        if let Some(found) = &self.coldest {
            return found.clone();
        }
        let project = self.project;
        let told = self.notes.given(&project.living.winter_air);
        let found = told.or_else(|| {
            let climates = project.climates.iter();
            let lows = climates.filter_map(|(_, climate)| lowest(climate));
            lows.reduce(|a, b| {
                if b.value.celsius() < a.value.celsius() {
                    b
                } else {
                    a
                }
            })
        });
        let found = found.unwrap_or_else(|| Known::assumed(COLDEST, Assumption::Worst));
        if !matches!(found.basis, Basis::Typed(_) | Basis::Part { .. }) {
            let shown = found.value.show(self.system());
            self.notes
                .assume_text(&["living", "winter_air"], shown, &found.basis);
        }
        self.coldest.insert(found).clone()
    }

    /// Whether the person gave a value, in an item or in a part of their own.
    pub(super) fn is_told(&self, basis: &Basis) -> bool {
        match basis {
            Basis::Typed(_) => true,
            Basis::Part { part, .. } => self.project.parts.contains(part),
            _ => false,
        }
    }
}

/// Coldest morning of a climate: by its typed months, else the coldest hour of the listed place.
fn lowest(climate: &Climate) -> Option<Known<Temperature>> {
    let least = |all: &mut dyn Iterator<Item = f64>| {
        let low = all.fold(f64::INFINITY, f64::min);
        low.is_finite().then_some(low)
    };
    if let Some(months) = climate.coldest.value() {
        let low = least(&mut months.iter().map(|month| month.celsius()))?;
        return Some(Known::computed(Temperature::from_celsius(low - BELOW_MEAN)));
    }
    let months = climate::months(climate.listed.value()?);
    let low = least(&mut months.iter().map(|month| month.value.lowest.celsius()))?;
    let source = months.first()?.source;
    Some(Known::new(
        Temperature::from_celsius(low),
        Basis::Table(source),
    ))
}
