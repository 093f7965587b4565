//! What to call a state of the load on the road, and figures of weights in a
//! headline. Not here: the rules of towing.

use super::{names, words};
use crate::finding::Amount;
use wainwright_analysis::known::Known;
use wainwright_analysis::result::road::{Filling, Level, RoadResult, SharePlace};
use wainwright_model::{Id, Project};
use wainwright_units::{Mass, Quantity, Ratio, System};

/// `with the fresh tank empty and the supplies used up`; nothing where
/// nothing changes on the road.
pub(crate) fn state(project: &Project, found: &RoadResult, index: usize) -> String {
    let Some(state) = found.states.get(index) else {
        return String::new();
    };
    let parts: Vec<String> = found
        .fills
        .iter()
        .zip(&state.levels)
        .map(|(fill, level)| match &fill.what {
            Filling::Tank(id, _) => {
                let full = matches!(level, Level::Full | Level::Start);
                let name = names::item(project, id);
                format!("{name} {}", if full { "full" } else { "empty" })
            }
            Filling::Cargo(_) => {
                let whole = matches!(level, Level::Full | Level::Start);
                format!("the supplies {}", if whole { "aboard" } else { "used up" })
            }
        })
        .collect();
    if parts.is_empty() {
        return String::new();
    }
    format!(" with {}", words::list(&parts, 6))
}

/// A mass in the units of the project.
pub(crate) fn mass(mass: Mass, system: System) -> String {
    mass.show(system)
}

/// A mass as an amount.
pub(crate) fn weight(symbol: &'static str, mass: Mass, system: System) -> Amount {
    Amount::computed(symbol, mass.kilograms(), mass.show(system))
}

/// A mass that something is held against.
pub(crate) fn allowed(symbol: &'static str, limit: &Known<Mass>, system: System) -> Amount {
    let text = limit.value.show(system);
    Amount::based(symbol, limit.value.kilograms(), text, &limit.basis)
}

/// A share as an amount.
pub(crate) fn share(symbol: &'static str, share: Ratio) -> Amount {
    Amount::computed(symbol, share.fraction(), words::percent(share))
}

/// A share that something is held against.
pub(crate) fn share_limit(symbol: &'static str, limit: &Known<Ratio>) -> Amount {
    let text = words::percent(limit.value);
    Amount::based(symbol, limit.value.fraction(), text, &limit.basis)
}

/// Items by name, the first few.
pub(crate) fn items(project: &Project, ids: &[&Id]) -> String {
    let all: Vec<String> = ids.iter().map(|id| names::item(project, id)).collect();
    words::list(&all, 4)
}

/// Whether a share is below its band.
pub(crate) const fn is_low(place: SharePlace) -> bool {
    matches!(place, SharePlace::FarTooLow | SharePlace::TooLow)
}
