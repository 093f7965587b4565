//! The trip study: from project and assessment to the odds that energy and water last, with what would help. Slower
//! than an assessment, so it is run on demand: [`inputs`] says quickly whether an earlier answer still holds.
//!
//! Not here: judgement and words for people.

mod bank;
mod climate;
mod helps;
mod lower;
mod run;
mod schedule;
mod sizes;
mod solar;
mod sources;
mod uses;
mod water;

pub use climate::{ClimateFound, climate_found};
pub use lower::{TripInputs, inputs};

use crate::result::trip::{MonthChance, NoOutlook, SizeChart, TripBrief, TripOutlook};
use run::Runs;
use wainwright_model::{FieldExt, Kind, Project};

/// Seed of the weather: the same for all, so that answers can be compared.
const SEED: u64 = 2027;

/// How many trips are simulated.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Effort {
    /// For a first look: odds within four points.
    Quick,
    /// Odds within one and a half points.
    Full,
}

impl Effort {
    const fn trips(self) -> usize {
        match self {
            Self::Quick => 600,
            Self::Full => 5_000,
        }
    }

    const fn trips_of_a_change(self) -> usize {
        match self {
            Self::Quick => 300,
            Self::Full => 1_000,
        }
    }

    const fn trips_of_a_month(self) -> usize {
        match self {
            Self::Quick => 200,
            Self::Full => 400,
        }
    }

    const fn trips_of_a_size(self) -> usize {
        match self {
            Self::Quick => 150,
            Self::Full => 400,
        }
    }
}

/// The trips of a project.
pub fn briefs(project: &Project) -> Vec<TripBrief> {
    let has = |kind| {
        project
            .items
            .iter()
            .any(|(_, item)| item.spec.kind() == kind)
    };
    let lacks: Vec<Kind> = [Kind::Battery]
        .into_iter()
        .filter(|kind| !has(*kind))
        .collect();
    let brief = |(id, trip): (&wainwright_model::Id, &wainwright_model::Trip)| TripBrief {
        trip: id.clone(),
        label: project.label_or_id("trip", id.as_str()).to_owned(),
        nights: trip.nights.value().copied(),
        lacks: lacks.clone(),
    };
    project.trips.iter().map(brief).collect()
}

/// What becomes of the trip.
///
/// # Errors
/// [`NoOutlook::Refused`] with the sentence of an engine that got figures that cannot be.
pub fn outlook(inputs: &TripInputs, effort: Effort) -> Result<TripOutlook, NoOutlook> {
    let base = Runs::of(inputs, inputs.month(), effort.trips(), SEED)?.whole()?;
    let helps = helps::helps(inputs, effort.trips_of_a_change())?;
    let months = (1..=12)
        .map(|month| month_chance(inputs, month, effort))
        .collect::<Result<_, _>>()?;
    Ok(base.into_outlook(inputs, helps, months))
}

fn month_chance(inputs: &TripInputs, month: u32, effort: Effort) -> Result<MonthChance, NoOutlook> {
    let found = Runs::of(inputs, month, effort.trips_of_a_month(), SEED)?.energy()?;
    Ok(MonthChance {
        month,
        energy: found.chance,
        sun: found.sun_of_a_day,
        used: found.used_of_a_day,
        air: inputs.air(month),
    })
}

/// How large battery and modules would have to be.
///
/// # Errors
/// As [`outlook`].
pub fn sizes(inputs: &TripInputs, effort: Effort) -> Result<SizeChart, NoOutlook> {
    sizes::sizes(inputs, effort.trips_of_a_size())
}
