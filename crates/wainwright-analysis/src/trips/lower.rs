//! Everything a trip rests on, lowered from the project with its stand-ins noted. Not here: each of its parts, and
//! the simulation (`run`).

use super::bank::{self, BankInputs};
use super::climate::{ClimateFound, climate_found};
use super::schedule::{self, TripHours};
use super::solar::{self, FieldInputs};
use super::sources::{self, SourceInputs};
use super::uses::{self, UseInputs};
use super::water::{self, WaterInputs};
use crate::circuit::Notes;
use crate::known::{Assumption, Known};
use crate::result::trip::NoOutlook;
use crate::result::{Assessment, AssumedValue};
use wainwright_model::{Day, FieldExt, Id, Project};
use wainwright_units::{Ratio, Temperature};

/// Odds that are accepted when nobody said (judgement): one trip in twenty.
const ACCEPTED: Ratio = Ratio::from_fraction(0.05);
/// Nights away when nobody said (judgement): a long weekend.
const NIGHTS: u32 = 3;

/// Everything the study of one trip rests on: equal inputs give equal answers.
#[derive(Debug, Clone, PartialEq)]
pub struct TripInputs {
    pub(super) trip: Id,
    pub(super) climate: ClimateFound,
    pub(super) begins: Day,
    pub(super) accepted: Known<Ratio>,
    pub(super) begins_with: Option<Ratio>,
    pub(super) hours: TripHours,
    pub(super) bank: BankInputs,
    pub(super) fields: Vec<FieldInputs>,
    pub(super) sources: SourceInputs,
    pub(super) uses: Vec<UseInputs>,
    pub(super) water: WaterInputs,
    pub(super) unused: Vec<Id>,
    pub(super) assumptions: Vec<AssumedValue>,
}

/// What the study of a trip rests on.
///
/// # Errors
/// [`NoOutlook::NoTrip`] for an unknown trip, [`NoOutlook::Missing`] for what nothing can stand in for: a battery,
/// the climate, the day.
pub fn inputs(
    project: &Project,
    assessment: &Assessment,
    trip: &str,
) -> Result<TripInputs, NoOutlook> {
    let (id, given) = project
        .trips
        .iter()
        .find(|(id, _)| id.as_str() == trip)
        .ok_or(NoOutlook::NoTrip)?;
    let mut notes = Notes::new(project);
    let path = |field: &'static str| vec!["trip".to_owned(), trip.to_owned(), field.to_owned()];
    let missing = |field, wanted| NoOutlook::Missing {
        path: path(field),
        wanted,
    };
    let begins = *given
        .begins
        .value()
        .ok_or_else(|| missing("begins", "the day it begins"))?;
    let to = match given.to.value() {
        Some(to) => to.clone(),
        None => {
            let mut all = project.climates.ids();
            let only = all
                .next()
                .ok_or_else(|| missing("to", "a climate it goes to"))?;
            notes.assume_text(
                &["trip", trip, "to"],
                only.to_string(),
                &super::run::usual(),
            );
            only.to_string()
        }
    };
    let climate = climate_found(project, &to)?;
    let nights = given.nights.value().copied().unwrap_or_else(|| {
        notes.assume_text(
            &["trip", trip, "nights"],
            NIGHTS.to_string(),
            &super::run::usual(),
        );
        NIGHTS
    });
    let people = given
        .people
        .value()
        .or(project.living.people.value())
        .copied()
        .unwrap_or_else(|| {
            notes.assume_text(&["trip", trip, "people"], "2".into(), &super::run::usual());
            2
        });
    let accepted = notes.given_or(
        &given.accepted,
        &["trip", trip, "accepted"],
        ACCEPTED,
        Assumption::UsualForKind,
    );
    let hours = schedule::hours(given, nights);
    let bank = bank::bank(project, assessment, &mut notes)?;
    let fields = solar::fields(project, assessment, given, &climate, &bank, &mut notes);
    let sources = sources::sources(project, assessment, &bank, &mut notes);
    let uses::Uses { uses, unused } = uses::uses(project, trip, people, bank.nominal, &mut notes);
    let water = water::water(project, trip, given, people, &mut notes);
    Ok(TripInputs {
        trip: id.clone(),
        climate,
        begins,
        accepted,
        begins_with: given.charge.value().copied(),
        hours,
        bank,
        fields,
        sources,
        uses,
        water,
        unused,
        assumptions: notes.assumed,
    })
}

impl TripInputs {
    /// Month of the middle of the trip, 1 is January.
    pub(super) fn month(&self) -> u32 {
        let half = self.hours.nights / 2;
        if self.begins.day() + half > 30 {
            self.begins.month() % 12 + 1
        } else {
            self.begins.month()
        }
    }

    /// Mean temperature of a month.
    pub(super) fn air(&self, month: u32) -> Temperature {
        self.climate.month(month).mean
    }
}
