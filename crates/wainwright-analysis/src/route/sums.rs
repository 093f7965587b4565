//! A route put together from its legs: lengths, surroundings, what it meets.

use super::passes::passes;
use super::slack::Allowances;
use super::space::Space;
use crate::known::{Assumption, Known};
use crate::result::{Bundle, Leg, Route, Run, Surrounded, TrunkRoute};
use wainwright_model::{FieldExt, Wire};
use wainwright_units::Length;

/// The route of a wire from its legs.
pub(super) fn route(
    fields: Option<&Wire>,
    legs: Vec<Leg>,
    bundle: Bundle,
    trunks: &[TrunkRoute],
    space: &Space,
    allowances: &mut Allowances,
) -> Route {
    let bare = legs.iter().fold(Length::ZERO, |sum, leg| sum + leg.length);
    let size = fields.and_then(|fields| fields.size.value()).copied();
    let (slack, cut) = allowances.slack(bare, size);
    Route {
        bare,
        slack,
        cut,
        bundle,
        surroundings: surroundings(&legs, trunks),
        worst: 0,
        crosses: space.crosses_between(legs.iter().flat_map(|leg| &leg.stretches)),
        passes: passes(&legs, trunks, space),
        legs,
    }
}

/// Each surrounding once, in the order first met. Ends at one place leave a
/// wire in the open.
fn surroundings(legs: &[Leg], trunks: &[TrunkRoute]) -> Vec<Surrounded> {
    let mut met: Vec<Surrounded> = Vec::new();
    for leg in legs {
        let one = surrounding(leg, trunks);
        match met.iter_mut().find(|known| same(known, &one)) {
            Some(known) => {
                known.length += one.length;
                known.loaded = known.loaded.max(one.loaded);
                if one.run.is_assumed() {
                    known.run = one.run;
                }
                let new = one
                    .trunks
                    .into_iter()
                    .filter(|id| !known.trunks.contains(id));
                let new: Vec<_> = new.collect();
                known.trunks.extend(new);
            }
            None => met.push(one),
        }
    }
    if met.is_empty() {
        met.push(off_trunks(1, Length::ZERO));
    }
    met
}

fn same(one: &Surrounded, other: &Surrounded) -> bool {
    let value = |known: &Surrounded| {
        let cover = known.foam_cover.as_ref().map(|cover| cover.value);
        (
            known.run.value,
            cover,
            known.air.as_ref().map(|air| air.value),
        )
    };
    value(one) == value(other)
}

fn surrounding(leg: &Leg, trunks: &[TrunkRoute]) -> Surrounded {
    let id = leg.trunk.as_ref();
    let trunk = id.and_then(|id| trunks.iter().find(|trunk| trunk.id == *id));
    let Some(trunk) = trunk else {
        return off_trunks(leg.loaded, leg.length);
    };
    Surrounded {
        run: bundled(trunk.run.clone(), leg.loaded),
        loaded: leg.loaded,
        foam_cover: trunk.foam_cover.clone(),
        air: trunk.air.clone(),
        length: leg.length,
        trunks: vec![trunk.id.clone()],
    }
}

/// Off the trunks a wire is in the open, until somebody says otherwise.
fn off_trunks(loaded: u32, length: Length) -> Surrounded {
    let run = Known::assumed(Run::Open, Assumption::UsualForKind);
    Surrounded {
        run: bundled(run, loaded),
        loaded,
        foam_cover: None,
        air: None,
        length,
        trunks: Vec::new(),
    }
}

/// Several in the open are a bundle.
fn bundled(run: Known<Run>, loaded: u32) -> Known<Run> {
    match run.value {
        Run::Open if loaded > 1 => Known::new(Run::Bundle, run.basis),
        _ => run,
    }
}
